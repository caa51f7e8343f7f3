package main_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

const module = "keeperbook/"

// room is one folder of packages and what it may import of the program's own, in its files and, on
// top of that, in its tests. A folder inside a room is in the room, unless it is a room itself.
type room struct {
	own   []string
	tests []string
}

// rooms is the plan of the house. What is not in it may not be there: a new room is drawn in first.
// Window, sheet and commands print one evaluation; the book and the sheet do not know each other.
var rooms = map[string]room{
	"assets": {},

	"model/say":                {},
	"model/internal/checkfile": {own: []string{"model/unit"}},
	"model/unit":               {own: []string{"model/say"}},
	"model/record":             {own: []string{"model/say", "model/unit"}, tests: []string{"model/internal/checkfile"}},
	"model/measure":            {own: []string{"model/say", "model/unit"}, tests: []string{"model/internal/checkfile"}},
	"model/budget":             {own: []string{"model/say", "model/unit"}, tests: []string{"model/internal/checkfile"}},
	"model/wear":               {own: []string{"model/say", "model/budget"}, tests: []string{"model/internal/checkfile"}},
	"model/spring":             {own: []string{"model/say", "model/unit", "model/budget"}, tests: []string{"model/internal/checkfile"}},
	"model/plan":               {own: []string{"model/say", "model/unit"}, tests: []string{"model/internal/checkfile"}},
	"model/exchange": {
		own:   []string{"model/say", "model/unit", "model/record"},
		tests: []string{"model/internal/checkfile", "assets"},
	},
	"model/evaluate": {
		own:   []string{"model/say", "model/unit", "model/record", "model/measure", "model/budget", "model/spring", "model/plan"},
		tests: []string{"model/internal/checkfile", "model/exchange", "assets"},
	},

	"model/life": {
		own:   []string{"model/say", "model/unit", "model/record", "model/evaluate", "model/wear"},
		tests: []string{"model/internal/checkfile"},
	},

	"store": {
		own:   []string{"model/say", "model/unit", "model/record"},
		tests: []string{"assets"},
	},

	"pdf/face":   {},
	"pdf/figure": {own: []string{"model/say", "model/unit", "model/record", "model/evaluate", "model/life", "pdf/face"}, tests: []string{"model/wear"}},
	"pdf": {
		own: []string{
			"model/say", "model/unit", "model/record", "model/evaluate", "model/life", "model/exchange", "pdf/face", "pdf/figure", "assets",
		},
		tests: []string{"model/measure"},
	},

	"app":                 {own: []string{"app", "model", "store", "pdf", "assets"}},
	"app/internal/files":  {own: []string{"model/say"}},
	"app/internal/backup": {own: []string{"app/internal/files", "store", "model/say"}, tests: []string{"model/record"}},
	"app/internal/tongue": {},
	"app/internal/crash":  {own: []string{"app/internal/files"}},
	"app/internal/signer": {own: []string{"app/internal/files", "model/say", "pdf/seal"}},
	"app/internal/task": {
		own:   []string{"app/internal/backup", "app/internal/files", "app/internal/signer", "model", "store", "pdf", "assets"},
		tests: []string{"app/internal/wire"},
	},
	"app/internal/command": {
		own: []string{"app/internal/files", "app/internal/signer", "app/internal/task", "app/internal/wire", "model", "store", "pdf", "assets"},
	},
	"app/internal/wire": {own: []string{"app/internal", "model", "store", "pdf", "assets"}},
	"app/internal/kit":  {own: []string{"model/say", "model/unit", "pdf/figure", "pdf/face", "assets"}},
	"app/internal/shell": {
		own:   []string{"app/internal/crash", "app/internal/files", "app/internal/signer", "app/internal/task", "app/internal/kit", "app/internal/screen", "model", "pdf/figure", "pdf/face", "assets"},
		tests: []string{"app/internal/wire"},
	},
	"app/internal/screen": {
		own:   []string{"app/internal/signer", "app/internal/task", "app/internal/kit", "model", "pdf/figure", "pdf/face", "assets"},
		tests: []string{"app/internal/wire"},
	},
}

