package fit_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"keeperbook/model/budget/fit"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
)

func number(r checkfile.Row, column string) float64 {
	x, _ := r.Rat(column).Float64()
	return x
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}

// points reads a data set, its x counted from an origin.
func points(t *testing.T, name string, origin float64) (all []fit.Point) {
	t.Helper()
	checkfile.Each(t, "testdata/check/"+name+".txt", func(t *testing.T, r checkfile.Row) {
		all = append(all, fit.Point{X: number(r, "x") - origin, Y: number(r, "y"), Weight: 1})
	})
	return all
}

func polynomial(t *testing.T, degree int, all []fit.Point) fit.Curve {
	t.Helper()
	c, err := fit.Polynomial(degree, all)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestPolynomial(t *testing.T) {
	data := map[string][]fit.Point{"pontius": points(t, "pontius", 0), "norris": points(t, "norris", 0)}
	checkfile.Each(t, "testdata/check/certified.txt", func(t *testing.T, r checkfile.Row) {
		c := polynomial(t, int(number(r, "degree")), data[r.Text("data")])
		relative := number(r, "relative")
		for i, name := range []string{"0", "1", "2"} {
			b, se := number(r, "b"+name), number(r, "se"+name)
			if i >= len(c.B) {
				continue
			}
			near(t, "b"+name, c.B[i], b, relative*math.Abs(b))
			near(t, "se"+name, c.Std(i), se, relative*se)
		}
		near(t, "s", c.S, number(r, "s"), relative*number(r, "s"))
		near(t, "ν", c.Nu, number(r, "nu"), 0)
		if c.Bent() != (r.Text("bent") == "yes") {
			t.Errorf("bent: %v", c.Bent())
		}
	})
	t.Run("a curve through points of its own kind goes through them", rapid.MakeCheck(func(t *rapid.T) {
		coefficient := rapid.Float64Range(-10, 10)
		b := []float64{coefficient.Draw(t, "b0"), coefficient.Draw(t, "b1"), coefficient.Draw(t, "b2")}
		degree := rapid.IntRange(1, 2).Draw(t, "degree")
		var all []fit.Point
		for x := range 8 {
			y := b[0] + b[1]*float64(x)
			if degree == 2 {
				y += b[2] * float64(x*x)
			}
			all = append(all, fit.Point{X: float64(x), Y: y, Weight: rapid.Float64Range(0.1, 10).Draw(t, "w")})
		}
		c, err := fit.Polynomial(degree, all)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range all {
			if math.Abs(c.At(p.X)-p.Y) > 1e-9 {
				t.Fatalf("at %g: %g, not %g", p.X, c.At(p.X), p.Y)
			}
		}
		for i := range c.B {
			if math.Abs(c.B[i]-b[i]) > 1e-9 {
				t.Fatalf("b%d: %g, not %g", i, c.B[i], b[i])
			}
		}
	}))
}

// A point that weighs two is the same point twice, but for the degrees of freedom.
func TestWeights(t *testing.T) {
	all := points(t, "norris", 0)
	heavy := append([]fit.Point{}, all...)
	heavy[3].Weight, heavy[9].Weight = 2, 3
	twice := append(append([]fit.Point{}, all...), all[3], all[9], all[9])
	a, b := polynomial(t, 2, heavy), polynomial(t, 2, twice)
	for i := range a.B {
		near(t, "coefficient", a.B[i], b.B[i], 1e-10*math.Abs(b.B[i]))
	}
	near(t, "s² ν", a.S*a.S*a.Nu, b.S*b.S*b.Nu, 1e-9)
	near(t, "u", a.StdAt(500)/a.S, b.StdAt(500)/b.S, 1e-12)
}

func TestLineWithCovariance(t *testing.T) {
	c := polynomial(t, 1, points(t, "thermometer", 20))
	checkfile.Each(t, "testdata/check/thermometer-line.txt", func(t *testing.T, r checkfile.Row) {
		near(t, "y1", c.B[0], number(r, "y1"), 5e-5)
		near(t, "u(y1)", c.Std(0), number(r, "u1"), 5e-5)
		near(t, "y2", c.B[1], number(r, "y2"), 5e-6)
		near(t, "u(y2)", c.Std(1), number(r, "u2"), 5e-6)
		near(t, "r", c.Correlation(0, 1), number(r, "r"), 5e-4)
		near(t, "s", c.S, number(r, "s"), 5e-5)
		near(t, "b(30 °C)", c.At(number(r, "at")-20), number(r, "b"), 5e-5)
		near(t, "u(b)", c.StdAt(number(r, "at")-20), number(r, "u"), 5e-5)
	})
	checkfile.Each(t, "testdata/check/thermometer-digits.txt", func(t *testing.T, r checkfile.Row) {
		near(t, "y1", c.B[0], number(r, "y1"), 5e-9)
		near(t, "u(y1)", c.Std(0), number(r, "u1"), 5e-9)
		near(t, "y2", c.B[1], number(r, "y2"), 5e-12)
		near(t, "u(y2)", c.Std(1), number(r, "u2"), 5e-12)
		near(t, "squares", c.S*c.S*c.Nu, number(r, "squares"), 5e-13)
		near(t, "u(b)", c.StdAt(10), number(r, "u"), 5e-8)
	})
}

func TestInverse(t *testing.T) {
	c := polynomial(t, 2, points(t, "pontius", 0))
	checkfile.Each(t, "testdata/check/inverse.txt", func(t *testing.T, r checkfile.Row) {
		x, _, err := c.Inverse(number(r, "y"), 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "x", x, number(r, "x"), number(r, "tolerance"))
	})
	checkfile.Each(t, "testdata/check/inverse-digits.txt", func(t *testing.T, r checkfile.Row) {
		x, u, err := c.Inverse(number(r, "y"), int(number(r, "m")))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "x", x, number(r, "x"), number(r, "x_tolerance"))
		near(t, "u", u, number(r, "u"), number(r, "u_tolerance"))
	})
	line := polynomial(t, 1, points(t, "norris", 0))
	t.Run("the curve leads back", rapid.MakeCheck(func(t *rapid.T) {
		for _, c := range []fit.Curve{c, line} {
			x := rapid.Float64Range(c.Min, c.Max).Draw(t, "x")
			m := rapid.IntRange(1, 9).Draw(t, "m")
			back, u, err := c.Inverse(c.At(x), m)
			if err != nil || math.Abs(back-x) > 1e-9*c.Max {
				t.Fatalf("%g comes back as %g, %v", x, back, err)
			}
			// The slope by differences, not by its formula.
			h := 1e-4 * c.Max
			slope := (c.At(x+h) - c.At(x-h)) / (2 * h)
			want := math.Hypot(c.S/math.Sqrt(float64(m)), c.StdAt(x)) / slope
			if math.Abs(u-want) > 1e-6*want {
				t.Fatalf("u %g, want %g", u, want)
			}
		}
	}))
}

