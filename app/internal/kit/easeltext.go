package kit

import (
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/face"
)

// FillString sets a text with the left end of its base line at a point.
func (e *easel) FillString(f font.Face, at vg.Point, text string) {
	face.Outlines(f, at, text, func(letter vg.Path) {
		for _, line := range e.lines(letter) {
			e.mask.polygon(line.spots)
		}
	})
	e.mask.press(e.ink)
}
