package figure

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"

	"gonum.org/v1/plot/vg"
)

// Section is one valve's spring stack cut through its axis, closed and at full lift side by side. All
// heights in it are drawn to one scale. What is not known is left out, and a line says what it is.
type Section struct {
	valve evaluate.Valve
	parts Parts
	words say.Printer
	stack stack
	drawn bool // there is a height, so there is something to draw
}

// NewSection prepares the drawing of a valve with the parts that stand in its stack. Words shows lengths.
func NewSection(v evaluate.Valve, parts Parts, words say.Printer) Section {
	s := Section{valve: v, parts: parts, words: words}
	s.stack, s.drawn = newStack(v, parts)
	return s
}

// Draw draws the section into the rectangle from the canvas's origin to size. Where it has no room even at
// the smallest scale a sentence says so, because half a section would be read as the whole.
func (s Section) Draw(c vg.Canvas, size vg.Point, look Look) {
	b := brush{c, look}
	if !s.drawn {
		b.paragraph(at(0, size.Y-look.TextSize), size.X, s.say("figure.nothing", s.valve.Label, s.leftOut()))
		return
	}
	l := s.lay(b, size)
	if !l.fits(l.scale) {
		b.paragraph(at(0, size.Y-look.TextSize), size.X, s.say("figure.no-room"))
		return
	}
	l.draw()
}

// OnlyWords reports whether there is nothing to draw but a sentence that says why.
func (s Section) OnlyWords() bool { return !s.drawn }

// Height returns how much height the section takes at this width and no more than most, so that a page
// leaves no hole under it.
func (s Section) Height(width, most vg.Length, look Look) vg.Length {
	b := brush{nil, look}
	if !s.drawn {
		line := s.say("figure.nothing", s.valve.Label, s.leftOut())
		return look.TextSize * 1.35 * vg.Length(len(b.wrap(width, line))+1)
	}
	l := s.lay(b, at(width, most))
	return l.bottom + l.tall(l.scale) + l.top
}

func (s Section) say(key string, args ...any) string { return s.words.Line(say.New(key, args...)) }

// number notes a figure: its name, its number, and whether it was measured on this very valve.
func (s Section) number(key string, f evaluate.Figure) note {
	return note{s.say(key), s.length(f.Value), f.Mark == ""}
}

func (s Section) length(l unit.Length) string { return s.say("figure.length", l) }

// openLift is the lift of the right half: the lift that was measured or estimated, else the most lift
// that the valve may see. Key is what the half is called.
func (s Section) openLift() (lift evaluate.Figure, title, name string) {
	switch v := s.valve; {
	case v.Lift.Known && v.Lift.Mark == evaluate.Estimate:
		return v.Lift, "figure.open-estimate", "figure.lift-estimate"
	case v.Lift.Known:
		return v.Lift, "figure.open", "figure.lift"
	case v.UpTo.Known && v.UpTo.Value > 0:
		return v.UpTo, "figure.open-most", "figure.lift-most"
	}
	return evaluate.Figure{}, "", ""
}

// leftOut names what is not in the picture because it is not known.
func (s Section) leftOut() []say.Line {
	v := s.valve
	var out []say.Line
	add := func(missing bool, key string, args ...any) {
		if missing {
			out = append(out, say.New(key, args...))
		}
	}
	add(!v.Base.Known, "figure.out.base")
	add(!v.StackSaid, "figure.out.shims")
	add(!v.Lift.Known, "figure.out.lift")
	if len(v.Coils) == 0 {
		add(true, "figure.out.spring")
	}
	for _, c := range v.Coils {
		add(!c.Bind.Known, "figure.out.bind", c.Name)
	}
	add(!v.Seal.Known && s.parts.SealOn != "", "figure.out.seal")
	add(s.parts.Floor == nil, "figure.out.floor")
	add(s.parts.Lid == nil, "figure.out.lid")
	return out
}
