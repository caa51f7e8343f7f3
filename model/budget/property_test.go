package budget_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
)

// anySum draws a length written on inputs of every sort, on a few shared gauges and pools.
func anySum(t *rapid.T) budget.Sum {
	var gauges []*budget.Gauge
	var pools []*budget.Pool
	size := rapid.Float64Range(1, 1e6)
	for range rapid.IntRange(1, 4).Draw(t, "gauges") {
		g := &budget.Gauge{Step: size.Draw(t, "a")}
		if rapid.Bool().Draw(t, "calibrated") {
			g.Certificate = budget.Certificate{U: size.Draw(t, "U"), K: rapid.Float64Range(1, 3).Draw(t, "k")}
		}
		if rapid.Bool().Draw(t, "people") {
			g.People = budget.Pool{S: size.Draw(t, "s_o"), Nu: rapid.Float64Range(0.5, 9).Draw(t, "ν_o")}
		}
		gauges = append(gauges, g)
		pools = append(pools, &budget.Pool{S: size.Draw(t, "s"), Nu: rapid.Float64Range(1, 60).Draw(t, "ν")})
	}
	var sum budget.Sum
	for range rapid.IntRange(1, 20).Draw(t, "inputs") {
		x := &budget.Input{}
		at := rapid.IntRange(0, len(gauges)-1).Draw(t, "gauge")
		switch rapid.IntRange(0, 4).Draw(t, "sort") {
		case 0:
			x.Gauge, x.Pool, x.N = gauges[at], pools[at], rapid.IntRange(1, 5).Draw(t, "n")
		case 1:
			x.Gauge, x.N = gauges[at], 3
			x.Own = budget.Scatter{Squares: size.Draw(t, "squares"), Nu: 2}
			if rapid.Bool().Draw(t, "joined") {
				x.Pool = pools[at]
			}
		case 2:
			x.Gauge, x.Lot = gauges[at], budget.Lot{S: size.Draw(t, "s"), Nu: 15, N: 16}
		case 3:
			x.Tolerance = size.Draw(t, "T")
		case 4:
			x.Estimate = budget.Estimate{U: size.Draw(t, "u"), Nu: rapid.SampledFrom([]float64{3, 30, math.Inf(1)}).Draw(t, "ν")}
		}
		c := rapid.SampledFrom([]float64{-2, -1, -.5, .5, 1, 2}).Draw(t, "c")
		for range rapid.IntRange(1, 2).Draw(t, "times") {
			sum = append(sum, budget.Term{C: c, X: x})
		}
	}
	return sum
}

func work(t *rapid.T, s budget.Sum) budget.Budget {
	b, err := s.Budget()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

const rounding = 1e-12

func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySum(t)
		a, b := work(t, s), work(t, rapid.Permutation(s).Draw(t, "order"))
		if math.Abs(a.Std-b.Std) > rounding*a.Std || math.Abs(a.Nu-b.Nu) > rounding*a.Nu {
			t.Fatalf("%+v, in another order %+v", a, b)
		}
	})
}

// The rows are worked out one by one, the budget all at once.
func TestRowsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySum(t)
		b := work(t, s)
		rows, err := s.Rows()
		if err != nil {
			t.Fatal(err)
		}
		v, shares := 0.0, 0.0
		for _, r := range rows {
			v += r.Std * r.Std
			shares += r.Share
		}
		if math.Abs(math.Sqrt(v)-b.Std) > rounding*b.Std || math.Abs(shares-1) > rounding {
			t.Fatalf("u %g, of the rows %g, shares %g", b.Std, math.Sqrt(v), shares)
		}
		if biggest := rows[budget.Biggest(rows)]; biggest.Share < 1/float64(len(rows))-rounding {
			t.Fatalf("the biggest of %d rows has a share of %g", len(rows), biggest.Share)
		}
	})
}

func TestAFinerGaugeIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySum(t)
		before := work(t, s)
		finer := rapid.Float64Range(0.01, 1).Draw(t, "finer")
		for _, term := range s {
			if g := term.X.Gauge; g != nil {
				g.Step *= finer
				break
			}
		}
		if after := work(t, s); after.Std > before.Std*(1+rounding) {
			t.Fatalf("u %g, with a finer gauge %g", before.Std, after.Std)
		}
	})
}

