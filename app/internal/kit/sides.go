package kit

import "fyne.io/fyne/v2"

// Sides gives the lists two fifths of the width and the fields the rest; where there is no list, all. Where half the width is too
// little for what is in the lists, they lie above.
type Sides struct{}

// MinSize is the toolkit's.
func (Sides) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

// Layout is the toolkit's.
func (Sides) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	lists, fields := objects[0], objects[1]
	if !lists.Visible() {
		put(fields, fyne.NewPos(0, 0), size)
		return
	}
	least := lists.MinSize().Width
	if least > size.Width/2 {
		high := 0.45 * size.Height
		put(lists, fyne.NewPos(0, 0), fyne.NewSize(size.Width, high))
		put(fields, fyne.NewPos(0, high), fyne.NewSize(size.Width, size.Height-high))
		return
	}
	w := max(0.38*size.Width, least)
	put(lists, fyne.NewPos(0, 0), fyne.NewSize(w, size.Height))
	put(fields, fyne.NewPos(w, 0), fyne.NewSize(size.Width-w, size.Height))
}
