package budget_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/unit"
)

func guard(t interface{ Fatal(...any) }, b budget.Budget, rule budget.Rule) budget.Guard[unit.Length] {
	g, err := budget.GuardOf[unit.Length](b, rule)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestGuard(t *testing.T) {
	known := budget.Of(10, math.Inf(1))
	for rule, want := range map[budget.Rule]unit.Length{
		budget.Plain:     0,
		budget.Guarded:   20, // 19.6, rounded up
		budget.Guarded95: 17, // 16.4
	} {
		if g := guard(t, known, rule); g.W != want || g.Repeat {
			t.Errorf("%s: %+v, want %d", rule, g, want)
		}
	}
	g := budget.Guard[unit.Length]{W: 20}
	for _, c := range []struct {
		x    unit.Length
		want budget.Word
	}{{79, budget.Outside}, {80, budget.Unproven}, {119, budget.Unproven}, {120, budget.Within}} {
		if got := g.AtLeast(c.x, 100); got != c.want {
			t.Errorf("%d at least 100: %s", c.x, words[got])
		}
		if got := g.AtMost(-c.x, -100); got != c.want {
			t.Errorf("%d at most −100: %s", -c.x, words[got])
		}
	}
	if g.Narrow(100, 140) || !g.Narrow(100, 139) {
		t.Error("a window of twice the guard has one place in it, a narrower one none")
	}
	if !budget.Binds[unit.Length](known, 20) || budget.Binds[unit.Length](known, 21) {
		t.Error("a margin of U may be none, one of more is some")
	}
	// Loads are guarded like lengths.
	if loads, err := budget.GuardOf[unit.Load](known, budget.Guarded); err != nil || loads.AtLeast(120, 100) != budget.Within {
		t.Errorf("%+v, %v", loads, err)
	}
}

func TestTooFewRepeats(t *testing.T) {
	few, enough := budget.Of(10, 4.99), budget.Of(10, 5)
	for _, rule := range []budget.Rule{budget.Plain, budget.Guarded, budget.Guarded95} {
		if got := guard(t, few, rule).AtLeast(1000, 100); got != budget.Repeat {
			t.Errorf("%s: on few repeats %s", rule, words[got])
		}
		if got := guard(t, few, rule).AtLeast(-1000, 100); got != budget.Outside {
			t.Errorf("%s: on few repeats far outside is %s", rule, words[got])
		}
		if got := guard(t, enough, rule).AtLeast(1000, 100); got != budget.Within {
			t.Errorf("%s: on enough repeats %s", rule, words[got])
		}
	}
	// Fractions of a degree of freedom give a guard that no whole number holds; nothing is within it.
	if g := guard(t, budget.Of(1e9, 0.01), budget.Guarded); g.AtLeast(unit.Limit, 0) != budget.Unproven || !g.Narrow(0, unit.Limit) {
		t.Errorf("%+v", g)
	}
}

func TestProbabilities(t *testing.T) {
	exact := budget.Of(0, math.Inf(1))
	if budget.Above[unit.Length](exact, 100, 100) != 1 || budget.Above[unit.Length](exact, 99, 100) != 0 {
		t.Error("what is exact is above a limit or it is not")
	}
	near(t, "together", budget.Together(.99, .98, 1), .97, 1e-12)
	near(t, "at the least", budget.Together(.3, .4), 0, 0)
	near(t, "none", budget.Together(), 1, 0)
	t.Run("the printed U holds 19 of 20 and the guards what they promise", rapid.MakeCheck(func(t *rapid.T) {
		b := budget.Of(rapid.Float64Range(1e4, 1e6).Draw(t, "u"), rapid.Float64Range(5, 500).Draw(t, "ν"))
		u := unit.Length(math.Ceil(b.Expanded))
		if p := budget.Inside(b, 0, -u, u); math.Abs(p-.95) > 1e-4 {
			t.Fatalf("within U: %g", p)
		}
		for rule, want := range map[budget.Rule]float64{budget.Guarded: .975, budget.Guarded95: .95} {
			w := guard(t, b, rule).W
			if p := budget.Above(b, w, 0); p < want || p > want+1e-4 {
				t.Fatalf("%s: %g", rule, p)
			}
		}
	}))
}

// Raising an uncertainty, its degrees of freedom held, calls nothing within that was not.
func TestMoreDoubtIsNoBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nu := rapid.Float64Range(1, 400).Draw(t, "ν")
		u := rapid.Float64Range(1, 1e6).Draw(t, "u")
		more := u * rapid.Float64Range(1, 3).Draw(t, "times")
		x, limit := unit.Length(rapid.Int64Range(-4e6, 4e6).Draw(t, "x")), unit.Length(rapid.Int64Range(-4e6, 4e6).Draw(t, "limit"))
		for _, rule := range []budget.Rule{budget.Plain, budget.Guarded, budget.Guarded95} {
			a, b := guard(t, budget.Of(u, nu), rule), guard(t, budget.Of(more, nu), rule)
			if b.W < a.W {
				t.Fatalf("%s: guard %d, with more doubt %d", rule, a.W, b.W)
			}
			for _, pair := range [][2]budget.Word{{a.AtLeast(x, limit), b.AtLeast(x, limit)}, {a.AtMost(x, limit), b.AtMost(x, limit)}} {
				if pair[1] == budget.Within && pair[0] != budget.Within {
					t.Fatalf("%s: %s, with more doubt %s", rule, words[pair[0]], words[pair[1]])
				}
			}
		}
		if budget.Binds(budget.Of(u, nu), x) && !budget.Binds(budget.Of(more, nu), x) {
			t.Fatal("it may bind, and with more doubt it may not")
		}
	})
}
