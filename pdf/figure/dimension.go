package figure

import "gonum.org/v1/plot/vg"

// arrow is the length of an arrowhead in points; it is three times as long as wide.
const arrow vg.Length = 6

// note is a number with its name: what the number says is weighed like in the table, bold where it was
// measured on this very valve.
type note struct {
	name, number string
	measured     bool
}

// width of the note when name and number stand under each other.
func (b brush) noteWidth(n note) vg.Length {
	return max(wide(b.look.regular(), n.name), wide(b.look.bold(), n.number))
}

// note sets name and number under each other around y.
func (b brush) note(s side, p vg.Point, bare bool, n note) {
	half := b.look.TextSize * 0.56
	face := b.look.regular()
	if n.measured {
		face = b.look.bold()
	}
	b.text(b.look.regular(), s, at(p.X, p.Y+half), bare, n.name)
	b.text(face, s, at(p.X, p.Y-half), bare, n.number)
}

// head draws an arrowhead with its tip at p, pointing up or down.
func (b brush) head(p vg.Point, up bool) {
	l := arrow
	if up {
		l = -arrow
	}
	b.fill(b.look.Ink, p, at(p.X-arrow/6, p.Y+l), at(p.X+arrow/6, p.Y+l))
}

// span draws an upright dimension line from y1 up to y2. Where its arrows have no room between its
// ends beside a text of this height, they stand outside and point in.
func (b brush) span(x, y1, y2, text vg.Length) {
	ink := b.look.Ink
	b.line(thin, ink, at(x, y1), at(x, y2))
	if y2-y1 >= 2*arrow+2+text {
		b.head(at(x, y2), true)
		b.head(at(x, y1), false)
		return
	}
	b.line(thin, ink, at(x, y2), at(x, y2+1.7*arrow))
	b.line(thin, ink, at(x, y1), at(x, y1-1.7*arrow))
	b.head(at(x, y2), false)
	b.head(at(x, y1), true)
}

// dimension draws an upright dimension line with its note in a gap of the line, or beside it where the
// length is too small for that.
func (b brush) dimension(x, y1, y2 vg.Length, n note) {
	high := b.look.TextSize * 2.3
	if y2-y1 >= high {
		b.span(x, y1, y2, high)
		b.note(centre, at(x, (y1+y2)/2), true, n)
		return
	}
	b.span(x, y1, y2, 0)
	b.note(left, at(x+5, (y1+y2)/2), true, n)
}

// leader draws a line from a point of the drawing to the note at its end, level and then to the side.
func (b brush) leader(s side, from, to vg.Point, n note) {
	b.line(2.2, b.look.Paper, from, to)
	b.line(thin, b.look.Ink, from, to)
	b.dot(from)
	b.note(s, at(to.X-vg.Length(s)*3, to.Y), true, n)
}

func (b brush) dot(p vg.Point) {
	var d vg.Path
	d.Arc(p, 1.5, 0, 2*3.141592653589793)
	d.Close()
	b.c.SetColor(b.look.Ink)
	b.c.Fill(d)
}
