package figure

import (
	"image/color"
	"math"
	"sort"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Widths of lines in points: what is cut, what is seen, what measures.
const (
	heavy vg.Length = 1.1
	mid   vg.Length = 0.7
	thin  vg.Length = 0.4
)

// brush draws the few shapes that drawings are made of.
type brush struct {
	c    vg.Canvas
	look Look
}

func at(x, y vg.Length) vg.Point { return vg.Point{X: x, Y: y} }

func (b brush) line(width vg.Length, col color.Color, points ...vg.Point) {
	b.c.SetLineDash(nil, 0)
	b.stroke(width, col, points)
}

func (b brush) dashed(width vg.Length, col color.Color, dash []vg.Length, points ...vg.Point) {
	b.c.SetLineDash(dash, 0)
	b.stroke(width, col, points)
	b.c.SetLineDash(nil, 0)
}

func (b brush) stroke(width vg.Length, col color.Color, points []vg.Point) {
	b.c.SetLineWidth(width)
	b.c.SetColor(col)
	b.c.Stroke(path(points))
}

// fill fills a closed outline.
func (b brush) fill(col color.Color, points ...vg.Point) {
	b.c.SetColor(col)
	b.c.Fill(closed(points))
}

// outline rules a closed outline.
func (b brush) outline(width vg.Length, col color.Color, points ...vg.Point) {
	b.c.SetLineDash(nil, 0)
	b.c.SetLineWidth(width)
	b.c.SetColor(col)
	b.c.Stroke(closed(points))
}

func path(points []vg.Point) vg.Path {
	var p vg.Path
	for i, pt := range points {
		if i == 0 {
			p.Move(pt)
		} else {
			p.Line(pt)
		}
	}
	return p
}

func closed(points []vg.Point) vg.Path {
	p := path(points)
	p.Close()
	return p
}

func rectangle(x1, y1, x2, y2 vg.Length) []vg.Point {
	return []vg.Point{at(x1, y1), at(x2, y1), at(x2, y2), at(x1, y2)}
}

// hatch rules parallel lines across a closed outline, at an angle in degrees and a distance apart. The
// lines are anchored to the canvas and not to the outline, so that neighbouring faces of one part match.
func (b brush) hatch(points []vg.Point, degrees float64, apart, width vg.Length, col color.Color) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	across := func(p vg.Point) float64 { return float64(p.Y)*cos - float64(p.X)*sin }
	along := func(p vg.Point) float64 { return float64(p.X)*cos + float64(p.Y)*sin }
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = math.Min(low, across(p)), math.Max(high, across(p))
	}
	step := float64(apart)
	for d := math.Ceil(low/step) * step; d < high; d += step {
		var cuts []float64
		for i, p := range points {
			q := points[(i+1)%len(points)]
			dp, dq := across(p)-d, across(q)-d
			if (dp < 0) != (dq < 0) {
				t := dp / (dp - dq)
				cuts = append(cuts, along(p)+t*(along(q)-along(p)))
			}
		}
		sort.Float64s(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			on := func(s float64) vg.Point { return at(vg.Length(s*cos-d*sin), vg.Length(s*sin+d*cos)) }
			b.line(width, col, on(cuts[i]), on(cuts[i+1]))
		}
	}
}

// side says which point of a text is meant by its place: −1 its left, 0 its middle, 1 its right end.
type side float64

const (
	left   side = -1
	centre side = 0
	right  side = 1
)

// text sets a line with the middle of its digits at y. It first clears the ground under itself where
// bare is true, so that lines behind it stay readable as lines.
func (b brush) text(f font.Face, s side, p vg.Point, bare bool, line string) {
	if line == "" {
		return
	}
	w := f.Width(line)
	x := p.X - w*vg.Length(s+1)/2
	h := f.Font.Size
	if bare {
		b.fill(b.look.Paper, rectangle(x-1.5, p.Y-h*0.52, x+w+1.5, p.Y+h*0.56)...)
	}
	b.c.SetColor(b.look.Ink)
	b.c.FillString(f, at(x, p.Y-h*0.36), line)
}

// wide returns the width of a line in one of the look's faces.
func wide(f font.Face, line string) vg.Length { return f.Width(line) }
