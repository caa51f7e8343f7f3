package record

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// size is something that is above nought wherever it is known, with its name and the field it stands in.
type size struct {
	what  say.Line
	q     *unit.Quantity
	field string
}

func sizeOf(part, key string, q *unit.Quantity) size {
	return size{say.New("record.size."+key, part), q, key}
}

// sized refuses the first that is not above nought.
func sized(all ...size) *say.Error {
	for _, s := range all {
		if s.q != nil && s.q.Value <= 0 {
			return invalid("record.size", s.what, written(*s.q)).About(s.field)
		}
	}
	return nil
}

func doubtRetainer(r Retainer) *say.Error {
	if err := doubtRegisters(r.Name, r.Registers); err != nil {
		return err
	}
	return sized(sizeOf(r.Name, "outside", r.Outside), sizeOf(r.Name, "stem", r.Stem))
}

func doubtLocator(l Locator) *say.Error {
	if err := doubtRegisters(l.Name, l.Registers); err != nil {
		return err
	}
	err := sized(sizeOf(l.Name, "outside", l.Outside), sizeOf(l.Name, "cup", l.Cup), sizeOf(l.Name, "bore", l.Bore))
	switch {
	case err != nil:
		return err
	case l.Cup != nil && l.Outside != nil && l.Cup.Value >= l.Outside.Value:
		return invalid("record.inside", l.Name, written(*l.Cup), written(*l.Outside)).About("cup")
	}
	return nil
}

func doubtRegisters(part string, all []Register) *say.Error {
	for i := range all {
		if err := sized(sizeOf(part, "register", &all[i].Diameter)); err != nil {
			return err.About("registers")
		}
	}
	return nil
}

// doubtSpring looks at a type of spring, coil by coil, and at its assembly.
func doubtSpring(s Spring) *say.Error {
	for i := range s.Coils {
		c := &s.Coils[i]
		if c.Bind != nil {
			if err := doubtLot(s.Name, c.Bind.Lot, "record.lot-count", "record.lot-spread"); err != nil {
				return err
			}
		}
		if err := doubtLoads(s.Name, c.Loads); err != nil {
			return err
		}
		if err := doubtCoil(s.Name, c); err != nil {
			return err.About("coils")
		}
	}
	if a := s.Assembly; a != nil {
		if a.Bind != nil {
			if err := doubtLot(s.Name, a.Bind.Lot, "record.lot-count", "record.lot-spread"); err != nil {
				return err
			}
		}
		if err := doubtLoads(s.Name, a.Loads); err != nil {
			return err
		}
	}
	return sized(sizeOf(s.Name, "mass", s.Mass))
}

// doubtLot looks at a lot, of bind heights or of loads; the keys are of the sentences about one or the other.
func doubtLot(spring string, l *Lot, count, spread string) *say.Error {
	switch {
	case l == nil:
	case l.Count < 2:
		return invalid(count, spring, l.Count).About("lot")
	case l.Spread.Value < 0:
		return invalid(spread, spring, written(l.Spread)).About("lot")
	}
	return nil
}

// doubtCoil looks at the sizes of a coil by themselves and against one another.
func doubtCoil(spring string, c *Coil) *say.Error {
	w := c.Wire
	if w == nil {
		w = &Wire{}
	}
	err := sized(
		sizeOf(spring, "outside", c.Outside), sizeOf(spring, "small", c.Small), sizeOf(spring, "inside", c.Inside),
		sizeOf(spring, "wire", w.Diameter), sizeOf(spring, "radial", w.Radial), sizeOf(spring, "modulus", w.G),
		sizeOf(spring, "free", c.Free), sizeOf(spring, "mass", c.Mass),
	)
	if err != nil {
		return err
	}
	across := w.Radial // what two walls of the coil take of its diameter
	if across == nil {
		across = w.Diameter
	}
	// The small end of a cylinder is its large one; measured, the two may come out the other way round by a hair,
	// and then neither belongs there.
	switch {
	case c.Inside != nil && c.Outside != nil && c.Inside.Value >= c.Outside.Value:
		return invalid("record.inside", spring, written(*c.Inside), written(*c.Outside))
	case c.Small != nil && c.Outside != nil && c.Small.Value > c.Outside.Value:
		return invalid("record.small", spring, written(*c.Small), written(*c.Outside))
	case across != nil && c.Outside != nil && 2*across.Value >= c.Outside.Value:
		return invalid("record.wire", spring, written(*across), written(*c.Outside))
	case across != nil && c.Small != nil && 2*across.Value >= c.Small.Value:
		return invalid("record.wire", spring, written(*across), written(*c.Small))
	}
	return doubtTurns(spring, c)
}

func doubtTurns(spring string, c *Coil) *say.Error {
	for _, turns := range []string{c.Active, c.Total, c.Conical} {
		if turns != "" && !positive(turns) {
			return invalid("record.turns", spring, turns)
		}
	}
	switch more := func(a, b string) bool { return a != "" && b != "" && number(a).Cmp(number(b)) > 0 }; {
	case more(c.Active, c.Total):
		return invalid("record.active", spring, c.Active, c.Total)
	case more(c.Conical, c.Active):
		return invalid("record.conical", spring, c.Conical, c.Active)
	}
	return nil
}

// doubtPiece looks at a single spring, of which nothing comes from a lot.
func doubtPiece(p SpringPiece) *say.Error {
	for _, b := range p.Binds {
		if b.Bind.Lot != nil {
			return invalid("record.lot-piece", p.Tag).About("lot")
		}
	}
	for i := range p.Loads {
		l := &p.Loads[i]
		switch {
		case l.Loads.Lot != nil:
			return invalid("record.loads-piece", p.Tag).About("lot")
		case l.Coil > 0 && (l.Retainer != "" || l.Locator != ""):
			return invalid("record.loads-steps", p.Tag, l.Coil).About("loads")
		}
		if err := doubtLoads(p.Tag, &l.Loads); err != nil {
			return err
		}
	}
	return sized(sizeOf(p.Tag, "free", p.Free))
}
