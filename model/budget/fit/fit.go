// Package fit draws a straight line or a parabola through calibration points and says how sure it is of
// them: the correction of a spring tester or a dial from its calibration. Pure functions.
//
// Weighted least squares with the covariance of the coefficients, after JCGM 100:2008, H.3, solved by an
// orthogonal decomposition with x scaled to one: the normal equations of a parabola would lose half of the
// digits.
package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"keeperbook/model/budget"
	"keeperbook/model/say"
)

// Point is one calibration point: what was applied, what was read, and what it weighs, in inverse proportion
// to its variance. Points of equal weight weigh one each.
type Point struct {
	X, Y, Weight float64
}

// Curve is y = B₀ + B₁ x, or with B₂ x² behind it.
type Curve struct {
	B        []float64
	Cov      *mat.SymDense // covariance of the coefficients
	Known    *mat.SymDense // the same where the weights are 1/u² of standard uncertainties that are known
	S        float64       // residual standard deviation of a reading of weight one
	Nu       float64       // its degrees of freedom: points less coefficients
	Min, Max float64       // where points were taken
}

// Polynomial fits a line (degree 1) or a parabola (degree 2). It needs one point more than coefficients, and as
// many different x as coefficients.
func Polynomial(degree int, points []Point) (Curve, error) {
	n, m := len(points), degree+1
	if degree < 1 || degree > 2 {
		return Curve{}, say.Fail(say.Internal, "budget.fit-degree")
	}
	if n <= m {
		return Curve{}, say.Fail(say.Invalid, "budget.fit-few", n, m+1)
	}
	c := Curve{Nu: float64(n - m), Min: math.Inf(1), Max: math.Inf(-1)}
	different := map[float64]bool{}
	for _, p := range points {
		if !finite(p.X) || !finite(p.Y) || !finite(p.Weight) || p.Weight <= 0 {
			return Curve{}, say.Fail(say.Invalid, "budget.fit-number")
		}
		different[p.X] = true
		c.Min, c.Max = min(c.Min, p.X), max(c.Max, p.X)
	}
	if len(different) < m {
		return Curve{}, say.Fail(say.Invalid, "budget.fit-same", len(different), m)
	}
	scale := max(math.Abs(c.Min), math.Abs(c.Max))
	if err := c.solve(points, m, scale); err != nil {
		return Curve{}, say.Fail(say.Invalid, "budget.fit-number").From(err)
	}
	return c, nil
}

// solve finds the coefficients and their covariance s² (XᵀWX)⁻¹ = s² R⁻¹R⁻ᵀ, with x in units of scale.
func (c *Curve) solve(points []Point, m int, scale float64) error {
	n := len(points)
	design, y := mat.NewDense(n, m, nil), mat.NewVecDense(n, nil)
	for i, p := range points {
		w := math.Sqrt(p.Weight)
		y.SetVec(i, w*p.Y)
		for j, power := 0, w; j < m; j, power = j+1, power*p.X/scale {
			design.Set(i, j, power)
		}
	}
	var qr mat.QR
	qr.Factorize(design)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, y); err != nil {
		return err
	}
	var fitted, r mat.VecDense
	fitted.MulVec(design, &b)
	r.SubVec(y, &fitted)
	c.S = mat.Norm(&r, 2) / math.Sqrt(c.Nu)

	var full mat.Dense
	qr.RTo(&full)
	upper := mat.NewTriDense(m, mat.Upper, nil)
	for i := range m {
		for j := i; j < m; j++ {
			upper.SetTri(i, j, full.At(i, j))
		}
	}
	var inverse mat.TriDense
	if err := inverse.InverseTri(upper); err != nil {
		return err
	}
	c.B, c.Cov, c.Known = make([]float64, m), mat.NewSymDense(m, nil), mat.NewSymDense(m, nil)
	c.Known.SymOuterK(1, &inverse)
	for i := range m {
		c.B[i] = b.AtVec(i) / math.Pow(scale, float64(i))
		for j := i; j < m; j++ {
			c.Known.SetSym(i, j, c.Known.At(i, j)/math.Pow(scale, float64(i+j)))
			c.Cov.SetSym(i, j, c.S*c.S*c.Known.At(i, j))
		}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// powers is the gradient of y by the coefficients, (1, x, x²).
func (c Curve) powers(x float64) []float64 {
	g := []float64{1, x, x * x}
	return g[:len(c.B)]
}

// At returns y at x.
func (c Curve) At(x float64) float64 {
	y := 0.0
	for i := len(c.B) - 1; i >= 0; i-- {
		y = y*x + c.B[i]
	}
	return y
}

// StdAt is the standard uncertainty of the curve at x, √(gᵀVg); its degrees of freedom are Nu.
func (c Curve) StdAt(x float64) float64 {
	g := c.powers(x)
	return math.Sqrt(Covariance(g, c.Cov, g))
}

// Slope returns dy/dx.
func (c Curve) Slope(x float64) float64 { return c.B[1] + 2*c.b2()*x }

func (c Curve) b2() float64 {
	if len(c.B) > 2 {
		return c.B[2]
	}
	return 0
}

// Std returns the standard uncertainty of a coefficient.
func (c Curve) Std(i int) float64 { return math.Sqrt(c.Cov.At(i, i)) }

// Correlation returns the correlation coefficient of two coefficients.
func (c Curve) Correlation(i, j int) float64 { return c.Cov.At(i, j) / (c.Std(i) * c.Std(j)) }

// Bent reports whether the highest coefficient is more than chance makes of nothing in one of a
// hundred cases. A line through bent points is off by more than it says: take the parabola.
func (c Curve) Bent() bool {
	last := len(c.B) - 1
	return len(c.B) > 2 && math.Abs(c.B[last]) > budget.Student(0.995, c.Nu)*c.Std(last)
}

// Inverse returns the x at which the curve gives y, x = 2(y − b₀)/(b₁ + √(b₁² + 4 b₂ (y − b₀))), and its standard
// uncertainty where y is the mean of m readings, u = √(s²/m + gᵀVg)/(b₁ + 2 b₂ x); its degrees of freedom
// are Nu. The reading must rise with what is applied wherever there are points.
func (c Curve) Inverse(y float64, m int) (x, std float64, err error) {
	if c.Slope(c.Min) <= 0 || c.Slope(c.Max) <= 0 {
		return 0, 0, say.Fail(say.Invalid, "budget.fit-falls")
	}
	off := y - c.B[0]
	under := c.B[1]*c.B[1] + 4*c.b2()*off
	if !finite(y) || m < 1 || !(under > 0) {
		return 0, 0, say.Fail(say.Invalid, "budget.fit-beyond")
	}
	x = 2 * off / (c.B[1] + math.Sqrt(under))
	g := c.powers(x)
	return x, math.Sqrt(c.S*c.S/float64(m)+Covariance(g, c.Cov, g)) / c.Slope(x), nil
}

// Covariance is what two linear combinations of the same uncertain numbers have in common, gᵀVh; with h = g it
// is the variance of one (JCGM 100:2008, 5.2.2 and F.1.2.3).
func Covariance(g []float64, v mat.Symmetric, h []float64) float64 {
	return mat.Inner(mat.NewVecDense(len(g), g), v, mat.NewVecDense(len(h), h))
}
