package shell_test

import (
	"cmp"
	"encoding/csv"
	"encoding/json"
	"io/fs"
	"maps"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/assets"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// markedTongue is the language that is marked. It is not English, so that what is said in English whatever is chosen is seen too.
const markedTongue = "de"

// mark writes a text in letters of another script. So every word of a catalogue can be told from what is in none, wherever a line
// was broken and whatever was put together.
func mark(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return 'а' + r - 'a'
		case r >= 'A' && r <= 'Z':
			return 'А' + r - 'A'
		case unicode.Is(unicode.Latin, r):
			return 'ж'
		}
		return r
	}, text)
}

// markCatalogue marks every sentence of the marked language until the test ends. The tag of a language is no sentence.
func markCatalogue(t *testing.T) {
	t.Helper()
	p, ok := say.Of(markedTongue)
	if !ok {
		t.Fatal("nobody speaks " + markedTongue)
	}
	before := maps.Clone(p.Words)
	t.Cleanup(func() { maps.Copy(p.Words, before) })
	for key, sentence := range before {
		if key != "shell.language" {
			p.Words[key] = mark(sentence)
		}
	}
}

// unmarked are the texts of a window that are in no catalogue: those without letters of the other script that are neither a number
// with its unit nor data.
type unmarked struct {
	data   []string          // the longest first
	titles []string          // of pages of help, which are listed beside them
	found  map[string]string // and where it was seen first
	seen   map[string]bool
	used   map[string]bool // what of [sameEverywhere] was met
}

// sameEverywhere are words that are the same in every language, or are no words of ours.
var sameEverywhere = func() map[string]string {
	all := map[string]string{}
	for why, words := range map[string]string{
		"a unit, or the role of a valve": "in ex mm thou lbf psi kpsi Mpsi MPa",
		"a run as it is typed":           "laps hours mean top start starts over rev at",
		"the name of a procedure":        "ECDSA",
	} {
		for word := range strings.FieldsSeq(words) {
			all[word] = why
		}
	}
	return all
}()

var (
	latinWord   = regexp.MustCompile(`\p{Latin}{2,}`)
	small       = regexp.MustCompile(`^[a-z0-9'-]+$`)
	filePath    = regexp.MustCompile(`([A-Za-z]:)?[/\\][^\s/\\]+[/\\]\S*`)
	fingerprint = regexp.MustCompile(`\b[0-9a-f]{4}( [0-9a-f]{4})+\b`)
)

func newUnmarked(t *testing.T, typed ...string) *unmarked {
	t.Helper()
	data, titles := map[string]bool{}, map[string]bool{}
	demonstrated(t, data)
	// A single word in small letters is an identifier or a word of the program's own, unless it was typed here.
	maps.DeleteFunc(data, func(text string, is bool) bool { return !is || !latinWord.MatchString(text) || small.MatchString(text) })
	for _, text := range typed {
		data[text] = true
	}
	helped(t, titles)
	longest := func(all map[string]bool) []string {
		return slices.SortedFunc(maps.Keys(all), func(a, b string) int { return cmp.Or(len(b)-len(a), strings.Compare(a, b)) })
	}
	return &unmarked{data: longest(data), titles: longest(titles), found: map[string]string{}, seen: map[string]bool{}, used: map[string]bool{}}
}

// ofPeople are the columns of the demonstration's tables that hold what somebody called something.
var ofPeople = []string{"head", "gauge", "by", "note", "tester", "where", "remark", "tag", "spring", "batch"}

