package kit

import "fyne.io/fyne/v2"

// TappedSecondary gives the list the keyboard, puts the cursor where the pointer is, and shows what can be done with that line.
func (r *Rows) TappedSecondary(e *fyne.PointEvent) {
	at, ok := r.hit(e.Position)
	if !ok {
		return
	}
	r.Focus()
	r.move(at)
	r.menuAt(e.AbsolutePosition)
}

// OpenMenu shows under the cursor's line what can be done with it.
func (r *Rows) OpenMenu() {
	if r.cursor.Row < len(r.rows) {
		r.menuAt(placeOf(r, fyne.NewPos(r.plan.label+float32(r.cursor.Cell)*r.plan.each, r.plan.tops[r.cursor.Row+1])))
	}
}

func (r *Rows) menuAt(at fyne.Position) {
	var items []Item
	if r.Menu != nil && r.cursor.Cell < len(r.rows[r.cursor.Row].Cells) {
		items = r.Menu(r.cursor)
	}
	ShowMenu(r, items, at)
}

// Enter is the item of what Enter does with the cell under the cursor.
func (r *Rows) Enter(label string) Item { return Enter(label, r.choose) }

// Named puts what Enter does into the menu over every cell, alone, and returns the list.
func (r *Rows) Named(label string) *Rows {
	r.Menu = func(RowAt) []Item { return []Item{r.Enter(label)} }
	return r
}
