package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
)

func key(g fyne.Focusable, name fyne.KeyName) { g.TypedKey(&fyne.KeyEvent{Name: name}) }

func TestGridHandsKeysOn(t *testing.T) {
	h := &hand{}
	g, w := window(t, h, false, 1, fyne.NewSize(800, 500))
	w.Canvas().Focus(g)
	for name, want := range map[fyne.KeyName]string{
		fyne.KeyReturn: "key 0 false", fyne.KeyEnter: "key 0 false", fyne.KeyTab: "key 1 false",
		fyne.KeyLeft: "key 3 false", fyne.KeyRight: "key 4 false", fyne.KeyUp: "key 5 false", fyne.KeyDown: "key 6 false",
		fyne.KeyHome: "key 7 false", fyne.KeyEnd: "key 8 false", fyne.KeyPageUp: "key 9 false", fyne.KeyPageDown: "key 10 false",
		fyne.KeyEscape: "key 11 false", fyne.KeyDelete: "key 12 false", fyne.KeyBackspace: "key 13 false",
		fyne.KeyF2: "key 14 false", fyne.KeyF3: "key 17 false", fyne.KeyF4: "key 18 false", fyne.KeyF7: "key 19 false",
		fyne.KeyF5: "", fyne.KeySpace: "", // a blank arrives as a character
	} {
		key(g, name)
		if got := h.taken(); got != want {
			t.Errorf("%s became %q, want %q", name, got, want)
		}
	}
	for _, r := range "1.8+ ″" {
		g.TypedRune(r)
	}
	if got := h.taken(); got != "rune 1; rune .; rune 8; rune +; rune  ; rune ″" {
		t.Errorf("characters became %q", got)
	}
}

// TestGridFollowsShift: the toolkit tells of Shift by itself, and not with the key it goes with.
func TestGridFollowsShift(t *testing.T) {
	h := &hand{}
	g, w := window(t, h, false, 1, fyne.NewSize(800, 500))
	w.Canvas().Focus(g)
	g.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	key(g, fyne.KeyDown)
	key(g, fyne.KeyTab)
	g.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	key(g, fyne.KeyTab)
	if got := h.taken(); got != "key 6 true; key 2 true; key 1 false" {
		t.Errorf("with Shift: %q", got)
	}
	// Shift that is let go while the keyboard is elsewhere is not down for ever.
	g.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	w.Canvas().Unfocus()
	w.Canvas().Focus(g)
	key(g, fyne.KeyDown)
	if got := h.taken(); got != "key 6 false" {
		t.Errorf("after the keyboard was away: %q", got)
	}
}

func TestGridShortcuts(t *testing.T) {
	h := &hand{copy: "1.842\t.700"}
	g, w := window(t, h, false, 1, fyne.NewSize(800, 500))
	clip := test.NewClipboard()
	clip.SetContent("1.842\n1.836\n")
	g.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	g.TypedShortcut(&fyne.ShortcutCopy{Clipboard: clip})
	g.TypedShortcut(&fyne.ShortcutUndo{})
	g.TypedShortcut(&fyne.ShortcutRedo{})
	g.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift})
	if got, want := h.taken(), `paste "1.842\n1.836\n"; copy; key 15 false; key 16 false; key 16 false`; got != want {
		t.Errorf("shortcuts became %q, want %q", got, want)
	}
	if clip.Content() != h.copy {
		t.Errorf("the clipboard holds %q", clip.Content())
	}
	// Nothing to copy leaves the clipboard as it is.
	h.copy = ""
	g.TypedShortcut(&fyne.ShortcutCopy{Clipboard: clip})
	if clip.Content() != "1.842\t.700" {
		t.Errorf("an empty copy left %q", clip.Content())
	}
	h.taken()
	find := &desktop.CustomShortcut{KeyName: fyne.KeyF, Modifier: fyne.KeyModifierControl}
	heard := 0
	w.Canvas().AddShortcut(find, func(fyne.Shortcut) { heard++ })
	g.TypedShortcut(find)
	if heard != 1 || h.taken() != "" {
		t.Errorf("the window heard of another shortcut %d times", heard)
	}
}

