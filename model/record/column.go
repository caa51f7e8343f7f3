package record

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ColumnOf says how readings of a kind are typed in a set-up with these units. Lash is so small that
// a number without a mark would be guesswork in millimetres, so nothing special is made of it.
func ColumnOf(kind Kind, u Units) unit.Column {
	c := PlainColumn(u.Length)
	if kind.IsLoad() {
		c.Unit = u.Load
		c.Comma = c.Comma || metric(u.Load)
	}
	switch kind {
	case BaseHeight, CheckHeight, BindReading, SeatDepth, RetainerDepth:
		c.Kind = unit.Height
	}
	return c
}

// ShimColumn says how shim stacks are typed.
func ShimColumn(u Units) unit.Column { return PlainColumn(u.Length) }

// PlainColumn says how numbers in a unit are typed and shown: a comma is a decimal mark in metric units always, in others where
// the chosen language has it. Where it might also part thousands, it is asked about.
func PlainColumn(of unit.Symbol) unit.Column {
	comma := say.Chosen().Comma()
	return unit.Column{Unit: of, Comma: comma || metric(of), Points: !comma}
}

// metric reports whether a unit is one of those that most who write a decimal comma measure in.
func metric(of unit.Symbol) bool {
	switch of {
	case unit.Mm, unit.N, unit.Kgf, unit.NPerMm, unit.KPa, unit.Bar, unit.Gram, unit.GPa:
		return true
	}
	return false
}
