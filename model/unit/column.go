package unit

import (
	"strings"

	"keeperbook/model/say"
)

// Kind says how the numbers of a column are read.
type Kind int

// The kinds of columns.
const (
	Plain  Kind = iota // lifts, gaps, thicknesses, lash; loads, rates, pressures: never negative
	Height             // heights of a spring and depths of a pocket: never under 100 thousandths
	Signed             // offsets of locks, steps of a locator: a sign belongs to the number
)

// Column says how the entries of one column are read. What a column measures follows from its unit.
type Column struct {
	Unit    Symbol     // of a number that has no unit behind it
	Kind    Kind       // how numbers are read
	Comma   bool       // a comma is a decimal mark, as a point is
	Points  bool       // what was understood is shown with a point, whatever the mark was
	Nominal Quantity   // what +2 and −3 count from; none where it is the zero Quantity
	Above   []Quantity // what the cell above holds; more than one in a column of shims or steps
}

// Entry is one number as it was understood.
type Entry struct {
	Quantity   Quantity
	Repeat     bool   // another reading of the same thing: typed as 1.836*
	Understood string // what the cell shows: "1.842 in"
}

// Understood returns what the cell shows of these quantities: ".030+.015 in".
func (c Column) Understood(all ...Quantity) string {
	var b strings.Builder
	s := c.style(c.Unit)
	for i, q := range all {
		b.WriteString(s.mark(trim(minus(q.Read), q.Unit == In)))
		switch {
		case i+1 == len(all):
			b.WriteString(" " + string(q.Unit))
		case all[i+1].Unit != q.Unit:
			b.WriteString(" " + string(q.Unit) + "+")
		default:
			b.WriteByte('+')
		}
	}
	return b.String()
}

// style is how the column shows lengths, in a unit.
func (c Column) style(length Symbol) Style { return Style{Length: length, Comma: c.Comma && !c.Points} }

// least height that a Height column takes. Common practice, no published source: no valve spring
// is a tenth of an inch tall, so such a number was meant otherwise.
const leastHeight = 100 * Thou

// Parse reads what was typed, sent by a gauge or pasted into a cell.
//
// In inches a number without a decimal mark counts thousandths, and so does one of ten or more
// with a mark; other numbers are inches. In millimetres, and for loads, rates and pressures, a
// number is what it says; only these last take thousands separators. A unit behind the number
// comes before the column's. +2 and −3 count thousandths of an inch or hundredths of a millimetre
// from the column's nominal, except in a Signed column. A quotation mark alone repeats the cell
// above; a star behind the number makes it a repeat.
//
// Every refusal is a sentence (say.Invalid) that says what was read, what is allowed and what to
// do; [Choices] returns the ways to type it where it can be taken in two.
func Parse(c Column, text string) (Entry, error) {
	t, err := clean(c, text)
	if err != nil {
		return Entry{}, err
	}
	t, repeat := strings.CutSuffix(t, "*")
	t = strings.TrimSpace(t)
	q, err := c.one(t)
	if err != nil {
		return Entry{}, err
	}
	q.Typed = text
	return Entry{Quantity: q, Repeat: repeat, Understood: c.Understood(q)}, nil
}

// one reads one number with its sign and its unit.
func (c Column) one(t string) (Quantity, error) {
	if ditto(t) {
		return c.above(t)
	}
	sign, t := cutSign(t)
	n, err := c.number(sign, t)
	if err != nil {
		return Quantity{}, err
	}
	if sign != "" && c.Kind != Signed {
		return c.offset(n)
	}
	n.minus = sign == "-"
	return c.keep(n.inches(), n)
}

// keep makes the quantity of a decimal in the number's unit and holds it against the kind of the column.
func (c Column) keep(d decimal, n number) (Quantity, error) {
	v, err := d.value(n.unit)
	if err != nil {
		return Quantity{}, c.otherUnit(err, n)
	}
	q := Quantity{Typed: n.text, Read: d.String(), Unit: n.unit, Value: v}
	switch {
	case v < 0 && c.height():
		return Quantity{}, say.Fail(say.Invalid, "unit.negative-height", shown(n.text), c.Understood(q), c.example())
	case v < 0 && c.Kind != Signed:
		return Quantity{}, say.Fail(say.Invalid, "unit.negative", shown(n.text), c.Understood(q), c.example())
	case c.height() && q.Length() < leastHeight:
		return Quantity{}, c.low(q, n)
	}
	return q, nil
}

func (c Column) height() bool { return c.Kind == Height && c.Unit.Dimension() == OfLength }

func (c Column) above(t string) (Quantity, error) {
	switch {
	case len(c.Above) == 0 || c.Above[0].Zero():
		return Quantity{}, say.Fail(say.Invalid, "unit.above", shown(t), c.example())
	case c.Above[0].Unit.Dimension() != c.Unit.Dimension():
		return Quantity{}, say.Fail(say.Invalid, "unit.dimension", c.Understood(c.Above[0]), c.Unit.Dimension().suffixes(), c.example())
	}
	return c.Above[0], nil
}
