package budget

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Disagree reports whether repeats of one reading differ by more than the gauge's scatter explains: by
// more than [RangeLimit] · s, and by more than one step, which is no difference that the gauge can tell.
// The answer to it is to measure again; nothing is dropped by itself. An empty pool explains anything.
func Disagree[T Whole](step float64, p Pool, repeats ...T) bool {
	if len(repeats) < 2 || p.none() {
		return false
	}
	d := float64(slices.Max(repeats) - slices.Min(repeats))
	// No limit is lower than that of two readings and a known scatter. This and the bounds spare nearly
	// everybody the integral.
	if d <= step || d <= leastRange*p.S {
		return false
	}
	low, high := rangeBounds(len(repeats), p.Nu)
	switch {
	case d <= low*p.S:
		return false
	case d > high*p.S:
		return true
	}
	return d > RangeLimit(len(repeats), p.Nu)*p.S
}

// leastRange is √2 z₀.₉₉₅, the limit for two readings and infinitely many degrees of freedom, rounded down.
const leastRange = 3.6427

// disagreeing is how often repeats are said to disagree that differ by chance alone.
const disagreeing = 0.01

// rangeBounds are what [RangeLimit] lies between: of two readings it is √2 Student's t, of more it is above
// that, and by Bonferroni below that of all pairs taken singly.
func rangeBounds(n int, nu float64) (low, high float64) {
	pairs := float64(n*(n-1)) / 2
	return math.Sqrt2 * Student(1-disagreeing/2, nu), math.Sqrt2 * Student(1-disagreeing/2/pairs, nu)
}

// RangeLimit returns the studentised range that n readings exceed in one of 100 cases, in standard
// deviations that were estimated with nu degrees of freedom: the root of its distribution function.
// For n below 2 there is no range, and the limit is nought.
func RangeLimit(n int, nu float64) float64 {
	if n < 2 {
		return 0
	}
	low, high := rangeBounds(n, nu)
	if n == 2 {
		return low
	}
	const p = 1 - disagreeing
	r := newStudentised(n, nu)
	atLow, atHigh := r.below(low)-p, r.below(high)-p
	// False position, the value at an end that stays halved (the Illinois method).
	for last := 0; high-low > 1e-9*high; {
		q := (low*atHigh - high*atLow) / (atHigh - atLow)
		at := r.below(q) - p
		if math.Abs(at) < 1e-10 {
			return q
		}
		if at < 0 {
			if low, atLow = q, at; last < 0 {
				atHigh /= 2
			}
			last = -1
		} else {
			if high, atHigh = q, at; last > 0 {
				atLow /= 2
			}
			last = 1
		}
	}
	return (low + high) / 2
}

// studentised is the distribution of the range of n readings in standard deviations estimated with some
// degrees of freedom: that of the range itself, averaged over what the estimate may have been
// (H. L. Harter, Ann. Math. Statist. 31 (1960) 1122, from memory). It holds places and weights of both
// integrals.
type studentised struct {
	n         int
	x, chance []float64 // s/σ, and how likely it is
	z, weight []float64 // where the greatest reading lies, and n φ(z) times the weight of the place
	up        []float64 // Φ(z)
}

func newStudentised(n int, nu float64) studentised {
	r := studentised{n: n, x: []float64{1}, chance: []float64{1}}
	r.z, r.weight = locations(64, -8, 8)
	for i, z := range r.z {
		r.weight[i] *= float64(n) * distuv.UnitNormal.Prob(z)
		r.up = append(r.up, distuv.UnitNormal.CDF(z))
	}
	// With more degrees of freedom s is known better than the integral is worked out.
	if nu > 1e5 {
		return r
	}
	// ν (s/σ)² is χ² distributed. Ten of its standard deviations 1/√(2ν) to either side hold enough of it.
	far := 10 / math.Sqrt(2*nu)
	r.x, r.chance = locations(40, max(0, 1-far), 1+far)
	chi := distuv.ChiSquared{K: nu}
	for i, x := range r.x {
		r.chance[i] *= chi.Prob(nu*x*x) * 2 * nu * x
	}
	return r
}

// locations are the places and weights of Gauss and Legendre's rule.
func locations(n int, from, to float64) (x, weight []float64) {
	x, weight = make([]float64, n), make([]float64, n)
	quad.Legendre{}.FixedLocations(x, weight, from, to)
	return x, weight
}

func (r studentised) below(q float64) float64 {
	p := 0.0
	for i, x := range r.x {
		p += r.chance[i] * r.plain(q*x)
	}
	return p
}

// plain is the distribution function of the range of n normal readings of standard deviation one: the
// greatest is any of the n and lies at z, the others within w below it, n ∫ φ(z) (Φ(z) − Φ(z − w))ⁿ⁻¹ dz.
func (r studentised) plain(w float64) float64 {
	p := 0.0
	for i, z := range r.z {
		p += r.weight[i] * power(r.up[i]-distuv.UnitNormal.CDF(z-w), r.n-1)
	}
	return p
}

// power is x to a small whole power, which math.Pow takes ten times as long for.
func power(x float64, n int) float64 {
	y := 1.0
	for range n {
		y *= x
	}
	return y
}
