package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Under returns a table with something below it that it is worked out or drawn in, and a bar between them
// that can be dragged. Until it is, what is below has the height that it is wanted in, or a third of a high
// window; in a low one the table comes first.
func Under(table, below fyne.CanvasObject) *fyne.Container {
	split := container.NewVSplit(table, below)
	return container.New(&underLayout{split: split}, split)
}

// Heights in toolkit units at 100 %.
const (
	wantedBelow = 270 // a section with its numbers and the gap enlarged
	leastTable  = 250 // the heads and four cylinders
	shareBelow  = 0.36
)

type underLayout struct {
	split *container.Split
	set   float64 // the offset that was set last; another one is a person's
}

// MinSize is the toolkit's.
func (u *underLayout) MinSize([]fyne.CanvasObject) fyne.Size { return u.split.MinSize() }

// Layout is the toolkit's.
func (u *underLayout) Layout(_ []fyne.CanvasObject, room fyne.Size) {
	if (u.set == 0 || u.split.Offset == u.set) && room.Height > 0 {
		scale := theme.TextSize() / size(theme.SizeNameText)
		below := max(shareBelow*room.Height, wantedBelow*scale)
		below = max(0, min(below, room.Height-leastTable*scale))
		u.split.Offset = float64(1 - below/room.Height)
		u.set = u.split.Offset
	}
	put(u.split, fyne.NewPos(0, 0), room)
}
