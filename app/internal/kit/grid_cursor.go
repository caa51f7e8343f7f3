package kit

import (
	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit/table"
)

// drawCursor puts outline, selection and the marks at header and labels where the cursor is.
func (g *Grid) drawCursor() {
	at, anchor := g.state.Cursor, g.state.Anchor
	here := g.has(at)
	show(g.cursor, here && g.state.Edit == nil) // the box of the edit takes its place
	show(g.head.here, here)
	show(g.labels.here, here)
	show(g.chosen, here && at != anchor && g.has(anchor))
	if !here {
		return
	}
	pos, size := g.plan.cell(at)
	put(g.cursor, pos, size)
	put(g.head.here, fyne.NewPos(pos.X, g.plan.over), fyne.NewSize(size.Width, g.plan.head-g.plan.over-1))
	put(g.labels.here, fyne.NewPos(0, pos.Y), fyne.NewSize(g.plan.label, size.Height))
	if g.chosen.Visible() {
		low, _ := g.plan.cell(table.Place{Row: min(at.Row, anchor.Row), Column: min(at.Column, anchor.Column)})
		high, last := g.plan.cell(table.Place{Row: max(at.Row, anchor.Row), Column: max(at.Column, anchor.Column)})
		put(g.chosen, low, fyne.NewSize(high.X+last.Width-low.X, high.Y+last.Height-low.Y))
	}
}

func put(o fyne.CanvasObject, pos fyne.Position, size fyne.Size) {
	o.Move(pos)
	o.Resize(size)
}

// follow scrolls the cursor's cell into view, with what is written under it while it is typed into.
func (g *Grid) follow() {
	if !g.has(g.state.Cursor) || g.scroll.Size().Width <= 0 || g.scroll.Size().Height <= 0 {
		return
	}
	pos, size := g.plan.cell(g.state.Cursor)
	low, high := pos, pos.Add(size)
	if bottom, right, ok := g.edit.extent(); ok {
		high = fyne.NewPos(max(high.X, right), max(high.Y, bottom))
	}
	view := g.scroll.Size()
	to := fyne.NewPos(
		within(g.scroll.Offset.X, low.X, high.X, view.Width),
		// Half a row more at either end shows whether the table goes on.
		within(g.scroll.Offset.Y, low.Y-size.Height/2, high.Y+size.Height/2, view.Height),
	)
	// The uppermost row is seen whole, whichever way the body was moved, and where it was not moved but the
	// header grew or the window did.
	if to.Y < g.scroll.Offset.Y {
		to.Y = g.plan.rowStart(to.Y, true, g.sizes.gap)
	} else {
		to.Y = min(low.Y, g.plan.rowStart(to.Y, false, g.sizes.gap))
	}
	g.scrollTo(fyne.NewPos(clamp(to.X, g.plan.width-view.Width), clamp(to.Y, g.plan.height-view.Height)))
}

// within returns the offset nearest to the one there is at which a stretch from low to high lies in
// view, its beginning where it is longer than the view.
func within(offset, low, high, view float32) float32 {
	offset = max(offset, high-view)
	return min(offset, low)
}

func clamp(offset, most float32) float32 { return max(0, min(offset, most)) }

// scrollTo scrolls the body. The toolkit's own call neither keeps to the ends nor tells of it.
func (g *Grid) scrollTo(to fyne.Position) {
	if to == g.scroll.Offset {
		return
	}
	g.scroll.ScrollToOffset(to)
	g.scrolled(to)
}

// scrolled keeps header and labels in step with the body.
func (g *Grid) scrolled(to fyne.Position) {
	g.head.band.Move(fyne.NewPos(-to.X, 0))
	g.labels.band.Move(fyne.NewPos(0, -to.Y))
	g.edit.slide(g)
}

// Scrolled takes a wheel that is turned over header or labels.
func (g *Grid) Scrolled(e *fyne.ScrollEvent) { g.scroll.Scrolled(e) }
