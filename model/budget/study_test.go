package budget_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/unit"
)

func TestRangeLimit(t *testing.T) {
	for _, file := range []string{"range-limit", "range-limit-computed"} {
		checkfile.Each(t, "testdata/check/"+file+".txt", func(t *testing.T, r checkfile.Row) {
			got := budget.RangeLimit(int(number(r, "n")), number(r, "nu"))
			near(t, "limit", got, number(r, "limit"), number(r, "tolerance"))
		})
	}
	if got := budget.RangeLimit(1, 9); got != 0 {
		t.Errorf("one reading has a range, %g", got)
	}
	t.Run("more readings range wider, a better known scatter limits closer", rapid.MakeCheck(func(t *rapid.T) {
		n, nu := rapid.IntRange(2, 11).Draw(t, "n"), rapid.Float64Range(1, 200).Draw(t, "ν")
		f := budget.RangeLimit(n, nu)
		if more := budget.RangeLimit(n+1, nu); more <= f {
			t.Fatalf("%d: %g, one more: %g", n, f, more)
		}
		if better := budget.RangeLimit(n, nu+1); better >= f {
			t.Fatalf("ν %g: %g, one more: %g", nu, f, better)
		}
	}))
}

// Readings of nothing but chance, s from a study of its own: one set in a hundred disagrees.
func TestDisagreeOneInAHundred(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 14))
	const sets, n, nu = 6_000, 3, 18
	found := 0
	for range sets {
		squares := 0.0
		for range nu {
			z := random.NormFloat64()
			squares += z * z
		}
		pool := budget.Pool{S: 1e6 * math.Sqrt(squares/nu), Nu: nu}
		repeats := make([]unit.Length, n)
		for i := range repeats {
			repeats[i] = unit.Length(1e6 * random.NormFloat64())
		}
		if budget.Disagree(1, pool, repeats...) {
			found++
		}
	}
	// Four standard deviations of a count of 60.
	near(t, "disagreeing sets", float64(found), sets/100, 31)
}

func TestDisagree(t *testing.T) {
	pool := budget.Pool{S: .001 * inch, Nu: 18}
	// .007 is more than 4.70 · .001, .0045 is not.
	if !budget.Disagree(.001*inch, pool, 608*unit.Thou, 615*unit.Thou, 613*unit.Thou) {
		t.Error(".608, .615 and .613 agree")
	}
	if budget.Disagree(.001*inch, pool, 6100*unit.Thou/10, 6145*unit.Thou/10, 6130*unit.Thou/10) {
		t.Error(".610, .6145 and .613 disagree")
	}
	// A gauge whose study showed one and the same figure may still flicker between two.
	steady := budget.Pool{S: 0, Nu: 9}
	if budget.Disagree(.001*inch, steady, 612*unit.Thou, 613*unit.Thou) || !budget.Disagree(.001*inch, steady, 612*unit.Thou, 614*unit.Thou) {
		t.Error("a steady gauge: one step agrees, two do not")
	}
	if budget.Disagree(1, budget.Pool{}, 612*unit.Thou, 700*unit.Thou) {
		t.Error("where no scatter is known, readings disagree with it")
	}
	if budget.Disagree(.001*inch, pool, 612*unit.Thou) || budget.Disagree[unit.Length](1, pool) {
		t.Error("fewer than two readings disagree")
	}
}

func TestScatterOf(t *testing.T) {
	// Made-up readings of NIST's StRD set NumAcc4, in tenths: 10000000.2, then .1 and .3 in turn, 1001 in all.
	// The certified standard deviation is 0.1 exactly; summing squares first gives 1.41.
	x := []unit.Length{100_000_002}
	for range 500 {
		x = append(x, 100_000_001, 100_000_003)
	}
	s := budget.ScatterOf(x...)
	near(t, "standard deviation", math.Sqrt(s.Squares/s.Nu)/10, 0.1, 1e-12)
	if none := budget.ScatterOf(x[:1]...); none != (budget.Scatter{}) {
		t.Errorf("one reading scatters: %+v", none)
	}
	t.Run("as the sum over all pairs", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Int64Range(17e8, 19e8), 2, 9).Draw(t, "x")
		pairs := 0.0
		for i := range x {
			for j := range i {
				d := float64(x[i] - x[j])
				pairs += d * d
			}
		}
		want := pairs / float64(len(x))
		if got := budget.ScatterOf(x...); math.Abs(got.Squares-want) > 1e-9*want+1e-6 {
			t.Fatalf("%g, by pairs %g", got.Squares, want)
		}
	}))
}

func TestJoin(t *testing.T) {
	// By hand: (18·1 + 26)/(18 + 2) = 2.2.
	p := budget.Pool{S: 1, Nu: 18}.Join(budget.Scatter{Squares: 26, Nu: 2})
	near(t, "s²", p.S*p.S, 2.2, 1e-12)
	near(t, "ν", p.Nu, 20, 0)
	known := budget.Pool{S: 1, Nu: math.Inf(1)}
	if got := known.Join(budget.Scatter{Squares: 26, Nu: 2}); got != known {
		t.Errorf("a known scatter became %+v", got)
	}
	if got := budget.Assumed(3); got != (budget.Pool{S: 3, Nu: 8}) {
		t.Errorf("assumed: %+v", got)
	}
}