func TestGridIsLeftByF6(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	g := kit.NewGrid(&hand{})
	before, after := widget.NewEntry(), widget.NewEntry()
	w := test.NewWindow(container.NewVBox(before, g, after))
	c := w.Canvas()
	c.Focus(g)
	if !g.AcceptsTab() {
		t.Error("Tab would leave the table")
	}
	key(g, fyne.KeyF6)
	if c.Focused() != after {
		t.Errorf("F6 went to %T", c.Focused())
	}
	c.Focus(g)
	g.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(g, fyne.KeyF6)
	if c.Focused() != before {
		t.Errorf("Shift and F6 went to %T", c.Focused())
	}
}

func TestGridTap(t *testing.T) {
	h := &hand{}
	g, w := window(t, h, false, 1, fyne.NewSize(700, 300))
	c := w.Canvas()
	g.SetState(bench(64, 14))
	middle := func(want string) fyne.Position {
		x, at := text(t, c, want)
		return at.AddXY(x.Size().Width/2, x.Size().Height/2)
	}
	test.TapCanvas(c, middle("1.8365"))
	if got := h.taken(); got != "tap 1 1 false" || c.Focused() != g {
		t.Errorf("a tap told %q and left the keyboard with %T", got, c.Focused())
	}
	g.MouseDown(&desktop.MouseEvent{Modifier: fyne.KeyModifierShift})
	test.TapCanvas(c, middle("up to .598"))
	test.TapCanvas(c, middle("up to .598"))
	if got := h.taken(); got != "tap 3 0 true; tap 3 0 false" {
		t.Errorf("Shift and tap, then a tap alone, told %q", got)
	}
	test.TapCanvas(c, middle("2 in"))
	if got := h.taken(); got != "tap 2 1 false" {
		t.Errorf("a tap on a row's label told %q", got)
	}
	// Between two groups the nearer row is meant.
	x, in := text(t, c, "2 in")
	test.TapCanvas(c, in.AddXY(5, -2))
	test.TapCanvas(c, in.AddXY(5, -7))
	if got := h.taken(); got != "tap 2 1 false; tap 1 1 false" {
		t.Errorf("taps around the rule over %s told %q", x.Text, got)
	}
	test.TapCanvas(c, middle("verdict"))
	if got := h.taken(); got != "" {
		t.Errorf("a tap on a title told %q", got)
	}
	// The same points of the window mean other cells once the body is scrolled.
	s := bench(64, 14)
	s.Cursor = table.Place{Row: 40, Column: 12}
	s.Anchor = s.Cursor
	g.SetState(s)
	s.Cells[39][12].Text = "a mark"
	g.SetState(s)
	test.TapCanvas(c, middle("a mark"))
	if got := h.taken(); got != "tap 39 12 false" {
		t.Errorf("a tap in the scrolled body told %q", got)
	}
}

// TestGridSaysWhenItDoesNotListen: what a gauge types into another window cannot arrive.
func TestGridSaysWhenItDoesNotListen(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(800, 500))
	c := w.Canvas()
	shown := func() bool { return len(texts(c, "not listening")) == 1 }
	if shown() {
		t.Error("an empty table has nothing to listen for")
	}
	g.SetState(bench(12, 14))
	if !shown() {
		t.Error("the table does not say that it has no keyboard")
	}
	c.Focus(g)
	if shown() {
		t.Error("the table has the keyboard and says it has not")
	}
	g.FocusLost() // the toolkit's call when the window goes behind another
	if !shown() {
		t.Error("the window went away, and the table does not say so")
	}
	word, _ := text(t, c, "not listening")
	if word.TextSize < 30 {
		t.Errorf("the words are %g large", word.TextSize)
	}
	g.SetQuiet(true)
	if shown() {
		t.Error("a dialog is open, and the table speaks")
	}
	g.SetQuiet(false)
	if !shown() {
		t.Error("the dialog is gone, and the table is silent")
	}
	g.FocusGained()
	if shown() {
		t.Error("the keyboard is back, and the table has not seen it")
	}
}