// demonstrated puts the names, tags and notes of the demonstration into a set: every text of its records that is no word of the
// program's own, and those of its tables.
func demonstrated(t *testing.T, into map[string]bool) {
	t.Helper()
	err := fs.WalkDir(assets.Demo(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(assets.Demo(), name)
		if err != nil {
			return err
		}
		switch path.Ext(name) {
		case ".csv":
			rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
			if err != nil {
				return err
			}
			for i, title := range rows[0] {
				for _, row := range rows[1:] {
					into[row[i]] = into[row[i]] || slices.Contains(ofPeople, title)
				}
			}
		case ".json":
			doc, err := exchange.Decode(text)
			if err == nil {
				textsOf(reflect.ValueOf(doc.Record), into)
				return nil
			}
			var any any
			if err := json.Unmarshal(text, &any); err != nil {
				return err
			}
			textsOf(reflect.ValueOf(any), into)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// textsOf puts the plain texts in a value into a set. A text of a type of its own is a word of the program's.
func textsOf(v reflect.Value, into map[string]bool) {
	switch v.Kind() {
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() {
			into[v.String()] = true
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			textsOf(v.Elem(), into)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			textsOf(v.Field(i), into)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			textsOf(v.Index(i), into)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			textsOf(v.MapIndex(k), into)
		}
	}
}

// helped puts the titles of the pages of help into a set; they stand in files of their own.
func helped(t *testing.T, into map[string]bool) {
	t.Helper()
	err := fs.WalkDir(assets.Help(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".md" {
			return err
		}
		text, err := fs.ReadFile(assets.Help(), name)
		for line := range strings.Lines(string(text)) {
			if title, ok := strings.CutPrefix(line, "# "); ok {
				into[strings.TrimSpace(title)] = true
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// see looks at everything that stands in a window: its title, its menu, what lies over it, and itself.
func (u *unmarked) see(s *shell.Shell, where string) {
	w := s.Window()
	u.text(w.Title(), where+", its title")
	for _, m := range w.MainMenu().Items {
		u.text(m.Label, where+", its menu")
		for _, i := range m.Items {
			u.text(i.Label, where+", its menu")
		}
	}
	u.walk(w.Canvas().Content(), where)
	for _, o := range w.Canvas().Overlays().List() {
		u.walk(o, where)
	}
}

func (u *unmarked) walk(o fyne.CanvasObject, where string) {
	if o == nil || !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			u.walk(inner, where)
		}
	case *kit.Text:
		u.text(o.Text(), where)
	case *canvas.Text:
		u.text(o.Text, where)
	case *widget.RichText: // a page of help, or what was typed
	case fyne.Widget:
		for _, inner := range test.WidgetRenderer(o).Objects() {
			u.walk(inner, where)
		}
	}
}

// text looks at one text.
func (u *unmarked) text(text, where string) {
	if u.seen[text] {
		return
	}
	u.seen[text] = true
	left := filePath.ReplaceAllString(text, "")
	if strings.HasPrefix(where, "guide") {
		for _, title := range u.titles {
			left = without(left, title)
		}
	}
	for _, d := range u.data {
		left = without(left, d)
	}
	for _, word := range latinWord.FindAllString(fingerprint.ReplaceAllString(left, ""), -1) {
		if sameEverywhere[word] != "" {
			u.used[word] = true
		} else {
			u.found[text] = where
		}
	}
}

// without takes data out of a text wherever it is no part of a word.
func without(text, data string) string {
	for from := 0; ; {
		at := strings.Index(text[from:], data)
		if at < 0 {
			return text
		}
		at += from
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		behind, _ := utf8.DecodeRuneInString(text[at+len(data):])
		if unicode.IsLetter(before) || unicode.IsLetter(behind) {
			from = at + len(data)
			continue
		}
		text, from = text[:at]+"\n"+text[at+len(data):], at+1
	}
}

// report fails with what was found, and with what is allowed and was not met.
func (u *unmarked) report(t *testing.T) {
	t.Helper()
	if len(u.seen) < 1000 {
		t.Errorf("looked at %d texts only: is this the whole window?", len(u.seen))
	}
	for _, text := range slices.Sorted(maps.Keys(u.found)) {
		t.Errorf("%s: %q is in no catalogue", u.found[text], text)
	}
	for word := range sameEverywhere {
		if !u.used[word] {
			t.Errorf("%q may stand as it is and stands nowhere", word)
		}
	}
}

// lookOutFor marks the catalogue and returns what looks, in the place of a picture, for texts that are in none. They are told when
// the test ends.
func lookOutFor(t *testing.T) func(t *testing.T, s *shell.Shell, name string) {
	t.Helper()
	markCatalogue(t)
	u := newUnmarked(t,
		// who is at work
		"test", "demonstration", "M. Ashlock", "head porter", "J. Peverel", "inspector", "E. Tolliver", "Lantern Yard Head Works",
		"Demonstration key, known to all",
		// a table that comes in
		"my heights.csv", "Valve", "Height bare", "Tip", "Remark", "good", "no idea", "left one",
		// what is typed, and what the demonstration says in one small word
		"depth of one seat", "slipped off the land", "by telephone", "as the owner wants it until the new springs are there", "unknown", "steel",
		// names of files
		"demonstration.keeperbook", "first-head.keeperbook", "demonstration-DR-1L-as-found.pdf", "changed.pdf",
	)
	t.Cleanup(func() {
		if !t.Failed() {
			u.report(t)
		}
	})
	return func(t *testing.T, s *shell.Shell, name string) {
		t.Helper()
		choosable(t, s, name)
		u.see(s, strings.TrimSuffix(name, "-marked"))
	}
}

// lookFurther goes where no picture is taken: to what the menu asks and reads out, and to the toolkit's menu over a text.
func lookFurther(t *testing.T, s *shell.Shell, take func(*testing.T, *shell.Shell, string)) {
	t.Helper()
	for _, stop := range []struct {
		name string
		open func()
	}{
		{"keys", s.Keys}, {"cautions", s.Cautions}, {"about", s.About}, {"new-book", s.NewBook}, {"open-book", s.OpenBook}, {"take-in-path", s.TakeIn},
		{"check-path", s.CheckSheet}, {"copy-path", s.SaveCopy}, {"setups", s.ChooseSetup}, {"follow", func() { s.AskFollow(record.AsBuilt) }},
		{"note", func() {
			s.NewHead()
			press(s, desktop.KeyMenu)
			if got := len(s.Window().Canvas().Overlays().List()); got != 2 {
				t.Errorf("%d things lie over the window, where a menu lies over a dialog", got)
			}
		}},
	} {
		s.OpenSetup("setup-ferry-built")
		stop.open()
		take(t, s, stop.name)
		for s.Window().Canvas().Overlays().Top() != nil {
			s.Window().Canvas().Overlays().Remove(s.Window().Canvas().Overlays().Top())
		}
	}
}

// A check that cannot fail proves nothing: here is what is in no catalogue beside what is, or needs not be.
func TestUnmarkedIsSeen(t *testing.T) {
	u := newUnmarked(t, "J. Peverel")
	for _, text := range []string{
		mark("Copy now"), "12.5 mm", mark("by") + " J. Peverel, 38.4 in", "OF-2P", "guide?", "J. Peverelson", mark("Copy") + " now", "base",
		"4922 3ee7 4f5a 9541", "three",
	} {
		u.text(text, "here")
	}
	u.text("Tip height", "guide-found")
	u.text("Lash and clearance", "here")
	want := []string{"J. Peverelson", "Lash and clearance", "base", "guide?", "three", mark("Copy") + " now"}
	if got := slices.Sorted(maps.Keys(u.found)); !slices.Equal(got, want) {
		t.Errorf("found %q, want %q", got, want)
	}
}
