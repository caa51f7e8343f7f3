package budget

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// AssumedNu is how many degrees of freedom a scatter has that was assumed, not found: a doubt of 25 % in
// a standard deviation (JCGM 100:2008, G.4.2: ν = ½ (Δs/s)⁻²).
const AssumedNu = 8

// Assumed is the pool of a gauge that nobody made a study of yet.
func Assumed(s float64) Pool { return Pool{S: s, Nu: AssumedNu} }

// ScatterOf returns what repeats of one reading differ by; nothing for fewer than two.
func ScatterOf[T Whole](repeats ...T) Scatter {
	if len(repeats) < 2 {
		return Scatter{}
	}
	x := make([]float64, len(repeats))
	for i, r := range repeats {
		x[i] = float64(r - repeats[0]) // small numbers keep all their digits
	}
	nu := float64(len(x) - 1)
	return Scatter{Squares: stat.Variance(x, nil) * nu, Nu: nu}
}

// Join adds repeats to a pool: s² = (ν_p s_p² + Σ(x − x̄)²)/(ν_p + n − 1). A pool with infinitely many
// degrees of freedom is known, and nothing can add to it.
func (p Pool) Join(own Scatter) Pool {
	if own == (Scatter{}) || math.IsInf(p.Nu, 1) {
		return p
	}
	squares, nu := p.Nu*p.S*p.S+own.Squares, p.Nu+own.Nu
	return Pool{S: math.Sqrt(squares / nu), Nu: nu}
}
