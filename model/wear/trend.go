package wear

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/budget/fit"
	"keeperbook/model/say"
)

// Check is a load found after so many valve cycles since the baseline. U is its standard uncertainty, without what all checks
// of one tester share: that changes no loss.
type Check struct {
	Cycles, Load, U float64
}

// LeastChecks is how many checks after the baseline a trend is made of, all with the tester of the baseline. Two points have a
// line through them whatever they are.
const LeastChecks = 3

// Shape is how load goes with cycles.
type Shape string

// The shapes.
const (
	Line    Shape = "line"    // a load is lost with each cycle alike
	Settles Shape = "settles" // with each doubling of the cycles alike, once they are well beyond the settling ones
	Either  Shape = "either"  // the checks do not tell
)

// choice is the difference of χ² from which one shape is taken: odds of e² for one of two models of equally many
// coefficients (common practice, no published source).
const choice = 4.0

// Fitted is one shape through all checks.
type Fitted struct {
	Shape  Shape
	Chi2   float64 // Σ ((F − fitted)/u)²
	Nu     float64 // its degrees of freedom
	a, b   float64
	curve  fit.Curve
	settle float64 // N₀ of [Settles]
}

// Fit lays one shape through a baseline and the checks after it. settling is N₀, in cycles, of [Settles]. It fails
// (say.Invalid) with fewer than [LeastChecks] checks, all at one number of cycles, before the baseline, or with a number that is not
// finite or an uncertainty that is not above nought.
func Fit(shape Shape, baseline Check, checks []Check, settling float64) (Fitted, error) {
	if len(checks) < LeastChecks {
		return Fitted{}, say.Fail(say.Invalid, "wear.few", len(checks), LeastChecks)
	}
	f := Fitted{Shape: shape, settle: settling}
	if shape == Settles && !(settling > 0) {
		return Fitted{}, say.Fail(say.Invalid, "wear.number")
	}
	points := make([]fit.Point, 0, len(checks)+1)
	for _, c := range append([]Check{baseline}, checks...) {
		n := c.Cycles - baseline.Cycles
		if !(n >= 0) || !(c.U > 0) {
			return Fitted{}, say.Fail(say.Invalid, "wear.number")
		}
		points = append(points, fit.Point{X: f.g(n), Y: c.Load, Weight: 1 / (c.U * c.U)})
	}
	curve, err := fit.Polynomial(1, points)
	if err != nil {
		return Fitted{}, say.Fail(say.Invalid, "wear.number").From(err)
	}
	f.a, f.b, f.Nu, f.Chi2 = curve.B[0], curve.B[1], curve.Nu, curve.S*curve.S*curve.Nu
	f.curve = curve
	return f, nil
}

// widened reports whether checks scatter by more than their uncertainties explain.
func (f Fitted) widened() bool { return f.Chi2 > f.Nu }

// spread is the factor on the covariance of a and b.
func (f Fitted) spread() float64 { return max(1, f.Chi2/f.Nu) }

// quantile is that of 95 % on both sides.
func (f Fitted) quantile() float64 {
	if f.widened() {
		return budget.Student(0.975, f.Nu)
	}
	return budget.Normal(0.975)
}

func (f Fitted) g(cycles float64) float64 {
	if f.Shape == Settles {
		return math.Log1p(cycles / f.settle)
	}
	return cycles
}

// cyclesAt is the inverse of g; it may be infinite.
func (f Fitted) cyclesAt(g float64) float64 {
	if f.Shape == Settles {
		return f.settle * math.Expm1(g)
	}
	return g
}

// Baseline is the load of the fitted shape at the baseline.
func (f Fitted) Baseline() float64 { return f.a }

// Band is a value with the ends of its 95 % interval; the upper one may be infinite.
type Band struct {
	At, Low, High float64
}

// Load returns the load of the spring after so many cycles since the baseline, with its confidence band.
func (f Fitted) Load(cycles float64) Band { return f.band(cycles, 0) }

// Next returns the load that a check with the standard uncertainty u would show after so many cycles, with its prediction
// band.
func (f Fitted) Next(cycles, u float64) Band {
	return f.band(cycles, u)
}

func (f Fitted) band(cycles, u float64) Band {
	g := []float64{1, f.g(cycles)}
	at := f.a + f.b*g[1]
	half := f.quantile() * math.Sqrt(f.spread()*(fit.Covariance(g, f.curve.Known, g)+u*u))
	return Band{at, at - half, at + half}
}
