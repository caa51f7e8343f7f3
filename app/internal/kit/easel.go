package kit

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"
	"gonum.org/v1/plot/vg"
)

// easel is a drawing surface of pixels for whatever draws on a vg.Canvas. Letters are drawn from their
// outlines, so that they stand where the drawing puts them at any resolution and any turn.
type easel struct {
	stroke
	image *image.RGBA
	saved []stroke
	mask  *mask
}

// stroke is what Push keeps and Pop brings back.
type stroke struct {
	width   float64 // of lines, in points
	dashes  []float64
	offset  float64
	ink     color.Color
	toPixel affine
}

// affine takes a point of the drawing to a pixel: x' = a·x + b·y + c, y' = d·x + e·y + f.
type affine struct{ a, b, c, d, e, f float64 }

func (m affine) at(x, y float64) spot64 {
	return spot64{m.a*x + m.b*y + m.c, m.d*x + m.e*y + m.f}
}

// after returns the map that does inner first and then m.
func (m affine) after(n affine) affine {
	return affine{
		m.a*n.a + m.b*n.d, m.a*n.b + m.b*n.e, m.a*n.c + m.b*n.f + m.c,
		m.d*n.a + m.e*n.d, m.d*n.b + m.e*n.e, m.d*n.c + m.e*n.f + m.f,
	}
}

// size is how much longer a length gets on the whole.
func (m affine) size() float64 { return math.Sqrt(math.Abs(m.a*m.e - m.b*m.d)) }

// spot64 is a place in pixels from the upper left.
type spot64 struct{ x, y float64 }

// newEasel returns a surface of w by h pixels with so many pixels to a point.
func newEasel(w, h int, perPoint float64, ground color.Color) *easel {
	e := &easel{image: image.NewRGBA(image.Rect(0, 0, w, h))}
	draw.Draw(e.image, e.image.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	e.mask = &mask{onto: e.image}
	e.stroke = stroke{width: 1, ink: color.Black, toPixel: affine{a: perPoint, e: -perPoint, f: float64(h)}}
	return e
}

// SetLineWidth takes the width in points.
func (e *easel) SetLineWidth(w vg.Length) { e.width = float64(w) }

// SetLineDash takes the lengths of dashes and gaps in points.
func (e *easel) SetLineDash(pattern []vg.Length, offset vg.Length) {
	e.dashes, e.offset = nil, float64(offset)
	for _, p := range pattern {
		e.dashes = append(e.dashes, float64(p))
	}
}

// SetColor takes the ink of what follows; nil is black.
func (e *easel) SetColor(c color.Color) {
	if c == nil {
		c = color.Black
	}
	e.ink = c
}

// Rotate turns what follows to the left, in radians.
func (e *easel) Rotate(by float64) {
	sin, cos := math.Sincos(by)
	e.toPixel = e.toPixel.after(affine{a: cos, b: -sin, d: sin, e: cos})
}

// Translate moves what follows.
func (e *easel) Translate(by vg.Point) {
	e.toPixel = e.toPixel.after(affine{a: 1, c: float64(by.X), e: 1, f: float64(by.Y)})
}

// Scale stretches what follows.
func (e *easel) Scale(x, y float64) { e.toPixel = e.toPixel.after(affine{a: x, e: y}) }

// Push keeps the pen as it is.
func (e *easel) Push() { e.saved = append(e.saved, e.stroke) }

// Pop brings the pen back that was kept last.
func (e *easel) Pop() {
	last := len(e.saved) - 1
	e.stroke, e.saved = e.saved[last], e.saved[:last]
}

// Fill fills an outline.
func (e *easel) Fill(path vg.Path) {
	for _, line := range e.lines(path) {
		e.mask.polygon(line.spots)
	}
	e.mask.press(e.ink)
}

// thinnest is the least width of a line in pixels: a hair on paper is grey mist on a screen.
const thinnest = 0.8

// Stroke rules a line along an outline. Its ends are cut square and its corners round.
func (e *easel) Stroke(path vg.Path) {
	if e.width <= 0 {
		return
	}
	half := max(thinnest, e.width*e.toPixel.size()) / 2
	for _, line := range e.lines(path) {
		for _, piece := range e.dashed(line) {
			e.mask.rule(piece, half)
		}
	}
	e.mask.press(e.ink)
}

// DrawImage puts an image into a rectangle.
func (e *easel) DrawImage(rect vg.Rectangle, img image.Image) {
	b := img.Bounds()
	size := rect.Size()
	x, y := float64(size.X)/float64(b.Dx()), float64(size.Y)/float64(b.Dy())
	// Images count their rows from the top.
	m := e.toPixel.after(affine{
		a: x, c: float64(rect.Min.X) - x*float64(b.Min.X), e: -y, f: float64(rect.Max.Y) + y*float64(b.Min.Y),
	})
	draw.BiLinear.Transform(e.image, f64.Aff3{m.a, m.b, m.c, m.d, m.e, m.f}, img, b, draw.Over, nil)
}
