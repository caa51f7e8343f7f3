package figure

import (
	"strconv"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// LoadCurve is the load of a spring over its height, pressed together towards the right: whole between the points
// that a tester read, which are crosses, and dashed beyond them; a hatched post where it is solid; where the valve
// stands on it closed and open, with ± as whiskers, and what was asked for there as a bracket.
type LoadCurve struct {
	graph evaluate.LoadGraph
	words say.Printer
}

// NewLoadCurve prepares the drawing of a graph. Words shows numbers in the set-up's units.
func NewLoadCurve(g evaluate.LoadGraph, words say.Printer) LoadCurve { return LoadCurve{g, words} }

// Draw draws the curve into the rectangle from the canvas's origin to size.
func (l LoadCurve) Draw(c vg.Canvas, size vg.Point, look Look) {
	p := l.lay(brush{c, look}, size)
	if p.frame.Max.X-p.frame.Min.X < 8*look.TextSize || p.frame.Max.Y-p.frame.Min.Y < 5*look.TextSize {
		p.paragraph(at(0, size.Y-look.TextSize), size.X, p.say("figure.load-no-room"))
		return
	}
	p.scales()
	p.solid()
	for i, coil := range l.graph.Coils {
		p.curve(coil, thin)
		p.name(i, coil)
	}
	p.back()
	p.curve(l.graph.All, heavy)
	p.stands(l.graph.Seat, "figure.load-closed", false)
	p.stands(l.graph.Open, "figure.load-open", true)
}

func (l LoadCurve) say(key string, args ...any) string { return l.words.Line(say.New(key, args...)) }

// loadPlot is where everything of a load curve goes on the canvas.
type loadPlot struct {
	LoadCurve
	brush
	frame      vg.Rectangle
	tall, low  unit.Length // heights at the left and the right edge
	length     unit.Length // from one line of the scale to the next
	most, load unit.Load   // load at the upper edge, and from one line to the next
	one        unit.Load   // of the unit that loads are shown in
	foot       []string    // under the scale of heights
}

// lay finds the scales, and leaves room for the numbers left of the frame, the names of coils right of it, and what
// is said below it.
func (l LoadCurve) lay(b brush, size vg.Point) loadPlot {
	p := loadPlot{LoadCurve: l, brush: b}
	text := b.look.TextSize
	p.notes(size.X)
	p.reach(size)
	numbers := vg.Length(0)
	for f := unit.Load(0); f <= p.most; f += p.load {
		numbers = max(numbers, wide(b.look.regular(), p.loadTick(f)))
	}
	names := vg.Length(0)
	for _, c := range l.graph.Coils {
		names = max(names, wide(b.look.regular(), p.coil(c))+0.8*text)
	}
	p.frame.Min = at(numbers+text, (3.2+1.3*vg.Length(len(p.foot)))*text)
	p.frame.Max = at(size.X-max(names, 0.6*text), size.Y-1.8*text)
	return p
}

// notes are the words under the scale.
func (p *loadPlot) notes(width vg.Length) {
	g := &p.graph
	add := func(is bool, key string) {
		if is {
			p.foot = append(p.foot, p.say(key))
		}
	}
	beyond := false
	for _, pt := range g.All.Points {
		beyond = beyond || pt.Beyond
	}
	add(g.Estimate, "figure.load-estimate")
	add(!g.Estimate && beyond, "figure.load-beyond")
	add(g.Moved, "figure.load-moved")
	add(len(g.Back) > 0, "figure.load-back")
	// What does not fit beside each other goes below.
	var rows []string
	for _, line := range p.foot {
		if n := len(rows); n > 0 && wide(p.look.regular(), rows[n-1]+"  "+line) < width {
			rows[n-1] += "  " + line
			continue
		}
		rows = append(rows, line)
	}
	p.foot = rows
}

// reach finds the scales: all heights and loads that are drawn, to whole steps.
func (p *loadPlot) reach(size vg.Point) {
	g, first := &p.graph, true
	see := func(h unit.Length, f unit.Load) {
		if h <= 0 {
			return
		}
		if first {
			p.tall, p.low, first = h, h, false
		}
		p.tall, p.low, p.most = max(p.tall, h), min(p.low, h), max(p.most, f)
	}
	for _, line := range append([]evaluate.GraphLine{g.All}, g.Coils...) {
		for _, pt := range line.Points {
			see(pt.Height, pt.Load)
		}
	}
	for _, m := range []evaluate.GraphMark{g.Seat, g.Open} {
		if m.Load.Known {
			see(m.Height, max(m.Load.Value, m.Least, m.Most))
		}
	}
	if g.Bind.Known {
		see(g.Bind.Height, 0)
	}
	text := p.look.TextSize
	p.length = stepOf(g.Units.Length, p.tall-p.low, max(2, int(size.X/(7*text))))
	room := (p.tall - p.low) / 24
	p.tall, p.low = p.tall+room, p.low-room
	p.one = 1
	if q, err := unit.Of("1", g.Units.Load); err == nil {
		p.one = unit.Load(q.Value)
	}
	p.most += p.most / 12
	lines := max(2, int(size.Y/(3.4*text)))
	p.load = p.one
	for tens := unit.Load(1); ; tens *= 10 {
		for _, n := range []unit.Load{1, 2, 5} {
			if p.most <= unit.Load(lines)*n*tens*p.one {
				p.load = n * tens * p.one
				return
			}
		}
	}
}

func (p *loadPlot) x(h unit.Length) vg.Length {
	return p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*vg.Length(float64(p.tall-h)/float64(max(1, p.tall-p.low)))
}

func (p *loadPlot) y(f unit.Load) vg.Length {
	return p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(float64(f)/float64(max(1, p.most)))
}

func (p *loadPlot) loadTick(f unit.Load) string { return strconv.Itoa(int((f + p.one/2) / p.one)) }

func (p *loadPlot) coil(c evaluate.GraphLine) string {
	if _, known := p.words.Words["coil."+c.Name]; known && c.Name != "" {
		return p.say("coil." + c.Name)
	}
	return c.Name
}

// scales rules the lines of the scales with their numbers, and says what they are.
func (p *loadPlot) scales() {
	text, g := p.look.TextSize, &p.graph
	for f := unit.Load(0); f <= p.most; f += p.load {
		p.line(thin, p.look.Faint, at(p.frame.Min.X, p.y(f)), at(p.frame.Max.X, p.y(f)))
		p.text(p.look.regular(), right, at(p.frame.Min.X-text*0.5, p.y(f)), false, p.loadTick(f))
	}
	for h := -floorTo(-p.low, p.length); h <= p.tall; h += p.length {
		p.line(thin, p.look.Ink, at(p.x(h), p.frame.Min.Y), at(p.x(h), p.frame.Min.Y-text*0.3))
		number := p.say("figure.length", unit.Worked(h, g.Units.Length, unit.Decimals(p.length, g.Units.Length, 1)))
		p.text(p.look.regular(), centre, at(p.x(h), p.frame.Min.Y-text*0.95), false, number)
	}
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Min.X, p.frame.Max.Y))
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Max.X, p.frame.Min.Y))
	p.text(p.look.regular(), left, at(0, p.frame.Max.Y+1.1*text), false, p.say("figure.load-axis", string(g.Units.Load)))
	p.text(p.look.regular(), right, at(p.frame.Max.X, p.frame.Min.Y-2.3*text), false, p.say("figure.load-heights", string(g.Units.Length)))
	for i, line := range p.foot {
		p.text(p.look.regular(), left, at(0, p.frame.Min.Y-(3.6+1.3*vg.Length(i))*text), false, line)
	}
}

