package budget

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Student returns the quantile of Student's t: t is below it with probability p, which lies between nought
// and one. Degrees of freedom may be any number above nought, infinite too.
//
// The library's quantile takes 40 µs, and a head asks for hundreds. From three degrees of freedom on, the
// expansion in 1/ν comes so near that one step on the library's distribution function, or none,
// is left to do.
func Student(p, nu float64) float64 {
	switch {
	case !degrees(nu):
		return math.NaN() // where the library panics
	case nu < 3:
		return distuv.StudentsT{Sigma: 1, Nu: nu}.Quantile(p)
	case math.IsInf(nu, 1):
		return Normal(p)
	}
	t := expansion(Normal(p), nu)
	// From here on the expansion is within 1e-10 for p up to 0.9995.
	if nu >= 100 {
		return t
	}
	d := distuv.StudentsT{Sigma: 1, Nu: nu}
	for range 8 {
		step := (d.CDF(t) - p) / d.Prob(t)
		// Halley's step: the slope of the density is known, −(ν + 1) t/(ν + t²) times itself. What is left
		// is of the order of the step's cube.
		t -= step / (1 + step*(nu+1)*t/(2*(nu+t*t)))
		if math.Abs(step) < 1e-5 {
			break
		}
	}
	return t
}

// expansion is t for the normal quantile x: R. A. Fisher and E. A. Cornish, Technometrics 2 (1960) 209; the
// first four terms also in Abramowitz and Stegun, 26.7.5. From memory, and held against the
// distribution function in a test.
func expansion(x, nu float64) float64 {
	y := x * x
	g := [...]float64{
		x * (y + 1) / 4,
		x * ((5*y+16)*y + 3) / 96,
		x * (((3*y+19)*y+17)*y - 15) / 384,
		x * ((((79*y+776)*y+1482)*y-1920)*y - 945) / 92160,
		x * (((((27*y+339)*y+930)*y-1782)*y-765)*y + 17955) / 368640,
	}
	t := 0.0
	for i := len(g) - 1; i >= 0; i-- {
		t = (t + g[i]) / nu
	}
	return x + t
}

// Below returns the probability that Student's t is below t, NaN without degrees of freedom.
func Below(t, nu float64) float64 {
	switch {
	case !degrees(nu):
		return math.NaN()
	case nu > 1e6:
		// The library loses digits here. One term of the expansion backwards is within 1e-12.
		if !math.IsInf(nu, 1) && math.Abs(t) < 40 {
			t -= t * (t*t + 1) / (4 * nu)
		}
		return distuv.UnitNormal.CDF(t)
	}
	return distuv.StudentsT{Sigma: 1, Nu: nu}.CDF(t)
}

// Normal returns the quantile of the normal distribution.
func Normal(p float64) float64 { return distuv.UnitNormal.Quantile(p) }
