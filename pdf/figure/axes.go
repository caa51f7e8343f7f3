package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/say"
)

// axes is a frame with two scales: what goes along begins at nought, what goes up from low to top.
type axes struct {
	brush
	frame          vg.Rectangle
	low, top, step float64 // at the lower and the upper edge, and from one line to the next
	most, on       float64 // at the right edge, and from one number to the next
	write          func(x, step float64) string
	words          say.Printer
}

// newAxes lays the frame out in a size, with room at the right for texts of a width beside it.
func newAxes(b brush, words say.Printer, size vg.Point, low, top, most float64, beside vg.Length, write func(x, step float64) string) axes {
	if most <= 0 {
		most = 1
	}
	a := axes{brush: b, low: low, top: top, most: most, words: words}
	a.write = func(x, step float64) string { return words.Number(say.Number(write(x, step))) }
	text := b.look.TextSize
	a.on, a.step = tidy(most, size.X/(6*text)), tidy(top-low, size.Y/(2.6*text))
	numbers := vg.Length(0)
	for y := a.first(); y <= top; y += a.step {
		numbers = max(numbers, wide(b.look.regular(), a.write(y, a.step)))
	}
	a.frame.Min = at(numbers+text, 3.2*text)
	a.frame.Max = at(size.X-beside-1.2*text, size.Y-1.8*text)
	return a
}

// roomy reports whether there is room for marks that can be told apart.
func (a *axes) roomy() bool {
	text := a.look.TextSize
	return a.frame.Max.X-a.frame.Min.X >= 8*text && a.frame.Max.Y-a.frame.Min.Y >= 3*text
}

// first is the lowest line.
func (a *axes) first() float64 { return math.Ceil(a.low/a.step-1e-9) * a.step }

func (a *axes) x(along float64) vg.Length {
	return a.frame.Min.X + (a.frame.Max.X-a.frame.Min.X)*vg.Length(along/a.most)
}

// y is where a value stands; what lies outside of the frame stands on its edge.
func (a *axes) y(up float64) vg.Length {
	share := (up - a.low) / (a.top - a.low)
	return a.frame.Min.Y + (a.frame.Max.Y-a.frame.Min.Y)*vg.Length(min(1, max(0, share)))
}

// scales rules the lines with their numbers, and says what they are.
func (a *axes) scales(up, along string) {
	text := a.look.TextSize
	for v := a.first(); v <= a.top+1e-9*a.step; v += a.step {
		y := a.y(v)
		a.line(thin, a.look.Faint, at(a.frame.Min.X, y), at(a.frame.Max.X, y))
		a.text(a.look.regular(), right, at(a.frame.Min.X-0.5*text, y), false, a.write(v, a.step))
	}
	for v := 0.0; v <= a.most; v += a.on {
		x := a.x(v)
		a.line(thin, a.look.Ink, at(x, a.frame.Min.Y), at(x, a.frame.Min.Y-0.3*text))
		a.text(a.look.regular(), centre, at(x, a.frame.Min.Y-0.95*text), false, a.words.Number(say.Number(strconv.FormatFloat(v, 'g', 6, 64))))
	}
	a.line(mid, a.look.Ink, at(a.frame.Min.X, a.frame.Min.Y), at(a.frame.Min.X, a.frame.Max.Y))
	a.line(mid, a.look.Ink, at(a.frame.Min.X, a.frame.Min.Y), at(a.frame.Max.X, a.frame.Min.Y))
	a.text(a.look.regular(), left, at(0, a.frame.Max.Y+1.1*text), false, up)
	a.text(a.look.regular(), right, at(a.frame.Max.X, a.frame.Min.Y-2.3*text), false, along)
}

// limit rules a dashed line, and names it beside the frame.
func (a *axes) limit(up float64, name string) {
	y := a.y(up)
	a.dashed(mid, a.look.Ink, []vg.Length{4, 3}, at(a.frame.Min.X, y), at(a.frame.Max.X, y))
	a.text(a.look.regular(), left, at(a.frame.Max.X+0.5*a.look.TextSize, y), false, name)
}

// plainly writes a number of a scale with as many decimals as its step has.
func plainly(x, step float64) string {
	if math.Abs(x) < step/2 {
		x = 0 // and no −0
	}
	return strconv.FormatFloat(x, 'f', max(0, int(-math.Floor(math.Log10(step)+1e-9))), 64)
}

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
