package shell_test

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/shell"
)

// The window fits a small screen in the largest letters, whatever is open in it, and everything stays
// within it.
func TestFitsSmallScreens(t *testing.T) {
	for _, scale := range []float64{0.8, 1, 1.5, 2} {
		app, folder := newApp(t), t.TempDir()
		path := filepath.Join(folder, "shop.keeperbook")
		fill(t, path, 3)
		m := shell.OpenMemory(filepath.Join(folder, "window.json"))
		m.Show(func(l *shell.Look) { l.Scale = scale })
		shut(t, m)
		st := newStage(t, app, folder, path)
		fits := func(what string) {
			t.Helper()
			c := st.Window().Canvas()
			if least := c.Content().MinSize(); least.Width > 700 || least.Height > 560 {
				t.Errorf("at %g %s needs %v", scale, what, least)
			}
			for _, size := range []fyne.Size{fyne.NewSize(1366, 700), fyne.NewSize(900, 560)} {
				st.Window().Resize(size)
				for _, o := range c.Content().(*fyne.Container).Objects {
					low := o.Position().AddXY(o.Size().Width, o.Size().Height)
					if o.Visible() && (o.Position().X < 0 || o.Position().Y < 0 || low.X > size.Width+0.5 || low.Y > size.Height+0.5) {
						t.Errorf("at %g in %v %s: %T is at %v, %v large", scale, size, what, o, o.Position(), o.Size())
					}
				}
			}
		}
		fits("the register")
		st.press(fyne.KeyReturn)
		fits("a head")
		st.menu("Find head")
		fits("a head beside the register")
		st.menu("Close book")
		fits("the welcome page")
	}
}

// Where there is no room for both, the register is seen alone until it is folded.
func TestRegisterAlone(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 1)
	st := newStage(t, app, folder, path)
	st.press(fyne.KeyReturn)
	head := st.bench.Record().Head.Tag + "\n" // as the heading says it
	st.menu("Find head")
	both := func() (register, head bool) {
		words := st.words()
		return strings.Contains(words, "Find a head"), strings.Contains(words, "Needs")
	}
	for _, c := range []struct {
		width float32
		head  bool
	}{{1180, true}, {700, false}, {1180, true}} {
		st.Window().Resize(fyne.NewSize(c.width, 700))
		if r, h := both(); !r || h != c.head {
			t.Errorf("%g wide: register %v, head %v", c.width, r, h)
		}
	}
	st.Window().Resize(fyne.NewSize(700, 700))
	st.press(fyne.KeyEscape)
	if r, h := both(); r || !h {
		t.Errorf("folded: register %v, head %v", r, h)
	}
	st.sees(strings.TrimSpace(head))
}
