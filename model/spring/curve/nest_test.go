package curve_test

import (
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

func TestTogether(t *testing.T) {
	checkfile.Each(t, "testdata/check/nested.txt", func(t *testing.T, r checkfile.Row) {
		h := r.Length("height_in")
		inch := float64(h) / float64(unit.Inch)
		outer := straight(t, inch, number(r, "outer_lbf"), number(r, "outer_lbf/in"))
		inner := straight(t, inch, number(r, "inner_lbf"), number(r, "inner_lbf/in"))
		for less, want := range map[unit.Length]unit.Load{0: r.Load("bare_lbf"), r.Length("step_in"): r.Load("stepped_lbf")} {
			c := must(curve.Together(curve.Coil{Curve: outer}, curve.Coil{Curve: inner, Less: less}))
			near(t, "load", inPounds(load(t, c, h)), inPounds(want), inPounds(r.Load("tolerance_lbf")))
		}
	})
	t.Run("each coil at its own height, and no further than all of them reach", rapid.MakeCheck(func(t *rapid.T) {
		coils := make([]curve.Coil, rapid.IntRange(1, 3).Draw(t, "coils"))
		for i := range coils {
			points, bind := anyCoil(t)
			coils[i].Curve = newCurve(t, bind, points...)
			if i > 0 {
				coils[i].Less = unit.Length(rapid.Int64Range(int64(-50*unit.Thou), int64(200*unit.Thou)).Draw(t, "less"))
			}
		}
		c, err := curve.Together(coils...)
		if err != nil {
			t.Skip("the coils do not meet")
		}
		least, most := c.Reach()
		h := anyHeight(t, least, most)
		sum, beyond := unit.Load(0), false
		for _, coil := range coils {
			v, err := coil.Curve.At(h - coil.Less)
			if err != nil {
				t.Fatal(err)
			}
			sum += v.Load
			beyond = beyond || v.Beyond
		}
		v, err := c.At(h)
		if rounding := unit.Load(len(coils)); err != nil || v.Load < sum-rounding || v.Load > sum+rounding || v.Beyond != beyond {
			t.Fatalf("%+v, %v; coil by coil %d, beyond %v", v, err, sum, beyond)
		}
		a, b := c.Points()
		if v.Beyond != (h < a || h > b) {
			t.Fatalf("points of all from %d to %d; at %d beyond is %v", a, b, h, v.Beyond)
		}
		for _, h := range []unit.Length{least - 1, most + 1} {
			if v, err := c.At(h); err == nil {
				t.Fatalf("%+v out of reach", v)
			}
		}
	}))
	coil := straight(t, 1.8, 150, 300)
	whole := must(curve.Assembly(progressive, solid, 95*unit.Thou))
	for name, c := range map[string]struct {
		coils []curve.Coil
		key   string
	}{
		"no coils":                         {nil, "spring.no-coil"},
		"a coil that was not tested":       {[]curve.Coil{{Curve: coil}, {}}, "spring.no-coil"},
		"a coil added to an assembly":      {[]curve.Coil{{Curve: whole}, {Curve: coil, Less: 95 * unit.Thou}}, "spring.twice"},
		"a step larger than the spring":    {[]curve.Coil{{Curve: coil}, {Curve: coil, Less: 2101 * unit.Thou}}, "spring.step"},
		"a step as large as the spring":    {[]curve.Coil{{Curve: coil}, {Curve: coil, Less: 2100 * unit.Thou}}, "spring.step"},
		"a recess larger than the spring":  {[]curve.Coil{{Curve: coil}, {Curve: coil, Less: -2101 * unit.Thou}}, "spring.step"},
		"coils that are tested far apart":  {[]curve.Coil{{Curve: coil}, {Curve: coil, Less: 1000 * unit.Thou}}, "spring.apart"},
		"a sum with an assembly inside it": {[]curve.Coil{{Curve: must(curve.Spring{Assembly: whole}.On(95 * unit.Thou))}, {Curve: coil}}, "spring.twice"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := curve.Together(c.coils...)
			wantKey(t, err, c.key)
		})
	}
	t.Run("names the coil that has no load", func(t *testing.T) {
		c := must(curve.Together(curve.Coil{Curve: coil}, curve.Coil{Curve: coil, Less: 95 * unit.Thou}))
		_, err := c.At(1200 * unit.Thou)
		wantKey(t, err, "spring.of-coil")
	})
}

// nest is a spring whose assembly was tested on a step of .095 and agrees with its coils.
func nest(t fatal) (s curve.Spring, outer, inner *curve.Curve) {
	t.Helper()
	const from = 95 * unit.Thou
	outer = newCurve(t, solid, progressive...)
	inner = newCurve(t, 1000*unit.Thou, at(1.9, 40), at(1.6, 103), at(1.3, 169), at(1.02, 233))
	both := must(curve.Together(curve.Coil{Curve: outer}, curve.Coil{Curve: inner, Less: from}))
	var points []curve.Point
	for h := 1150 * unit.Thou; h <= 1900*unit.Thou; h += 25 * unit.Thou {
		points = append(points, curve.Point{Height: h, Load: load(t, both, h)})
	}
	whole, err := curve.Assembly(points, solid, from)
	if err != nil {
		t.Fatal(err)
	}
	return curve.Spring{Assembly: whole, Coils: []*curve.Curve{outer, inner}}, outer, inner
}

