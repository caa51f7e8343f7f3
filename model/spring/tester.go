package spring

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/budget/fit"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Weighing is one point of a tester's calibration: the load that was put on, and what the tester showed.
type Weighing struct {
	Applied, Shown unit.Load
}

// Tester is a calibrated spring tester. It is made by [Calibrate].
type Tester struct{ curve fit.Curve }

// Calibrate draws what a tester shows over what is put on it, by least squares: a parabola where the points
// are bent by more than chance (at 1 %), else a straight line. A line through bent points would be off by
// more than it says.
//
// It refuses (say.Invalid) what [fit.Polynomial] refuses: fewer than three points, or points at one load.
func Calibrate(points []Weighing) (Tester, error) {
	if bent, err := CalibrateAs(2, points); err == nil && bent.curve.Bent() {
		return bent, nil
	}
	return CalibrateAs(1, points)
}

// CalibrateAs is [Calibrate] as a straight line (1) or a parabola (2), whatever the points are bent to. It
// refuses (say.Invalid) another degree too.
func CalibrateAs(degree int, points []Weighing) (Tester, error) {
	if degree != 1 && degree != 2 {
		return Tester{}, say.Fail(say.Invalid, "spring.degree", degree)
	}
	all := make([]fit.Point, len(points))
	for i, p := range points {
		all[i] = fit.Point{X: float64(p.Applied), Y: float64(p.Shown), Weight: 1}
	}
	curve, err := fit.Polynomial(degree, all)
	if err != nil {
		return Tester{}, err
	}
	return Tester{curve}, nil
}

// Bent reports whether the calibration is a parabola.
func (t Tester) Bent() bool { return len(t.curve.B) > 2 }

// Shows returns what the tester shows under a load, by its calibration.
func (t Tester) Shows(applied unit.Load) unit.Load { return round(t.curve.At(float64(applied))) }

// Corrected is a load with the tester's calibration taken off.
type Corrected struct {
	Load   unit.Load
	Doubt  budget.Estimate // how sure it is, in mN: scatter of the reading and of the calibration
	Beyond bool            // no weight so small or so great was on the tester
}

// Correct returns the load behind what a tester shows, the inverse of its calibration; shown is the mean of n
// readings. A reading that the calibration never gives, and a calibration that falls, are refused (say.Invalid).
func (t Tester) Correct(shown unit.Load, n int) (Corrected, error) {
	x, u, err := t.curve.Inverse(float64(shown), n)
	if err != nil {
		return Corrected{}, err
	}
	return Corrected{
		Load:   round(x),
		Doubt:  budget.Estimate{U: u, Nu: t.curve.Nu},
		Beyond: x < t.curve.Min || x > t.curve.Max,
	}, nil
}

// Weight returns the load of a weight by its mass in kilograms where gravity is g, in m/s². On the ground g
// lies 0.27 % under to 0.26 % over the standard 9.80665 (at sea level, equator to pole; less in the mountains),
// more than a good tester is off. It refuses a mass that is no number above nought and a g that no place has
// (say.Invalid). Air carries some 0.015 % of a steel weight and is left out.
func Weight(mass, g float64) (unit.Load, error) {
	switch {
	case !(mass > 0) || mass*g >= 1e5: // 100 kN, as for typed loads
		return 0, say.Fail(say.Invalid, "spring.weight", decimal(mass)+" kg")
	case !(g >= 9.76 && g <= 9.84):
		return 0, say.Fail(say.Invalid, "spring.gravity", decimal(g))
	}
	return round(mass * g * 1000), nil
}

// round rounds once, half to even.
func round(mN float64) unit.Load { return unit.Load(math.RoundToEven(mN)) }
