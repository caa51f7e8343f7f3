package kit_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit"
)

// focusable makes one of everything that can have the keyboard, by the name of its type.
var focusable = map[string]func(s *stage) fyne.CanvasObject{
	"Grid":   func(*stage) fyne.CanvasObject { return kit.NewGrid(&hand{}) },
	"Rows":   func(*stage) fyne.CanvasObject { return kit.NewRows(nil, nil) },
	"Button": func(*stage) fyne.CanvasObject { return kit.NewButton("press", "", nil) },
	"Select": func(*stage) fyne.CanvasObject { return kit.NewChoice("which", []string{"a", "b"}, 0, nil) },
	"entry":  func(*stage) fyne.CanvasObject { return kit.NewField("what", "", nil) },
	"InkPad": func(*stage) fyne.CanvasObject { return kit.NewInkPad(100, 40) },
	"Pages":  func(*stage) fyne.CanvasObject { return kit.NewPages() },
	"menu": func(s *stage) fyne.CanvasObject {
		b := kit.NewButton("press", "", nil)
		s.win.SetContent(b)
		kit.ShowMenu(b, []kit.Item{{Label: "do"}}, fyne.NewPos(10, 10))
		return nil
	},
}

// F1 reaches the window from whatever has the keyboard.
func TestHelpWherever(t *testing.T) {
	for name, create := range focusable {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, nil)
			if o := create(s); o != nil {
				s.win.SetContent(o)
				s.win.Canvas().FocusNext()
			}
			if got := reflect.TypeOf(s.win.Canvas().Focused()).Elem().Name(); got != name {
				t.Fatalf("%s has the keyboard", got)
			}
			told := ""
			s.win.Canvas().SetOnTypedKey(func(k *fyne.KeyEvent) { told += string(k.Name) })
			if s.press(fyne.KeyF1); told != "F1" {
				t.Errorf("the window was told %q", told)
			}
		})
	}
}

// Everything of this package that can have the keyboard is among those that are tried above.
func TestFocusableAreTried(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "FocusGained" {
				// What keeps the window still while work runs lets nothing through.
				if name := f.Recv.List[0].Type.(*ast.StarExpr).X.(*ast.Ident).Name; name != "hush" {
					found = append(found, name)
				}
			}
		}
	}
	slices.Sort(found)
	if tried := slices.Sorted(maps.Keys(focusable)); !slices.Equal(found, tried) {
		t.Errorf("the keyboard can be on %v; tried are %v", found, tried)
	}
}

// The keys that belong to help and to menus are nobody's own.
func TestWherever(t *testing.T) {
	b := kit.NewButton("press", "", nil)
	newStage(t, b)
	for key, want := range map[fyne.KeyName]bool{fyne.KeyF1: true, desktop.KeyMenu: true, fyne.KeyF10: false, fyne.KeyReturn: false} {
		if got := kit.Wherever(b, &fyne.KeyEvent{Name: key}); got != want {
			t.Errorf("%s is taken: %v", key, got)
		}
	}
}
