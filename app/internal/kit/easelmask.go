package kit

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/draw"
	"golang.org/x/image/vector"
)

// mask gathers polygons and puts them on an image in one ink. All polygons of a line are wound the same
// way, so that where they overlap the ink is not thicker.
type mask struct {
	onto     *image.RGBA
	polygons [][]spot64
	z        vector.Rasterizer
}

func (m *mask) polygon(spots []spot64) {
	if len(spots) > 2 {
		m.polygons = append(m.polygons, spots)
	}
}

// rule adds a line along an outline, so many pixels to either side.
func (m *mask) rule(line outline, half float64) {
	spots := line.spots
	if line.closed {
		spots = append(append([]spot64(nil), spots...), spots[0])
	}
	for i := 1; i < len(spots); i++ {
		a, b := spots[i-1], spots[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if length == 0 {
			continue
		}
		dx, dy := half*(b.x-a.x)/length, half*(b.y-a.y)/length
		m.polygon([]spot64{{a.x - dy, a.y + dx}, {b.x - dy, b.y + dx}, {b.x + dy, b.y - dx}, {a.x + dy, a.y - dx}})
		if i+1 < len(spots) || line.closed {
			m.polygon(round(b, half))
		}
	}
}

// round is a disc, wound the way the pieces of a line are.
func round(at spot64, radius float64) (spots []spot64) {
	const sides = 12
	for n := range sides {
		sin, cos := math.Sincos(-2 * math.Pi * float64(n) / sides)
		spots = append(spots, spot64{at.x + radius*cos, at.y + radius*sin})
	}
	return spots
}

// bounds of what was gathered, inside the image.
func (m *mask) bounds() image.Rectangle {
	low, high := spot64{math.Inf(1), math.Inf(1)}, spot64{math.Inf(-1), math.Inf(-1)}
	for _, p := range m.polygons {
		for _, s := range p {
			low.x, low.y = min(low.x, s.x), min(low.y, s.y)
			high.x, high.y = max(high.x, s.x), max(high.y, s.y)
		}
	}
	if low.x > high.x {
		return image.Rectangle{}
	}
	const far = 1 << 20
	whole := func(f func(float64) float64, v float64) int { return int(max(-far, min(far, f(v)))) }
	r := image.Rect(whole(math.Floor, low.x), whole(math.Floor, low.y), whole(math.Ceil, high.x), whole(math.Ceil, high.y))
	return r.Intersect(m.onto.Bounds())
}

// press puts what was gathered on the image. Only the part of it that has ink is looked at.
func (m *mask) press(ink color.Color) {
	r := m.bounds()
	if !r.Empty() {
		m.z.Reset(r.Dx(), r.Dy())
		m.z.DrawOp = draw.Over
		for _, p := range m.polygons {
			for i, s := range p {
				x, y := float32(s.x-float64(r.Min.X)), float32(s.y-float64(r.Min.Y))
				if i == 0 {
					m.z.MoveTo(x, y)
				} else {
					m.z.LineTo(x, y)
				}
			}
			m.z.ClosePath()
		}
		m.z.Draw(m.onto, r, image.NewUniform(ink), image.Point{})
	}
	m.polygons = m.polygons[:0]
}
