package figure

import (
	"bytes"
	"io"
	"math"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"keeperbook/pdf/face"
)

// Drawing is one of this package.
type Drawing interface {
	Draw(c vg.Canvas, size vg.Point, look Look)
}

// perInch is the resolution of pictures, in pixels.
const perInch = 200

// SVG returns a drawing of a size in points as SVG 1.1. Its letters are outlines, so that it looks the same where their font
// is not to hand.
func SVG(d Drawing, size vg.Point, look Look) ([]byte, error) {
	c := vgsvg.New(size.X, size.Y)
	draw(d, c, size, look)
	return written(c)
}

// PNG returns a drawing of a size in points as a picture.
func PNG(d Drawing, size vg.Point, look Look) ([]byte, error) {
	c := vgimg.NewWith(vgimg.UseWH(size.X, size.Y), vgimg.UseDPI(perInch))
	draw(d, c, size, look)
	return written(vgimg.PngCanvas{Canvas: c})
}

func written(c io.WriterTo) ([]byte, error) {
	var b bytes.Buffer
	_, err := c.WriteTo(&b)
	return b.Bytes(), err
}

func draw(d Drawing, c vg.Canvas, size vg.Point, look Look) {
	c.SetColor(look.Paper)
	var ground vg.Path
	ground.Move(vg.Point{})
	ground.Line(vg.Point{X: size.X})
	ground.Line(size)
	ground.Line(vg.Point{Y: size.Y})
	ground.Close()
	c.Fill(ground)
	d.Draw(outlined{c}, size, look)
}

// outlined draws letters as what they are made of.
type outlined struct{ vg.Canvas }

// FillString is that of [vg.Canvas].
func (o outlined) FillString(f font.Face, at vg.Point, text string) {
	face.Outlines(f, at, text, o.Fill)
}

// Stroke is that of [vg.Canvas].
func (o outlined) Stroke(p vg.Path) { o.Canvas.Stroke(begun(p)) }

// Fill is that of [vg.Canvas].
func (o outlined) Fill(p vg.Path) { o.Canvas.Fill(begun(p)) }

// begun moves to where a path begins that begins with an arc: as SVG it would else begin with a line from nowhere, and not be drawn.
func begun(p vg.Path) vg.Path {
	if len(p) == 0 || p[0].Type != vg.ArcComp {
		return p
	}
	var all vg.Path
	sin, cos := math.Sincos(p[0].Start)
	all.Move(vg.Point{X: p[0].Pos.X + p[0].Radius*vg.Length(cos), Y: p[0].Pos.Y + p[0].Radius*vg.Length(sin)})
	return append(all, p...)
}
