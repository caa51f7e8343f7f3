package evaluate

import (
	"cmp"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// springCurve is the load of a spring over the height of its outermost coil, as it stands on the steps of a
// valve, and where it comes from.
type springCurve struct {
	up, back *curve.Curve    // compressing and releasing; back is up where nothing rubs
	estimate bool            // from geometry: no tester has seen it
	from     []*record.Loads // the tests that it rests on, of coils from the outermost; one of a spring tested as one
	stood    fittedEnds      // what the spring stood between that was tested as one
	moved    []int           // its coils that stand on other steps here, counted from 1
	coils    []*curve.Curve  // alone, nil where one was not tested
	whole    bool            // tested as one
	steps    []unit.Length   // that it stands on, one for each coil from the second
	names    []string        // of its coils
	apart    *curve.Curve    // of the coils alone, beside what the spring carried as one; nil where one was not tested
	of       say.Line        // "spring DR-04", "spring type nest 12"
	why      say.Line        // why there is none
}

// stood are the ends of a spring that was tested as one.
type stood struct {
	loads             *record.Loads
	retainer, locator string
	bind              *record.Bind
	ofType            bool
}

// tests are what is known of one spring: of the whole, of its coils alone, or both.
type tests struct {
	spring *record.Spring
	whole  []stood
	coils  []coilTest
}

type coilTest struct {
	loads  *record.Loads
	bind   *record.Bind
	ofType bool
}

// testsOf gathers the tests of a type, and those of a single spring of it in their place.
func testsOf(s *record.Spring, p *record.SpringPiece) tests {
	t := tests{spring: s, coils: make([]coilTest, len(s.Coils))}
	for i := range s.Coils {
		t.coils[i] = coilTest{s.Coils[i].Loads, s.Coils[i].Bind, true}
	}
	own := false
	if p != nil {
		for i := range p.Loads {
			l := &p.Loads[i]
			switch {
			case l.Coil == 0:
				own = true
				t.whole = append(t.whole, stood{&l.Loads, l.Retainer, l.Locator, pieceBind(p, 0), false})
			case l.Coil <= len(t.coils):
				own = true
				t.coils[l.Coil-1] = coilTest{&l.Loads, cmp.Or(pieceBind(p, l.Coil), s.Coils[l.Coil-1].Bind), false}
			}
		}
	}
	// The type's own test as one would stand before coils of this very spring.
	if a := s.Assembly; a != nil && a.Loads != nil && !own {
		t.whole = append(t.whole, stood{a.Loads, a.Retainer, a.Locator, a.Bind, true})
	}
	return t
}

// curveOn returns the curve of a spring on these steps, one for each coil from the second. A spring of one coil
// that was tested as one is that coil. Of several tests as one, that on the very steps goes first. What is left
// on the seat is told by the releasing stroke of the same test, where it was read.
func (b *bench) curveOn(t tests, steps []unit.Length) springCurve {
	c, err := b.tested(t, steps, compressing)
	if err != nil {
		if c, ok := b.fromGeometry(t, steps); ok {
			c.steps = steps
			return c
		}
		return springCurve{why: line(err)}
	}
	if c.whole {
		// Where a coil was not tested there is nothing to lay beside it.
		c.apart, _ = curve.Spring{Coils: c.coils}.On(steps...)
	}
	c.steps = steps
	for _, coil := range t.spring.Coils {
		c.names = append(c.names, coil.Name)
	}
	if back, err := b.tested(t, steps, releasing); err == nil && slices.Equal(back.from, c.from) {
		c.back = back.up
	}
	return c
}

// tested adds up what the tester gave on one stroke.
func (b *bench) tested(t tests, steps []unit.Length, on stroke) (springCurve, error) {
	sp := curve.Spring{Coils: make([]*curve.Curve, len(t.coils))}
	from := make([]*record.Loads, len(t.coils))
	for i, c := range t.coils {
		sp.Coils[i], from[i] = b.testCurve(c.loads, c.bind, on, c.ofType), c.loads
		if sp.Coils[i] == nil && on == releasing {
			// A coil that nobody read while it was released is one that nothing rubs on.
			sp.Coils[i] = b.testCurve(c.loads, c.bind, compressing, c.ofType)
		}
	}
	whole := slices.Clone(t.whole)
	slices.SortStableFunc(whole, func(x, y stood) int { return b.stepsOff(x, steps) - b.stepsOff(y, steps) })
	var fault error
	for _, w := range whole {
		c, err := b.testedWhole(t, sp, w, steps, on)
		if err != nil {
			fault = err
		} else if c.up != nil {
			return c, nil
		}
	}
	up, err := sp.Coils[0], error(nil)
	if len(sp.Coils) > 1 || up == nil {
		if up, err = sp.On(steps...); err != nil && fault != nil {
			err = fault
		}
	}
	return springCurve{up: up, back: up, from: from, coils: sp.Coils}, err
}

// testedWhole is the curve of a spring that was tested as one, on these steps; no curve where it was not read on
// this stroke.
func (b *bench) testedWhole(t tests, sp curve.Spring, w stood, steps []unit.Length, on stroke) (springCurve, error) {
	points := b.testPoints(w.loads, on, w.ofType)
	if len(points) == 0 {
		return springCurve{}, nil
	}
	stood, known := b.stoodOn(w, len(steps))
	if !known {
		return springCurve{}, say.Fail(say.NotFound, "load.ends-unsaid")
	}
	as, err := curve.Assembly(points, solidWhole(w.bind, t.coils, stood), stood...)
	if err != nil {
		return springCurve{}, err
	}
	sp.Assembly = as
	up, err := sp.On(steps...)
	c := springCurve{up: up, back: up, from: []*record.Loads{w.loads}, coils: sp.Coils, whole: true}
	c.stood = fittedEnds{b.retainer[w.retainer], b.locators[w.locator]}
	for i, s := range steps {
		if s != stood[i] {
			c.moved = append(c.moved, i+2)
		}
	}
	return c, err
}

// solidWhole is the height at which a spring is solid as one, over the outer land: as it was measured, or the
// greatest of its coils' own on their steps; nought where one of them is not known.
func solidWhole(bind *record.Bind, coils []coilTest, steps []unit.Length) unit.Length {
	if own := solidAt(bind); own > 0 {
		return own
	}
	most := unit.Length(0)
	for i, c := range coils {
		own := solidAt(c.bind)
		if own == 0 {
			return 0
		}
		if i > 0 {
			own += steps[i-1]
		}
		most = max(most, own)
	}
	return most
}

// stoodOn are the steps of the parts that a spring was tested as one on, bare ends having none; false where a
// part does not say the step of a coil.
func (b *bench) stoodOn(w stood, n int) ([]unit.Length, bool) {
	steps := make([]unit.Length, n)
	for i := range steps {
		if r := b.retainer[w.retainer]; r != nil {
			s, ok := stepOf(r.Steps, i+2)
			if !ok {
				return nil, false
			}
			steps[i] += s
		}
		if l := b.locators[w.locator]; l != nil && len(l.Steps) > 0 {
			s, ok := stepOf(l.Steps, i+2)
			if !ok {
				return nil, false
			}
			steps[i] += s
		}
	}
	return steps, true
}

// stepsOff orders tests as one: on the very steps before on others.
func (b *bench) stepsOff(w stood, steps []unit.Length) int {
	if on, ok := b.stoodOn(w, len(steps)); ok && slices.Equal(on, steps) {
		return 0
	}
	return 1
}
