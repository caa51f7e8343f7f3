package say_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"keeperbook/model/say"
)

// keyForm is what a key looks like: an area, and words with hyphens behind points.
var keyForm = regexp.MustCompile(`^[a-z]+(-[a-z]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$`)

// use is what the program's code says of the catalogue.
type use struct {
	calls    []call            // of say.New and say.Fail with the key written out
	literals map[string]string // every text that looks like a key, and a place where it stands
	made     map[string]string // patterns of the keys put together from a value, "verdict." + word, and where
	parts    map[ast.Expr]bool // of a sum that was looked at as a whole
}

type call struct {
	at, key string
	args    int // −1 where they are spread from a slice
}

// uses reads the code of a tree. Tests are no use of a sentence.
func uses(tree fs.FS) (use, error) {
	u := use{literals: map[string]string{}, made: map[string]string{}, parts: map[ast.Expr]bool{}}
	files := token.NewFileSet()
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (d.Name()[0] == '.' || d.Name() == "testdata"):
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
		ast.Inspect(file, func(n ast.Node) bool {
			u.note(files, n)
			return true
		})
		return nil
	})
	return u, err
}

func (u *use) note(files *token.FileSet, n ast.Node) {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return
	case *ast.BasicLit:
		text, ok := literal(n)
		if !ok {
			return
		}
		if keyForm.MatchString(text) {
			u.literals[text] = files.Position(n.Pos()).String()
		}
		// The beginning of a key that is handed to a helper, which puts the value behind it.
		if begun, ok := strings.CutSuffix(text, "."); ok && !u.parts[n] && keyForm.MatchString(begun) {
			u.made["^"+regexp.QuoteMeta(text)+".+$"] = files.Position(n.Pos()).String()
		}
	case *ast.BinaryExpr:
		if pattern := u.pattern(n); !u.parts[n] && strings.Contains(pattern, `\.`) && !strings.HasPrefix(pattern, ".") {
			u.made["^"+pattern+"$"] = files.Position(n.Pos()).String()
		}
	case *ast.CallExpr:
		first := map[string]int{"say.New": 0, "say.Fail": 1}
		fun, ok := n.Fun.(*ast.SelectorExpr)
		if !ok {
			return
		}
		pkg, ok := fun.X.(*ast.Ident)
		if !ok {
			return
		}
		at, ok := first[pkg.Name+"."+fun.Sel.Name]
		if !ok || len(n.Args) <= at {
			return
		}
		if key, ok := literal(n.Args[at]); ok {
			c := call{files.Position(n.Pos()).String(), key, len(n.Args) - at - 1}
			if n.Ellipsis.IsValid() {
				c.args = -1
			}
			u.calls = append(u.calls, c)
		}
	}
}

// pattern returns the regular expression of a sum of texts, in which a value may be any word.
func (u *use) pattern(n ast.Expr) string {
	if sum, ok := n.(*ast.BinaryExpr); ok && sum.Op == token.ADD {
		u.parts[sum.X], u.parts[sum.Y] = true, true
		return u.pattern(sum.X) + u.pattern(sum.Y)
	}
	if text, ok := literal(n); ok {
		return regexp.QuoteMeta(text)
	}
	return ".+"
}

func literal(n ast.Expr) (string, bool) {
	l, ok := n.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(l.Value)
	return text, err == nil
}

// places returns how many arguments a sentence takes, and whether it names each of them.
func places(sentence string) (n int, all bool) {
	named := map[int]bool{}
	for _, m := range regexp.MustCompile(`\{(\d+)\}`).FindAllStringSubmatch(sentence, -1) {
		i, _ := strconv.Atoi(m[1])
		named[i] = true
		n = max(n, i+1)
	}
	return n, len(named) == n
}

