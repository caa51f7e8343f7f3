package figure

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
)

// readings puts the marks. A struck one is pale and crossed through; an outlying one has a ring and its
// number.
func (p *plot) readings() {
	r := markSize(p.look.TextSize)
	for i, one := range p.study.Of.Readings {
		spot := at(p.x(i), p.y(one.Quantity.Length()))
		who := slices.IndexFunc(p.study.People, func(q evaluate.Person) bool { return q.Name == one.By })
		p.mark(who, spot, r, one.Struck == nil)
		switch {
		case one.Struck != nil:
			p.line(mid, p.look.Ink, at(spot.X-1.6*r, spot.Y-1.6*r), at(spot.X+1.6*r, spot.Y+1.6*r))
		case i == p.study.Outlying:
			p.circle(mid, spot, 2.1*r)
			s, x := left, spot.X+2.8*r
			if spot.X > (p.frame.Min.X+p.frame.Max.X)/2 {
				s, x = right, spot.X-2.8*r
			}
			p.text(p.look.bold(), s, at(x, spot.Y), true, p.say("figure.spread-number", i+1))
		}
	}
}

// shapes is how many marks can be told apart: four outlines, full or open. With more people they begin
// again, and the key tells them by their order.
const shapes = 8

// mark draws the mark of a person.
func (p *plot) mark(person int, spot vg.Point, r vg.Length, counts bool) {
	ink := p.look.Ink
	if !counts {
		ink = p.look.Faint
	}
	n := person % shapes
	outline := []vg.Point(nil)
	switch n % 4 {
	case 1:
		outline = rectangle(spot.X-0.9*r, spot.Y-0.9*r, spot.X+0.9*r, spot.Y+0.9*r)
	case 2:
		outline = []vg.Point{at(spot.X, spot.Y+1.2*r), at(spot.X+1.2*r, spot.Y-0.9*r), at(spot.X-1.2*r, spot.Y-0.9*r)}
	case 3:
		outline = []vg.Point{at(spot.X-1.3*r, spot.Y), at(spot.X, spot.Y+1.3*r), at(spot.X+1.3*r, spot.Y), at(spot.X, spot.Y-1.3*r)}
	}
	full := p.look.Paper
	if n%2 == (n/4)%2 {
		full = ink
	}
	path := round(spot, r)
	if outline != nil {
		path = closed(outline)
	}
	p.c.SetColor(full)
	p.c.Fill(path)
	p.c.SetLineDash(nil, 0)
	p.c.SetLineWidth(heavy)
	p.c.SetColor(ink)
	p.c.Stroke(path)
}

func round(spot vg.Point, r vg.Length) vg.Path {
	var p vg.Path
	p.Move(at(spot.X+r, spot.Y))
	p.Arc(spot, r, 0, 2*math.Pi)
	p.Close()
	return p
}

// circle rules a ring.
func (b brush) circle(width vg.Length, spot vg.Point, r vg.Length) {
	b.c.SetLineDash(nil, 0)
	b.c.SetLineWidth(width)
	b.c.SetColor(b.look.Ink)
	b.c.Stroke(round(spot, r))
}
