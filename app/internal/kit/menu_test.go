package kit_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
)

// lists is a window with a field above a list of three lines, which note what is done with them.
func lists(t *testing.T) (*stage, *kit.Field, *kit.Rows, *[]string) {
	t.Helper()
	done := &[]string{}
	r := kit.NewRows(nil, func(at kit.RowAt) { *done = append(*done, "open "+string(rune('a'+at.Row))) })
	r.Set([]kit.Row{{Cells: []kit.RowCell{{Text: "a"}}}, {Cells: []kit.RowCell{{Text: "b"}}}, {Cells: []kit.RowCell{{Text: "c"}}}})
	r.Typed = func(_ kit.RowAt, char rune) { *done = append(*done, "typed "+string(char)) }
	r.Menu = func(at kit.RowAt) []kit.Item {
		if at.Row == 2 {
			return nil
		}
		return []kit.Item{r.Enter("Open"), {Label: "Strike", Key: "X", Do: func() { *done = append(*done, "strike "+string(rune('a'+at.Row))) }}}
	}
	f := kit.NewField("above", "", nil)
	s := newStage(t, container.NewVBox(f, r))
	f.Focus()
	return s, f, r, done
}

// lies reports whether a menu, or anything else, lies over the window.
func (s *stage) lies() bool { return kit.DialogOpen(s.win) }

// other presses the other button of the pointer so far down on a list.
func other(r *kit.Rows, y float32) {
	r.TappedSecondary(&fyne.PointEvent{Position: fyne.NewPos(20, y), AbsolutePosition: fyne.NewPos(20, y+60)})
}

// The other button of the pointer puts the cursor on the line under it and shows what can be done there, each with its key; what is
// chosen is done to that line, and the keyboard is the list's.
func TestMenuByPointer(t *testing.T) {
	s, _, r, done := lists(t)
	other(r, r.HeightFor(r.Size().Width)/2) // the second of three
	if got := s.says(); got != "Open (Enter) Strike (X)" {
		t.Fatalf("the menu says %q", got)
	}
	if r.Cursor().Row != 1 || len(*done) != 0 {
		t.Errorf("the cursor is at %v, done %v", r.Cursor(), *done)
	}
	s.press(fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	if got := strings.Join(*done, ", "); got != "strike b" || s.lies() {
		t.Errorf("done is %q, open %v", got, s.lies())
	}
	s.press(fyne.KeyUp, fyne.KeyReturn)
	if got := strings.Join(*done, ", "); got != "strike b, open a" {
		t.Errorf("done is %q", got)
	}
}

// The menu stays within the window, and the pointer beside it puts it away.
func TestMenuInTheWindow(t *testing.T) {
	s, _, r, _ := lists(t)
	r.TappedSecondary(&fyne.PointEvent{Position: fyne.NewPos(20, 10), AbsolutePosition: fyne.NewPos(990, 690)})
	top := s.win.Canvas().Overlays().Top()
	each(top, func(o fyne.CanvasObject, at fyne.Position) {
		text, ok := o.(*canvas.Text)
		if low := at.AddXY(o.Size().Width, o.Size().Height); ok && (low.X > 1000 || low.Y > 700) {
			t.Errorf("%q reaches %v", text.Text, low)
		}
	})
	top.(fyne.Tappable).Tapped(&fyne.PointEvent{})
	if s.lies() || !r.Focused() {
		t.Error("the menu is still there, or the keyboard is not on the list")
	}
}

// Shift+F10 and the key for menus show the menu of the line, the cell or the pages under the cursor, and Esc or the same key gives the
// keyboard back.
func TestMenuByKeys(t *testing.T) {
	menuOf := func() []kit.Item { return []kit.Item{{Label: "Modify", Key: "F2", Do: func() {}}} }
	for name, create := range map[string]func() fyne.CanvasObject{
		"grid": func() fyne.CanvasObject {
			g := kit.NewGrid(&hand{})
			g.SetState(bench(4, 4))
			g.Menu = menuOf
			return g
		},
		"rows": func() fyne.CanvasObject {
			r := kit.NewRows(nil, func(kit.RowAt) {})
			r.Set([]kit.Row{{Cells: []kit.RowCell{{Text: "a"}}}})
			r.Menu = func(kit.RowAt) []kit.Item { return menuOf() }
			return r
		},
		"pages": func() fyne.CanvasObject {
			p := kit.NewPages()
			p.Menu = menuOf
			return p
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, create())
			c := s.win.Canvas()
			c.FocusNext()
			had := c.Focused()
			s.press(fyne.KeyF10)
			if s.lies() {
				t.Error("F10 without Shift opens a menu")
			}
			for _, put := range []fyne.KeyName{fyne.KeyEscape, desktop.KeyMenu} {
				s.press(desktop.KeyMenu)
				if got := s.says(); got != "Modify (F2)" {
					t.Fatalf("the menu says %q", got)
				}
				s.press(put)
				if s.lies() || c.Focused() != had {
					t.Errorf("%s leaves it open %v, and the keyboard on %T", put, s.lies(), c.Focused())
				}
			}
			kit.Hold(t, fyne.KeyModifierShift)
			s.press(fyne.KeyF10)
			if !s.lies() {
				t.Error("Shift+F10 opens nothing")
			}
		})
	}
}

