package kit

import "fyne.io/fyne/v2"

// Sides gives the lists two fifths of the width and the fields the rest; where there is no list, all.
type Sides struct{}

// MinSize is the toolkit's.
func (Sides) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

// Layout is the toolkit's.
func (Sides) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := float32(0)
	if objects[0].Visible() {
		w = max(0.38*size.Width, min(objects[0].MinSize().Width, size.Width/2))
	}
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(w, size.Height))
	objects[1].Move(fyne.NewPos(w, 0))
	objects[1].Resize(fyne.NewSize(size.Width-w, size.Height))
}
