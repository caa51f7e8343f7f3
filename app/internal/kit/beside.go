package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Beside returns objects in one line, each with its share of the width; where a share is too narrow for
// what is in it they stand one under the other.
func Beside(shares []float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&besideLayout{shares: shares}, objects...)
}

// Panels returns groups one under the other, with more room between them than within them.
func Panels(groups ...fyne.CanvasObject) *fyne.Container {
	return container.New(&column{gap: 5}, groups...)
}

// Halves returns panels side by side, or one under the other where half of the width holds fewer letters
// of running text than these.
func Halves(letters float32, panels ...fyne.CanvasObject) *fyne.Container {
	shares := make([]float32, len(panels))
	for i := range shares {
		shares[i] = 1
	}
	return container.New(&besideLayout{shares: shares, letters: letters, gap: 3}, panels...)
}

// besideLayout shares a line out.
type besideLayout struct {
	shares  []float32
	letters float32 // least width of each, in letters of running text
	gap     float32 // in paddings of the theme beyond two
	width   float32
}

// widths shares a width out: nothing gets less than it needs, and the rest goes by shares. False where
// there is not room enough for one line.
func (l *besideLayout) widths(objects []fyne.CanvasObject, width float32) ([]float32, bool) {
	room := width - l.space()*float32(len(objects)-1)
	least := make([]float32, len(objects))
	for i, o := range objects {
		least[i] = max(o.MinSize().Width, l.letters*theme.TextSize())
	}
	each := make([]float32, len(objects))
	fixed := make([]bool, len(objects))
	for again := true; again; {
		again = false
		left, total := room, float32(0)
		for i := range objects {
			if fixed[i] {
				left -= least[i]
			} else {
				total += l.shares[i]
			}
		}
		if left < -0.5 {
			return nil, false
		}
		for i := range objects {
			each[i] = least[i]
			if fixed[i] {
				continue
			}
			if each[i] = left * l.shares[i] / total; each[i]+0.5 < least[i] {
				fixed[i], again = true, true
			}
		}
	}
	return each, true
}

func (l *besideLayout) space() float32 { return (2 + l.gap) * theme.Padding() }

// place calls put for every object with its corner and size, and returns the height of all.
func (l *besideLayout) place(objects []fyne.CanvasObject, width float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	each, line := l.widths(objects, width)
	x, y, high, low := float32(0), float32(0), float32(0), float32(0)
	if line {
		low = lowest(objects, func(i int) float32 { return each[i] })
	}
	for i, o := range objects {
		w, drop := width, float32(0)
		if line {
			w = each[i]
			drop = dropOf(o, w, low)
		}
		h := heightOf(o, w)
		put(o, fyne.NewPos(x, y+drop), fyne.NewSize(w, h))
		if line {
			x, high = x+w+l.space(), max(high, drop+h)
			continue
		}
		high = y + h
		y = high + l.space()
	}
	return high
}

func (l *besideLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return l.place(objects, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
}

// MinSize is the toolkit's.
func (l *besideLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	width := widest(objects)
	return fyne.NewSize(width, l.heightFor(objects, max(width, l.width)))
}

// Layout is the toolkit's.
func (l *besideLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objects, size.Width, put)
}
