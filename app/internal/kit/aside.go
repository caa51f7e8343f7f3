package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Aside sets what is asked for beside what comes of it: the first so many ems wide, the second the rest. Where the letters
// are so large that the second would be crowded, it lies below.
func Aside(ems float32, first, second fyne.CanvasObject) *fyne.Container {
	return container.New(aside{ems}, first, second)
}

type aside struct{ ems float32 }

func (a aside) wide() float32 { return a.ems * theme.TextSize() }

// MinSize is the toolkit's.
func (a aside) MinSize(o []fyne.CanvasObject) fyne.Size {
	x, y := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(x.Width, y.Width), x.Height+y.Height)
}

// Layout is the toolkit's.
func (a aside) Layout(o []fyne.CanvasObject, size fyne.Size) {
	first, second, at := fyne.NewSize(a.wide(), size.Height), fyne.NewSize(size.Width-a.wide(), size.Height), fyne.NewPos(a.wide(), 0)
	if second.Width < 1.5*a.wide() {
		first = fyne.NewSize(size.Width, 0.4*size.Height)
		second, at = fyne.NewSize(size.Width, size.Height-first.Height), fyne.NewPos(0, first.Height)
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(first)
	o[1].Move(at)
	o[1].Resize(second)
}