// Read again, a reading under a pool is never worse known.
func TestMoreRepeatsAreNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySum(t)
		before := work(t, s)
		for _, term := range s {
			if term.X.Pool != nil {
				term.X.N += rapid.IntRange(1, 5).Draw(t, "more")
			}
		}
		if after := work(t, s); after.Std > before.Std*(1+rounding) {
			t.Fatalf("u %g, read more often %g", before.Std, after.Std)
		}
	})
}

// Opposite signs on one gauge get no credit: turning every sign around, or giving a reading that stands
// alone on its side a gauge of its own, changes nothing.
func TestNoCredit(t *testing.T) {
	b := newBench()
	read := func(g *budget.Gauge) *budget.Input { return &budget.Input{Gauge: g, Pool: b.pools["C"], N: 1} }
	shared := b.gauges["C"]
	other := *shared
	std := func(s budget.Sum) float64 {
		got, err := s.Budget()
		if err != nil {
			t.Fatal(err)
		}
		return got.Std
	}
	opposite := std(budget.Sum{{1, read(shared)}, {-1, read(shared)}})
	apart := std(budget.Sum{{1, read(shared)}, {-1, read(&other)}})
	same := std(budget.Sum{{-1, read(shared)}, {-1, read(shared)}})
	near(t, "opposite signs", opposite, apart, rounding*apart)
	// Two alike: 4 (U/k)² in place of 2 (U/k)².
	u := shared.Certificate.U / shared.Certificate.K
	near(t, "equal signs", same*same, apart*apart+2*u*u, 1e-9*same*same)
	rapid.Check(t, func(t *rapid.T) {
		s := anySum(t)
		turned := append(budget.Sum{}, s...)
		for i := range turned {
			turned[i].C = -turned[i].C
		}
		if a, b := work(t, s), work(t, turned); math.Abs(a.Std-b.Std) > rounding*a.Std {
			t.Fatalf("u %g, turned around %g", a.Std, b.Std)
		}
	})
}

// By hand: n shims with one micrometer n² u²_cal + n (s² + a²/12); n of one batch that nobody measured
// n² T²/3, and n of different batches n T²/3; a lot of 16 used for another spring s √(17/16).
func TestShimsAndLots(t *testing.T) {
	b := newBench()
	gauge, pool := b.gauges["M"], b.pools["M"]
	var measured, batch, batches budget.Sum
	one := &budget.Input{Tolerance: 12}
	for range 3 {
		measured = append(measured, budget.Term{C: -1, X: &budget.Input{Gauge: gauge, Pool: pool, N: 1}})
		batch = append(batch, budget.Term{C: -1, X: one})
		batches = append(batches, budget.Term{C: -1, X: &budget.Input{Tolerance: 12}})
	}
	lot := budget.Sum{{-1, &budget.Input{Lot: budget.Lot{S: 10, Nu: 15, N: 16}}}}
	cal := gauge.Certificate.U / gauge.Certificate.K
	people := *gauge
	people.People = budget.Pool{S: 7000, Nu: 2}
	two := &budget.Input{Gauge: &people, Pool: pool, N: 2}
	for name, c := range map[string]struct {
		sum  budget.Sum
		want float64 // u²
	}{
		"three measured":                {measured, 9*cal*cal + 3*(pool.S*pool.S+gauge.Step*gauge.Step/12)},
		"three of one batch":            {batch, 9 * 144 / 3},
		"three of three batches":        {batches, 3 * 144 / 3},
		"of a lot":                      {lot, 100 * 17.0 / 16},
		"by one of several people":      {budget.Sum{{1, two}}, 7000*7000 + cal*cal + pool.S*pool.S/2 + gauge.Step*gauge.Step/12},
		"one reading that cancels":      {budget.Sum{{1, two}, {-1, two}}, 0},
		"nothing":                       {nil, 0},
		"more inputs than usually meet": {append(append(append(budget.Sum{}, batches...), many(20)...), lot...), 3*144/3 + 20*144/3 + 100*17.0/16},
	} {
		got, err := c.sum.Budget()
		if err != nil {
			t.Fatal(err)
		}
		near(t, name, got.Std*got.Std, c.want, 1e-9*c.want)
	}
}

func many(n int) (s budget.Sum) {
	for range n {
		s = append(s, budget.Term{C: 1, X: &budget.Input{Tolerance: 12}})
	}
	return s
}
