package figure

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// layout is where everything of a section goes on the canvas.
type layout struct {
	Section
	brush
	size             vg.Point
	scale            float64
	top, bottom      vg.Length // heights of the title line and of the lines at the foot
	leftW, midW, rtW vg.Length // widths of the columns of dimensions
	closed, open     view
	lift             evaluate.Figure
	liftTitle        string
	liftName         string
	foot             []string
	gov              int  // governing coil, −1 where none is drawn
	plain            bool // no room for the gap enlarged
}

// scales are the scales that a drawing office uses, largest first, as paper length for real length.
var scales = []struct {
	ratio float64
	text  string
}{
	{5, "5 : 1"}, {4, "4 : 1"}, {3, "3 : 1"}, {2.5, "2.5 : 1"}, {2, "2 : 1"}, {1.75, "1.75 : 1"}, {1.5, "1.5 : 1"},
	{1.25, "1.25 : 1"}, {1.2, "1.2 : 1"}, {1.1, "1.1 : 1"}, {1, "1 : 1"}, {1 / 1.25, "1 : 1.25"}, {1 / 1.5, "1 : 1.5"},
	{1 / 2.0, "1 : 2"}, {1 / 2.5, "1 : 2.5"}, {1 / 4.0, "1 : 4"},
}

// lay chooses the largest scale that fits and places the two halves. Where not even the smallest does, or
// the enlarged gap would take more than half of a screen's room from the stack, it goes without the gap.
func (s Section) lay(b brush, size vg.Point) layout {
	l := layout{Section: s, brush: b, size: size, gov: s.valve.Governing}
	if l.gov >= len(s.stack.coils) || l.gov >= 0 && !s.stack.coils[l.gov].drawn {
		l.gov = -1
	}
	l.lift, l.liftTitle, l.liftName = s.openLift()
	text := b.look.TextSize
	l.top = text * 1.7
	l.columns()
	fits := l.choose()
	if !fits || !l.look.OnPaper {
		beside := l.scale
		l.plain = true
		if l.choose(); fits && l.scale < 2*beside {
			l.plain = false
			l.choose()
		}
	}
	l.place()
	return l
}

// choose takes the largest scale that fits, else the smallest, and reports whether it fits.
func (l *layout) choose() bool {
	for _, try := range scales {
		l.scale = try.ratio
		l.footLines(try.text)
		if l.fits(try.ratio) {
			return true
		}
	}
	return false
}

// columns measures the columns of numbers left of, between and right of the two halves.
func (l *layout) columns() {
	b := l.brush
	l.leftW = b.noteWidth(l.heightNote()) + 16
	if l.valve.Base.Known {
		l.leftW += b.noteWidth(l.number("figure.base", l.valve.Base)) + 8
	}
	if n, ok := l.shimNote(false); ok {
		l.leftW = max(l.leftW, b.noteWidth(n)+14)
	}
	l.midW = 30
	for _, n := range l.betweenNotes() {
		l.midW = max(l.midW, b.noteWidth(n)+22)
	}
	l.rtW = 8
	if l.gov >= 0 {
		l.rtW = 40 + b.noteWidth(l.number("figure.bind", l.valve.Bind))
		if l.valve.Lift.Known {
			l.rtW += b.noteWidth(l.number("figure.open-height", l.valve.Open)) + 8
		}
	}
}

func (l *layout) betweenNotes() []note {
	var all []note
	if l.lift.Known {
		all = append(all, l.number(l.liftName, l.lift))
	}
	if l.showSeal() {
		all = append(all, l.number("figure.seal", l.valve.SealOpen))
	}
	if n, ok := l.shimNote(true); ok {
		all = append(all, n)
	}
	return all
}

// showSeal reports whether the open seal gap can be pointed at.
func (l *layout) showSeal() bool {
	return l.stack.hasSeal && l.valve.SealOpen.Known && l.valve.Lift.Known
}

// footLines wraps what stands under the drawing.
func (l *layout) footLines(scale string) {
	line := l.say("figure.heights")
	if l.look.OnPaper {
		line = l.say("figure.scale", say.Number(scale))
	}
	if l.gov >= 0 && len(l.stack.coils) > 1 {
		line += " " + l.say("figure.dark")
	}
	l.foot = l.wrap(l.size.X, line)
	if out := l.leftOut(); len(out) > 0 {
		l.foot = append(l.foot, l.wrap(l.size.X, l.say("figure.left-out", out))...)
	}
	l.bottom = l.look.TextSize * (1.35*vg.Length(len(l.foot)) + 0.6)
}

// tall is the height of both halves without title and foot.
func (l *layout) tall(scale float64) vg.Length {
	s := l.stack
	above := stemAbove + 7
	if l.hasInset() {
		above = max(above, l.insetHeight()+8-vg.Length(s.lift*scale))
	}
	return vg.Length((s.top+s.lid)*scale) + stemBelow + 7 + above
}

func (l *layout) wide(scale float64) vg.Length {
	p := newProfile(l.stack, scale)
	return l.leftW + l.midW + l.right(p) + 4*(p.half()+castingLip)
}

// right is the width of the right column: its dimensions, or what the inset needs beside the stem.
func (l *layout) right(p profile) vg.Length {
	if !l.hasInset() {
		return l.rtW
	}
	return max(l.rtW, l.insetWidth()-(p.half()+castingLip-p.stemHalf-8))
}

func (l *layout) fits(scale float64) bool {
	return l.wide(scale) <= l.size.X && l.top+l.bottom+l.tall(scale) <= l.size.Y
}

// place centres the drawing in the width and stands it on its foot lines.
func (l *layout) place() {
	p := newProfile(l.stack, l.scale)
	half := p.half() + castingLip
	spare := max(0, l.size.X-l.wide(l.scale))
	x := spare*0.3 + l.leftW
	ground := l.bottom + stemBelow + 7
	l.closed = view{brush: l.brush, stack: l.stack, profile: p, axis: x + half, ground: ground, scale: l.scale, governing: l.gov}
	l.midW += spare * 0.3
	l.open = l.closed
	l.open.axis = l.closed.axis + 2*half + l.midW
	l.open.lift = points(l.lift.Value)
	l.rtW = l.right(p) + spare*0.2
}

// wrap breaks a sentence into lines no wider than width; a single word that is wider stands alone.
func (b brush) wrap(width vg.Length, sentence string) []string {
	face := b.look.regular()
	var lines []string
	line := ""
	for _, word := range strings.Fields(sentence) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && face.Width(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// paragraph sets a sentence in lines from p downwards.
func (b brush) paragraph(p vg.Point, width vg.Length, sentence string) {
	for _, line := range b.wrap(width, sentence) {
		b.text(b.look.regular(), left, p, false, line)
		p.Y -= b.look.TextSize * 1.35
	}
}
