package evaluate

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// LoadGraph is the load of a spring over the height of its outermost coil, as it is drawn: the curve in points, what
// the tester read, and where a valve stands on it.
type LoadGraph struct {
	Of       say.Line     // "spring DR-04", "spring type nest 12"
	Units    record.Units // that its numbers are shown in
	Estimate bool         // from geometry: no tester has seen it
	Moved    bool         // tested as one on other steps, and carried over to these by its coils
	All      GraphLine    // what the spring carries; its Tested only where it was read on these very steps
	Back     []GraphPoint // on the releasing stroke, where that differs
	Coils    []GraphLine  // what each coil carries of it, where they were tested apart
	Bind     Bound        // at which a coil is solid, over the outermost
	Seat     GraphMark
	Open     GraphMark
}

// GraphLine is one curve, from the lowest height up, and the points of the tester that it goes through.
type GraphLine struct {
	Name   string // of a coil
	Points []GraphPoint
	Tested []GraphPoint
}

// GraphPoint is one load at one height of the outermost coil.
type GraphPoint struct {
	Height unit.Length
	Load   unit.Load
	Beyond bool // outside the points that were taken, or no tester has seen it
}

// GraphMark is where a valve stands: the load there, and what was asked for.
type GraphMark struct {
	Height      unit.Length
	Load        Load
	Least, Most unit.Load // nought where nobody asked
}

// Bound is the height at which a spring is solid; Known only where that of every coil is.
type Bound struct {
	Known    bool
	Height   unit.Length
	Estimate bool // it proves nothing
}

// graphed is what the graph of a valve is made of, when somebody asks for it.
type graphed struct {
	b          *bench
	c          *springCurve
	open       unit.Length // the height that the open load is of
	seat, lift *record.Band
}

// samples is how many stretches a curve is drawn in. At a third of a page's width that is two points each.
const samples = 96

// LoadGraph returns the graph of the valve's spring on the valve's steps and shims; false where it has no curve.
func (v *Valve) LoadGraph() (LoadGraph, bool) {
	d := v.graph
	if d.c == nil || d.c.up == nil {
		return LoadGraph{}, false
	}
	g := d.b.graph(d.c)
	g.Bind = solidOf(v.Coils, d.c.steps)
	if v.Height.Known {
		g.Seat = mark(v.Height.Value, v.SeatLoad, d.seat)
		if v.OpenLoad.Known {
			g.Open = mark(d.open, v.OpenLoad, d.lift)
		}
	}
	g.sample(d.c)
	return g, true
}

// SpringGraph returns the graph of a spring that stands on no valve: on the ends that it was tested on as one, else
// with all coils on one land. Of the record only gauges and end parts are read. p is nil for a type.
func SpringGraph(rec *record.Record, s *record.Spring, p *record.SpringPiece) (LoadGraph, bool) {
	if len(s.Coils) == 0 || len(s.Coils) > maxInner+1 {
		return LoadGraph{}, false
	}
	b, t := layOut(rec), testsOf(s, p)
	steps := make([]unit.Length, len(s.Coils)-1)
	for _, w := range t.whole {
		if own, ok := b.stoodOn(w, len(steps)); ok {
			steps = own
			break
		}
	}
	c := b.curveOn(t, steps)
	if c.up == nil {
		return LoadGraph{}, false
	}
	c.of = say.New("bind.of-type", s.Name)
	if p != nil {
		c.of = say.New("bind.of-piece", p.Tag)
	}
	g := b.graph(&c)
	var bind *record.Bind
	for _, w := range t.whole {
		if len(c.from) > 0 && c.from[0] == w.loads {
			bind = w.bind
		}
	}
	if h := solidWhole(bind, t.coils, steps); h > 0 {
		g.Bind = Bound{Known: true, Height: h}
	}
	g.sample(&c)
	return g, true
}

func mark(h unit.Length, l Load, band *record.Band) GraphMark {
	m := GraphMark{Height: h, Load: l}
	if band != nil && band.Least != nil {
		m.Least = unit.Load(band.Least.Value)
	}
	if band != nil && band.Most != nil {
		m.Most = unit.Load(band.Most.Value)
	}
	return m
}

// graph is what there is to a curve beside its points. A spring that was tested as one shows what the tester read
// where it stood on these very steps; coils that were tested apart show it each on its own.
func (b *bench) graph(c *springCurve) LoadGraph {
	g := LoadGraph{Of: c.of, Units: b.setup.Units, Estimate: c.estimate, Moved: len(c.moved) > 0}
	one := len(c.from) == 1
	if c.estimate || g.Moved {
		return g
	}
	if one {
		g.All.Tested = b.read(c.from[0], 0)
		return g
	}
	for i, l := range c.from {
		less := unit.Length(0)
		if i > 0 {
			less = c.steps[i-1]
		}
		g.Coils = append(g.Coils, GraphLine{Name: c.names[i], Tested: b.read(l, less)})
	}
	return g
}

// read are the points of a test, corrected, over the height of the outermost coil.
func (b *bench) read(l *record.Loads, less unit.Length) []GraphPoint {
	var all []GraphPoint
	for _, p := range b.testPoints(l, compressing, false) {
		all = append(all, GraphPoint{Height: p.Height + less, Load: p.Load})
	}
	return all
}

// sample fills in the curves at even heights, and at every height that something stands at, so that the line goes
// through it.
func (g *LoadGraph) sample(c *springCurve) {
	at := []unit.Length{g.Seat.Height, g.Open.Height}
	for _, l := range append([]GraphLine{g.All}, g.Coils...) {
		for _, p := range l.Tested {
			at = append(at, p.Height)
		}
	}
	g.All.Points = sampled(c.up, 0, c.estimate, at)
	if c.back != nil && c.back != c.up {
		if back := sampled(c.back, 0, c.estimate, at); !slices.Equal(back, g.All.Points) {
			g.Back = back
		}
	}
	for i := range g.Coils {
		less := unit.Length(0)
		if i > 0 {
			less = c.steps[i-1]
		}
		g.Coils[i].Points = sampled(c.coils[i], less, false, at)
	}
}

// sampled are the points of a curve that stands so much lower than the outermost coil, all beyond where it is an
// estimate.
func sampled(c *curve.Curve, less unit.Length, estimate bool, at []unit.Length) []GraphPoint {
	least, most := c.Reach()
	heights := slices.Clone(at)
	for i := range heights {
		heights[i] -= less
	}
	low, tall := c.Points()
	heights = append(heights, low, tall)
	for i := unit.Length(0); i <= samples; i++ {
		heights = append(heights, least+(most-least)*i/samples)
	}
	slices.Sort(heights)
	var points []GraphPoint
	for _, h := range slices.Compact(heights) {
		if v, err := c.At(h); err == nil {
			points = append(points, GraphPoint{Height: h + less, Load: v.Load, Beyond: v.Beyond || estimate})
		}
	}
	return points
}

// solidOf is the height of the outermost coil at which the first of a valve's coils is solid.
func solidOf(coils []Coil, steps []unit.Length) Bound {
	s := Bound{Known: len(coils) > 0}
	for _, c := range coils {
		h := c.Bind.Value
		if i := c.Index - 2; i >= 0 && i < len(steps) {
			h += steps[i]
		}
		s.Known = s.Known && c.Bind.Known
		if h > s.Height {
			s.Height, s.Estimate = h, c.Bind.Mark == Estimate
		}
	}
	return s
}