func TestOn(t *testing.T) {
	s, outer, inner := nest(t)
	const from, to = 95 * unit.Thou, 60 * unit.Thou
	t.Run("an assembly on its own steps is taken as it is", func(t *testing.T) {
		alone := curve.Spring{Assembly: s.Assembly}
		c := must(alone.On(from))
		for _, h := range []unit.Length{1200 * unit.Thou, 1777 * unit.Thou} {
			if a, b := load(t, c, h), load(t, s.Assembly, h); a != b {
				t.Errorf("%d, was %d", a, b)
			}
		}
	})
	t.Run("carried over it is what the coils are there", rapid.MakeCheck(func(t *rapid.T) {
		to := unit.Length(rapid.Int64Range(0, int64(150*unit.Thou)).Draw(t, "to"))
		c, err := s.On(to)
		if err != nil {
			t.Fatal(err)
		}
		apart := must(curve.Together(curve.Coil{Curve: outer}, curve.Coil{Curve: inner, Less: to}))
		h := anyHeight(t, 1180*unit.Thou, 1870*unit.Thou)
		// The assembly's points are .025 in apart; between them its cubic is not quite the coils'.
		if a, b := load(t, c, h), load(t, apart, h); a < b-pounds(.2) || a > b+pounds(.2) {
			t.Fatalf("%.2f lbf, coil by coil %.2f", inPounds(a), inPounds(b))
		}
		d, err := s.Difference(h, to)
		if want := load(t, c, h) - load(t, apart, h); err != nil || d < want-1 || d > want+1 {
			t.Fatalf("difference %d, %v, want %d", d, err, want)
		}
	}))
	t.Run("over .035 in it is k Δr", func(t *testing.T) {
		c := must(s.On(to))
		lost := load(t, s.Assembly, 1500*unit.Thou) - load(t, c, 1500*unit.Thou)
		k := must(inner.Secant(1500*unit.Thou-to, 1500*unit.Thou-from))
		near(t, "lost", float64(lost), float64(k.Times(from-to)), 2)
	})
	t.Run("where the inner coil would be solid there is no load", func(t *testing.T) {
		c := must(s.On(200 * unit.Thou)) // solid at 1.000 + .200
		if least, _ := c.Reach(); least != 1200*unit.Thou {
			t.Errorf("reaches down to %s", unit.Inches.LengthIn(least))
		}
		_, err := c.At(1190 * unit.Thou)
		wantKey(t, err, "spring.of-coil")
	})
	t.Run("an assembly wins over its coils", func(t *testing.T) {
		other := curve.Spring{Assembly: must(curve.Assembly(progressive, solid, from)), Coils: s.Coils}
		c := must(other.On(from))
		if got := load(t, c, 1600*unit.Thou); got != pounds(234) {
			t.Errorf("%.1f lbf", inPounds(got))
		}
		// 234 as one, and its coils 234 + the inner at 1.505.
		d := must(other.Difference(1600*unit.Thou, from))
		if want := -load(t, inner, 1505*unit.Thou); d != want {
			t.Errorf("difference %d, want %d", d, want)
		}
	})
	t.Run("coils alone are added up", func(t *testing.T) {
		c := must(curve.Spring{Coils: s.Coils}.On(to))
		h := 1500 * unit.Thou
		if got, want := load(t, c, h), load(t, outer, h)+load(t, inner, h-to); got < want-1 || got > want+1 {
			t.Errorf("%d, want %d", got, want)
		}
	})
	t.Run("a single coil tested as one needs no step", func(t *testing.T) {
		c := must(curve.Spring{Assembly: must(curve.Assembly(progressive, solid))}.On())
		if got := load(t, c, 1600*unit.Thou); got != pounds(234) {
			t.Errorf("%.1f lbf", inPounds(got))
		}
	})
	for name, c := range map[string]struct {
		spring curve.Spring
		steps  []unit.Length
		key    string
	}{
		"other steps without the inner coil's own curve": {curve.Spring{Assembly: s.Assembly}, []unit.Length{to}, "spring.moved"},
		"other steps with the outer coil's alone":        {curve.Spring{Assembly: s.Assembly, Coils: s.Coils[:1]}, []unit.Length{to}, "spring.moved"},
		"more coils than were tested as one":             {s, []unit.Length{from, from}, "spring.coils"},
		"nothing at all":                                 {curve.Spring{}, nil, "spring.no-coil"},
		"one coil of two":                                {curve.Spring{Coils: s.Coils[:1]}, []unit.Length{to}, "spring.no-coil"},
		"an inner coil that was not tested":              {curve.Spring{Coils: []*curve.Curve{outer, nil}}, []unit.Length{to}, "spring.no-coil"},
		"to a step larger than the coil":                 {s, []unit.Length{2 * unit.Inch}, "spring.step"},
		"to a step that leaves no height":                {s, []unit.Length{960 * unit.Thou}, "spring.apart"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.spring.On(c.steps...)
			wantKey(t, err, c.key)
		})
	}
	t.Run("no difference", func(t *testing.T) {
		h := 1500 * unit.Thou
		_, err := curve.Spring{Coils: s.Coils}.Difference(h, from)
		wantKey(t, err, "spring.no-assembly")
		_, err = curve.Spring{Assembly: s.Assembly}.Difference(h, from)
		wantKey(t, err, "spring.no-coil")
		_, err = curve.Spring{Assembly: s.Assembly}.Difference(h, to)
		wantKey(t, err, "spring.moved")
		_, err = s.Difference(2500*unit.Thou, from)
		wantKey(t, err, "spring.above")
	})
}