// faults compares a catalogue with the code that uses it.
func (u use) faults(words map[string]string) (found []string) {
	areas := map[string]bool{}
	for key := range words {
		area, _, _ := strings.Cut(key, ".")
		areas[area] = true
	}
	made := map[string]bool{}
	for _, pattern := range slices.Sorted(maps.Keys(u.made)) {
		area, _, _ := strings.Cut(strings.TrimPrefix(pattern, "^"), `\.`)
		if !areas[area] {
			continue
		}
		re, some := regexp.MustCompile(pattern), false
		for key := range words {
			if re.MatchString(key) {
				made[key], some = true, true
			}
		}
		if !some {
			found = append(found, fmt.Sprintf("%s: the catalogue has nothing like %s", u.made[pattern], pattern))
		}
	}
	for _, c := range u.calls {
		sentence, ok := words[c.key]
		n, _ := places(sentence)
		switch {
		case !ok:
			found = append(found, fmt.Sprintf("%s: the catalogue has no %s", c.at, c.key))
		case c.args >= 0 && c.args != n:
			found = append(found, fmt.Sprintf("%s: %s is given %d arguments and takes %d", c.at, c.key, c.args, n))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(u.literals)) {
		area, _, _ := strings.Cut(key, ".")
		if _, ok := words[key]; areas[area] && !ok && strings.Contains(key, ".") {
			found = append(found, fmt.Sprintf("%s: the catalogue has no %s", u.literals[key], key))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(words)) {
		if _, ok := u.literals[key]; !ok && !made[key] {
			found = append(found, fmt.Sprintf("%s is said nowhere", key))
		}
		if _, all := places(words[key]); !all {
			found = append(found, fmt.Sprintf("%s passes an argument over: %s", key, words[key]))
		}
		if !keyForm.MatchString(key) {
			found = append(found, fmt.Sprintf("%s does not look like a key", key))
		}
	}
	return slices.Compact(found)
}

func TestCatalogueAndCodeAgree(t *testing.T) {
	u, err := uses(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	if len(u.calls) < 100 {
		t.Errorf("found %d calls only: is this the whole program?", len(u.calls))
	}
	for _, f := range u.faults(say.English().Words) {
		t.Error(f)
	}
}

// A check that cannot fail proves nothing: here is one planted fault of each kind.
func TestCatalogueSeesPlantedFaults(t *testing.T) {
	u, err := uses(fstest.MapFS{"a.go": {Data: []byte(`package a
func f(kind string, all []any) {
	say.New("a.good", 1)
	say.Fail(say.Invalid, "a.good", all...)
	say.New("a.unknown")
	say.Fail(say.Invalid, "a.good", 1, 2)
	say.New("kind." + kind)
	say.New("find." + kind + ".short")
	say.New("a.nothing." + kind)
	word("word.", kind)
	fail("a.wrapped-unknown")
	open("file.txt")
}`)}, "a_test.go": {Data: []byte(`package a
var only = "a.unsaid"`)}})
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]string{
		"a.good": "{0}", "a.unsaid": "words", "kind.base": "base", "find.seal.short": "", "word.one": "", "find.seal.long": "", "a.over": "{1}", "A_b": "",
	}
	got := u.faults(words)
	for _, want := range []string{
		"a.go:5:2: the catalogue has no a.unknown",
		"a.go:6:2: a.good is given 2 arguments and takes 1",
		"a.go:11:7: the catalogue has no a.wrapped-unknown",
		"a.unsaid is said nowhere",
		"a.over is said nowhere",
		"a.over passes an argument over: {1}",
		"A_b does not look like a key",
		"find.seal.long is said nowhere",
		"a.go:9:10: the catalogue has nothing like ^a\\.nothing\\..+$",
	} {
		if !slices.Contains(got, want) {
			t.Errorf("did not see: %s", want)
		}
	}
	for _, f := range got {
		if strings.Contains(f, "kind.base") || strings.Contains(f, "seal.short") || strings.Contains(f, "word.one") || strings.Contains(f, "file.txt") {
			t.Errorf("found where nothing is wrong: %s", f)
		}
	}
}
