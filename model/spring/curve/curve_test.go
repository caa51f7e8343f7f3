package curve_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

const lbf = 4448.2216152605 // mN

func number(r checkfile.Row, column string) float64 {
	x, _ := r.Rat(column).Float64()
	return x
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// wantKey fails unless the error says this sentence.
func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Fatalf("got %v, want %s", err, key)
	}
}

func pounds(x float64) unit.Load     { return unit.Load(math.Round(x * lbf)) }
func inches(x float64) unit.Length   { return unit.Length(math.Round(x * float64(unit.Inch))) }
func perInch(r unit.Rate) float64    { return float64(r) * .0254 / lbf }
func inPounds(l unit.Load) float64   { return float64(l) / lbf }
func at(h, load float64) curve.Point { return curve.Point{Height: inches(h), Load: pounds(load)} }

// must is for what cannot fail in a test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// fatal is what tests and drawn properties have in common.
type fatal interface {
	Helper()
	Fatal(...any)
}

func newCurve(t fatal, bind unit.Length, points ...curve.Point) *curve.Curve {
	t.Helper()
	c, err := curve.New(points, bind)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func load(t fatal, c *curve.Curve, h unit.Length) unit.Load {
	t.Helper()
	v, err := c.At(h)
	if err != nil {
		t.Fatal(err)
	}
	return v.Load
}

// straight is a coil of constant rate with a load at a height, from .3 in above to .5 in below.
func straight(t fatal, h, load, rate float64) *curve.Curve {
	t.Helper()
	return newCurve(t, inches(h-.6), at(h+.3, load-.3*rate), at(h, load), at(h-.5, load+.5*rate))
}

// progressive is a coil whose rate rises towards solid; loads in lbf, heights in inches.
var progressive = []curve.Point{at(1.900, 110), at(1.800, 150), at(1.600, 234), at(1.400, 325), at(1.200, 425), at(1.150, 453)}

const solid = 1100 * unit.Thou

// anyCoil draws the points of a coil and a bind height under them.
func anyCoil(t *rapid.T) ([]curve.Point, unit.Length) {
	h := unit.Length(rapid.Int64Range(int64(800*unit.Thou), int64(1200*unit.Thou)).Draw(t, "lowest"))
	bind := h - unit.Length(rapid.Int64Range(0, int64(80*unit.Thou)).Draw(t, "room"))
	n := rapid.IntRange(2, 8).Draw(t, "points")
	points := make([]curve.Point, n)
	f := unit.Load(rapid.Int64Range(0, 300_000).Draw(t, "least load"))
	for i := range points {
		points[n-1-i].Load = f
		f += unit.Load(rapid.Int64Range(5_000, 400_000).Draw(t, "more"))
	}
	for i := range points {
		points[i].Height = h
		h += unit.Length(rapid.Int64Range(int64(20*unit.Thou), int64(300*unit.Thou)).Draw(t, "apart"))
	}
	return points, bind
}

func anyHeight(t *rapid.T, least, most unit.Length) unit.Length {
	return unit.Length(rapid.Int64Range(int64(least), int64(most)).Draw(t, "height"))
}

// The cubic is a library's. It is held here against published data and another library, so that another
// version of it that differs is seen.
func TestCubic(t *testing.T) {
	for name, through := range map[string]bool{"step": true, "bend": false} {
		var xs, ys []float64
		checkfile.Each(t, "testdata/check/"+name+"-data.txt", func(t *testing.T, r checkfile.Row) {
			xs, ys = append(xs, number(r, "x")), append(ys, number(r, "y"))
		})
		var cubic interp.FritschButland
		if err := cubic.Fit(xs, ys); err != nil {
			t.Fatal(err)
		}
		checkfile.Each(t, "testdata/check/"+name+"-values.txt", func(t *testing.T, r checkfile.Row) {
			near(t, "value", cubic.Predict(number(r, "x")), number(r, "y"), number(r, "tolerance"))
		})
		if !through {
			continue
		}
		checkfile.Each(t, "testdata/check/"+name+"-slopes.txt", func(t *testing.T, r checkfile.Row) {
			near(t, "slope", cubic.PredictDerivative(number(r, "x")), number(r, "slope"), number(r, "tolerance"))
		})
		// The same as a spring that is 25 − x millimetres tall and carries y times 90 kN: what is left
		// is that loads are whole millinewtons.
		const scale, tall = 9e7, 25.0
		height := func(x float64) unit.Length { return unit.Length(math.Round((tall - x) * float64(unit.MM))) }
		var points []curve.Point
		for i := range xs {
			points = append(points, curve.Point{Height: height(xs[i]), Load: unit.Load(math.Round(ys[i] * scale))})
		}
		c := newCurve(t, 0, points...)
		checkfile.Each(t, "testdata/check/"+name+"-values.txt", func(t *testing.T, r checkfile.Row) {
			number(r, "tolerance")
			near(t, "load", float64(load(t, c, height(number(r, "x"))))/scale, number(r, "y"), 2e-8)
		})
		checkfile.Each(t, "testdata/check/"+name+"-slopes.txt", func(t *testing.T, r checkfile.Row) {
			number(r, "tolerance")
			v, err := c.At(height(number(r, "x")))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "rate", float64(v.Rate)/scale*1e-3, number(r, "slope"), 2e-7)
		})
	}
}

