package curve_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// known is an input whose standard uncertainty is known.
func known(u float64) *budget.Input {
	return &budget.Input{Estimate: budget.Estimate{U: u, Nu: math.Inf(1)}}
}

// sure returns points of one tester: every load and every height known so well.
func sure(points []curve.Point, load, height float64) []curve.Point {
	var all []curve.Point
	for _, p := range points {
		p.Loaded, p.Set = known(load), known(height)
		all = append(all, p)
	}
	return all
}

func std(t fatal, s budget.Sum, err error) float64 {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Budget()
	if err != nil {
		t.Fatal(err)
	}
	return b.Std
}

// By hand: u² = u²(point) + k² [u²(H) + u²(tester)], and beyond the points |Δ| |s₁ − s₂| with it.
func TestTerms(t *testing.T) {
	const uF, uh, uH = 3000.0, 20_000.0, 60_000.0 // mN and tenths of a nanometre
	c := newCurve(t, 1000*unit.Thou, sure(progressive, uF, uh)...)
	height := known(uH)
	at := func(h unit.Length) float64 {
		s, err := c.Terms(h, budget.Sum{{C: 1, X: height}})
		return std(t, s, err)
	}
	k := func(h unit.Length) float64 { return float64(must(c.At(h)).Rate) * 1e-10 }
	inside := 1500 * unit.Thou
	near(t, "inside", at(inside), math.Sqrt(uF*uF+k(inside)*k(inside)*(uh*uh+uH*uH)), 1)

	// The last secants are 28/.050 and 100/.200 lbf/in.
	s1, s2 := 560*lbf/float64(unit.Inch), 500*lbf/float64(unit.Inch)
	below := 1120 * unit.Thou
	off := float64(30*unit.Thou) * (s1 - s2)
	near(t, "beyond", at(below), math.Sqrt(uF*uF+s1*s1*(uh*uh+uH*uH)+off*off), 1)
	if off < 8000 { // 60 lbf/in over .030 in are 1.8 lbf
		t.Errorf("off by %.0f mN only", off)
	}
	// Above, 40/.100 against 84/.200.
	s1, s2 = 400*lbf/float64(unit.Inch), 420*lbf/float64(unit.Inch)
	off = float64(40*unit.Thou) * (s2 - s1)
	near(t, "above", at(1940*unit.Thou), math.Sqrt(uF*uF+s1*s1*(uh*uh+uH*uH)+off*off), 1)

	t.Run("from two points nobody knows how the rate changes, and it is marked", func(t *testing.T) {
		c := newCurve(t, 1000*unit.Thou, sure(progressive[3:5], uF, uh)...)
		s, err := c.Terms(1180*unit.Thou, budget.Sum{{C: 1, X: height}})
		s1 := 500 * lbf / float64(unit.Inch)
		near(t, "beyond", std(t, s, err), math.Sqrt(uF*uF+s1*s1*(uh*uh+uH*uH)), 1)
		if !must(c.At(1180 * unit.Thou)).Straight {
			t.Error("not marked")
		}
	})
	t.Run("the less sure of two points counts", func(t *testing.T) {
		points := sure(progressive, uF, uh)
		points[2].Loaded = known(9 * uF) // at 1.600
		c := newCurve(t, 0, points...)
		for _, h := range []unit.Length{1401 * unit.Thou, 1599 * unit.Thou, 1790 * unit.Thou} {
			s, err := c.Terms(h, budget.Sum{{C: 1, X: known(0)}})
			if u := std(t, s, err); u < 9*uF {
				t.Errorf("u %.0f at %d", u, h)
			}
		}
		s, err := c.Terms(1300*unit.Thou, budget.Sum{{C: 1, X: known(0)}})
		if u := std(t, s, err); u > 2*uF {
			t.Errorf("u %.0f between two good points", u)
		}
	})
	t.Run("a tangent that flattens at the end does not make a height harmless", func(t *testing.T) {
		// A soft end and then a stiff one: the cubic's slope at the tall end is nought.
		c := newCurve(t, 0, sure([]curve.Point{{Height: 1900 * unit.Thou, Load: 10_000}, {Height: 1800 * unit.Thou, Load: 20_000},
			{Height: 1700 * unit.Thou, Load: 90_000}}, 0, 0)...)
		v := must(c.At(1900 * unit.Thou))
		if v.Rate != 0 {
			t.Fatalf("rate %d: not the case that is looked at", v.Rate)
		}
		s, err := c.Terms(1900*unit.Thou, budget.Sum{{C: 1, X: known(uH)}})
		near(t, "u", std(t, s, err), uH*10_000/float64(100*unit.Thou), 1e-6)
	})
}

