package figure

import (
	"bytes"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	plotfont "gonum.org/v1/plot/font"
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
func (o outlined) FillString(f plotfont.Face, at vg.Point, text string) {
	var buf sfnt.Buffer
	units := fixed.Int26_6(f.Face.UnitsPerEm()) << 6
	scale := f.Font.Size / vg.Length(units) // points for a unit of the font's own in 26.6
	before, first := sfnt.GlyphIndex(0), true
	for _, r := range text {
		glyph, err := f.Face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		if kern, err := f.Face.Kern(&buf, before, glyph, units, font.HintingNone); err == nil && !first {
			at.X += vg.Length(kern) * scale
		}
		before, first = glyph, false
		if p := outline(f.Face, &buf, glyph, units, at, scale); len(p) > 0 {
			o.Fill(p)
		}
		if wide, err := f.Face.GlyphAdvance(&buf, glyph, units, font.HintingNone); err == nil {
			at.X += vg.Length(wide) * scale
		}
	}
}

// outline is what a sign is made of, standing on a point.
func outline(f *opentype.Font, buf *sfnt.Buffer, glyph sfnt.GlyphIndex, units fixed.Int26_6, at vg.Point, scale vg.Length) (p vg.Path) {
	segments, err := f.LoadGlyph(buf, glyph, units, nil)
	if err != nil {
		return nil
	}
	place := func(q fixed.Point26_6) vg.Point {
		return vg.Point{X: at.X + vg.Length(q.X)*scale, Y: at.Y - vg.Length(q.Y)*scale} // fonts count downwards here
	}
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(p) > 0 {
				p.Close()
			}
			p.Move(place(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			p.Line(place(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			p.QuadTo(place(s.Args[0]), place(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			p.CubeTo(place(s.Args[0]), place(s.Args[1]), place(s.Args[2]))
		}
	}
	if len(p) > 0 {
		p.Close()
	}
	return p
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
