package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// A coil is wound so that its sections on the right stand half a turn over those on the left, and its
// ends are closed and ground flat. At any height its wires share the height evenly; solid, they touch.

// height of coil i at the view's lift, at full size.
func (v view) tall(i int) float64 { return v.coils[i].height - v.lift }

// pitch from wire to wire of coil i; never less than a wire, because a coil gets no shorter than solid.
func (v view) pitch(i int) float64 {
	c := v.coils[i]
	return max((v.tall(i)-c.wire())/float64(c.wires-1), c.wire())
}

// behind draws the half of coil i that lies behind the cut, rising from left to right.
func (v view) behind(i int) {
	c := v.coils[i]
	if !c.drawn {
		return
	}
	d, p, x := c.wire(), v.pitch(i), v.at[i]
	end := c.bottom + d + p*float64(c.wires-1)
	for n := range c.wires {
		z := c.bottom + p*float64(n)
		bar := []vg.Point{
			at(v.axis-x, v.y(z)), at(v.axis-x, v.y(z+d)),
			at(v.axis+x, v.y(min(z+p/2+d, end))), at(v.axis+x, v.y(min(z+p/2, end))),
		}
		v.fill(v.look.Paper, bar...)
		v.line(thin, v.look.Faint, bar[0], bar[3])
		v.line(thin, v.look.Faint, bar[1], bar[2])
	}
}

// cut draws the wires of coil i where the cut meets them. The governing coil is the dark one.
func (v view) cut(i int) {
	c := v.coils[i]
	if !c.drawn {
		v.envelope(i)
		return
	}
	d, p, x := c.wire(), v.pitch(i), v.at[i]
	end := c.bottom + d + p*float64(c.wires-1)
	for n := range c.wires {
		v.wireAt(i, v.axis-x, c.bottom+d/2+p*float64(n), c.bottom, end)
	}
	for n := -1; n < c.wires; n++ {
		v.wireAt(i, v.axis+x, c.bottom+d/2+p*(float64(n)+0.5), c.bottom, end)
	}
}

// wireAt draws one section of a wire, ground flat where it would stand out over the coil's ends.
func (v view) wireAt(i int, x vg.Length, z, low, high float64) {
	r := v.coils[i].wire() / 2
	from, to := math.Asin(clamp((low-z)/r)), math.Asin(clamp((high-z)/r))
	if from >= to {
		return
	}
	mid2 := at(x, v.y(z))
	radius := vg.Length(r * v.scale)
	var p vg.Path
	// A wire that only touches an end is round; how near is near enough, in radians, is rounding.
	const near = 0.01
	switch {
	case from <= near-math.Pi/2 && to >= math.Pi/2-near:
		p.Move(at(x+radius, mid2.Y))
		p.Arc(mid2, radius, 0, 2*math.Pi)
	case to >= math.Pi/2-near:
		p.Move(v.onWire(mid2, radius, from))
		p.Arc(mid2, radius, from, math.Pi-2*from)
	default:
		p.Move(v.onWire(mid2, radius, math.Pi-to))
		p.Arc(mid2, radius, math.Pi-to, math.Pi+2*to)
	}
	p.Close()
	v.c.SetColor(v.look.Fill)
	if i == v.governing {
		v.c.SetColor(v.shade(0.62))
	}
	v.c.Fill(p)
	v.c.SetLineDash(nil, 0)
	v.c.SetLineWidth(mid)
	v.c.SetColor(v.look.Ink)
	v.c.Stroke(p)
}

func (v view) onWire(centre vg.Point, r vg.Length, angle float64) vg.Point {
	s, k := math.Sincos(angle)
	return at(centre.X+r*vg.Length(k), centre.Y+r*vg.Length(s))
}

func clamp(x float64) float64 { return math.Max(-1, math.Min(1, x)) }

// envelope marks where a coil stands whose bind height is not known: its wires are left out.
func (v view) envelope(i int) {
	c := v.coils[i]
	height := v.tall(i)
	if c.height == 0 {
		return
	}
	v.mirrored(func(x func(vg.Length) vg.Length) {
		box := rectangle(x(v.at[i]-v.wire[i]/2), v.y(c.bottom), x(v.at[i]+v.wire[i]/2), v.y(c.bottom+height))
		v.dashed(mid, v.look.Faint, []vg.Length{3, 2.5}, append(box, box[0])...)
	})
}
