package pdf

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/seal"
)

// unprinted is a mark that a screen draws and the page does not carry: on paper a reader draws it out of the place of a
// signature, so that the page itself is what the record alone gives.
type unprinted struct{ mark }

func (unprinted) print(*printer) {}

// penned is a signature drawn by hand with its field's upper left corner at x and y, as high as the place of a signature.
type penned struct {
	x, y, high float64
	ink        seal.Ink
}

func (penned) print(*printer) {}

func (k penned) draw(c vg.Canvas, height float64) {
	unit := k.high / seal.InkHigh
	at := func(d seal.Dot) vg.Point { return spot(k.x+float64(d.X)*unit, height-k.y-float64(d.Y)*unit) }
	c.SetColor(color.Black)
	width := vg.Length(seal.Pen * unit)
	c.SetLineWidth(width)
	for _, s := range k.ink {
		var p vg.Path
		p.Move(at(s[0]))
		for _, d := range s[1:] {
			p.Line(at(d))
		}
		if len(s) > 1 {
			c.Stroke(p)
		}
		for _, d := range []seal.Dot{s[0], s[len(s)-1]} { // the pen is round
			var end vg.Path
			end.Move(at(d).Add(vg.Point{X: width / 2}))
			end.Arc(at(d), width/2, 0, 2*math.Pi)
			end.Close()
			c.Fill(end)
		}
	}
}
