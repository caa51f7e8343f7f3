package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/say"
)

// The margin is a few hundredths of an inch and hard to see at the scale of the whole stack. The inset
// shows the top of the solid coil and the land over it enlarged, with the least margin as a dashed post.

// Lengths of the inset, in points: the enlarged gap, and how far the parts on both sides of it are drawn.
const (
	insetDepth vg.Length = 34
	insetPart  vg.Length = 8
	insetBody  vg.Length = 26
	insetPad   vg.Length = 6
)

// hasInset reports whether there is a gap to enlarge.
func (l *layout) hasInset() bool {
	return !l.plain && l.hasMargin()
}

// hasMargin reports whether there is a margin to show.
func (l *layout) hasMargin() bool {
	return l.gov >= 0 && l.valve.Margin.Known && l.valve.Lift.Known
}

// marginText and leastText stand in one line each. The margin is what the drawing is for: it is bold.
func (l *layout) marginText() string {
	return l.say("figure.margin", l.length(l.valve.Margin.Value))
}

func (l *layout) leastText() string {
	return l.say("figure.least", l.length(l.valve.Least.Value))
}

func (l *layout) insetWidth() vg.Length {
	text := max(wide(l.look.bold(), l.marginText()), wide(l.look.regular(), l.leastText()))
	return max(insetBody+24+text, wide(l.look.regular(), l.insetTitle("12.5 : 1"))) + 2*insetPad
}

func (l *layout) insetHeight() vg.Length {
	return insetDepth + 2*insetPart + 2*insetPad + l.look.TextSize*1.3
}

func (l *layout) insetTitle(ratio string) string {
	if l.look.OnPaper {
		return l.say("figure.enlarged", say.Number(ratio))
	}
	return l.say("figure.gap")
}

// enlarged returns the scale of the inset: the largest round one at which margin and least margin fit.
func (l *layout) enlarged(c coil) (float64, string) {
	span := max(c.margin, c.least) - min(c.margin, 0)
	for _, r := range []float64{50, 40, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1} {
		if vg.Length(span*r) <= insetDepth {
			return r, strconv.FormatFloat(r, 'f', -1, 64) + " : 1"
		}
	}
	r := math.Max(1, math.Ceil(span/float64(insetDepth)))
	return 1 / r, "1 : " + strconv.FormatFloat(r, 'f', -1, 64)
}

// inset draws the enlarged gap in a frame over the open half, and ties it to the gap at from.
func (l layout) inset(c coil, from vg.Point) {
	v := l.open
	w, h := l.insetWidth(), l.insetHeight()
	x2 := v.right() + l.right(v.profile) - 1
	x1, y1 := x2-w, v.y(v.upper()+v.lid)+7
	l.tie(from, at(max(x1+insetPad+insetBody/2, from.X), y1))
	frame := rectangle(x1, y1, x2, y1+h)
	l.fill(l.look.Paper, frame...)
	l.outline(thin, l.look.Ink, frame...)

	scale, ratio := l.enlarged(c)
	l.text(l.look.regular(), left, at(x1+insetPad, y1+h-l.look.TextSize*0.75), false, l.insetTitle(ratio))
	gap, least := vg.Length(c.margin*scale), vg.Length(c.least*scale)
	solid := y1 + insetPad + insetPart + max(0, -gap)
	l.faces(x1+insetPad, solid, gap, y1+insetPad)
	l.insetNumbers(x1+insetPad, solid, gap, least)
}

// tie is a circle round the gap at the scale of the stack, with a line to its enlargement.
func (l layout) tie(from, to vg.Point) {
	const r = 8
	var ring vg.Path
	ring.Move(at(from.X+r, from.Y))
	ring.Arc(from, r, 0, 2*math.Pi)
	ring.Close()
	l.c.SetLineDash(nil, 0)
	l.c.SetLineWidth(thin)
	l.c.SetColor(l.look.Ink)
	l.c.Stroke(ring)
	if d := math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y)); d > r {
		l.line(thin, l.look.Ink, from.Add(to.Sub(from).Scale(vg.Length(r/d))), to)
	}
}

// faces draws the solid coil up to its height and the retainer's land over the gap. Where there is no
// gap the two overlap, and what overlaps is ink.
func (l layout) faces(x, solid, gap, floor vg.Length) {
	body := rectangle(x, floor, x+insetBody, solid)
	l.fill(l.shade(0.62), body...)
	l.line(heavy, l.look.Ink, at(x, solid), at(x+insetBody, solid))
	land := rectangle(x, solid+gap, x+insetBody, solid+gap+insetPart)
	if gap >= 0 {
		l.fill(l.look.Paper, land...)
	}
	l.hatch(land, 45, 3, thin, l.look.Ink)
	l.line(heavy, l.look.Ink, at(x, solid+gap), at(x+insetBody, solid+gap))
	if gap < 0 {
		l.fill(l.look.Ink, rectangle(x, solid+gap, x+insetBody, solid)...)
	}
}

// insetNumbers sets margin and least margin beside the gap, one under the other.
func (l layout) insetNumbers(x, solid, gap, least vg.Length) {
	xd, xt := x+insetBody+9, x+insetBody+22
	low, high := min(solid, solid+gap), max(solid, solid+gap)
	l.line(thin, l.look.Faint, at(x+insetBody, solid), at(xd+3, solid))
	l.line(thin, l.look.Faint, at(x+insetBody, solid+gap), at(xd+3, solid+gap))
	middle := (low + high) / 2
	if l.valve.Least.Known {
		apart, y := l.look.TextSize*1.3, solid+least
		switch {
		case y >= middle:
			y = max(y, middle+apart)
		default:
			y = min(y, middle-apart)
		}
		l.dashed(heavy, l.look.Ink, []vg.Length{3, 2}, at(x-3, solid+least), at(xd+4, solid+least))
		l.line(thin, l.look.Ink, at(xd+4, solid+least), at(xt-1, y))
		l.text(l.look.regular(), left, at(xt, y), false, l.leastText())
	}
	l.span(xd, low, high, 0)
	l.text(l.look.bold(), left, at(xt, middle), false, l.marginText())
}
