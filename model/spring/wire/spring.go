package wire

import (
	"math"
	"sort"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Section is a run of active turns whose mean diameter goes evenly, turn by turn, from one end's to the
// other's. Gap is the free space between one turn and the next; nought where it is not known, and the
// turns are then taken as open under any load.
type Section struct {
	From, To unit.Length
	Turns    float64
	Gap      unit.Length
}

// Spring is one coil of round wire: its sections one on the other. Dead turns are not in it; the
// [End] knows them. It is made by [New], [Cylinder], [Cone] or [Beehive].
type Spring struct {
	wire     unit.Length
	g        Stress
	sections []section
}

// section is a Section in metres.
type section struct {
	small, large, turns, gap float64
	falls                    bool // from the large end to the small one
}

// New returns the spring of these sections, of wire with a diameter and a shear modulus G. It refuses
// (say.Invalid) what is no number above nought, a mean diameter no greater than the wire's, and a gap
// below nought.
func New(wire unit.Length, g Stress, sections ...Section) (Spring, error) {
	if !above(float64(g)) {
		return Spring{}, say.Fail(say.Invalid, "spring.modulus")
	}
	if len(sections) == 0 {
		return Spring{}, say.Fail(say.Invalid, "spring.turns")
	}
	s := Spring{wire: wire, g: g}
	for _, one := range sections {
		if err := checkWire(wire, min(one.From, one.To)); err != nil {
			return Spring{}, err
		}
		if err := checkWire(wire, max(one.From, one.To)); err != nil {
			return Spring{}, err
		}
		switch {
		case !above(one.Turns):
			return Spring{}, say.Fail(say.Invalid, "spring.turns")
		case one.Gap < 0:
			return Spring{}, say.Fail(say.Invalid, "spring.gap", one.Gap)
		}
		s.sections = append(s.sections, section{
			small: metres(min(one.From, one.To)), large: metres(max(one.From, one.To)), turns: one.Turns, gap: metres(one.Gap),
			falls: one.From > one.To,
		})
	}
	return s, nil
}

// Cylinder returns the spring whose turns are all of one diameter.
func Cylinder(wire, mean unit.Length, active float64, g Stress) (Spring, error) {
	return New(wire, g, Section{From: mean, To: mean, Turns: active})
}

// Cone returns the spring whose diameter goes evenly from one end to the other.
func Cone(wire, from, to unit.Length, active float64, gap unit.Length, g Stress) (Spring, error) {
	return New(wire, g, Section{From: from, To: to, Turns: active, Gap: gap})
}

// Beehive returns a cylinder with a cone on it, whose turns stand equally far apart.
func Beehive(wire, mean, top unit.Length, cylinder, cone float64, gap unit.Length, g Stress) (Spring, error) {
	return New(wire, g,
		Section{From: mean, To: mean, Turns: cylinder, Gap: gap},
		Section{From: mean, To: top, Turns: cone, Gap: gap})
}

// soft is c = 8/(G d⁴): a turn of diameter D gives way by c D³ under a newton. Castigliano's theorem for
// torsion alone; Shigley eq. 10-8.
func (s Spring) soft() float64 { return 8 / (float64(s.g) * math.Pow(metres(s.wire), 4)) }

// open returns the share of a section's turns that are open under a load in newtons, and the diameter of the
// largest of them. A turn closes when it has given way by its gap, the largest first: c F D³ = g, as conical
// springs of constant pitch do (Wahl).
func (e section) open(c, f float64) (share, largest float64) {
	closing := math.Inf(1)
	if e.gap > 0 && f > 0 {
		closing = math.Cbrt(e.gap / (c * f))
	}
	switch {
	case closing >= e.large:
		return 1, e.large
	case closing <= e.small:
		return 0, e.small
	}
	return (closing - e.small) / (e.large - e.small), closing
}

// cubes is ∫D³ over the open turns, n (D₁² + D²)(D₁ + D)/4 for the share of n up to the diameter D.
func (e section) cubes(share, largest float64) float64 {
	return e.turns * share * (e.small*e.small + largest*largest) * (e.small + largest) / 4
}

// deflection of the spring under a load, both in SI; compliance is its slope.
func (s Spring) deflection(f float64) (all float64) {
	c := s.soft()
	for _, e := range s.sections {
		share, largest := e.open(c, f)
		all += c*f*e.cubes(share, largest) + e.turns*(1-share)*e.gap
	}
	return all
}

func (s Spring) compliance(f float64) (all float64) {
	c := s.soft()
	for _, e := range s.sections {
		all += c * e.cubes(e.open(c, f))
	}
	return all
}

// Index returns C = D/d of the largest turns.
func (s Spring) Index() float64 { return s.largest(0) / metres(s.wire) }

// largest returns the mean diameter of the largest turn that is open under a load in newtons, in metres.
func (s Spring) largest(f float64) (most float64) {
	c := s.soft()
	for _, e := range s.sections {
		if share, largest := e.open(c, f); share > 0 {
			most = max(most, largest)
		}
	}
	return most
}

// Rate returns the rate before any turn closes: of a cylinder k = G d⁴/(8 D³ Na) (Shigley eq. 10-9), of a
// cone G d⁴/[2 Na (D₁² + D₂²)(D₁ + D₂)] (Wahl), of several sections that of their compliances in
// series (M. Rodriguez et al., J. Mech. Des. 128 (2006) 1352).
func (s Spring) Rate() unit.Rate { return rate(1 / s.compliance(0)) }

// RateAt returns the tangent rate under a load, the closed turns left out, and nothing where all are
// closed (say.NotFound) or the load is below nought.
func (s Spring) RateAt(f unit.Load) (unit.Rate, error) {
	if err := s.bears(f); err != nil {
		return 0, err
	}
	return rate(1 / s.compliance(newtons(f))), nil
}

// Deflection returns how far the spring gives way under a load, and nothing under a load that closes all
// of its turns (say.NotFound): solid, it may carry any.
func (s Spring) Deflection(f unit.Load) (unit.Length, error) {
	if err := s.bears(f); err != nil {
		return 0, err
	}
	return length(s.deflection(newtons(f))), nil
}

func (s Spring) bears(f unit.Load) error {
	if f < 0 {
		return say.Fail(say.Invalid, "spring.pulled", f)
	}
	if closed, ok := s.Closed(); ok && f >= closed {
		return say.Fail(say.NotFound, "spring.closed", f, closed)
	}
	return nil
}

// Closes returns the load under which the first turn closes, F₁ = g/(c D³) of the largest, and Closed
// that under which the last one does. Both are false where a gap that it takes is not known.
func (s Spring) Closes() (unit.Load, bool) {
	least, known := math.Inf(1), true
	for _, e := range s.sections {
		known = known && e.gap > 0
		least = min(least, e.gap/(s.soft()*math.Pow(e.large, 3)))
	}
	return load(least), known
}

// Closed is described at [Spring.Closes].
func (s Spring) Closed() (unit.Load, bool) {
	most := 0.0
	for _, e := range s.sections {
		if e.gap <= 0 {
			return 0, false
		}
		most = max(most, e.gap/(s.soft()*math.Pow(e.small, 3)))
	}
	return load(most), true
}

// Load returns the load at a deflection, rounded to the unit, and nothing past the one at which every turn
// is closed (say.NotFound).
func (s Spring) Load(deflection unit.Length) (unit.Load, error) {
	if deflection < 0 {
		return 0, say.Fail(say.Invalid, "spring.stretched", deflection)
	}
	want := metres(deflection)
	// The turns that never close bear the whole load alone at the most.
	free := 0.0
	for _, e := range s.sections {
		if e.gap == 0 {
			free += s.soft() * e.cubes(1, e.large)
		}
	}
	most, known := s.Closed()
	if !known {
		most = load(min(want/free+1, newtons(greatest)))
	}
	if deepest := length(s.deflection(newtons(most))); deflection > deepest {
		return 0, say.Fail(say.NotFound, "spring.deep", deflection, deepest)
	}
	at := func(f unit.Load) float64 { return s.deflection(newtons(f)) }
	f := unit.Load(sort.Search(int(most), func(i int) bool { return at(unit.Load(i)) >= want }))
	if f > 0 && want-at(f-1) < at(f)-want {
		f--
	}
	return f, nil
}

// greatest load that is looked for: a thousand times any valve spring's.
const greatest unit.Load = 1_000_000_000 // mN
