package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit/table"
)

var (
	_ fyne.Focusable    = (*Grid)(nil)
	_ fyne.Tabbable     = (*Grid)(nil)
	_ fyne.Shortcutable = (*Grid)(nil)
	_ fyne.Tappable     = (*Grid)(nil)
	_ fyne.Scrollable   = (*Grid)(nil)
	_ desktop.Keyable   = (*Grid)(nil)
	_ desktop.Mouseable = (*Grid)(nil)
)

// SetQuiet keeps the words "not listening" away while something else has the keyboard for good reason,
// such as a dialog.
func (g *Grid) SetQuiet(quiet bool) {
	if g.quiet == quiet {
		return
	}
	g.quiet = quiet
	g.lift()
}

// FocusGained is called by the toolkit when keys begin to arrive.
func (g *Grid) FocusGained() {
	g.focused = true
	g.shift = false
	// Whoever came with Shift and Tab still holds Shift.
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		g.shift = d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
	}
	g.lift()
}

// FocusLost is called by the toolkit when keys go elsewhere: to another widget, or another window.
func (g *Grid) FocusLost() {
	g.focused, g.shift = false, false
	g.lift()
}

func (g *Grid) lift() {
	g.veil.draw(g)
	canvas.Refresh(g.edge)
}

// AcceptsTab keeps Tab for the table; F6 leaves it.
func (g *Grid) AcceptsTab() bool { return true }

// TypedRune takes a character.
func (g *Grid) TypedRune(r rune) { g.to.Rune(r) }

// KeyDown and KeyUp follow Shift, which the toolkit does not name with a key.
func (g *Grid) KeyDown(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		g.shift = true
	}
}

// KeyUp is KeyDown's other half.
func (g *Grid) KeyUp(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		g.shift = false
	}
}

// TypedKey takes a key that is no character.
func (g *Grid) TypedKey(e *fyne.KeyEvent) {
	if Wherever(g, e) {
		return
	}
	key, ok := table.Key(0), true
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		key = table.Enter
	case fyne.KeyTab:
		key = table.Tab
		if g.shift {
			key = table.BackTab
		}
	case fyne.KeyLeft:
		key = table.Left
	case fyne.KeyRight:
		key = table.Right
	case fyne.KeyUp:
		key = table.Up
	case fyne.KeyDown:
		key = table.Down
	case fyne.KeyHome:
		key = table.Home
	case fyne.KeyEnd:
		key = table.End
	case fyne.KeyPageUp:
		key = table.PageUp
	case fyne.KeyPageDown:
		key = table.PageDown
	case fyne.KeyEscape:
		// Esc that has nothing to do in the table is the window's, as where nothing has the keyboard.
		if of, ok := g.to.(interface{ AtRest() bool }); ok && of.AtRest() {
			pass(g, e)
		}
		key = table.Escape
	case fyne.KeyDelete:
		key = table.Delete
	case fyne.KeyBackspace:
		key = table.Backspace
	case fyne.KeyF2:
		key = table.Modify
	case fyne.KeyF3:
		key = table.NextMissing
	case fyne.KeyF4:
		key = table.Beside
	case fyne.KeyF6:
		g.leave()
		return
	case fyne.KeyF7:
		key = table.Choose
	case fyne.KeyF8:
		key = table.Sure
	default:
		ok = false
	}
	if ok {
		g.to.Key(key, g.shift)
	}
}

// leave hands the keyboard to the next object of the window, with Shift to the one before.
func (g *Grid) leave() {
	c := canvasOf(g)
	switch {
	case c == nil:
	case g.shift:
		c.FocusPrevious()
	default:
		c.FocusNext()
	}
}

// TypedShortcut takes copy, paste, undo and redo, and passes everything else on to the window, which
// would not hear of it otherwise.
func (g *Grid) TypedShortcut(s fyne.Shortcut) {
	switch s := s.(type) {
	case *fyne.ShortcutPaste:
		g.to.Paste(s.Clipboard.Content())
		return
	case *fyne.ShortcutCopy:
		if text := g.to.Copy(); text != "" {
			s.Clipboard.SetContent(text)
		}
		return
	case *fyne.ShortcutUndo:
		g.to.Key(table.Undo, false)
		return
	case *fyne.ShortcutRedo:
		g.to.Key(table.Redo, false)
		return
	case *desktop.CustomShortcut:
		if s.KeyName == fyne.KeyZ && s.Modifier == fyne.KeyModifierShortcutDefault|fyne.KeyModifierShift {
			g.to.Key(table.Redo, false)
			return
		}
	}
	if c, ok := canvasOf(g).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// MouseDown notes whether Shift was held.
func (g *Grid) MouseDown(e *desktop.MouseEvent) {
	g.tapShift = e.Modifier&fyne.KeyModifierShift != 0
}

// MouseUp is of no interest; the toolkit calls Tapped.
func (g *Grid) MouseUp(*desktop.MouseEvent) {}

// Tapped gives the table the keyboard and tells which cell was meant. A tap on a row's label means the
// cursor's column in that row.
func (g *Grid) Tapped(e *fyne.PointEvent) {
	GiveKeyboard(g)
	at := g.plan.hit(e.Position.SubtractXY(g.plan.label, g.plan.head).Add(g.scroll.Offset))
	if e.Position.X < g.plan.label {
		at.Column = g.state.Cursor.Column
	}
	if e.Position.Y >= g.plan.head && g.has(at) {
		g.to.Tap(at, g.tapShift)
	}
	g.tapShift = false
}
