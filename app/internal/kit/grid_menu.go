package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Item is one thing that a menu over a cell does.
type Item struct {
	Label string
	Do    func()
}

// TappedSecondary puts the cursor where the pointer is, and shows there what can be done with the cell. The keyboard is the
// table's again afterwards.
func (g *Grid) TappedSecondary(e *fyne.PointEvent) {
	g.Tapped(e)
	c := canvasOf(g)
	if g.Menu == nil || c == nil {
		return
	}
	var items []*fyne.MenuItem
	for _, i := range g.Menu() {
		items = append(items, fyne.NewMenuItem(i.Label, func() {
			GiveKeyboard(g)
			i.Do()
		}))
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, e.AbsolutePosition)
}
