package figure

import (
	"math"
	"strconv"

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
	if p.frame.Max.X-p.frame.Min.X < 8*look.TextSize || p.frame.Max.Y-p.frame.Min.Y < 3*look.TextSize {
		p.paragraph(at(0, size.Y-look.TextSize), size.X, l.say("figure.load-no-room"))
		return
	}
	p.band()
	p.scales()
	p.limits()
	p.marks()
}

func (l Losses) say(key string, args ...any) string { return l.words.Line(say.New(key, args...)) }

// lossPlot is where everything goes on the canvas. Its scales count in the unit of loads and in what was run.
type lossPlot struct {
	Losses
	brush
	frame     vg.Rectangle
	one       float64 // of the unit of loads, in mN
	low, top  float64 // loads at the lower and the upper edge, in that unit
	step      float64
	most, on  float64 // at the right edge, and from one number to the next
	limitWide vg.Length
}

func (l Losses) lay(b brush, size vg.Point) lossPlot {
	p := lossPlot{Losses: l, brush: b, one: 1, low: math.Inf(1), top: math.Inf(-1)}
	if q, err := unit.Of("1", l.graph.Unit); err == nil {
		p.one = float64(q.Value)
	}
	see := func(load float64) {
		if load > 0 {
			p.low, p.top = min(p.low, load/p.one), max(p.top, load/p.one)
		}
	}
	for _, m := range l.graph.Marks {
		see(m.Load - m.U)
		see(m.Load + m.U)
		p.most = max(p.most, m.X)
	}
	for _, at := range l.graph.Band {
		p.most = max(p.most, at.X)
		see(at.At) // the trend stays in the frame; its band may leave it
	}
	see(l.graph.Watch)
	see(l.graph.Replace)
	if p.most == 0 {
		p.most = 1
	}
	room := max(p.top-p.low, 0.02*p.top) * 0.08
	p.low, p.top = p.low-room, p.top+room
	text := b.look.TextSize
	p.on, p.step = tidy(p.most, size.X/(6*text)), tidy(p.top-p.low, size.Y/(2.6*text))
	numbers := max(wide(b.look.regular(), p.tick(p.top)), wide(b.look.regular(), p.tick(p.low)))
	for _, key := range []string{"figure.loss-watch", "figure.loss-replace"} {
		p.limitWide = max(p.limitWide, wide(b.look.regular(), p.say(key)))
	}
	p.frame.Min = at(numbers+text, 3.2*text)
	p.frame.Max = at(size.X-p.limitWide-1.2*text, size.Y-1.8*text)
	return p
}

// tick writes a load of the scale.
func (p *lossPlot) tick(load float64) string {
	return strconv.FormatFloat(load, 'f', max(0, int(-math.Floor(math.Log10(p.step)+1e-9))), 64)
}

func (p *lossPlot) x(ran float64) vg.Length {
	return p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*vg.Length(ran/p.most)
}

// y is where a load in mN stands; what lies outside of the frame stands on its edge.
func (p *lossPlot) y(load float64) vg.Length {
	share := (load/p.one - p.low) / (p.top - p.low)
	return p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(min(1, max(0, share)))
}

// band fills what the checks leave open, and rules the trend.
func (p *lossPlot) band() {
	all := p.graph.Band
	if len(all) == 0 {
		return
	}
	var around, line []vg.Point
	for _, b := range all {
		around = append(around, at(p.x(b.X), p.y(b.High)))
		line = append(line, at(p.x(b.X), p.y(b.At)))
	}
	for i := len(all) - 1; i >= 0; i-- {
		around = append(around, at(p.x(all[i].X), p.y(all[i].Low)))
	}
	p.fill(p.look.Fill, around...)
	p.line(heavy, p.look.Ink, line...)
}

// scales rules the lines with their numbers, and says what they are.
func (p *lossPlot) scales() {
	text := p.look.TextSize
	for load := math.Ceil(p.low/p.step) * p.step; load <= p.top; load += p.step {
		y := p.y(load * p.one)
		p.line(thin, p.look.Faint, at(p.frame.Min.X, y), at(p.frame.Max.X, y))
		p.text(p.look.regular(), right, at(p.frame.Min.X-0.5*text, y), false, p.tick(load))
	}
	for ran := 0.0; ran <= p.most; ran += p.on {
		x := p.x(ran)
		p.line(thin, p.look.Ink, at(x, p.frame.Min.Y), at(x, p.frame.Min.Y-0.3*text))
		p.text(p.look.regular(), centre, at(x, p.frame.Min.Y-0.95*text), false, strconv.FormatFloat(ran, 'g', 6, 64))
	}
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Min.X, p.frame.Max.Y))
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Max.X, p.frame.Min.Y))
	p.text(p.look.regular(), left, at(0, p.frame.Max.Y+1.1*text), false, p.say("figure.loss-load", string(p.graph.Unit)))
	p.text(p.look.regular(), right, at(p.frame.Max.X, p.frame.Min.Y-2.3*text), false, p.say("figure.loss-along", p.graph.Along))
}

// limits rules the loads at which the shop's rules speak, and names them beside the frame.
func (p *lossPlot) limits() {
	for _, l := range []struct {
		load float64
		key  string
	}{{p.graph.Watch, "figure.loss-watch"}, {p.graph.Replace, "figure.loss-replace"}} {
		if l.load > 0 {
			y := p.y(l.load)
			p.dashed(mid, p.look.Ink, []vg.Length{4, 3}, at(p.frame.Min.X, y), at(p.frame.Max.X, y))
			p.text(p.look.regular(), left, at(p.frame.Max.X+0.5*p.look.TextSize, y), false, p.say(l.key))
		}
	}
}

// marks sets the loads that were found, each with its ±.
func (p *lossPlot) marks() {
	for _, m := range p.graph.Marks {
		p.whiskers(at(p.x(m.X), p.y(m.Load)), p.y(m.Load-m.U), p.y(m.Load+m.U))
	}
}