func TestAt(t *testing.T) {
	t.Run("through its points and nowhere outside its neighbours", rapid.MakeCheck(func(t *rapid.T) {
		points, bind := anyCoil(t)
		c := newCurve(t, bind, rapid.Permutation(points).Draw(t, "order")...)
		for _, p := range points {
			if v, err := c.At(p.Height); err != nil || v.Load != p.Load || v.Beyond || v.Straight != (len(points) == 2) {
				t.Fatalf("at %d: %+v, %v, want %d", p.Height, v, err, p.Load)
			}
		}
		i := rapid.IntRange(0, len(points)-2).Draw(t, "interval")
		low, tall := points[i], points[i+1]
		if f := load(t, c, anyHeight(t, low.Height, tall.Height)); f > low.Load || f < tall.Load {
			t.Fatalf("%d outside %d and %d", f, tall.Load, low.Load)
		}
	}))
	t.Run("never more load at a greater height", rapid.MakeCheck(func(t *rapid.T) {
		points, bind := anyCoil(t)
		c := newCurve(t, bind, points...)
		least, most := c.Reach()
		a, b := anyHeight(t, least, most), anyHeight(t, least, most)
		if a > b {
			a, b = b, a
		}
		if load(t, c, a) < load(t, c, b) {
			t.Fatalf("%d at %d, %d at %d", load(t, c, a), a, load(t, c, b), b)
		}
	}))
	t.Run("the rate is how the load changes", rapid.MakeCheck(func(t *rapid.T) {
		c := newCurve(t, solid, progressive...)
		least, most := c.Reach()
		const step = 2 * unit.Thou // wide against the millinewton that loads are rounded to
		h := anyHeight(t, least+step, most-step)
		v, err := c.At(h)
		if err != nil {
			t.Fatal(err)
		}
		slope := float64(load(t, c, h-step)-load(t, c, h+step)) / (2 * float64(step)) * 1e10
		if math.Abs(slope-float64(v.Rate)) > .01*slope {
			t.Fatalf("rate %d, by differences %.0f", v.Rate, slope)
		}
	}))
	// A rate that rises towards solid is kept.
	c := newCurve(t, solid, progressive...)
	seat, open := must(c.At(1850*unit.Thou)), must(c.At(1250*unit.Thou))
	if seat.Rate >= open.Rate {
		t.Errorf("rate %.1f at the seat, %.1f open", perInch(seat.Rate), perInch(open.Rate))
	}
	if a, b := c.Points(); a != 1150*unit.Thou || b != 1900*unit.Thou {
		t.Errorf("points from %d to %d", a, b)
	}
}