// guests says where packages from outside may be imported: a folder with everything in it, or one
// file. Those of tests are in onlyInTests.
var guests = map[string][]string{
	"fyne.io/fyne/v2/app":                      {"app/window.go"},
	"fyne.io/fyne/v2":                          {"app/window.go", "app/internal/shell", "app/internal/screen", "app/internal/kit", "app/internal/wire/fault_test.go"},
	"modernc.org/sqlite":                       {"store"},
	"github.com/jung-kurt/gofpdf":              {"pdf"},
	"gonum.org/v1/gonum":                       {"model/budget", "model/spring"},
	"gonum.org/v1/plot":                        {"pdf", "app/internal/kit", "app/internal/screen", "app/internal/task"},
	"golang.org/x/image":                       {"pdf", "app/internal/kit"},
	"golang.org/x/term":                        {"app/internal/wire"},
	"golang.org/x/text":                        {"pdf", "store"},
	"codeberg.org/go-fonts/dejavu":             {"pdf/face"},
	"github.com/arran4/golang-ical":            {"app/internal/task"},
	"github.com/gowebpki/jcs":                  {"model/exchange"},
	"github.com/xuri/excelize/v2":              {"model/exchange/workbook"},
	"rsc.io/qr":                                {"pdf"},
	"software.sslmate.com/src/go-pkcs12":       {"pdf/seal"},
	"github.com/santhosh-tekuri/jsonschema/v6": {"model/exchange"},
}

var onlyInTests = []string{
	"pgregory.net/rapid", "github.com/google/go-cmp", "github.com/rogpeppe/go-internal", "fyne.io/fyne/v2/test", "github.com/jezek/xgb",
}

// barred are packages that a folder may not import in its own files, the standard library's among them.
var barred = map[string][]string{
	"model":      {"os", "net", "database/sql", "syscall", "path/filepath", "log", "math/rand", "crypto/rand"},
	"pdf":        {"database/sql", "net"},
	"pdf/figure": {"github.com/jung-kurt/gofpdf"},
	"pdf/face":   {"github.com/jung-kurt/gofpdf"},
	"app":        {"database/sql"},
}

// clocks are the functions that ask what time it is or wait for it.
var clocks = []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer"}

// clockless are the folders that are told the time.
var clockless = []string{"model", "pdf", "assets"}

func within(name, folder string) bool {
	return name == folder || strings.HasPrefix(name, folder+"/")
}

func withinAny(name string, folders []string) bool {
	return slices.ContainsFunc(folders, func(f string) bool { return within(name, f) })
}

// longest returns the key that is the deepest folder around a name.
func longest[V any](table map[string]V, name string) (string, bool) {
	for f := name; f != "."; f = path.Dir(f) {
		if _, ok := table[f]; ok {
			return f, true
		}
	}
	return "", false
}

// breaches looks through every Go file of a tree, whatever its build tags, and says what breaks the
// plan. It also returns how many files it looked at.
func breaches(tree fs.FS) (found []string, files int, err error) {
	err = fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (d.Name()[0] == '.' || d.Name() == "testdata"):
			return fs.SkipDir
		case d.IsDir() || path.Ext(name) != ".go":
			return nil
		}
		source, err := fs.ReadFile(tree, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files++
		found = append(found, breachesOf(name, file)...)
		return nil
	})
	return found, files, err
}

func breachesOf(name string, file *ast.File) (found []string) {
	folder, test := path.Dir(name), strings.HasSuffix(name, "_test.go")
	here, known := longest(rooms, folder)
	if !known {
		return []string{fmt.Sprintf("%s is in no room: draw it into the plan", name)}
	}
	say := func(imported, why string) {
		found = append(found, fmt.Sprintf("%s imports %s: %s", name, imported, why))
	}
	for _, spec := range file.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			say(spec.Path.Value, "not a path")
			continue
		}
		own, inside := strings.CutPrefix(imported, module)
		switch {
		case inside:
			if why := ownBreach(folder, here, own, test); why != "" {
				say(own, why)
			}
		case strings.Contains(strings.SplitN(imported, "/", 2)[0], "."):
			if why := guestBreach(name, imported, test); why != "" {
				say(imported, why)
			}
		}
		// A helper of tests is no part of the program, and reads files.
		if test || here == "model/internal/checkfile" {
			continue
		}
		for f, list := range barred {
			if within(folder, f) && withinAny(imported, list) {
				say(imported, "barred from "+f)
			}
		}
	}
	if !test && withinAny(folder, clockless) {
		for _, call := range clockCalls(file) {
			found = append(found, fmt.Sprintf("%s calls time.%s: %s is told the time", name, call, here))
		}
	}
	return found
}