// Each sensitivity is what the load does when that input moves; the load itself is moved, not its formula.
func TestTermsAreSlopes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outer, inner := sure(progressive, 1, 1), sure([]curve.Point{at(1.9, 40), at(1.6, 103), at(1.3, 169), at(1.02, 233)}, 1, 1)
		less := unit.Length(rapid.Int64Range(0, int64(120*unit.Thou)).Draw(t, "step"))
		build := func(tester unit.Length, more unit.Load, step unit.Length) *curve.Curve {
			moved := func(points []curve.Point) (all []curve.Point) {
				for _, p := range points {
					p.Height += tester
					p.Load += more
					all = append(all, p)
				}
				return all
			}
			return must(curve.Together(curve.Coil{Curve: newCurve(t, 0, moved(outer)...)},
				curve.Coil{Curve: newCurve(t, 0, moved(inner)...), Less: less + step}))
		}
		h := anyHeight(t, 1170*unit.Thou, 1880*unit.Thou)
		base, step := known(1), known(1)
		c := build(0, 0, 0)
		terms, err := c.Terms(h, budget.Sum{{C: 1, X: base}}, budget.Sum{{C: 1, X: base}, {C: -1, X: step}})
		if err != nil {
			t.Fatal(err)
		}
		by := map[*budget.Input]float64{}
		var loads, heights float64
		isLoad, isHeight := map[*budget.Input]bool{}, map[*budget.Input]bool{}
		for _, points := range [][]curve.Point{outer, inner} {
			for _, p := range points {
				isLoad[p.Loaded], isHeight[p.Set] = true, true
			}
		}
		for _, term := range terms {
			by[term.X] += term.C
			if isLoad[term.X] {
				loads += term.C
			}
			if isHeight[term.X] {
				heights += term.C
			}
		}
		const d, more = unit.Thou, 1000
		slope := func(up, down unit.Load) float64 { return float64(up-down) / (2 * float64(d)) }
		// Sensitivities take the greater of tangent and secant, so they may be above the slope and not below.
		within := func(what string, got, want float64) {
			if got > 0 != (want > 0) || math.Abs(got) < .97*math.Abs(want) || math.Abs(got) > 1.25*math.Abs(want) {
				t.Fatalf("%s: %g, by differences %g", what, got, want)
			}
		}
		within("height", by[base], slope(load(t, c, h+d), load(t, c, h-d)))
		within("step", by[step], slope(load(t, build(0, 0, d), h), load(t, build(0, 0, -d), h)))
		within("tester's height", heights, slope(load(t, build(d, 0, 0), h), load(t, build(-d, 0, 0), h)))
		within("loads", loads, float64(load(t, build(0, more, 0), h)-load(t, c, h))/more)
	})
}

// One height gauge read both the tester's stop and the spring's height: the signs are opposite and nothing
// is gained. Two coils tested on one load cell: equal signs add fully.
func TestTermsShareGauges(t *testing.T) {
	cell := &budget.Gauge{Step: 1, Certificate: budget.Certificate{U: 8000, K: 2}}
	pool := &budget.Pool{S: 1, Nu: 20}
	reading := func() *budget.Input { return &budget.Input{Gauge: cell, Pool: pool, N: 1} }
	points := sure(progressive, 1, 0)
	for i := range points {
		points[i].Loaded = reading()
	}
	c := newCurve(t, 0, points...)
	both := must(curve.Together(curve.Coil{Curve: c}, curve.Coil{Curve: c, Less: 30 * unit.Thou}))
	h := 1700 * unit.Thou
	one, err := c.Terms(h, budget.Sum{{C: 1, X: known(0)}})
	u1 := std(t, one, err)
	two, err := both.Terms(h, budget.Sum{{C: 1, X: known(0)}})
	near(t, "two coils on one cell", std(t, two, err), 2*u1, 1)
	near(t, "one", u1, 4000, 1)

	t.Run("what an assembly is carried over with cancels where it is the same", func(t *testing.T) {
		_, outer, _ := nest(t)
		inner := newCurve(t, 0, sure([]curve.Point{at(1.9, 40), at(1.6, 103), at(1.3, 169), at(1.02, 233)}, 5000, 0)...)
		whole := must(curve.Assembly(sure(progressive, 700, 0), 0, 95*unit.Thou))
		c := must(curve.Spring{Assembly: whole, Coils: []*curve.Curve{outer, inner}}.On(60 * unit.Thou))
		s, err := c.Terms(1500*unit.Thou, budget.Sum{{C: 1, X: known(0)}})
		near(t, "u", std(t, s, err), 700, .1)
	})
}

func TestTermsRefused(t *testing.T) {
	unsure := newCurve(t, 0, progressive...)
	_, err := unsure.Terms(1500*unit.Thou, budget.Sum{{C: 1, X: known(1)}})
	wantKey(t, err, "spring.unsure")
	_, err = unsure.Terms(2500*unit.Thou, nil)
	wantKey(t, err, "spring.above")
	_, err = unsure.Terms(1500 * unit.Thou)
	wantKey(t, err, "spring.heights")
	bad := sure(progressive, 1, 1)
	for i := range bad {
		bad[i].Loaded = known(math.NaN())
	}
	_, err = newCurve(t, 0, bad...).Terms(1500*unit.Thou, budget.Sum{{C: 1, X: known(1)}})
	wantKey(t, err, "budget.scatter")
}
