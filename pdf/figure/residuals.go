package figure

import (
	"math"

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
	if !p.roomy() {
		p.paragraph(at(0, size.Y-look.TextSize), size.X, r.say("figure.load-no-room"))
		return
	}
	key, units := "figure.left-by-line", string(r.graph.Units.Load)
	if r.graph.Bent {
		key = "figure.left-by-parabola"
	}
	p.scales(r.say(key, units), r.say("figure.left-weight", units))
	p.line(heavy, look.Ink, at(p.frame.Min.X, p.y(0)), at(p.frame.Max.X, p.y(0)))
	for _, one := range r.graph.All {
		y := func(left unit.Load) vg.Length { return p.y(float64(left) / p.one) }
		p.whiskers(at(p.x(float64(one.Applied)/p.one), y(one.Left)), y(one.Left-one.U), y(one.Left+one.U))
	}
}

func (r Residuals) say(key string, args ...any) string { return r.words.Line(say.New(key, args...)) }

// residualPlot is where everything goes on the canvas. Scales count in the unit that loads are shown in.
type residualPlot struct {
	axes
	one float64 // of that unit, in mN
}

func (r Residuals) lay(b brush, size vg.Point) residualPlot {
	p := residualPlot{one: 1}
	if q, err := unit.Of("1", r.graph.Units.Load); err == nil {
		p.one = float64(q.Value)
	}
	most, left := 0.0, 0.0
	for _, one := range r.graph.All {
		most = max(most, float64(one.Applied)/p.one)
		left = max(left, (math.Abs(float64(one.Left))+float64(one.U))/p.one)
	}
	if left == 0 {
		left = 1 / 1.1 // all of them on the curve
	}
	p.axes = newAxes(b, r.words, size, -1.1*left, 1.1*left, 1.06*most, 0, signed)
	return p
}

// signed writes a number of the scale of what is left, with its sign.
func signed(x, step float64) string {
	text := plainly(math.Abs(x), step)
	switch {
	case math.Abs(x) < step/2:
		return "0"
	case x < 0:
		return "−" + text
	}
	return "+" + text
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
