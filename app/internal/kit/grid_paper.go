package kit

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
	"gonum.org/v1/plot/vg"
)

// gridPaper is as much of a drawing surface as a window bar needs: straight outlines, filled or ruled.
// The interface within holds nothing; it lends the methods that no bar calls.
type gridPaper struct {
	vg.Canvas
	image    *image.RGBA
	perPoint float32 // pixels
	width    float32 // of lines, in points
	ink      color.Color
}

func newGridPaper(w, h int, perPoint float32) *gridPaper {
	return &gridPaper{image: image.NewRGBA(image.Rect(0, 0, w, h)), perPoint: perPoint, width: 1, ink: color.Black}
}

// SetLineWidth takes the width in points.
func (p *gridPaper) SetLineWidth(w vg.Length) { p.width = float32(w) }

// SetLineDash knows solid lines only: a bar has no other.
func (p *gridPaper) SetLineDash([]vg.Length, vg.Length) {}

// SetColor takes the ink of what follows.
func (p *gridPaper) SetColor(c color.Color) { p.ink = c }

// Fill fills an outline.
func (p *gridPaper) Fill(path vg.Path) {
	z := p.rasterizer()
	for n, corner := range p.corners(path) {
		if n == 0 {
			z.MoveTo(corner.x, corner.y)
		} else {
			z.LineTo(corner.x, corner.y)
		}
	}
	z.ClosePath()
	p.press(z)
}

// Stroke rules a line along an outline, at least a pixel wide. Its ends are butt, its corners round.
func (p *gridPaper) Stroke(path vg.Path) {
	z := p.rasterizer()
	half := max(1, p.width*p.perPoint) / 2
	corners := p.corners(path)
	for n := 1; n < len(corners); n++ {
		a, b := corners[n-1], corners[n]
		long := float32(math.Hypot(float64(b.x-a.x), float64(b.y-a.y)))
		if long == 0 {
			continue
		}
		dx, dy := half*(b.x-a.x)/long, half*(b.y-a.y)/long
		z.MoveTo(a.x-dy, a.y+dx)
		z.LineTo(b.x-dy, b.y+dx)
		z.LineTo(b.x+dy, b.y-dx)
		z.LineTo(a.x+dy, a.y-dx)
		z.ClosePath()
		if n+1 < len(corners) || corners[0] == b {
			joint(z, b, half)
		}
	}
	p.press(z)
}

// joint rounds a corner. It turns the way the lines' rectangles do, so that the two add up.
func joint(z *vector.Rasterizer, at spot, radius float32) {
	const sides = 16
	for n := range sides {
		sin, cos := math.Sincos(-2 * math.Pi * float64(n) / sides)
		x, y := at.x+radius*float32(cos), at.y+radius*float32(sin)
		if n == 0 {
			z.MoveTo(x, y)
		} else {
			z.LineTo(x, y)
		}
	}
	z.ClosePath()
}

// spot is a point in pixels from the upper left.
type spot struct{ x, y float32 }

// corners returns an outline's points in pixels, the first again at its end where it is closed.
func (p *gridPaper) corners(path vg.Path) (all []spot) {
	height := float32(p.image.Bounds().Dy())
	for _, part := range path {
		if part.Type == vg.CloseComp && len(all) > 0 {
			all = append(all, all[0])
			continue
		}
		all = append(all, spot{float32(part.Pos.X) * p.perPoint, height - float32(part.Pos.Y)*p.perPoint})
	}
	return all
}

func (p *gridPaper) rasterizer() *vector.Rasterizer {
	b := p.image.Bounds()
	z := vector.NewRasterizer(b.Dx(), b.Dy())
	z.DrawOp = draw.Over
	return z
}

func (p *gridPaper) press(z *vector.Rasterizer) {
	z.Draw(p.image, p.image.Bounds(), image.NewUniform(p.ink), image.Point{})
}
