package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// DrawingRoom gives a drawing the height that its numbers take.
type DrawingRoom struct {
	Lines float32 // how high it is in sizes of running text; nought is the usual height
}

// MinSize is the toolkit's.
func (r DrawingRoom) MinSize([]fyne.CanvasObject) fyne.Size {
	lines := r.Lines
	if lines == 0 {
		lines = 19
	}
	return fyne.NewSize(1, lines*theme.TextSize())
}

// Layout is the toolkit's.
func (DrawingRoom) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}
