package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// menu lies over a window until something in it is chosen, Esc or the pointer puts it away, or something is typed: a gauge that
// types does not look, so what is typed goes on to where the keyboard was.
type menu struct {
	widget.BaseWidget
	canvas fyne.Canvas
	list   *widget.Menu
	edge   *canvas.Rectangle
	at     fyne.Position
}

func newMenu(c fyne.Canvas, items []Item, at fyne.Position) *menu {
	m := &menu{canvas: c, at: at, edge: canvas.NewRectangle(nil)}
	var all []*fyne.MenuItem
	for _, i := range items {
		all = append(all, fyne.NewMenuItem(i.String(), i.Do))
	}
	m.list = widget.NewMenu(fyne.NewMenu("", all...))
	m.list.OnDismiss = m.close
	m.ExtendBaseWidget(m)
	return m
}

func (m *menu) show() {
	m.canvas.Overlays().Add(m)
	m.Resize(m.canvas.Size())
	m.canvas.Focus(m)
}

// close takes the menu away. What had the keyboard below was never told that it lost it, and so has it again.
func (m *menu) close() { takeAway(m.canvas, m) }

// Tapped puts the menu away where it is tapped beside it.
func (m *menu) Tapped(*fyne.PointEvent) { m.close() }

// TappedSecondary does too.
func (m *menu) TappedSecondary(*fyne.PointEvent) { m.close() }

// FocusGained is the toolkit's; the menu has nothing to show for it.
func (m *menu) FocusGained() {}

// FocusLost is the toolkit's.
func (m *menu) FocusLost() {}

// TypedRune hands on what is typed. Gauges may send a space before a number.
func (m *menu) TypedRune(r rune) {
	if r == ' ' {
		return
	}
	m.close()
	if f := m.canvas.Focused(); f != nil {
		f.TypedRune(r)
	}
}

// TypedKey goes through the menu and chooses.
func (m *menu) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyDown:
		m.list.ActivateNext()
	case fyne.KeyUp:
		m.list.ActivatePrevious()
	case fyne.KeyHome:
		m.list.DeactivateChild()
		m.list.ActivateNext()
	case fyne.KeyEnd:
		m.list.DeactivateChild()
		m.list.ActivatePrevious()
	case fyne.KeyReturn, fyne.KeyEnter:
		m.list.TriggerLast()
	case fyne.KeyEscape:
		m.close()
	case fyne.KeyF1:
		m.close()
		if help := m.canvas.OnTypedKey(); help != nil {
			help(k)
		}
	default:
		if ofMenu(k) {
			m.close()
		}
	}
}

// CreateRenderer is the toolkit's.
func (m *menu) CreateRenderer() fyne.WidgetRenderer { return coloured(menuRenderer{m}) }

type menuRenderer struct{ m *menu }

func (r menuRenderer) Destroy()                     {}
func (r menuRenderer) MinSize() fyne.Size           { return fyne.NewSize(1, 1) }
func (r menuRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.m.list, r.m.edge} }

// Refresh draws a line of ink round the menu, which in the dark would hardly stand off.
func (r menuRenderer) Refresh() {
	r.m.edge.StrokeColor, r.m.edge.StrokeWidth, r.m.edge.FillColor = palette(r.m).Ink, 1, color.Transparent
	r.Layout(r.m.Size())
	r.m.edge.Refresh()
	r.m.list.Refresh()
}

// Layout keeps the menu within the window.
func (r menuRenderer) Layout(size fyne.Size) {
	list := r.m.list.MinSize()
	at := fyne.NewPos(max(0, min(r.m.at.X, size.Width-list.Width)), max(0, min(r.m.at.Y, size.Height-list.Height)))
	put(r.m.list, at, list)
	put(r.m.edge, at, list)
}

// CloseMenu puts a menu over a window away, where one is shown: a shortcut goes past it, and what it was shown for may then be gone.
func CloseMenu(win fyne.Window) {
	if m, ok := win.Canvas().Overlays().Top().(*menu); ok {
		m.close()
	}
}
