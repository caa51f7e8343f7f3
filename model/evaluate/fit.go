package evaluate

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// FitParts are the parts that have to go together on a valve, with what they go into. A part that is nil, or a
// size that nobody measured, is not looked at.
type FitParts struct {
	Spring   *record.Spring
	Retainer *record.Retainer
	Locks    *record.Locks
	Locator  *record.Locator
	Seal     *record.Seal
	Valve    *record.ValvePart
	Material record.HeadMaterial
	Needs    *record.Needs
	Rules    *record.Rules
}

// Fit is one thing that does not go together, or that somebody should look at.
type Fit struct {
	Key  string // of the finding: "fit-boss", "fit-angle", …
	Note bool   // it asks to be looked at, and refuses nothing
	Line func(label any) say.Line
	What say.Line // in short: "bore of the locator, guide boss"
}

// FitsOf looks at everything that is known of how parts go together, in bench order from the head's casting up.
// Sizes are compared as they were measured: what a fit takes is far more than a caliper is off, and common practice
// has no figures, so that a shop's rule already keeps back what its gauges leave open. Without a rule only what
// cannot go together is named.
func FitsOf(p FitParts) []Fit {
	var all []Fit
	p.clearances(func(c clearance) {
		if !c.measured() {
			return
		}
		if f, bad := c.judge(); bad {
			all = append(all, f)
		}
	})
	return append(all, p.matches()...)
}

// clearance is a thing with a hole and another that goes into it.
type clearance struct {
	key         string
	hole, shaft say.Line
	in, out     *unit.Quantity // nil where nobody measured it
	rule        *record.Clearance
}

func (c clearance) measured() bool { return c.in != nil && c.out != nil }

func (c clearance) judge() (Fit, bool) {
	in, out := c.in.Length(), c.out.Length()
	room := in - out
	fit := func(word string, limit unit.Length) (Fit, bool) {
		return Fit{Key: "fit-" + c.key, What: say.New("fit.pair", c.hole, c.shaft), Line: func(label any) say.Line {
			return say.New("finding.fit."+word, label, c.hole, in, c.shaft, out, distance(room, 0), limit)
		}}, true
	}
	switch {
	case room < 0:
		return fit("tight", 0)
	case c.rule != nil && c.rule.Least != nil && room < c.rule.Least.Length():
		return fit("least", c.rule.Least.Length())
	case c.rule != nil && c.rule.Most != nil && room > c.rule.Most.Length():
		return fit("most", c.rule.Most.Length())
	}
	return Fit{}, false
}

// clearances looks at those of the parts that are there. A locator without a rim and a part without a register for a coil
// have no such clearance.
func (p FitParts) clearances(look func(clearance)) {
	rules := record.Fits{}
	if p.Rules != nil && p.Rules.Fits != nil {
		rules = *p.Rules.Fits
	}
	add := func(key string, hole, shaft say.Line, in, out *unit.Quantity, rule *record.Clearance) {
		look(clearance{key, hole, shaft, in, out, rule})
	}
	thing := func(key string) say.Line { return say.New("fit." + key) }
	var outer *unit.Quantity
	if p.Spring != nil && len(p.Spring.Coils) > 0 {
		outer = p.Spring.Coils[0].Outside
	}
	if l := p.Locator; l != nil {
		if p.Needs != nil {
			add("boss", thing("bore"), thing("boss"), l.Bore, p.Needs.Boss, rules.Boss)
			add("pocket", thing("pocket"), thing("locator"), p.Needs.Pocket, l.Outside, rules.Pocket)
		}
		if l.Cup != nil {
			add("cup", thing("rim"), thing("spring"), l.Cup, outer, rules.Cup)
		}
	}
	if p.Needs != nil && p.Spring != nil {
		add("pocket", thing("pocket"), thing("spring"), p.Needs.Pocket, outer, rules.Pocket)
		add("neighbour", thing("centres"), thing("spring"), p.Needs.Centres, outer, rules.Neighbour)
	}
	if p.Needs != nil && p.Retainer != nil {
		add("neighbour", thing("centres"), thing("retainer"), p.Needs.Centres, p.Retainer.Outside, rules.Neighbour)
	}
	if p.Spring == nil {
		return
	}
	for i := range p.Spring.Coils {
		c := &p.Spring.Coils[i]
		inside := say.New("fit.inside", coilName(c.Name))
		if p.Locator != nil {
			if register := registerOf(p.Locator.Registers, i+1); register != nil {
				add("locator", inside, thing("register-locator"), lowerInside(c), register, rules.Locator)
			}
		}
		if p.Retainer != nil {
			if register := registerOf(p.Retainer.Registers, i+1); register != nil {
				add("retainer", inside, thing("register-retainer"), c.Inside, register, rules.Retainer)
			}
		}
		if i+1 < len(p.Spring.Coils) {
			// A damper is there to rub.
			if next := &p.Spring.Coils[i+1]; c.Acts != record.Damps && next.Acts != record.Damps {
				add("coils", inside, say.New("fit.outside", coilName(next.Name)), c.Inside, next.Outside, rules.Coils)
			}
		} else if p.Seal != nil {
			add("seal", inside, thing("seal"), c.Inside, p.Seal.Outside, rules.Seal)
		}
	}
}

// registerOf is the register that centres a coil, nil where there is none.
func registerOf(all []record.Register, coil int) *unit.Quantity {
	for i := range all {
		if all[i].Coil == coil {
			return &all[i].Diameter
		}
	}
	return nil
}

// lowerInside is the inside diameter of the end that stands on the locator: of a cone or a beehive the large one,
// its outside less twice the wire.
func lowerInside(c *record.Coil) *unit.Quantity {
	if c.Form != record.Conical && c.Form != record.Beehive {
		return c.Inside
	}
	if c.Outside == nil || c.Wire == nil {
		return nil
	}
	wire := c.Wire.Radial
	if c.Wire.Section == record.Round {
		wire = c.Wire.Diameter
	}
	if wire == nil {
		return nil
	}
	large := *c.Outside
	large.Value -= 2 * wire.Value
	return &large
}

func (b *bench) fitParts(f *fitted) FitParts {
	return FitParts{f.spring, f.retainer, f.locks, f.locator, f.seal, f.valve, b.head.Material, &b.setup.Needs, &b.setup.Rules}
}

// judgeFits names what does not go together on a valve.
func (b *bench) judgeFits(v *Valve, f *fitted) {
	for _, one := range FitsOf(b.fitParts(f)) {
		v.add(Finding{Key: one.Key, Verdict: Unfit, Note: one.Note, Line: one.Line(v.Label), Short: say.New("short.fit", one.What), fit: one.Line})
	}
}