// solid hatches what lies below bind; an open post where the bind is no more than an estimate.
func (p *loadPlot) solid() {
	if !p.graph.Bind.Known {
		return
	}
	text, x := p.look.TextSize, p.x(p.graph.Bind.Height)
	edge := min(x+0.7*text, p.frame.Max.X)
	post := rectangle(x, p.frame.Min.Y, edge, p.frame.Max.Y)
	if !p.graph.Bind.Estimate && edge > x {
		p.hatch(post, 45, 3, thin, p.look.Ink)
	}
	p.line(heavy, p.look.Ink, at(x, p.frame.Min.Y), at(x, p.frame.Max.Y))
	p.text(p.look.regular(), right, at(edge, p.frame.Max.Y+1.1*text), false, p.say("figure.load-bind", p.graph.Bind.Height))
}

// curve draws a line, whole where the tester read it and dashed beyond, and a cross at each of its points.
func (p *loadPlot) curve(l evaluate.GraphLine, width vg.Length) {
	p.stretch(l.Points, width)
	r := 0.3 * p.look.TextSize
	for _, t := range l.Tested {
		spot := at(p.x(t.Height), p.y(t.Load))
		p.line(mid, p.look.Ink, at(spot.X-r, spot.Y-r), at(spot.X+r, spot.Y+r))
		p.line(mid, p.look.Ink, at(spot.X-r, spot.Y+r), at(spot.X+r, spot.Y-r))
	}
}