func TestBeyond(t *testing.T) {
	c := newCurve(t, 1000*unit.Thou, progressive...)
	const low, tall = 1150 * unit.Thou, 1900 * unit.Thou
	if curve.Beyond != 12_700_000 {
		t.Fatalf("%d tenths of a nanometre are not 1.27 mm", curve.Beyond)
	}
	t.Run("along the last secant, exactly so far", func(t *testing.T) {
		for _, e := range []struct {
			h    unit.Length
			want float64
		}{
			{low - curve.Beyond, 453 + 28}, // 28 lbf in the last .050 in
			{low - curve.Beyond/2, 453 + 14},
			{tall + curve.Beyond, 110 - 20}, // 40 lbf in the first .100 in
		} {
			v, err := c.At(e.h)
			if err != nil || !v.Beyond {
				t.Fatalf("%+v, %v", v, err)
			}
			near(t, "load", inPounds(v.Load), e.want, 1e-3)
		}
		for _, h := range []unit.Length{low, tall} {
			if v, err := c.At(h); err != nil || v.Beyond {
				t.Errorf("at a point: %+v, %v", v, err)
			}
		}
		_, err := c.At(low - curve.Beyond - 1)
		wantKey(t, err, "spring.below")
		_, err = c.At(tall + curve.Beyond + 1)
		wantKey(t, err, "spring.above")
	})
	t.Run("never past the bind height", func(t *testing.T) {
		c := newCurve(t, 1130*unit.Thou, progressive...)
		if v, err := c.At(1130 * unit.Thou); err != nil || !v.Beyond {
			t.Errorf("at the bind height: %+v, %v", v, err)
		}
		_, err := c.At(1130*unit.Thou - 1)
		wantKey(t, err, "spring.solid")
	})
	t.Run("not at all where the bind height is not known", func(t *testing.T) {
		c := newCurve(t, 0, progressive...)
		_, err := c.At(low - 1)
		wantKey(t, err, "spring.no-bind")
		if _, err := c.At(tall + 1); err != nil {
			t.Error(err)
		}
	})
	t.Run("never below nought", func(t *testing.T) {
		c := newCurve(t, 0, at(1.8, 10), at(1.7, 50), at(1.6, 92)) // loose .025 in over the tallest point
		_, most := c.Reach()
		near(t, "reach", float64(most)/float64(unit.Inch), 1.825, 1e-6)
		if f := load(t, c, most); f != 0 {
			t.Errorf("%d mN where it is loose", f)
		}
		_, err := c.At(most + 1)
		wantKey(t, err, "spring.loose")
		// A spring whose free height was entered as a point ends there.
		free := newCurve(t, 0, at(1.9, 0), at(1.7, 50))
		_, err = free.At(1900*unit.Thou + 1)
		wantKey(t, err, "spring.loose")
	})
	t.Run("steady where the points end", rapid.MakeCheck(func(t *rapid.T) {
		points, bind := anyCoil(t)
		c := newCurve(t, bind, points...)
		for _, p := range []curve.Point{points[0], points[len(points)-1]} {
			for _, h := range []unit.Length{p.Height - 1, p.Height + 1} {
				v, err := c.At(h)
				if least, most := c.Reach(); h < least || h > most {
					if err == nil {
						t.Fatalf("%+v out of reach", v)
					}
					continue
				}
				if err != nil || v.Load < p.Load-1 || v.Load > p.Load+1 {
					t.Fatalf("%+v, %v beside %d", v, err, p.Load)
				}
			}
		}
	}))
	// Why the secant and not the cubic's own end slope: each load in turn is off by the scatter.
	checkfile.Each(t, "testdata/check/end-slope.txt", func(t *testing.T, r checkfile.Row) {
		scatter, apart := r.Load("scatter_lbf"), r.Length("spacing_in")
		var points []curve.Point
		for i := range 6 {
			// The rate falls by a trifle from point to point, so that the cubic is not held back anywhere.
			points = append(points, curve.Point{Height: 1200*unit.Thou + unit.Length(i)*apart, Load: pounds(500 - 40*float64(i) + .01*float64(i*i))})
		}
		rates := func(points []curve.Point) (secant, cubic float64) {
			c := newCurve(t, 1100*unit.Thou, points...)
			s, e := must(c.At(1200*unit.Thou-1)), must(c.At(1200*unit.Thou))
			return perInch(s.Rate), perInch(e.Rate)
		}
		s0, e0 := rates(points)
		var s2, e2 float64
		for i := range points {
			off := slices.Clone(points)
			off[i].Load += scatter
			s, e := rates(off)
			s2, e2 = s2+(s-s0)*(s-s0), e2+(e-e0)*(e-e0)
		}
		near(t, "secant", math.Sqrt(s2), number(r, "secant_lbf/in"), number(r, "tolerance_lbf/in"))
		near(t, "cubic", math.Sqrt(e2), number(r, "cubic_lbf/in"), 10*number(r, "tolerance_lbf/in"))
	})
}

