package figure

import (
	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Spread is a study of a gauge: every reading as a mark over its order, the mean and one standard deviation
// to either side as lines. Who read is told by the shape of the mark.
type Spread struct {
	study evaluate.Study
	words say.Printer
}

// NewSpread prepares the drawing of a study. Words shows lengths in the study's unit.
func NewSpread(s evaluate.Study, words say.Printer) Spread { return Spread{s, words} }

// Draw draws the study into the rectangle from the canvas's origin to size.
func (s Spread) Draw(c vg.Canvas, size vg.Point, look Look) {
	b := brush{c, look}
	if len(s.study.Of.Readings) == 0 {
		b.paragraph(at(0, size.Y-look.TextSize), size.X, s.say("figure.spread-none"))
		return
	}
	p := s.lay(b, size)
	p.scales()
	p.lines()
	p.means()
	p.readings()
}

func (s Spread) say(key string, args ...any) string { return s.words.Line(say.New(key, args...)) }

// plot is where everything of a study goes on the canvas.
type plot struct {
	Spread
	brush
	frame    vg.Rectangle // inside of which the marks stand
	step     unit.Length  // from one line of the scale to the next
	low, top unit.Length  // at the lower and upper edge of the frame
	beside   vg.Length    // right of the frame, where the means of people begin
	names    vg.Length    // right of those, where the lines are named
}

// lay sets the key, and leaves room for the numbers left of the frame and the names right of it.
func (s Spread) lay(b brush, size vg.Point) plot {
	p := plot{Spread: s, brush: b}
	text := b.look.TextSize
	p.reach(size.Y / (3 * text))
	numbers := vg.Length(0)
	for l := p.low; l <= p.top; l += p.step {
		numbers = max(numbers, wide(b.look.regular(), p.tick(l)))
	}
	p.frame.Min = at(numbers+text, 2.9*text)
	p.names = size.X
	if s.study.Known {
		p.names -= wide(b.look.regular(), s.say("figure.spread-above"))
	}
	p.beside = p.names - 0.5*text
	if n := s.study.Readers(); n > 1 {
		p.beside -= vg.Length(min(n, abreast)) * apartX * text
	}
	p.frame.Max = at(p.beside-0.5*text, p.key(size)-text*0.8)
	return p
}

// abreast is how many means of people stand side by side, so that equal ones do not hide each other, and
// apartX how far apart in heights of the text.
const (
	abreast = 6
	apartX  = 1.15
)

// reach finds the scale: the least and the most that is drawn, to whole steps, with at most so many lines.
func (p *plot) reach(lines vg.Length) {
	s := p.study
	low := s.Of.Readings[0].Quantity.Length()
	top := low
	for _, r := range s.Of.Readings {
		low, top = min(low, r.Quantity.Length()), max(top, r.Quantity.Length())
	}
	if s.Count > 0 {
		low, top = min(low, s.Mean-s.Scatter), max(top, s.Mean+s.Scatter)
	}
	p.step = stepOf(s.Of.Unit, top-low, max(2, int(lines)))
	p.low = floorTo(low-p.step/4, p.step)
	p.top = -floorTo(-top-p.step/4, p.step)
}

// stepOf is the least of 1, 2 and 5 times a power of ten of the unit that parts a length into no more than
// so many; a ten-thousandth of an inch or a thousandth of a millimetre at least.
func stepOf(in unit.Symbol, length unit.Length, most int) unit.Length {
	one := unit.Thou / 10
	if in == unit.Mm {
		one = unit.MM / 1000
	}
	for ; ; one *= 10 {
		for _, n := range []unit.Length{1, 2, 5} {
			if length <= unit.Length(most)*n*one {
				return n * one
			}
		}
	}
}

// floorTo is the greatest multiple of step that is not above l.
func floorTo(l, step unit.Length) unit.Length {
	n := l / step
	if l%step < 0 {
		n--
	}
	return n * step
}

// key sets who read with which mark along the top, and returns how high the frame may reach.
func (p *plot) key(size vg.Point) vg.Length {
	text, face := p.look.TextSize, p.look.regular()
	x, y := vg.Length(0), size.Y-text*0.8
	for i, who := range p.study.People {
		line := p.say("figure.spread-nobody", who.Name)
		if who.Count > 0 {
			line = p.say("figure.spread-who", who.Name, p.study.Show(who.Mean))
		}
		w := 1.6*text + wide(face, line)
		if x > 0 && x+w > size.X {
			x, y = 0, y-1.5*text
		}
		p.mark(i, at(x+text*0.6, y), markSize(text), true)
		p.text(face, left, at(x+1.4*text, y), false, line)
		x += w + 1.5*text
	}
	return y - text
}

func markSize(text vg.Length) vg.Length { return text * 0.36 }

// x is the place of a reading across, y that of a length upwards.
func (p *plot) x(n int) vg.Length {
	return p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*(vg.Length(n)+0.7)/(vg.Length(len(p.study.Of.Readings))+0.4)
}

func (p *plot) y(l unit.Length) vg.Length {
	return p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(float64(l-p.low)/float64(p.top-p.low))
}

// tick is a number of the scale. It is written in full: what is left out has to be looked for.
func (p *plot) tick(l unit.Length) string {
	return p.say("figure.length", unit.Worked(l, p.study.Of.Unit, unit.Decimals(p.step, p.study.Of.Unit, 1)))
}

// scales rules the lines of the scale and numbers the readings.
func (p *plot) scales() {
	text := p.look.TextSize
	for l := p.low; l <= p.top; l += p.step {
		p.line(thin, p.look.Faint, at(p.frame.Min.X, p.y(l)), at(p.frame.Max.X, p.y(l)))
		p.text(p.look.regular(), right, at(p.frame.Min.X-text*0.5, p.y(l)), false, p.tick(l))
	}
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Min.X, p.frame.Max.Y))
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Max.X, p.frame.Min.Y))
	n, every := len(p.study.Of.Readings), 1
	for _, try := range []int{1, 2, 5, 10, 20, 50, 100, 200} {
		if every = try; p.x(try)-p.x(0) > 2.2*text {
			break
		}
	}
	for i := every - 1; i < n; i += every {
		p.line(thin, p.look.Ink, at(p.x(i), p.frame.Min.Y), at(p.x(i), p.frame.Min.Y-text*0.3))
		p.text(p.look.regular(), centre, at(p.x(i), p.frame.Min.Y-text*0.9), false, p.say("figure.spread-number", i+1))
	}
	p.text(p.look.regular(), right, at(p.frame.Max.X, p.frame.Min.Y-text*2.2), false, p.say("figure.spread-order", n))
}

