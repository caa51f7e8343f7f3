package say_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"keeperbook/model/say"
)

// shownFrom are the folders whose texts may come before a person. Not among them: the commands and what starts the program, which
// speak English to whoever typed them; notes of faults, which are for whoever mends the program; app/internal/tongue, which knows
// names of the environment; and pdf/seal and pdf/face, whose texts are the words of file formats.
var shownFrom = []string{
	"app/internal/kit", "app/internal/screen", "app/internal/shell", "app/internal/task", "app/internal/signer", "app/internal/backup",
	"model/budget", "model/evaluate", "model/exchange", "model/life", "model/measure", "model/plan", "model/record", "model/spring", "model/unit", "model/wear",
	"pdf", "pdf/figure",
}

// ownRoom are folders inside those that are none of them.
var ownRoom = []string{"pdf/seal", "pdf/face"}

// unseen are functions that show nobody what they are given: they look for it in another text, or hand it to the system.
var unseen = []string{
	"strings.Contains", "strings.ContainsAny", "strings.Cut", "strings.CutPrefix", "strings.CutSuffix", "strings.EqualFold", "strings.HasPrefix",
	"strings.HasSuffix", "strings.IndexAny", "strings.TrimLeft", "strings.TrimSuffix", "regexp.MustCompile", "os.CreateTemp", "os.MkdirTemp", "os.Getenv",
	"os.Setenv", "filepath.Join", "fs.ReadFile",
}

// logged are functions whose text goes to the log, and causes those that make an error. Below the window an error is the cause in a
// [say.Error], or a fault of the program itself; the window shows those of its own as they are.
var (
	logged = []string{"fyne.LogError", "panic"}
	causes = []string{"errors.New", "fmt.Errorf"}
)

// ofWindow are the folders whose errors are shown.
var ofWindow = regexp.MustCompile(`^app/internal/(kit|screen|shell)\b`)

// setWords are functions that put a text before a person as it stands, whatever it looks like.
var setWords = regexp.MustCompile(`^(kit\.(New.*|Group)|widget\.New.*|canvas\.NewText|fyne\.NewMenu.*|.*\.(SetText|SetLabel|SetPlaceHolder|SetTitle|SetUnit))$`)

// symbols are units and the like, which are the same in every language.
var symbols = strings.Fields("in mm thou lbf N kgf kN psi kPa bar g kg oz MPa GPa kpsi Mpsi lb lbs mph km h rpm")

// exception are texts of one folder that look like words and are none to be translated.
type exception struct {
	in, why string
	texts   []string
}

const field, typed, format, file = "the name of a field, by which the window finds it again", "read again as it is written, and typed so in every language",
	"a word of a file format", "a part of a file's name"

var exceptions = []exception{
	{"app/internal/kit", format, []string{"DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf", "RIFF", "WAVEfmt "}},
	{"app/internal/kit", "what the toolkit calls its own words", []string{"Cut", "Copy", "Paste", "Select all", "Undo", "Redo", "Quit"}},
	{"app/internal/screen/needs", field, []string{"check "}},
	{"app/internal/screen/parts", field, []string{"piece new", " zero", "register %d", "least from", "links "}},
	{"app/internal/screen/shop", field, []string{
		" zero", "loads %d", " gauge", " source", "load step", "weights date", "one retainer", "one locator", " decision", "sizes in", "sizes mm", " size",
		" name", "coil %d", "modulus from",
	}},
	{"model/record", field, []string{"scatter ", "step ", "fit "}},
	{"app/internal/task", file, []string{" saved "}},
	{"app/internal/backup", file, []string{" before "}},
	{"app/internal/task", "whoever signs in the demonstration", []string{"M. Ashlock", "head porter"}},
	{"app/internal/signer", format, []string{"keeperbook hand 1\n", "CERTIFICATE"}},
	{"app/internal/signer", "the name of a procedure, which has no other", []string{"ECDSA ", "RSA %d"}},
	{"model/exchange", typed, []string{
		"lid, locator, jaws, step, locator-step, zero", " to ", " at ", "mean ", "top ", " start", " starts", " burnout", " burnouts", " over-rev",
		" over-revs", "at ", "free ", "lash ", "left ", "box ",
	}},
	{"model/exchange/workbook", format, []string{"Sheet1"}},
	{"model/unit", "a cause, for the log", []string{"may be ", " or "}},
	{"pdf", format, []string{"BT ", " Td (", " Tj"}},
}

var (
	twoLetters = regexp.MustCompile(`\pL\pL`)
	wordLike   = regexp.MustCompile(`\pL[^\pL]*\s|\s[^\pL]*\pL|^\p{Lu}`)
	letterRun  = regexp.MustCompile(`\pL+`)
)

// stray is a text in the code that may be words for a person.
type stray struct{ at, folder, text string }

// straysIn reads the code of one folder and of those inside it.
func straysIn(tree fs.FS, folder string, words map[string]string) (found []stray, err error) {
	files := token.NewFileSet()
	err = fs.WalkDir(tree, folder, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || slices.Contains(ownRoom, name) || name != folder && slices.Contains(shownFrom, name)):
			return fs.SkipDir
		case d.IsDir(), path.Ext(name) != ".go", strings.HasSuffix(name, "_test.go"):
			return nil
		}
		source, err := fs.ReadFile(tree, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(files, name, source, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		var above []ast.Node
		ast.Inspect(file, func(n ast.Node) bool {
			if n == nil {
				above = above[:len(above)-1]
				return true
			}
			if text, ok := literalOf(n); ok && mayBeWords(path.Dir(name), text, above, n) && words[text] == "" {
				found = append(found, stray{files.Position(n.Pos()).String(), path.Dir(name), text})
			}
			above = append(above, n)
			return true
		})
		return nil
	})
	return found, err
}

