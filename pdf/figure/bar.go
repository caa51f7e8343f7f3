package figure

import (
	"keeperbook/model/evaluate"

	"gonum.org/v1/plot/vg"
)

// Bar is the window bar of one valve: the limit as a post, the margin as a mark with its ± as whiskers. What
// lies between post and mark is solid ink where the margin falls short, and pale where there is some to
// spare.
type Bar struct {
	margin float64 // as a multiple of the least margin
	spread float64 // its U, the same; nought where it is not known
	proven bool
}

// most is the margin at the bar's right end, as a multiple of the least margin. A mark beyond an end
// becomes an arrowhead on it.
const most = 2.0

// NewBar prepares the bar of a valve; false where its margin or its least margin is not known.
func NewBar(v evaluate.Valve) (Bar, bool) {
	if !v.Margin.Known || !v.Least.Known || v.Least.Value <= 0 {
		return Bar{}, false
	}
	proven := v.Governing < 0 || v.Governing >= len(v.Coils) || v.Coils[v.Governing].Proven
	u, _ := v.Margin.U()
	return Bar{
		margin: float64(v.Margin.Value) / float64(v.Least.Value),
		spread: float64(u) / float64(v.Least.Value),
		proven: proven && v.Margin.Mark != evaluate.Estimate,
	}, true
}

// Draw draws the bar into the rectangle from the canvas's origin to size. An open mark is an estimate.
func (b Bar) Draw(c vg.Canvas, size vg.Point, look Look) {
	d := brush{c, look}
	y := size.Y / 2
	inset := size.Y * 0.3
	place := func(m float64) vg.Length {
		return inset + (size.X-2*inset)*vg.Length(min(max(m, 0), most)/most)
	}
	post, mark := place(1), place(b.margin)
	d.line(thin, look.Faint, at(place(0), y), at(place(most), y))
	d.line(mid, look.Ink, at(place(0), y-size.Y*0.2), at(place(0), y+size.Y*0.2))
	if b.margin < 1 {
		d.fill(look.Ink, rectangle(mark, y-size.Y*0.14, post, y+size.Y*0.14)...)
	} else {
		d.fill(look.Fill, rectangle(post, y-size.Y*0.14, mark, y+size.Y*0.14)...)
	}
	d.line(2*heavy, look.Ink, at(post, y-size.Y*0.46), at(post, y+size.Y*0.46))
	if b.spread > 0 {
		b.whiskers(d, place, y, size.Y*0.42)
	}
	wide := size.Y * 0.3
	if b.spread > 0 {
		wide /= 2 // so that the whiskers show beside it
	}
	b.mark(d, at(mark, y), wide, size.Y*0.3)
}

// whiskers are fine strokes where the margin would be with its U taken off and put on. They are taller than
// the mark, which mostly covers what lies between them. One beyond an end of the bar is left out: it stands
// nowhere on it.
func (b Bar) whiskers(d brush, place func(float64) vg.Length, y, tall vg.Length) {
	low, high := b.margin-b.spread, b.margin+b.spread
	if low >= most || high <= 0 {
		return
	}
	d.line(thin, d.look.Ink, at(place(low), y), at(place(high), y))
	for _, end := range []float64{low, high} {
		if end >= 0 && end <= most {
			d.line(thin, d.look.Ink, at(place(end), y-tall), at(place(end), y+tall))
		}
	}
}

// mark is a diamond, or an arrowhead where the margin lies beyond an end of the bar.
func (b Bar) mark(d brush, p vg.Point, w, r vg.Length) {
	shape := []vg.Point{at(p.X-w, p.Y), at(p.X, p.Y+r), at(p.X+w, p.Y), at(p.X, p.Y-r)}
	switch {
	case b.margin < 0:
		shape = []vg.Point{at(p.X-r, p.Y), at(p.X+r*0.6, p.Y+r), at(p.X+r*0.6, p.Y-r)}
	case b.margin > most:
		shape = []vg.Point{at(p.X+r, p.Y), at(p.X-r*0.6, p.Y+r), at(p.X-r*0.6, p.Y-r)}
	}
	if b.proven {
		d.fill(d.look.Ink, shape...)
	} else {
		d.fill(d.look.Paper, shape...)
	}
	d.outline(mid, d.look.Ink, shape...)
}
