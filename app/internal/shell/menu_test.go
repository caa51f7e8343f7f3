package shell_test

import (
	"io/fs"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/assets"
)

// choosable fails where a list in sight does something by Enter and has no menu that says so, and where F1 would look for a page that
// is not there.
func choosable(t *testing.T, s *shell.Shell, name string) {
	t.Helper()
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *kit.Rows:
			if o.Choose != nil && o.Menu == nil {
				t.Errorf("%s has a list with something to choose and no menu", name)
			}
		case *kit.Grid:
			if o.Menu == nil {
				t.Errorf("%s has a table without a menu", name)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(s.Window().Canvas().Content())
	if word := s.Word(); word != "" {
		if _, err := fs.Stat(assets.Help(), word+".md"); err != nil {
			t.Errorf("%s: F1 opens no page: %v", name, err)
		}
	}
}

// over is whether something lies over the window.
func (st *stage) over() bool { return st.Window().Canvas().Overlays().Top() != nil }

// guided is a window with help and one book of two heads.
func guided(t *testing.T) *stage {
	t.Helper()
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 2)
	return newStageWith(t, newApp(t), folder, folder+"/heads.keeperbook", func(cfg *shell.Config) { cfg.Help = assets.Help() })
}

// The register shows what can be done with a head under the pointer, and by keys with the chosen one while something can be typed.
func TestMenuOfTheRegister(t *testing.T) {
	st := guided(t)
	st.write("zz")
	if st.press(desktop.KeyMenu); st.over() {
		t.Error("there is a menu of no head")
	}
	st.press(fyne.KeyEscape, fyne.KeyDown, desktop.KeyMenu)
	st.sees("Open (Enter)")
	st.press(fyne.KeyEscape)
	if st.over() {
		t.Fatal("Esc leaves the menu open")
	}
	st.write("KB-0001") // the keyboard is in the field again
	st.press(desktop.KeyMenu, fyne.KeyDown, fyne.KeyReturn)
	if st.bench == nil || st.bench.Record().Head.Tag != "KB-0001" {
		t.Errorf("opened is %+v", st.bench)
	}
}

// The other button of the pointer chooses the head under it, and opens nothing by itself.
func TestMenuUnderThePointer(t *testing.T) {
	st := guided(t)
	var lines []fyne.SecondaryTappable
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		l, ok := o.(fyne.SecondaryTappable)
		if _, field := o.(fyne.Focusable); ok && !field {
			lines = append(lines, l)
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(st.Window().Canvas().Content())
	lines[len(lines)-1].TappedSecondary(&fyne.PointEvent{AbsolutePosition: fyne.NewPos(40, 300)})
	if !st.over() || st.bench != nil {
		t.Fatalf("a menu is open: %v; the head is: %v", st.over(), st.bench != nil)
	}
	st.press(fyne.KeyDown, fyne.KeyReturn)
	if st.bench == nil || st.bench.Record().Head.Tag != "KB-0001" { // the older of two stands below
		t.Errorf("opened is %+v", st.bench)
	}
}

// F1 opens help from the welcome page, the register, a page of sentences and with the keyboard on nothing, and Esc leads back to where
// the keyboard was.
func TestHelpFromAnywhere(t *testing.T) {
	st := guided(t)
	c := st.Window().Canvas()
	for name, there := range map[string]func(){
		"register": func() {},
		"nothing":  func() { c.Unfocus() },
		"welcome":  func() { st.CloseBook() },
	} {
		there()
		had := c.Focused()
		st.press(fyne.KeyF1)
		st.sees("Shim stack")
		st.press(fyne.KeyEscape)
		if had != nil && c.Focused() != had {
			t.Errorf("%s: the keyboard is on %T, and was on %T", name, c.Focused(), had)
		}
		if name == "welcome" {
			st.Reopen(st.folder + "/heads.keeperbook")
		}
	}
	st.Keys()
	st.press(fyne.KeyF1)
	st.sees("Shim stack")
}

// Beneath a dialog nothing opens.
func TestNoHelpBeneathADialog(t *testing.T) {
	st := guided(t)
	st.NewHead()
	st.press(fyne.KeyF1)
	st.Guide()
	st.press(fyne.KeyEscape)
	if st.over() {
		t.Fatal("the dialog is still there")
	}
	st.sees("KB-0001")
}
