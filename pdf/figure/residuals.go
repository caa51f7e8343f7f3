package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Residuals is what the curve through a tester's dead weights leaves at each of them: a mark over the weight, with its
// ± as whiskers, about the line where nothing is left. A bow in the marks says that the curve has the wrong shape.
type Residuals struct {
	graph evaluate.WeightGraph
	words say.Printer
}

// NewResiduals prepares the drawing.
func NewResiduals(g evaluate.WeightGraph, words say.Printer) Residuals { return Residuals{g, words} }

// Draw draws into the rectangle from the canvas's origin to size.
func (r Residuals) Draw(c vg.Canvas, size vg.Point, look Look) {
	p := r.lay(brush{c, look}, size)
	if p.frame.Max.X-p.frame.Min.X < 8*look.TextSize || p.frame.Max.Y-p.frame.Min.Y < 3*look.TextSize {
		p.paragraph(at(0, size.Y-look.TextSize), size.X, r.say("figure.load-no-room"))
		return
	}
	p.scales()
	for _, one := range r.graph.All {
		p.mark(one)
	}
}

func (r Residuals) say(key string, args ...any) string { return r.words.Line(say.New(key, args...)) }

// residualPlot is where everything goes on the canvas. Scales count in the unit that loads are shown in.
type residualPlot struct {
	Residuals
	brush
	frame      vg.Rectangle
	one        float64 // of that unit, in mN
	most, on   float64 // weight at the right edge, and from one number to the next
	left, step float64 // what is left at the upper edge, and from one line to the next
}

func (r Residuals) lay(b brush, size vg.Point) residualPlot {
	p := residualPlot{Residuals: r, brush: b, one: 1}
	if q, err := unit.Of("1", r.graph.Units.Load); err == nil {
		p.one = float64(q.Value)
	}
	for _, one := range r.graph.All {
		p.most = max(p.most, float64(one.Applied)/p.one)
		p.left = max(p.left, (math.Abs(float64(one.Left))+float64(one.U))/p.one)
	}
	text := b.look.TextSize
	p.most *= 1.06
	p.left *= 1.1
	if p.left == 0 {
		p.left = 1 // all of them on the curve
	}
	p.on, p.step = tidy(p.most, size.X/(6*text)), tidy(2*p.left, size.Y/(2.6*text))
	numbers := vg.Length(0)
	for y := -p.steps(); y <= p.steps(); y++ {
		numbers = max(numbers, wide(b.look.regular(), p.tick(float64(y)*p.step)))
	}
	p.frame.Min = at(numbers+text, 3.2*text)
	p.frame.Max = at(size.X-1.2*text, size.Y-1.8*text)
	return p
}

// steps is how many lines of the scale there are to either side of nought.
func (p *residualPlot) steps() int { return int(p.left / p.step) }

// tidy is the least of 1, 2, 5 and their tens that rules a scale of this length with at most so many lines.
func tidy(length float64, lines vg.Length) float64 {
	lines = max(lines, 2)
	for tens := math.Pow(10, math.Floor(math.Log10(length))-2); ; tens *= 10 {
		for _, n := range []float64{1, 2, 5} {
			if length <= float64(lines)*n*tens {
				return n * tens
			}
		}
	}
}

// tick writes a number of the scale of what is left, with its sign.
func (p *residualPlot) tick(x float64) string {
	places := max(0, int(-math.Floor(math.Log10(p.step)+1e-9)))
	text := strconv.FormatFloat(math.Abs(x), 'f', places, 64)
	switch {
	case math.Abs(x) < p.step/2:
		return "0"
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

func (p *residualPlot) x(weight float64) vg.Length {
	return p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*vg.Length(weight/p.most)
}

func (p *residualPlot) y(left float64) vg.Length {
	return p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length((left+p.left)/(2*p.left))
}

// scales rules the lines with their numbers, and says what they are.
func (p *residualPlot) scales() {
	text, units := p.look.TextSize, string(p.graph.Units.Load)
	for i := -p.steps(); i <= p.steps(); i++ {
		y := p.y(float64(i) * p.step)
		p.line(thin, p.look.Faint, at(p.frame.Min.X, y), at(p.frame.Max.X, y))
		p.text(p.look.regular(), right, at(p.frame.Min.X-0.5*text, y), false, p.tick(float64(i)*p.step))
	}
	for weight := 0.0; weight <= p.most; weight += p.on {
		x := p.x(weight)
		p.line(thin, p.look.Ink, at(x, p.frame.Min.Y), at(x, p.frame.Min.Y-0.3*text))
		p.text(p.look.regular(), centre, at(x, p.frame.Min.Y-0.95*text), false, strconv.FormatFloat(weight, 'g', 6, 64))
	}
	p.line(heavy, p.look.Ink, at(p.frame.Min.X, p.y(0)), at(p.frame.Max.X, p.y(0)))
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Min.X, p.frame.Max.Y))
	p.line(mid, p.look.Ink, at(p.frame.Min.X, p.frame.Min.Y), at(p.frame.Max.X, p.frame.Min.Y))
	key := "figure.left-by-line"
	if p.graph.Bent {
		key = "figure.left-by-parabola"
	}
	p.text(p.look.regular(), left, at(0, p.frame.Max.Y+1.1*text), false, p.say(key, units))
	p.text(p.look.regular(), right, at(p.frame.Max.X, p.frame.Min.Y-2.3*text), false, p.say("figure.left-weight", units))
}

// mark sets what is left at one weight, with its ±.
func (p *residualPlot) mark(one evaluate.Residual) {
	y := func(left unit.Load) vg.Length { return p.y(float64(left) / p.one) }
	p.whiskers(at(p.x(float64(one.Applied)/p.one), y(one.Left)), y(one.Left-one.U), y(one.Left+one.U))
}

// whiskers sets a mark with its ±, from low to high; a mark alone where there is none.
func (b brush) whiskers(spot vg.Point, low, high vg.Length) {
	text := b.look.TextSize
	if high > low {
		b.line(mid, b.look.Ink, at(spot.X, low), at(spot.X, high))
		for _, y := range []vg.Length{low, high} {
			b.line(mid, b.look.Ink, at(spot.X-0.3*text, y), at(spot.X+0.3*text, y))
		}
	}
	b.c.SetColor(b.look.Ink)
	b.c.Fill(round(spot, 0.3*text))
}