// A table's menu is opened with Shift held, which is let go while the menu has the keyboard: Tab goes forward afterwards.
func TestMenuForgetsShift(t *testing.T) {
	h := &hand{}
	g := kit.NewGrid(h)
	g.SetState(bench(4, 4))
	g.Menu = func() []kit.Item { return []kit.Item{{Label: "Modify", Do: func() {}}} }
	s := newStage(t, g)
	kit.GiveKeyboard(g)
	kit.Hold(t, fyne.KeyModifierShift)
	g.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	s.press(fyne.KeyF10, fyne.KeyEscape)
	h.taken()
	s.press(fyne.KeyTab)
	want := &hand{}
	want.Key(table.Tab, false)
	if got := h.taken(); got != want.taken() {
		t.Errorf("Tab tells the table %s", got)
	}
}

// A field shows the menu of the toolkit by the same keys.
func TestMenuOfAField(t *testing.T) {
	s, f, _, _ := lists(t)
	s.press(desktop.KeyMenu)
	if !strings.Contains(s.says(), "Paste") {
		t.Errorf("the menu of a field says %q", s.says())
	}
	s.press(fyne.KeyEscape)
	if s.lies() || !f.Focused() {
		t.Error("the keyboard is not in the field again")
	}
}

// What a gauge types while a menu is open goes where the keyboard was, and chooses nothing.
func TestTypedOverAMenu(t *testing.T) {
	s, _, r, done := lists(t)
	r.Focus()
	s.press(desktop.KeyMenu, fyne.KeyDown)
	s.person(" 18", fyne.KeyReturn)
	if got := strings.Join(*done, ", "); got != "typed 1, typed 8, open a" || s.lies() {
		t.Errorf("done is %q, open %v", got, s.lies())
	}
}

// Where nothing can be done there is no menu, but for help where the window has a key for it.
func TestMenuOfNothing(t *testing.T) {
	s, _, r, _ := lists(t)
	r.Focus()
	s.press(fyne.KeyEnd, desktop.KeyMenu)
	if s.lies() {
		t.Errorf("there is a menu: %s", s.says())
	}
	pressed := ""
	s.win.Canvas().SetOnTypedKey(func(k *fyne.KeyEvent) { pressed += string(k.Name) })
	s.press(desktop.KeyMenu)
	if got := s.says(); got != "What this means (F1)" {
		t.Fatalf("the menu says %q", got)
	}
	if s.press(fyne.KeyUp, fyne.KeyReturn); pressed != "F1" || s.lies() {
		t.Errorf("the window was told %q", pressed)
	}
}
