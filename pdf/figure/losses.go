package figure

import (
	"math"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/life"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Losses is how the load of one spring goes with what the head ran: each check as a mark with its ±, the trend with its band, and
// dashed the loads at which the rules of the shop speak.
type Losses struct {
	graph life.Graph
	words say.Printer
}

// NewLosses prepares the drawing.
func NewLosses(g life.Graph, words say.Printer) Losses { return Losses{g, words} }

// Draw draws into the rectangle from the canvas's origin to size.
func (l Losses) Draw(c vg.Canvas, size vg.Point, look Look) {
	p := l.lay(brush{c, look}, size)
	if !p.roomy() {
		p.paragraph(at(0, size.Y-look.TextSize), size.X, l.say("figure.load-no-room"))
		return
	}
	p.band()
	p.scales(l.say("figure.loss-load", string(l.graph.Unit)), l.say("figure.loss-along", l.graph.Along))
	for i, load := range []float64{l.graph.Watch, l.graph.Replace} {
		if load > 0 {
			p.limit(load/p.one, l.say(limitNames[i]))
		}
	}
	for _, m := range l.graph.Marks {
		p.whiskers(at(p.x(m.X), p.load(m.Load)), p.load(m.Load-m.U), p.load(m.Load+m.U))
	}
}

// limitNames are what the rules of the shop say where a load comes to them.
var limitNames = []string{"figure.loss-watch", "figure.loss-replace"}

func (l Losses) say(key string, args ...any) string { return l.words.Line(say.New(key, args...)) }

// lossPlot is where everything goes on the canvas. Its scales count in the unit of loads and in what was run.
type lossPlot struct {
	Losses
	axes
	one float64 // of the unit of loads, in mN
}

func (l Losses) lay(b brush, size vg.Point) lossPlot {
	p := lossPlot{Losses: l, one: 1}
	if q, err := unit.Of("1", l.graph.Unit); err == nil {
		p.one = float64(q.Value)
	}
	low, top, most := math.Inf(1), math.Inf(-1), 0.0
	see := func(load float64) {
		if load > 0 {
			low, top = min(low, load/p.one), max(top, load/p.one)
		}
	}
	for _, m := range l.graph.Marks {
		see(m.Load - m.U)
		see(m.Load + m.U)
		most = max(most, m.X)
	}
	for _, at := range l.graph.Band {
		most = max(most, at.X)
		see(at.At) // the trend stays in the frame; its band may leave it
	}
	see(l.graph.Watch)
	see(l.graph.Replace)
	room := max(top-low, 0.02*top) * 0.08
	p.axes = newAxes(b, l.words, size, low-room, top+room, most, widest(b, l.say), plainly)
	return p
}

// widest is the width of the longer name of a limit.
func widest(b brush, say func(key string, args ...any) string) (most vg.Length) {
	for _, key := range limitNames {
		most = max(most, wide(b.look.regular(), say(key)))
	}
	return most
}

// load is where a load in mN stands.
func (p *lossPlot) load(mN float64) vg.Length { return p.y(mN / p.one) }

// band fills what the checks leave open, and rules the trend.
func (p *lossPlot) band() {
	all := p.graph.Band
	if len(all) == 0 {
		return
	}
	var around, line []vg.Point
	for _, b := range all {
		around = append(around, at(p.x(b.X), p.load(b.High)))
		line = append(line, at(p.x(b.X), p.load(b.At)))
	}
	for i := len(all) - 1; i >= 0; i-- {
		around = append(around, at(p.x(all[i].X), p.load(all[i].Low)))
	}
	p.fill(p.look.Fill, around...)
	p.line(heavy, p.look.Ink, line...)
}
