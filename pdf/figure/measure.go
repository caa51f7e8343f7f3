package figure

import (
	"keeperbook/model/record"
	"keeperbook/model/unit"

	"gonum.org/v1/plot/vg"
)

// draw draws both halves, then everything that measures them.
func (l layout) draw() {
	l.titles()
	l.closed.draw()
	if l.lift.Known {
		l.open.draw()
		l.liftDimension()
		l.sealLeader()
		l.solid()
	} else {
		x := l.closed.right() + l.midW*0.6
		l.paragraph(at(x, l.open.y(l.stack.top*0.6)), l.size.X-x, l.say("figure.no-open"))
	}
	l.heightDimensions()
	l.shimLeaders()
	y := l.bottom - l.look.TextSize
	for _, line := range l.foot {
		l.text(l.look.regular(), left, at(0, y), false, line)
		y -= l.look.TextSize * 1.35
	}
}

// left and right are the outer edges of a half.
func (v view) left() vg.Length  { return v.axis - v.half() - castingLip }
func (v view) right() vg.Length { return v.axis + v.half() + castingLip }

// titles stand over the halves, and where they would meet beside each other.
func (l layout) titles() {
	y, bold := l.bottom+l.tall(l.scale)+l.top*0.45, l.look.bold()
	closed := l.say("figure.closed")
	if l.liftTitle == "" {
		l.text(bold, centre, at(l.closed.axis, y), false, closed)
		return
	}
	title := l.say(l.liftTitle)
	if l.plain && l.hasMargin() {
		title += ", " + l.marginText() // which the enlarged gap would say
	}
	half, apart := wide(bold, title)/2, wide(bold, closed)/2+l.look.TextSize
	over := min(max(l.open.axis, l.closed.axis+apart+half), l.size.X-half)
	l.text(bold, centre, at(min(l.closed.axis, over-half-apart), y), false, closed)
	l.text(bold, centre, at(over, y), false, title)
}

// heightNote is the height in force: the one measured after assembly where it agrees, else the computed.
func (s Section) heightNote() note {
	v := s.valve
	if v.Check.Known && !v.Check.Stale && v.Height.Value == v.Check.Value && v.Height.Mark == "" {
		return s.number("figure.checked", v.Height)
	}
	return s.number("figure.installed", v.Height)
}

// heightDimensions draws installed and base height left of the closed half. Base height ends on the land
// as it was without shims.
func (l layout) heightDimensions() {
	v, s := l.closed, l.stack
	top, x := v.y(s.top), v.left()-6
	h := l.heightNote()
	x1 := x - l.noteWidth(h)/2 - 3
	rim := v.axis - v.rim
	end := x1 - 4
	if l.valve.Base.Known {
		n := l.number("figure.base", l.valve.Base)
		x2 := x1 - l.noteWidth(h)/2 - 8 - l.noteWidth(n)/2
		bare := v.y(s.top - points(l.valve.Base.Value))
		end = x2 - 4
		l.line(thin, l.look.Faint, at(v.axis-v.half()-2, bare), at(end, bare))
		defer l.dimension(x2, bare, top, n)
	}
	l.line(thin, l.look.Faint, at(rim-1, top), at(end, top))
	l.line(thin, l.look.Faint, at(rim-1, v.y(s.seat)), at(x1-4, v.y(s.seat)))
	l.dimension(x1, v.y(s.seat), top, h)
}

// shimNote names the shims in one of the two places, with their thickness together.
func (s Section) shimNote(outer bool) (note, bool) {
	total, key := unit.Length(0), "figure.shims-locator"
	for _, shim := range s.valve.Stack {
		if (shim.Under == record.UnderOuter) == outer {
			total += shim.Thickness.Length()
		}
	}
	if outer {
		key = "figure.shims-outer"
	}
	return note{s.say(key), s.say("figure.shims", total), true}, total > 0
}

// shimLeaders point at the shims: a stack of a few hundredths is too thin for a dimension line.
func (l layout) shimLeaders() {
	v, drop := l.closed, l.look.TextSize*1.2
	if n, ok := l.shimNote(false); ok {
		from := at(v.axis-v.half(), v.y(sum(l.stack.under)/2))
		l.leader(right, from, at(v.left()-1, v.y(0)-drop), n)
	}
	if n, ok := l.shimNote(true); ok {
		from := at(v.axis+v.rim, v.y((l.stack.land+l.stack.seat)/2))
		l.leader(left, from, at(v.right()+2, v.y(0)-drop), n)
	}
}

// liftDimension draws how far the retainer's land comes down, between the two halves.
func (l layout) liftDimension() {
	n := l.number(l.liftName, l.lift)
	top, bottom := l.closed.y(l.stack.top), l.open.y(l.open.upper())
	x := (l.closed.right() + l.open.left()) / 2
	l.line(thin, l.look.Faint, at(l.closed.axis+l.closed.rim+1, top), at(x+4, top))
	l.line(thin, l.look.Faint, at(l.open.axis-l.open.rim-1, bottom), at(x-4, bottom))
	l.dimension(x, bottom, top, n)
}

// sealLeader points into the gap between retainer and seal at full lift.
func (l layout) sealLeader() {
	if !l.showSeal() {
		return
	}
	v := l.open
	hub := v.upper() - l.stack.hub
	gap := v.y((hub + l.stack.seal) / 2)
	low := min(gap, v.y(v.upper())-l.look.TextSize*1.7)
	x := v.axis - (v.stemHalf+v.sealHalf)/2
	l.line(2.2, l.look.Paper, at(x, gap), at(v.left()-6, low))
	l.leader(right, at(x, gap), at(v.left()-6, low), l.number("figure.seal", l.valve.SealOpen))
}

// solid draws, beside the open half, the governing coil's bind height as a solid column, and what is left
// of the open height over it: the margin.
func (l layout) solid() {
	if l.gov < 0 {
		return
	}
	v, c := l.open, l.stack.coils[l.gov]
	low, high, open := v.y(c.bottom), v.y(c.bottom+c.bind), v.y(c.bottom+v.tall(l.gov))
	x1 := v.right() + 8
	x2 := x1 + 11
	bind := l.number("figure.bind", l.valve.Bind)
	xb := x2 + 8 + l.noteWidth(bind)/2
	end := xb + 4
	edge := v.axis + v.at[l.gov] + v.wire[l.gov]/2 + 1
	if l.valve.Lift.Known {
		n := l.number("figure.open-height", l.valve.Open)
		xo := xb + l.noteWidth(bind)/2 + 8 + l.noteWidth(n)/2
		end = xo + 4
		defer l.dimension(xo, low, open, n)
	}
	l.line(thin, l.look.Faint, at(edge, low), at(end, low))
	l.line(thin, l.look.Faint, at(edge, open), at(end, open))
	l.line(thin, l.look.Faint, at(x2, high), at(xb+4, high))
	column := rectangle(x1, low, x2, high)
	l.fill(l.shade(0.62), column...)
	for n := 1; n < c.wires; n++ {
		y := low + (high-low)*vg.Length(n)/vg.Length(c.wires)
		l.line(thin, l.look.Paper, at(x1, y), at(x2, y))
	}
	l.outline(mid, l.look.Ink, column...)
	l.line(heavy, l.look.Ink, at(x1-3, open), at(x2+3, open))
	l.dimension(xb, low, high, bind)
	if l.hasInset() {
		l.inset(c, at((x1+x2)/2, (high+open)/2))
	}
}
