package record

import "keeperbook/model/unit"

// ColumnOf says how readings of a kind are typed in a set-up with these units. Lash is so small that
// a number without a mark would be guesswork in millimetres, so nothing special is made of it.
func ColumnOf(kind Kind, u Units) unit.Column {
	c := unit.Column{Unit: u.Length, Comma: u.Length == unit.Mm}
	if kind.IsLoad() {
		c.Unit = u.Load
	}
	switch kind {
	case BaseHeight, CheckHeight, BindReading, SeatDepth, RetainerDepth:
		c.Kind = unit.Height
	}
	return c
}

// ShimColumn says how shim stacks are typed.
func ShimColumn(u Units) unit.Column {
	return unit.Column{Unit: u.Length, Comma: u.Length == unit.Mm}
}