func literalOf(n ast.Node) (string, bool) {
	l, ok := n.(*ast.BasicLit)
	if !ok {
		return "", false
	}
	return literal(l)
}

// mayBeWords reports whether a text may be words for a person, by what it looks like and by what is done with it.
func mayBeWords(folder, text string, above []ast.Node, n ast.Node) bool {
	if !twoLetters.MatchString(text) || !slices.ContainsFunc(letterRun.FindAllString(text, -1), func(w string) bool { return !slices.Contains(symbols, w) }) {
		return false
	}
	set, ok := used(folder, above, n)
	return ok && (set || wordLike.MatchString(text))
}

// used reports whether a text is handed on to where somebody may see it, and whether it is set there as it stands.
func used(folder string, above []ast.Node, n ast.Node) (set, ok bool) {
	within := n
	for i := len(above) - 1; i >= 0; i-- {
		switch p := above[i].(type) {
		case *ast.ImportSpec, *ast.Field, *ast.CaseClause: // a path, a tag, and what something else is held against
			if c, is := p.(*ast.CaseClause); is && !slices.Contains(c.List, within.(ast.Expr)) {
				return false, true
			}
			return false, false
		case *ast.IndexExpr:
			return false, p.Index != within
		case *ast.BinaryExpr:
			if p.Op != token.ADD {
				return false, false
			}
		case *ast.CallExpr:
			name := nameOf(p.Fun)
			nobody := slices.Contains(unseen, name) || slices.Contains(logged, name) || slices.Contains(causes, name) && !ofWindow.MatchString(folder)
			return within == n && setWords.MatchString(name), !nobody
		case ast.Stmt:
			return false, true
		}
		within = above[i]
	}
	return false, true
}

// nameOf is the name of what is called, with that of its package or of what it belongs to.
func nameOf(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return nameOf(f.X) + "." + f.Sel.Name
	}
	return ""
}

// strays reads the code of the folders that show texts and leaves out what an exception names. An exception that excepts nothing
// is a stray too.
func strays(tree fs.FS, folders []string, except []exception, words map[string]string) ([]string, error) {
	var found []string
	excepted := map[string]bool{}
	for _, folder := range folders {
		all, err := straysIn(tree, folder, words)
		if err != nil {
			return nil, err
		}
		for _, s := range all {
			i := slices.IndexFunc(except, func(e exception) bool { return e.in == s.folder && slices.Contains(e.texts, s.text) })
			if i < 0 {
				found = append(found, fmt.Sprintf("%s: %q is in no catalogue", s.at, s.text))
				continue
			}
			excepted[s.folder+" "+s.text] = true
		}
	}
	for _, e := range except {
		for _, text := range e.texts {
			if !excepted[e.in+" "+text] {
				found = append(found, fmt.Sprintf("%s: %q is excepted as %s and stands nowhere", e.in, text, e.why))
			}
		}
	}
	return found, nil
}

// What a person reads is in the catalogues. Held to it is every text in the code that begins with a capital letter or has a space at
// a word, and every text that is set on a widget; a single word in small letters that goes a longer way is left to the test that
// looks at the window.
func TestNoWordsBesideTheCatalogue(t *testing.T) {
	found, err := strays(os.DirFS("../.."), shownFrom, exceptions, say.English().Words)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Error(f)
	}
}

// A check that cannot fail proves nothing: here is one planted stray of each kind beside what is none.
func TestStraysAreSeen(t *testing.T) {
	tree := fstest.MapFS{"app/internal/kit/a.go": {Data: []byte(`package kit
var err = errors.New("Shown")`)}, "a/a.go": {Data: []byte(`package a
import "x/Upper"
type t struct { f string ` + "`json:\"F g\"`" + ` }
func f(s string) string {
	kit.NewButton("keep", "", nil)
	kit.NewText(word("a.known"))
	if s == "Not seen" || strings.HasPrefix(s, "Nor this") { return "Seen" }
	switch s { case "A case": return s + " more" }
	m["An index"] = "and a value"
	err := errors.New("Logged only")
	return f("in, mm") + f("lbf/in") + f("a.known") + f("12 a") + fmt.Sprintf("%d of many", f("Excepted"))
}`)}, "a/a_test.go": {Data: []byte(`package a
var x = "Of a test"`)}, "a/testdata/b.go": {Data: []byte(`package b
var x = "Of a sample"`)}}
	found, err := strays(tree, []string{"a", "app/internal/kit"}, []exception{{"a", "a name", []string{"Excepted", "Gone"}}}, map[string]string{"a.known": "known"})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`a/a.go:5:16: "keep" is in no catalogue`,
		`a/a.go:7:66: "Seen" is in no catalogue`,
		`a/a.go:8:39: " more" is in no catalogue`,
		`a/a.go:9:18: "and a value" is in no catalogue`,
		`a/a.go:11:76: "%d of many" is in no catalogue`,
		`app/internal/kit/a.go:2:22: "Shown" is in no catalogue`,
		`a: "Gone" is excepted as a name and stands nowhere`,
	}
	if !slices.Equal(found, want) {
		t.Errorf("found\n%s\nwant\n%s", strings.Join(found, "\n"), strings.Join(want, "\n"))
	}
}
