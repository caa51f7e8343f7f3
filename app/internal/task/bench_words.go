package task

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Say prints a sentence in the units of the set-up.
func (b *Bench) Say(key string, args ...any) string { return b.Words().Line(say.New(key, args...)) }

// Size shows a length as the set-up does, "" where there is none.
func (b *Bench) Size(q *unit.Quantity) string {
	if q == nil {
		return ""
	}
	return evaluate.StyleOf(b.rec.Setup.Units).QuantityIn(*q)
}

// LengthUnit is the unit of a length that has none behind it.
func (b *Bench) LengthUnit() string { return string(b.rec.Setup.Units.Length) }

// CoilLine is the name of a coil: one of the trade's words, or the shop's own.
func CoilLine(name string) say.Line {
	if _, known := say.English().Words["coil."+name]; known && name != "" {
		return say.New("coil." + name)
	}
	return say.New("expr.one", name)
}
