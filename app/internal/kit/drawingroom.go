package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// DrawingRoom gives a drawing the height that its numbers take.
type DrawingRoom struct{}

// MinSize is the toolkit's.
func (DrawingRoom) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(1, 19*theme.TextSize())
}

// Layout is the toolkit's.
func (DrawingRoom) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}