// ownBreach says why a folder may not import another one of the program, "" where it may.
func ownBreach(folder, here, own string, test bool) string {
	there, known := longest(rooms, own)
	switch {
	case own == folder && test:
		return "" // a test outside its package imports it
	case !known:
		return "in no room"
	case there == "model/internal/checkfile" && !test:
		return "a helper of tests"
	case here == "app/internal/screen" && there == here:
		return "screens do not know each other"
	case there == here && here != "app":
		return ""
	case withinAny(own, rooms[here].own), test && withinAny(own, rooms[here].tests):
		return ""
	}
	return "not on the plan of " + here
}

// guestBreach says why a file may not import a package from outside, "" where it may.
func guestBreach(name, imported string, test bool) string {
	if withinAny(imported, onlyInTests) {
		if test {
			return ""
		}
		return "for tests only"
	}
	which, known := longest(guests, imported)
	switch {
	case !known:
		return "not among the packages the program is built on"
	case which == "fyne.io/fyne/v2" && strings.HasPrefix(path.Base(name), "presenter"):
		return "presenters work without a window"
	case !withinAny(name, guests[which]):
		return "allowed in " + strings.Join(guests[which], ", ") + " only"
	}
	return ""
}

func clockCalls(file *ast.File) (calls []string) {
	ast.Inspect(file, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := s.X.(*ast.Ident); ok && x.Name == "time" && slices.Contains(clocks, s.Sel.Name) {
				calls = append(calls, s.Sel.Name)
			}
		}
		return true
	})
	return calls
}

func TestRooms(t *testing.T) {
	found, files, err := breaches(os.DirFS(".."))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Error(f)
	}
	if files < 50 {
		t.Errorf("looked at %d files only: is this the whole program?", files)
	}
}

