package task

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/wire"
	"keeperbook/model/unit"
)

// WoundLines say what a coil comes to by its wire and turns, or what is still missing for that.
func (c *Counter) WoundLines(coil record.Coil) []say.Line {
	return evaluate.WoundLines(&coil, c.Units().Load)
}

// Steels lists the keys of the steels of which the handbooks say something, in the order they are asked for.
func Steels() []string {
	all := make([]string, len(wire.Steels()))
	for i, s := range wire.Steels() {
		all[i] = string(s)
	}
	return all
}

// ModulusUnit is the unit of a modulus that has none behind it: Mpsi where loads are in pounds, else GPa.
func (c *Counter) ModulusUnit() unit.Symbol {
	if c.Units().Load == unit.Lbf {
		return unit.Mpsi
	}
	return unit.GPa
}

// ReadModulus reads a modulus of elasticity, ReadMass a mass, in grams where no unit is said. Nothing typed is
// neither.
func (c *Counter) ReadModulus(text string) (*unit.Quantity, error) {
	return readIn(c.ModulusUnit(), text)
}

// ReadMass is described at [Counter.ReadModulus].
func (c *Counter) ReadMass(text string) (*unit.Quantity, error) { return readIn(unit.Gram, text) }

func readIn(symbol unit.Symbol, text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(record.PlainColumn(symbol), text)
}

// Turns reads a number of turns as records have it: with a decimal point. What is no number is refused when it is kept.
func Turns(text string) string { return decimal(strings.TrimSpace(text)) }

// WithWire returns a coil with its wire changed; a wire of which nothing is said goes away.
func WithWire(c record.Coil, change func(*record.Wire)) record.Coil {
	w := record.Wire{}
	if c.Wire != nil {
		w = *c.Wire
	}
	change(&w)
	c.Wire = &w
	if w == (record.Wire{}) {
		c.Wire = nil
	}
	return c
}

// WithAssembly returns a type with what was measured of it as one changed; where nothing was measured it goes away.
func WithAssembly(s record.Spring, change func(*record.Assembly)) record.Spring {
	a := record.Assembly{}
	if s.Assembly != nil {
		a = *s.Assembly
	}
	change(&a)
	s.Assembly = &a
	if a.Bind == nil && a.Loads == nil {
		s.Assembly = nil
	}
	return s
}

// StoodOn returns a single spring that was tested as one on this retainer and this locator; "" is bare.
func StoodOn(p record.SpringPiece, retainer, locator string) record.SpringPiece {
	p.Loads = append([]record.PieceLoads(nil), p.Loads...)
	for i := range p.Loads {
		if p.Loads[i].Coil == 0 {
			p.Loads[i].Retainer, p.Loads[i].Locator = retainer, locator
		}
	}
	return p
}
