package unit

import (
	"strings"

	"keeperbook/model/say"
)

// ParseSteps reads the steps of a retainer or locator from the outer land inwards. Each is typed as
// it is measured, from one land to the next, and comes back from the outer land: .095+.060 is .095
// to the second coil's land and .155 to the third's. "none" is no step.
//
// A minus is taken in a Signed column only, where a locator may be recessed: .060+-.020.
func ParseSteps(c Column, text string) ([]Quantity, error) {
	c.Nominal = Quantity{}
	t, err := clean(c, text)
	if err != nil {
		return nil, err
	}
	if ditto(t) {
		if _, err := c.above(t); err != nil {
			return nil, err
		}
		return append([]Quantity(nil), c.Above...), nil
	}
	if strings.EqualFold(t, "none") {
		return nil, nil
	}
	if err := c.commas(t); err != nil {
		return nil, err
	}
	parts, err := c.parts(t)
	if err != nil {
		return nil, err
	}
	var steps []Quantity
	var total decimal
	for i, part := range parts {
		step, err := c.one(part)
		if err != nil {
			return nil, err
		}
		if i > 0 && step.Unit != steps[0].Unit {
			return nil, say.Fail(say.Invalid, "unit.some-units", shown(t))
		}
		d, _ := plain(step.Read) // one() wrote it
		if i > 0 {
			d = total.plus(d)
		}
		total = d
		n := number{text: strings.Join(parts[:i+1], "+"), unit: step.Unit}
		q, err := c.keep(total, n)
		if err != nil {
			return nil, err
		}
		steps = append(steps, q)
	}
	return steps, nil
}