func TestHeight(t *testing.T) {
	t.Run("the load leads back", rapid.MakeCheck(func(t *rapid.T) {
		points, bind := anyCoil(t)
		c := newCurve(t, bind, points...)
		least, most := c.Reach()
		f := load(t, c, anyHeight(t, least, most))
		h, err := c.Height(f)
		if err != nil || h < least || h > most {
			t.Fatalf("%d of %d to %d, %v", h, least, most, err)
		}
		if got := load(t, c, h); got != f {
			t.Fatalf("%d mN at %d, want %d", got, h, f)
		}
	}))
	c := newCurve(t, solid, progressive...)
	h, err := c.Height(pounds(325))
	if err != nil || h < 1400*unit.Thou-10 || h > 1400*unit.Thou+10 {
		t.Errorf("%d, %v", h, err)
	}
	_, err = c.Height(pounds(500))
	wantKey(t, err, "spring.load-over")
	_, err = c.Height(pounds(80))
	wantKey(t, err, "spring.load-under")
}

func TestSecant(t *testing.T) {
	c := newCurve(t, solid, progressive...)
	k := must(c.Secant(1900*unit.Thou, 1200*unit.Thou))
	near(t, "rate", perInch(k), (425.0-110)/.7, 1e-3)
	t.Run("the mean of the tangents on the way", rapid.MakeCheck(func(t *rapid.T) {
		points, bind := anyCoil(t)
		c := newCurve(t, bind, points...)
		i := rapid.IntRange(0, len(points)-2).Draw(t, "interval")
		a, b := points[i].Height, points[i+1].Height
		// A cubic's tangent is a parabola, of which Simpson's rule gives the mean exactly.
		tangent := func(h unit.Length) float64 {
			v, err := c.At(h)
			if err != nil {
				t.Fatal(err)
			}
			return float64(v.Rate)
		}
		middle := a + (b-a)/2
		mean := (tangent(a) + 4*tangent(middle) + tangent(b)) / 6
		k, err := c.Secant(b, a)
		if err != nil || math.Abs(mean-float64(k)) > 1e-6*mean+2 {
			t.Fatalf("secant %d, %v; mean of tangents %.0f", k, err, mean)
		}
		if back, _ := c.Secant(a, b); back != k {
			t.Fatalf("%d the other way round, %d", back, k)
		}
	}))
	_, err := c.Secant(1500*unit.Thou, 1500*unit.Thou)
	wantKey(t, err, "spring.no-secant")
	_, err = c.Secant(2500*unit.Thou, 1500*unit.Thou)
	wantKey(t, err, "spring.above")
	_, err = c.Secant(1500*unit.Thou, 900*unit.Thou)
	wantKey(t, err, "spring.solid")
}

