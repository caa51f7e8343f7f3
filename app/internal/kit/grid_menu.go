package kit

import "fyne.io/fyne/v2"

// TappedSecondary puts the cursor where the pointer is, and shows there what can be done with the cell. The keyboard is the
// table's again afterwards.
func (g *Grid) TappedSecondary(e *fyne.PointEvent) {
	g.Tapped(e)
	g.menuAt(e.AbsolutePosition)
}

// OpenMenu shows under the cursor's cell what can be done with it.
func (g *Grid) OpenMenu() {
	if !g.has(g.state.Cursor) {
		return
	}
	pos, size := g.plan.cell(g.state.Cursor)
	g.menuAt(placeOf(g, pos.AddXY(g.plan.label, g.plan.head+size.Height).Subtract(g.scroll.Offset)))
}

func (g *Grid) menuAt(at fyne.Position) {
	g.shift = false // the menu hears of it when Shift is let go
	var items []Item
	if g.Menu != nil {
		items = g.Menu()
	}
	ShowMenu(g, items, at)
}
