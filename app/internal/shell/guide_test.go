package shell_test

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/shell"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// Every page of help is in the list of each language, has words, the drawings that the English page has, and its numbers.
func TestEveryPageOfHelp(t *testing.T) {
	english, err := shell.Words(assets.Help())
	if err != nil {
		t.Fatal(err)
	}
	for _, language := range say.Languages() {
		t.Run(language, func(t *testing.T) {
			help := shell.HelpIn(assets.Help(), language)
			words, err := shell.Words(help)
			if err != nil {
				t.Fatal(err)
			}
			files, err := fs.Glob(help, "*.md")
			if err != nil || len(files) != len(words)+1 {
				t.Errorf("%d pages are listed, and there are %q, %v", len(words), files, err)
			}
			pagesOfHelp(t, help, words)
			for i, w := range words {
				if w.Key != english[i].Key {
					t.Fatalf("page %d is %s, in English %s", i+1, w.Key, english[i].Key)
				}
				if got, want := keptOf(w), keptOf(english[i]); !slices.Equal(got, want) {
					t.Errorf("%s has %q, in English %q", w.Key, got, want)
				}
				if language != "en" && w.Text == english[i].Text {
					t.Errorf("%s is in English", w.Key)
				}
			}
		})
	}
}

// keptOf is what a page has in every language: its numbers, whatever their decimal mark, and its drawings.
func keptOf(w shell.Word) []string {
	found := regexp.MustCompile(`[.,]?\d+(?:[.,]\d+)*|\([\w-]+\.(?:md|png)\)`).FindAllString(w.Text, -1)
	for i := range found {
		if found[i][0] != '(' {
			found[i] = strings.ReplaceAll(found[i], ",", ".")
		}
	}
	slices.Sort(found)
	return found
}

func pagesOfHelp(t *testing.T, help fs.FS, words []shell.Word) {
	t.Helper()
	for _, w := range words {
		if w.Title == "" || len(w.Text) < 60 {
			t.Errorf("%s says nothing: %+v", w.Key, w)
		}
		for _, p := range w.Pieces() {
			if p.Drawing == "" && strings.Contains(p.Text, "![") {
				t.Errorf("%s has a drawing that is not found: %q", w.Key, p.Text)
			}
			if p.Drawing != "" {
				if _, err := fs.Stat(help, p.Drawing); err != nil {
					t.Error(err)
				}
			}
		}
	}
}

// Words and deeds are found by any of their words, those that are called so before those that only speak of it.
func TestGuideFinds(t *testing.T) {
	words := []shell.Word{{Key: "base", Title: "Base height", Text: "with no shim"}, {Key: "shims", Title: "Shim stack", Text: "under the spring"}}
	g := shell.NewGuide(words, []shell.Deed{{Name: "Save a copy…", Menu: "File"}, {Name: "Shims of the shop", Menu: "File"}})
	for typed, want := range map[string]string{
		"": "base shims Save a copy… Shims of the shop", "SHIM": "shims Shims of the shop base", "file copy": "Save a copy…", "spring": "shims", "zz": "",
	} {
		g.Ask(typed)
		var got []string
		for _, f := range g.Found() {
			if f.Word != nil {
				got = append(got, f.Word.Key)
			} else {
				got = append(got, f.Deed.Name)
			}
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q finds %q, want %q", typed, got, want)
		}
	}
	if g.Ask("zz"); g.Cursor() != -1 {
		t.Error("there is a cursor on nothing")
	}
	g.Ask("")
	g.At("shims")
	g.Move(-1)
	g.Move(-1)
	if g.Cursor() != 0 {
		t.Errorf("the cursor is at %d", g.Cursor())
	}
	if g.Move(99); g.Cursor() != 3 {
		t.Errorf("the cursor is at %d", g.Cursor())
	}
}

// Help that is open already stays the one that is open, and the way back leads to the head.
func TestGuideOpensOnce(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 1)
	st := newStageWith(t, newApp(t), folder, folder+"/heads.keeperbook", func(cfg *shell.Config) { cfg.Help = assets.Help() })
	st.Guide()
	st.sees("Shim stack")
	st.Guide()
	st.press(fyne.KeyDown, fyne.KeyReturn)
	st.sees("The shims under the spring of one valve")
	st.press(fyne.KeyEscape)
	st.sees("KB-0001")
}