func TestBias(t *testing.T) {
	checkfile.Each(t, "testdata/check/lid.txt", func(t *testing.T, r checkfile.Row) {
		rate, off := r.Rate("rate_lbf/in"), r.Length("off_in")
		c := straight(t, 1.8, 200, perInch(rate))
		got, err := c.Bias(r.Length("height_in"), off)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "off", inPounds(got), inPounds(r.Load("want_lbf")), inPounds(r.Load("tolerance_lbf")))
		if of := rate.Times(off); got < of-1 || got > of+1 {
			t.Errorf("%d, of the rate alone %d", got, of)
		}
	})
	t.Run("there and back is nothing", rapid.MakeCheck(func(t *rapid.T) {
		c := newCurve(t, solid, progressive...)
		h, off := anyHeight(t, 1300*unit.Thou, 1700*unit.Thou), unit.Length(rapid.Int64Range(0, int64(100*unit.Thou)).Draw(t, "off"))
		there, err := c.Bias(h, off)
		if err != nil {
			t.Fatal(err)
		}
		back, err := c.Bias(h-off, -off)
		if err != nil || there+back < -1 || there+back > 1 {
			t.Fatalf("%d and %d, %v", there, back, err)
		}
	}))
	c := newCurve(t, solid, progressive...)
	_, err := c.Bias(1160*unit.Thou, 95*unit.Thou)
	wantKey(t, err, "spring.solid")
	_, err = c.Bias(2*unit.Inch, 95*unit.Thou)
	wantKey(t, err, "spring.above")
}

func TestRefused(t *testing.T) {
	change := func(p ...curve.Point) []curve.Point { return append(slices.Clone(progressive), p...) }
	for name, c := range map[string]struct {
		points []curve.Point
		bind   unit.Length
		key    string
	}{
		"none":                      {nil, solid, "spring.few"},
		"one point only":            {progressive[:1], solid, "spring.few"},
		"two points at one height":  {change(at(1.4, 330)), solid, "spring.same-height"},
		"the same point twice":      {change(at(1.4, 325)), solid, "spring.same-height"},
		"loads that fall":           {change(at(1.3, 320)), solid, "spring.falls"},
		"loads that stay":           {change(at(1.3, 325)), solid, "spring.falls"},
		"bind above a point":        {progressive, 1151 * unit.Thou, "spring.bind-above"},
		"bind below nought":         {progressive, -1, "spring.bind"},
		"a height of nought":        {change(at(0, 900)), 0, "spring.height"},
		"a height of a metre":       {change(at(40, 1)), solid, "spring.height"},
		"a height without end":      {change(curve.Point{Height: math.MaxInt64, Load: 1}), solid, "spring.height"},
		"a load below nought":       {change(at(2, -1)), solid, "spring.load"},
		"a load that nothing bears": {change(curve.Point{Height: unit.Inch, Load: math.MaxInt64}), 0, "spring.load"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := curve.New(c.points, c.bind)
			wantKey(t, err, c.key)
			if got != nil {
				t.Error("a curve in spite of it")
			}
			_, err = curve.Assembly(c.points, c.bind)
			wantKey(t, err, c.key)
			if say.CodeOf(err) != say.Invalid {
				t.Errorf("code %s", say.CodeOf(err))
			}
		})
	}
	// Equal bind height and lowest point do not contradict each other.
	if _, err := curve.New(progressive, 1150*unit.Thou); err != nil {
		t.Error(err)
	}
	// The points that were handed in keep their order.
	mixed := []curve.Point{progressive[2], progressive[0], progressive[1]}
	newCurve(t, 0, mixed...)
	if mixed[0].Height != progressive[2].Height {
		t.Error("the caller's points were put in another order")
	}
}
