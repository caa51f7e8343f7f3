package kit

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// outline is a path as straight pieces, in pixels.
type outline struct {
	spots  []spot64
	closed bool
}

// lines breaks a path into outlines.
func (e *easel) lines(path vg.Path) (all []outline) {
	var here vg.Point
	var now outline
	end := func() {
		if len(now.spots) > 1 {
			all = append(all, now)
		}
		now = outline{}
	}
	to := func(p vg.Point) {
		here = p
		now.spots = append(now.spots, e.toPixel.at(float64(p.X), float64(p.Y)))
	}
	for _, c := range path {
		switch c.Type {
		case vg.MoveComp:
			end()
			to(c.Pos)
		case vg.LineComp:
			to(c.Pos)
		case vg.ArcComp:
			for _, p := range arc(c, e.toPixel.size()) {
				to(p)
			}
		case vg.CurveComp:
			for _, p := range curve(here, c, e.toPixel.size()) {
				to(p)
			}
		case vg.CloseComp:
			now.closed = true
			end()
		}
	}
	end()
	return all
}

// arc is a part of a circle in pieces of about two pixels; the first joins what was before.
func arc(c vg.PathComp, perPoint float64) (points []vg.Point) {
	length := math.Abs(c.Angle) * float64(c.Radius) * perPoint
	n := max(6, min(180, int(length/2)))
	for i := range n + 1 {
		sin, cos := math.Sincos(c.Start + c.Angle*float64(i)/float64(n))
		points = append(points, vg.Point{X: c.Pos.X + c.Radius*vg.Length(cos), Y: c.Pos.Y + c.Radius*vg.Length(sin)})
	}
	return points
}

// curve is a quadratic or a cubic curve from a point, without that point. A large curve needs more pieces
// than the round of a letter: what they miss of it falls with the square of their number.
func curve(from vg.Point, c vg.PathComp, perPoint float64) (points []vg.Point) {
	control := c.Control
	if len(control) == 0 {
		return []vg.Point{c.Pos}
	}
	length, last := 0.0, from
	for _, p := range append(append([]vg.Point(nil), control...), c.Pos) {
		length += math.Hypot(float64(p.X-last.X), float64(p.Y-last.Y)) * perPoint
		last = p
	}
	n := max(3, min(64, int(1.3*math.Sqrt(length))))
	for i := 1; i <= n; i++ {
		t := vg.Length(i) / vg.Length(n)
		u := 1 - t
		var p vg.Point
		if len(control) == 1 {
			p = from.Scale(u * u).Add(control[0].Scale(2 * u * t)).Add(c.Pos.Scale(t * t))
		} else {
			p = from.Scale(u * u * u).Add(control[0].Scale(3 * u * u * t)).Add(control[1].Scale(3 * u * t * t)).Add(c.Pos.Scale(t * t * t))
		}
		points = append(points, p)
	}
	return points
}

// dashed cuts an outline into its dashes; a solid line is one piece.
func (e *easel) dashed(line outline) []outline {
	total := 0.0
	for _, d := range e.dashes {
		total += d
	}
	if total <= 0 {
		return []outline{line}
	}
	spots := line.spots
	if line.closed {
		spots = append(append([]spot64(nil), spots...), spots[0])
	}
	perPoint := e.toPixel.size()
	n, left := e.dashAt(total)
	left *= perPoint
	var all []outline
	now := []spot64{spots[0]}
	for i := 1; i < len(spots); i++ {
		a, b := spots[i-1], spots[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		for at := 0.0; length-at > left; {
			at += left
			cut := spot64{a.x + (b.x-a.x)*at/length, a.y + (b.y-a.y)*at/length}
			if n%2 == 0 {
				all = append(all, outline{spots: append(now, cut)})
			}
			now = []spot64{cut}
			n = n + 1
			left = e.dashes[n%len(e.dashes)] * perPoint
			a, length, at = cut, length-at, 0
		}
		left -= length
		now = append(now, b)
	}
	if n%2 == 0 && len(now) > 1 {
		all = append(all, outline{spots: now})
	}
	return all
}

// dashAt returns which part of the pattern a line begins in, and how much of it is left, in points.
func (e *easel) dashAt(total float64) (n int, left float64) {
	at := math.Mod(e.offset, total)
	for at >= e.dashes[n%len(e.dashes)] {
		at -= e.dashes[n%len(e.dashes)]
		n++
	}
	return n, e.dashes[n%len(e.dashes)] - at
}
