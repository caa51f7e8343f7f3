package curve

import (
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Assembly returns the curve of a nested spring tested as one on these steps, coil by coil inwards from
// the second: how much less room each had than the outermost coil, rj + qj. A spring of one coil has
// none. bind is of the whole, over the outer land. It refuses what [New] refuses.
func Assembly(points []Point, bind unit.Length, steps ...unit.Length) (*Curve, error) {
	c, err := New(points, bind)
	if err != nil {
		return nil, err
	}
	c.whole, c.steps = true, slices.Clone(steps)
	return c, nil
}

// Spring is what the tester gave of one spring: of the whole, of its coils alone, or both.
type Spring struct {
	Assembly *Curve   // made by [Assembly]; nil where the spring was not tested as one
	Coils    []*Curve // from the outermost; nil where a coil was not tested alone
}

// On returns the spring's curve on these steps, one for each coil from the second.
//
// An assembly wins over its coils. On other steps than its own it is carried over by what each
// inner coil alone carries more or less there, F(H) + Fj(H − to) − Fj(H − from); without that coil's own
// curve there is none. Its bind height then changes too: the greater of its own and the moved coils',
// so that no load is given where one of them is solid.
//
// Without an assembly the coils are added up. The error says which coil to test (say.NotFound), or what
// does not fit (say.Invalid).
func (s Spring) On(steps ...unit.Length) (*Curve, error) {
	if s.Assembly == nil {
		return s.apart(steps)
	}
	from := s.Assembly.steps
	if len(from) != len(steps) {
		return nil, say.Fail(say.Invalid, "spring.coils", len(from)+1, len(steps)+1)
	}
	parts := slices.Clone(s.Assembly.parts)
	for i, to := range steps {
		if to == from[i] {
			continue
		}
		coil := i + 2
		own := s.coil(coil)
		if own == nil {
			return nil, say.Fail(say.NotFound, "spring.moved", coil, from[i], to)
		}
		more, err := own.moved(coil, to, 1)
		if err != nil {
			return nil, err
		}
		less, err := own.moved(coil, from[i], -1)
		if err != nil {
			return nil, err
		}
		parts = append(append(parts, more...), less...)
	}
	c, err := join(parts)
	if err != nil {
		return nil, err
	}
	c.whole, c.steps = true, slices.Clone(steps)
	return c, nil
}

// apart adds up the coils.
func (s Spring) apart(steps []unit.Length) (*Curve, error) {
	coils := make([]Coil, len(steps)+1)
	for i := range coils {
		own := s.coil(i + 1)
		if own == nil {
			return nil, say.Fail(say.NotFound, "spring.no-coil", i+1)
		}
		coils[i].Curve = own
		if i > 0 {
			coils[i].Less = steps[i-1]
		}
	}
	return Together(coils...)
}

// coil returns the curve of a coil, counted from 1, nil where there is none.
func (s Spring) coil(n int) *Curve {
	if n > len(s.Coils) {
		return nil
	}
	return s.Coils[n-1]
}

// Difference returns what the spring carries more as one than its coils do alone, at a height on these
// steps: friction between the coils, or a fault in one of the tests. It is to be shown, never added.
// The error says which of the two is missing.
func (s Spring) Difference(h unit.Length, steps ...unit.Length) (unit.Load, error) {
	if s.Assembly == nil {
		return 0, say.Fail(say.NotFound, "spring.no-assembly")
	}
	whole, err := s.On(steps...)
	if err != nil {
		return 0, err
	}
	apart, err := s.apart(steps)
	if err != nil {
		return 0, err
	}
	w, err := whole.sum(h)
	if err != nil {
		return 0, err
	}
	a, err := apart.sum(h)
	if err != nil {
		return 0, err
	}
	return loadOf(w.load - a.load), nil
}
