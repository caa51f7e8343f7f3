package evaluate

import (
	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// planKey names a spring on a valve over a number of shims.
type planKey struct{ valve, spring, shims int }

// planCell is what such a place comes to, worked out over shims as the one that is known least counts: how thick they
// really are moves heights, margins and loads, and is in no uncertainty.
type planCell struct {
	none   bool // the spring does not go there
	bound  bool // it is known where each of its coils is solid
	v      Valve
	drop   unit.Length   // of the shims that it was worked out over
	guards []unit.Length // of each coil's margin
	curve  *springCurve
	under  coilTerms
	lift   Figure // that the engine sees
	seal   *planSeal
}

// planSeal is a seal that rises with the shims.
type planSeal struct {
	near bool        // the retainer comes too near to it without any shim
	room unit.Length // how thick they may be for its sake
}

// allows reports whether a seal lets so much of shims be. One that is too near anyway is not the shims' to mend: it is
// noted, and left out of account.
func (s *planSeal) allows(drop unit.Length) bool { return s == nil || s.near || drop <= s.room }

// cell works a place out, once.
func (p *Planning) cell(key planKey) *planCell {
	if c := p.cells[key]; c != nil {
		return c
	}
	c := p.workOut(key)
	p.cells[key] = c
	return c
}

// put lays a spring and a number of shims on a valve.
func (p *Planning) put(key planKey) *fitted {
	at, s := p.at[key.valve], p.springs[key.spring]
	b := p.bench(at)
	valve := b.valves[at.Position]
	before := valve
	valve.At, valve.Spring, valve.Stack, valve.NoShim = at.Position, "", nil, "none"
	if s.piece != nil {
		valve.Spring = s.piece.Tag
	}
	if key.shims > 0 {
		valve.NoShim = ""
		for range key.shims {
			valve.Stack = append(valve.Stack, p.unknown)
		}
	}
	b.valves[at.Position] = valve
	delete(b.over, at.Position)
	f := b.fit(at.Position)
	if f.spring != nil {
		f.pack.Least = leastsFor(f.pack, len(f.spring.Coils))
	}
	b.valves[at.Position] = before
	return f
}

func (p *Planning) workOut(key planKey) *planCell {
	c, b, s := &planCell{}, p.bench(p.at[key.valve]), p.springs[key.spring]
	if s.piece == nil && s.on != key.valve {
		c.none = true
		return c
	}
	f, v := p.put(key), &c.v
	v.At, v.Label, v.Role, v.Governing, v.rule = p.at[key.valve].Position, p.Problem.Valves[key.valve].Name, f.At.Role, -1, b.doubt.rule
	// Another type than the role has was not chosen for it.
	if f.spring == nil || p.Problem.Mode == plan.Both && f.pack.Spring != "" && f.spring.ID != f.pack.Spring {
		c.none = true
		return c
	}
	c.drop, _ = stackHeights(f.Stack)
	b.heights(v, f)
	b.lift(v, f)
	b.coils(v, f)
	b.margins(v)
	c.curve = b.springOn(v, f)
	for i := range v.Coils {
		coil := &v.Coils[i]
		if !coil.Margin.Known || !coil.Least.Known {
			c.none = true
			return c
		}
		c.guards = append(c.guards, b.planGuard(coil))
	}
	c.bound = len(v.Coils) > 0
	c.none = !c.bound || p.Problem.Mode == plan.Both && b.planUnfit(v, f)
	if c.curve.up != nil {
		c.under = b.underCoils(f, c.curve)
	}
	c.lift = b.engineLift(v)
	c.seal = b.planSeal(v, f)
	return c
}

// planGuard is what is kept back from the least margin of a coil. On an estimated lift it is that of the room which the lift
// takes from, and on an estimated bind height nought: nothing is called within on either.
func (b *bench) planGuard(c *Coil) unit.Length {
	f := c.Margin
	switch {
	case c.Bind.Mark == Estimate:
		return 0
	case f.Mark == Estimate:
		f = c.room
	}
	g := b.guardOf(f)
	if g.err != nil || g.Repeat {
		return plan.Unsure
	}
	return g.W
}

// planUnfit reports whether a spring does not go with the parts of a valve, or not to its lift.
func (b *bench) planUnfit(v *Valve, f *fitted) bool {
	if rated := f.spring.RatedLift; rated != nil && v.Lift.Value > rated.Length() {
		return true
	}
	for _, one := range FitsOf(b.fitParts(f)) {
		switch one.Key {
		case "fit-boss", "fit-angle", "fit-stem", "fit-groove", "fit-offset": // not the spring's
		default:
			if !one.Note {
				return true
			}
		}
	}
	return false
}

// planSeal is what a seal that rises with the shims leaves them; nil where it does not rise, or nobody measured.
func (b *bench) planSeal(v *Valve, f *fitted) *planSeal {
	if f.seal == nil || f.seal.Sits != record.OnLocator {
		return nil
	}
	room := func(f *fitted) (unit.Length, bool) {
		var gaps Valve
		gaps.At, gaps.Lift, gaps.StackSaid = v.At, v.Lift, true
		b.gaps(&gaps, f)
		open := gaps.SealOpen
		_, under := stackHeights(f.Stack)
		left := open.Value + under - b.setup.Rules.SealLeast.Length()
		if open.Mark == Estimate { // of its lift: what is kept back is that of the gap which the lift takes from
			open = b.gapRoom(gapSpec{closed: gaps.Seal, under: under, fitted: f})
		}
		if g := b.guardOf(open); g.err == nil && !g.Repeat {
			left -= g.W
		}
		return left, gaps.SealOpen.Known
	}
	none := *f
	none.Stack, none.shims = nil, nil
	bare, known := room(&none)
	if !known {
		return nil
	}
	left, _ := room(f)
	return &planSeal{bare < 0, left}
}

// fit is what [plan.Problem] asks for.
func (p *Planning) fit(at plan.Place) plan.Fit {
	c := p.cell(planKey{at.Valve, at.Spring, at.Shims})
	if c.none || !c.seal.allows(at.Drop) {
		return plan.Fit{None: true}
	}
	up := c.drop - at.Drop // by how much it stands taller than it was worked out
	var f plan.Fit
	room := unit.Length(0)
	for i := range c.v.Coils {
		coil := &c.v.Coils[i]
		spare := coil.Margin.Value + up - coil.Least.Value - c.guards[i]
		if i > 0 && spare >= room {
			continue
		}
		room = spare
		f.Margin, f.Least, f.Guard = coil.Margin.Value+up, coil.Least.Value, c.guards[i]
		f.Coil = say.Line{}
		if len(c.v.Coils) > 1 {
			f.Coil = coilName(coil.Name)
		}
	}
	return p.loads(p.bench(p.at[at.Valve]), c, f, up, &p.Problem.Valves[at.Valve])
}

// loads adds what the spring carries.
func (p *Planning) loads(b *bench, c *planCell, f plan.Fit, up unit.Length, valve *plan.Valve) plan.Fit {
	none := plan.Fit{None: true}
	asked := p.Problem.Mode != plan.Heights
	if c.curve.up == nil {
		if asked || valve.Seat != (plan.Band{}) || valve.Open != (plan.Band{}) {
			return none
		}
		return f
	}
	v := c.v
	v.Height.Value += up
	one := func(on *curve.Curve, key string, lift Figure, guarded bool) (unit.Load, unit.Load, bool) {
		l := b.loadAt(&v, c.under, c.curve, on, key, lift)
		if !l.Known || !guarded {
			return l.Value, 0, l.Known
		}
		if l.Mark == Estimate {
			return l.Value, 0, true
		}
		g := b.guardOf(l.figure())
		if g.err != nil || g.Repeat {
			return l.Value, plan.UnsureLoad, true
		}
		return l.Value, unit.Load(g.W), true
	}
	var ok bool
	if f.Seat, f.SeatGuard, ok = one(c.curve.back, "seat-load", Figure{}, valve.Seat != (plan.Band{})); !ok && (asked || valve.Seat != (plan.Band{})) {
		return none
	}
	banded := valve.Open != (plan.Band{})
	if f.Open, f.OpenGuard, ok = one(c.curve.up, "open-load", c.lift, banded); !ok && banded {
		return none
	}
	if banded && c.lift.Value != v.Lift.Value {
		most, guard, ok := one(c.curve.up, "open-load", v.Lift, true)
		if !ok {
			return none
		}
		f.Greatest, f.OpenGuard = most, max(f.OpenGuard, guard)
	}
	return f
}