// The impedance of a coil from voltage, current and phase that were read together and vary together.
func TestCovariance(t *testing.T) {
	readings := mat.NewDense(5, 3, nil)
	checkfile.Each(t, "testdata/check/impedance.txt", func(t *testing.T, r checkfile.Row) {
		at := int(number(r, "n")) - 1
		readings.SetRow(at, []float64{number(r, "volt"), number(r, "milliampere") / 1000, number(r, "radian")})
	})
	var cov mat.SymDense
	stat.CovarianceMatrix(&cov, readings, nil)
	cov.ScaleSym(1.0/5, &cov) // of means
	mean := func(j int) float64 { return stat.Mean(mat.Col(nil, j, readings), nil) }
	v, i, phi := mean(0), mean(1), mean(2)
	z, cos, sin := v/i, math.Cos(phi), math.Sin(phi)
	names := []string{"r", "x", "z"}
	value := []float64{z * cos, z * sin, z}
	gradient := [][]float64{{cos / i, -z * cos / i, -z * sin}, {sin / i, -z * sin / i, z * cos}, {1 / i, -z / i, 0}}
	at := map[string]int{"R": 0, "X": 1, "Z": 2}
	checkfile.Each(t, "testdata/check/impedance-found.txt", func(t *testing.T, r checkfile.Row) {
		k := at[r.Text("name")]
		u := math.Sqrt(fit.Covariance(gradient[k], &cov, gradient[k]))
		near(t, "value", value[k], number(r, "value"), 5.1e-4)
		near(t, "u", u, number(r, "u"), 1e-3)
		for j, other := range names {
			uj := math.Sqrt(fit.Covariance(gradient[j], &cov, gradient[j]))
			near(t, "r with "+other, fit.Covariance(gradient[k], &cov, gradient[j])/(u*uj), number(r, "r_with_"+other), 5.1e-4)
		}
	})
}

func TestRefused(t *testing.T) {
	good := []fit.Point{{0, 0, 1}, {1, 1, 1}, {2, 2.1, 1}, {3, 3, 1}}
	change := func(p fit.Point) []fit.Point { return append([]fit.Point{p}, good...) }
	for name, c := range map[string]struct {
		degree int
		points []fit.Point
		key    string
	}{
		"a cubic":               {3, good, "budget.fit-degree"},
		"a line on two":         {1, good[:2], "budget.fit-few"},
		"a parabola on three":   {2, good[:3], "budget.fit-few"},
		"none":                  {1, nil, "budget.fit-few"},
		"all at one place":      {1, []fit.Point{{1, 1, 1}, {1, 2, 1}, {1, 3, 1}}, "budget.fit-same"},
		"x that is no number":   {1, change(fit.Point{math.NaN(), 1, 1}), "budget.fit-number"},
		"y without end":         {1, change(fit.Point{1, math.Inf(1), 1}), "budget.fit-number"},
		"no weight":             {1, change(fit.Point{1, 1, 0}), "budget.fit-number"},
		"a weight below nought": {1, change(fit.Point{1, 1, -1}), "budget.fit-number"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := fit.Polynomial(c.degree, c.points)
			wantKey(t, err, c.key)
		})
	}
	t.Run("readings that fall", func(t *testing.T) {
		c := polynomial(t, 1, []fit.Point{{0, 3, 1}, {1, 2, 1}, {2, 1.1, 1}})
		_, _, err := c.Inverse(2, 1)
		wantKey(t, err, "budget.fit-falls")
	})
	t.Run("beyond the top of the parabola", func(t *testing.T) {
		c := polynomial(t, 2, []fit.Point{{0, 0, 1}, {1, 1.9, 1}, {2, 3.4, 1}, {3, 4.6, 1}})
		_, _, err := c.Inverse(40, 1)
		wantKey(t, err, "budget.fit-beyond")
		_, _, err = c.Inverse(1, 0)
		wantKey(t, err, "budget.fit-beyond")
		_, _, err = c.Inverse(math.NaN(), 1)
		wantKey(t, err, "budget.fit-beyond")
	})
}

func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Fatalf("got %v, want %s", err, key)
	}
}