// stretch draws points in runs of one kind. Where it changes, the point between belongs to both.
func (p *loadPlot) stretch(points []evaluate.GraphPoint, width vg.Length) {
	for i := 0; i+1 < len(points); {
		dashed := points[i].Beyond || points[i+1].Beyond
		run := []vg.Point{at(p.x(points[i].Height), p.y(points[i].Load))}
		for i+1 < len(points) && (points[i].Beyond || points[i+1].Beyond) == dashed {
			i++
			run = append(run, at(p.x(points[i].Height), p.y(points[i].Load)))
		}
		if dashed {
			p.dashed(width, p.look.Ink, []vg.Length{4, 3}, run...)
		} else {
			p.line(width, p.look.Ink, run...)
		}
	}
}

// back draws the releasing stroke in dots.
func (p *loadPlot) back() {
	run := make([]vg.Point, len(p.graph.Back))
	for i, pt := range p.graph.Back {
		run[i] = at(p.x(pt.Height), p.y(pt.Load))
	}
	if len(run) > 1 {
		p.dashed(mid, p.look.Ink, []vg.Length{1, 2}, run...)
	}
}

// name sets the name of a coil right of the frame at the end of its line, off the names below it.
func (p *loadPlot) name(i int, c evaluate.GraphLine) {
	if len(c.Points) == 0 {
		return
	}
	end := func(c evaluate.GraphLine) vg.Length {
		if len(c.Points) == 0 {
			return p.frame.Min.Y
		}
		return p.y(c.Points[0].Load)
	}
	text := p.look.TextSize
	y := end(c)
	for j, other := range p.graph.Coils {
		// Of names that would touch, the one of the stronger coil goes up.
		if d := end(c) - end(other); j != i && d < 1.2*text && d > -1.2*text && (d > 0 || d == 0 && i < j) {
			y = end(other) + 1.2*text
		}
	}
	p.text(p.look.regular(), left, at(p.frame.Max.X+0.5*text, y), false, p.coil(c))
}

// stands marks where the valve stands: full, and open where the load is an estimate or beyond the points. Its words
// stand where the curve is not: below it to the right of the seat, above it to the left of full lift.
func (p *loadPlot) stands(m evaluate.GraphMark, key string, open bool) {
	if !m.Load.Known {
		return
	}
	text, spot := p.look.TextSize, at(p.x(m.Height), p.y(m.Load.Value))
	p.bracket(m, spot.X)
	if u, ok := m.Load.U(); ok && u > 0 {
		low, high := p.y(max(0, m.Load.Value-u)), p.y(m.Load.Value+u)
		p.line(mid, p.look.Ink, at(spot.X, low), at(spot.X, high))
		for _, y := range []vg.Length{low, high} {
			p.line(mid, p.look.Ink, at(spot.X-0.4*text, y), at(spot.X+0.4*text, y))
		}
	}
	r := 0.36 * text
	fill := p.look.Ink
	if m.Load.Mark == evaluate.Estimate || m.Load.Beyond {
		fill = p.look.Paper
	}
	p.c.SetColor(fill)
	p.c.Fill(round(spot, r))
	p.circle(heavy, spot, r)
	words := p.say(key, m.Height, say.New("expr.one", m.Load.Text(p.words)), string(p.graph.Units.Load))
	if open {
		p.text(p.look.bold(), right, at(spot.X-1.2*text, min(spot.Y+0.9*text, p.frame.Max.Y-0.6*text)), true, words)
		return
	}
	p.text(p.look.bold(), left, at(spot.X+1.2*text, max(spot.Y-1.1*text, p.frame.Min.Y+0.7*text)), true, words)
}

// bracket stands beside the mark from the least load that was asked for to the most.
func (p *loadPlot) bracket(m evaluate.GraphMark, x vg.Length) {
	if m.Least <= 0 && m.Most <= 0 {
		return
	}
	text := p.look.TextSize
	x -= 0.8 * text
	if x < p.frame.Min.X+0.3*text {
		x += 1.6 * text
	}
	// Of a band that is open at one end only a stub is drawn.
	low, high := p.y(m.Least), p.y(m.Most)
	switch {
	case m.Least <= 0:
		low = max(high-1.5*text, p.frame.Min.Y)
	case m.Most <= 0:
		high = min(low+1.5*text, p.frame.Max.Y)
	}
	p.line(heavy, p.look.Ink, at(x, low), at(x, high))
	if m.Least > 0 {
		p.line(heavy, p.look.Ink, at(x, low), at(x+0.4*text, low))
	}
	if m.Most > 0 {
		p.line(heavy, p.look.Ink, at(x, high), at(x+0.4*text, high))
	}
}