// A check that cannot fail proves nothing: here is one planted breach of each rule.
func TestRoomsSeesPlantedBreaches(t *testing.T) {
	planted := []struct{ file, imported, want string }{
		{"store/sheet.go", "keeperbook/pdf", "not on the plan of store"},
		{"store/json.go", "keeperbook/model/exchange", "not on the plan of store"},
		{"store/sheet_test.go", "keeperbook/pdf", "not on the plan of store"},
		{"pdf/book.go", "keeperbook/store", "not on the plan of pdf"},
		{"pdf/book_test.go", "keeperbook/store", "not on the plan of pdf"},
		{"pdf/book.go", "database/sql", "barred from pdf"},
		{"pdf/figure/press.go", "github.com/jung-kurt/gofpdf", "barred from pdf/figure"},
		{"pdf/figure/sheet.go", "keeperbook/pdf", "not on the plan of pdf/figure"},
		{"assets/words.go", "keeperbook/model/say", "not on the plan of assets"},
		{"model/unit/head.go", "keeperbook/model/record", "not on the plan of model/unit"},
		{"model/say/unit.go", "keeperbook/model/unit", "not on the plan of model/say"},
		{"model/measure/head.go", "keeperbook/model/record", "not on the plan of model/measure"},
		{"model/budget/head.go", "keeperbook/model/record", "not on the plan of model/budget"},
		{"model/plan/head.go", "keeperbook/model/record", "not on the plan of model/plan"},
		{"model/plan/internal/search/master.go", "gonum.org/v1/gonum/mat", "allowed in model/budget, model/spring only"},
		{"model/plan/internal/search/search.go", "keeperbook/model/plan/internal/proof", ""},
		{"model/spring/curve/head.go", "keeperbook/model/record", "not on the plan of model/spring"},
		{"model/spring/wire/bind.go", "keeperbook/model/measure", "not on the plan of model/spring"},
		{"model/evaluate/fit.go", "gonum.org/v1/gonum/mat", "allowed in model/budget, model/spring only"},
		{"model/record/work.go", "keeperbook/model/evaluate", "not on the plan of model/record"},
		{"model/exchange/work.go", "keeperbook/model/evaluate", "not on the plan of model/exchange"},
		{"model/evaluate/book.go", "keeperbook/store", "not on the plan of model/evaluate"},
		{"model/measure/check.go", "keeperbook/model/internal/checkfile", "a helper of tests"},
		{"model/record/file.go", "os", "barred from model"},
		{"model/record/user.go", "os/user", "barred from model"},
		{"model/evaluate/rows.go", "database/sql", "barred from model"},
		{"model/exchange/get.go", "net/http", "barred from model"},
		{"model/unit/view.go", "fyne.io/fyne/v2", "allowed in app/window.go"},
		{"model/evaluate/diff.go", "github.com/google/go-cmp/cmp", "for tests only"},
		{"model/exchange/rows.go", "modernc.org/sqlite", "allowed in store only"},
		{"model/loads/loads.go", "strings", "in no room"},
		{"model/evaluate/loads.go", "keeperbook/model/loads", "in no room"},
		{"app/main.go", "fyne.io/fyne/v2/app", "allowed in app/window.go only"},
		{"app/internal/shell/run.go", "fyne.io/fyne/v2/app", "allowed in app/window.go only"},
		{"app/internal/shell/rows.go", "database/sql", "barred from app"},
		{"app/internal/shell/book.go", "keeperbook/store", "not on the plan of app/internal/shell"},
		{"app/internal/screen/plan/go.go", "keeperbook/app/internal/screen/valves", "screens do not know each other"},
		{"app/internal/screen/plan/presenter.go", "fyne.io/fyne/v2/widget", "presenters work without a window"},
		{"app/internal/screen/plan/presenter_test.go", "fyne.io/fyne/v2/test", ""},
		{"app/internal/screen/plan/book.go", "keeperbook/store", "not on the plan of app/internal/screen"},
		{"app/internal/kit/valve.go", "keeperbook/model/record", "not on the plan of app/internal/kit"},
		{"app/internal/command/go.go", "keeperbook/app/internal/shell", "not on the plan of app/internal/command"},
		{"app/internal/task/go.go", "keeperbook/app/internal/command", "not on the plan of app/internal/task"},
		{"store/extra.go", "example.org/extra", "not among the packages"},
		{"store/store_test.go", "pgregory.net/rapid", ""},
		{"store/open.go", "modernc.org/sqlite/lib", ""},
		{"app/window.go", "fyne.io/fyne/v2/app", ""},
		{"app/main.go", "keeperbook/app/internal/wire", ""},
		{"model/unit/unit_test.go", "keeperbook/model/unit", ""},
		{"model/unit/golden_test.go", "os", ""},
		{"model/internal/checkfile/checkfile.go", "os", ""},
	}
	for _, p := range planted {
		t.Run(p.file+" imports "+p.imported, func(t *testing.T) {
			source := fmt.Sprintf("package planted\n\nimport _ %q\n", p.imported)
			found, _, err := breaches(fstest.MapFS{p.file: {Data: []byte(source)}})
			if err != nil {
				t.Fatal(err)
			}
			wantOne(t, found, p.want)
		})
	}
	for file, want := range map[string]string{
		"model/record/stamp.go":      "calls time.Now",
		"pdf/date.go":                "calls time.Now",
		"store/stamp.go":             "",
		"model/record/stamp_test.go": "",
	} {
		t.Run(file+" asks for the time", func(t *testing.T) {
			source := "package planted\n\nimport \"time\"\n\nvar began = time.Now()\n"
			found, _, err := breaches(fstest.MapFS{file: {Data: []byte(source)}})
			if err != nil {
				t.Fatal(err)
			}
			wantOne(t, found, want)
		})
	}
}

// wantOne holds what was found against the one thing that should be; "" wants nothing found.
func wantOne(t *testing.T, found []string, want string) {
	t.Helper()
	switch {
	case want == "" && len(found) > 0:
		t.Errorf("found %q where nothing is wrong", found)
	case want != "" && (len(found) == 0 || !strings.Contains(found[0], want)):
		t.Errorf("found %q, want %q", found, want)
	}
}