// lines rules the mean, and one standard deviation to either side where there is one.
func (p *plot) lines() {
	s := p.study
	if s.Count == 0 {
		return
	}
	p.line(heavy, p.look.Ink, at(p.frame.Min.X, p.y(s.Mean)), at(p.frame.Max.X, p.y(s.Mean)))
	if !s.Known {
		return
	}
	for _, l := range []unit.Length{s.Mean - s.Scatter, s.Mean + s.Scatter} {
		p.dashed(mid, p.look.Ink, []vg.Length{4, 3}, at(p.frame.Min.X, p.y(l)), at(p.frame.Max.X, p.y(l)))
	}
	p.name([]label{
		{p.y(s.Mean - s.Scatter), "figure.spread-below"}, {p.y(s.Mean), "figure.spread-mean"}, {p.y(s.Mean + s.Scatter), "figure.spread-above"},
	})
}

// label is a word beside a line at a height.
type label struct {
	y   vg.Length
	key string
}

// name sets the words of three lines right of the frame, from the lowest up, and keeps them off each other.
func (p *plot) name(all []label) {
	apart := p.look.TextSize * 1.2
	middle := all[1].y
	all[0].y, all[2].y = min(all[0].y, middle-apart), max(all[2].y, middle+apart)
	for _, l := range all {
		p.text(p.look.regular(), left, at(p.names, l.y), false, p.say(l.key))
	}
}

// means stands the means of people beside the frame, where several read.
func (p *plot) means() {
	if p.study.Readers() < 2 {
		return
	}
	n, text := 0, p.look.TextSize
	for i, who := range p.study.People {
		if who.Count > 0 {
			x := p.beside + (vg.Length(n%abreast)+0.5)*apartX*text
			p.mark(i, at(x, p.y(who.Mean)), 1.25*markSize(text), true)
			n++
		}
	}
}
