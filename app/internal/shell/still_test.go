package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/wire"
)

// A window that nobody touches stands still: laid out again, everything on it is the same thing of the same
// size. The toolkit lays out whatever it sees for the first time, in every frame, so that a widget that
// makes something new of itself while it is laid out keeps a processor busy for good.
func TestStandsStill(t *testing.T) {
	t.Setenv("DISPLAY", ":0") // never opened: the test's own driver draws
	folder := t.TempDir()
	app := test.NewTempApp(t)
	wire.Main{
		Clock: clock, Who: "test", Folder: func() (string, error) { return folder, nil }, Out: &bytes.Buffer{}, Err: os.Stderr,
		Window: func(ctx context.Context, cfg shell.Config) error {
			cfg.Background = func(work func()) { work() }
			s := shell.New(ctx, app, cfg)
			s.Start()
			s.Window().Resize(fyne.NewSize(1180, 780))
			still(t, s, "welcome")
			s.DemoBook()
			still(t, s, "register")
			s.OpenSetup("setup-ferry-built")
			for _, leaf := range []string{"needs", "choose", "parts", "valves", "plan", "sheet", "life"} {
				s.Show(leaf)
				still(t, s, leaf)
			}
			s.ShopPages()
			still(t, s, "shop")
			s.CloseBook()
			return nil
		},
	}.Run(context.Background())
}

// seen is an object of the window with the size it needs.
type seen struct {
	object fyne.CanvasObject
	least  fyne.Size
}

// still lays everything out again, as the toolkit does once a size changed, and holds what there is then
// against what there was.
func still(t *testing.T, s *shell.Shell, what string) {
	t.Helper()
	content := s.Window().Canvas().Content()
	look := func() (all []seen) {
		visit(content, func(o fyne.CanvasObject) { all = append(all, seen{o, o.MinSize()}) })
		return all
	}
	arrange := func() {
		visit(content, func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *fyne.Container:
				if o.Layout != nil {
					o.Layout.Layout(o.Objects, o.Size())
				}
			case fyne.Widget:
				test.WidgetRenderer(o).Layout(o.Size())
			}
		})
	}
	arrange() // what wraps knows its width now
	before := look()
	arrange()
	after := look()
	if len(before) < 10 {
		t.Fatalf("%s has %d objects: this is not the window", what, len(before))
	}
	for i := range min(len(before), len(after)) {
		if before[i].object != after[i].object {
			t.Errorf("%s: a %s is another one after it was laid out again", what, name(after[i].object))
			return
		}
		if before[i].least != after[i].least {
			t.Errorf("%s: a %s needed %v and then %v", what, name(after[i].object), before[i].least, after[i].least)
		}
	}
	if len(before) != len(after) {
		t.Errorf("%s had %d objects and then %d", what, len(before), len(after))
	}
}

func name(o fyne.CanvasObject) string { return fmt.Sprintf("%T", o) }

// visit calls do for everything that is seen, from the outside inwards.
func visit(o fyne.CanvasObject, do func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	do(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			visit(inner, do)
		}
	case fyne.Widget:
		for _, inner := range test.WidgetRenderer(o).Objects() {
			visit(inner, do)
		}
	}
}
