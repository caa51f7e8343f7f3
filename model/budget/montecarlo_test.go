package budget_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/unit"
)

// A whole valve by a million draws (JCGM 101:2008, 7), in place of the sum of variances: a nested spring's
// inner coil over three shims, base and lid and step and bind on shared gauges, the bind from a lot of
// sixteen. Drawn are the errors themselves: one for each certificate and sign, one for each
// reading's mean, one for each step.
func TestMonteCarlo(t *testing.T) {
	b := newBench()
	read := func(gauge string, n int) *budget.Input {
		return &budget.Input{Gauge: b.gauges[gauge], Pool: b.pools[gauge], N: n}
	}
	lid := read("C", 1)
	sum := budget.Sum{
		{1, read("H", 2)}, {-1, lid}, {-1, read("D", 3)}, {-1, read("C", 1)},
		{-1, read("M", 1)}, {-1, read("M", 1)}, {-1, read("M", 1)},
		{-1, &budget.Input{Gauge: b.gauges["C"], Lot: budget.Lot{S: .001 * inch, Nu: 15, N: 16}}},
	}
	want, err := sum.Budget()
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	draws := make([]float64, 1_000_000)
	for i := range draws {
		// One error of each certificate for lengths that add, another for those that are taken off.
		adds, takes := map[*budget.Gauge]float64{}, map[*budget.Gauge]float64{}
		for _, name := range []string{"H", "M", "D", "C"} {
			g := b.gauges[name]
			u := g.Certificate.U / g.Certificate.K
			adds[g], takes[g] = u*random.NormFloat64(), u*random.NormFloat64()
		}
		m := 0.0
		for _, term := range sum {
			x := term.X
			off := x.Gauge.Step * (random.Float64() - 0.5)
			if x.Pool != nil {
				for range x.N {
					off += x.Pool.S * random.NormFloat64() / float64(x.N)
				}
			}
			if x.Lot.N > 0 {
				mean := 0.0
				for range x.Lot.N {
					mean += x.Lot.S * random.NormFloat64() / float64(x.Lot.N)
				}
				off += mean + x.Lot.S*random.NormFloat64()
			}
			if term.C > 0 {
				off += adds[x.Gauge]
			} else {
				off += takes[x.Gauge]
			}
			m += term.C * off
		}
		draws[i] = m
	}
	slices.Sort(draws)
	half := (draws[974_999] - draws[25_000]) / 2
	near(t, "half of the 95 % interval", half, budget.Student(0.975, math.Inf(1))*want.Std, .01*half)
	// The sample itself decides where the guard is: 5 in 100 fall beyond t₀.₉₅ u, a little fewer as ν is finite.
	g, err := budget.GuardOf[unit.Length](want, budget.Guarded95)
	if err != nil {
		t.Fatal(err)
	}
	beyond, _ := slices.BinarySearch(draws, -float64(g.W))
	near(t, "beyond the guard", float64(beyond)/1e6, .05, .002)
}