// around returns five readings with this mean and standard deviation: the mean three times, and √2 s to
// either side.
func around(mean, s float64) []unit.Length {
	const nano = 1000 // whole numbers are nanovolts
	far := unit.Length(math.Round(math.Sqrt2 * s * nano))
	m := unit.Length(math.Round(mean * nano))
	return []unit.Length{m, m, m, m - far, m + far}
}

func TestStudy(t *testing.T) {
	var days [][]unit.Length
	checkfile.Each(t, "testdata/check/anova-days.txt", func(t *testing.T, r checkfile.Row) {
		days = append(days, around(number(r, "mean_uV"), number(r, "s_uV")))
	})
	checkfile.Each(t, "testdata/check/anova.txt", func(t *testing.T, r checkfile.Row) {
		s, err := budget.StudyOf(days...)
		if err != nil {
			t.Fatal(err)
		}
		if s.N != 50 || s.People != 10 || s.Outlying != nil {
			t.Errorf("%+v", s)
		}
		near(t, "within", s.Pool.S/1000, number(r, "within_uV"), .5)
		near(t, "ν within", s.Pool.Nu, number(r, "within_nu"), 0)
		near(t, "between", s.Between.S/1000, number(r, "between_uV"), .5)
		// Other program: NumPy 1.24 on Satterthwaite's formula, s_o² with ν = s_o⁴/[(MS_b/5)²/9 + (MS_w/5)²/40].
		near(t, "ν between", s.Between.Nu, 2.682453, 1e-3)
	})
	t.Run("one person", func(t *testing.T) {
		s, err := budget.StudyOf(around(0, 2))
		if err != nil || s.People != 1 || s.Between != (budget.Pool{}) {
			t.Fatalf("%+v, %v", s, err)
		}
		near(t, "s", s.Pool.S, 2000, .5)
	})
	t.Run("people who do not differ", func(t *testing.T) {
		// Whoever read nothing that counts is no part of it, in the first place neither.
		for _, people := range [][][]unit.Length{
			{around(0, 2), nil, around(0.1, 2)}, {nil, around(0, 2), around(0.1, 2)},
		} {
			s, err := budget.StudyOf(people...)
			if err != nil || s.People != 2 || s.Between != (budget.Pool{S: 0, Nu: 1}) {
				t.Fatalf("%+v, %v", s, err)
			}
		}
	})
	t.Run("nobody read twice", func(t *testing.T) {
		_, err := budget.StudyOf([]unit.Length{1}, []unit.Length{2})
		wantKey(t, err, "budget.study")
		_, err = budget.StudyOf[unit.Length]()
		wantKey(t, err, "budget.study")
	})
	t.Run("it does not matter where zero is, nor who comes first", rapid.MakeCheck(func(t *rapid.T) {
		readings := rapid.SliceOfN(rapid.SliceOfN(rapid.Int64Range(-1000, 1000), 2, 6), 1, 4).Draw(t, "readings")
		shift := rapid.Int64Range(-1e9, 1e9).Draw(t, "shift")
		a, err := budget.StudyOf(readings...)
		var moved [][]int64
		for i := len(readings) - 1; i >= 0; i-- {
			var m []int64
			for _, r := range readings[i] {
				m = append(m, r+shift)
			}
			moved = append(moved, m)
		}
		b, err2 := budget.StudyOf(moved...)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for what, d := range map[string]float64{
			"s": a.Pool.S - b.Pool.S, "s_o": a.Between.S - b.Between.S, "ν": a.Pool.Nu - b.Pool.Nu,
		} {
			if math.Abs(d) > 1e-4 {
				t.Fatalf("%s differs by %g: %+v, %+v", what, d, a, b)
			}
		}
	}))
}

func TestOutlying(t *testing.T) {
	checkfile.Each(t, "testdata/check/grubbs.txt", func(t *testing.T, r checkfile.Row) {
		got := budget.Grubbs(int(number(r, "n")), number(r, "both_sides"))
		near(t, "limit", got, number(r, "limit"), number(r, "tolerance"))
	})
	// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1, from memory: eight readings, of which the last
	// has G = 2.4687.
	uranium := []unit.Length{19931, 19953, 20019, 20082, 20192, 20195, 20218, 24557}
	s, err := budget.StudyOf([]unit.Length{1, 2, 3, 4, 5}, uranium)
	if err != nil {
		t.Fatal(err)
	}
	o := s.Outlying
	if o == nil || o.Person != 1 || o.Reading != 7 || s.N != 13 {
		t.Fatalf("%+v", s)
	}
	near(t, "G", o.G, 2.4687, 1e-4)
}
