package unit

import "keeperbook/model/say"

// offset reads +2 and −3: thousandths of an inch or hundredths of a millimetre from the nominal.
func (c Column) offset(n number) (Quantity, error) {
	switch {
	case c.Nominal.Zero() || n.unit.Dimension() != OfLength:
		if n.sign == "-" {
			n.minus = true
			return c.keep(n.inches(), n)
		}
		return Quantity{}, say.Fail(say.Invalid, "unit.nominal", shown(n.text), c.example())
	case n.unit != c.Nominal.Unit:
		return Quantity{}, say.Fail(say.Invalid, "unit.offset-unit", shown(n.text), string(n.unit), c.Understood(c.Nominal))
	}
	nominal, ok := plain(c.Nominal.Read)
	if !ok {
		return Quantity{}, say.Fail(say.Invalid, "unit.plain", shown(c.Nominal.Read))
	}
	d := n.decimal
	switch {
	case n.suffix == thou:
		d = d.left(3)
	case n.suffix != "":
	case d.mark && !d.zero() && (d.whole == "0" || len(d.frac) > 2):
		// +.002 and +1.842 look like a length in full: half a thousandth or half an inch is not guessed.
		return Quantity{}, c.askOffset(n)
	case n.unit == Mm:
		d = d.left(2)
	default:
		d = d.left(3)
	}
	d.minus = n.sign == "-"
	return c.keep(nominal.plus(d), n)
}

func (c Column) askOffset(n number) error {
	full := n.text + " " + string(n.unit)
	part := n.text + " " + thou
	if n.unit == Mm {
		d := n.left(2)
		part = n.sign + c.style(c.Unit).mark(d.String()) + " mm"
	}
	return ask(say.Fail(say.Invalid, "unit.offset", shown(n.text), shown(part), shown(full)), part, full)
}
