package spring_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
	"keeperbook/model/spring"
	"keeperbook/model/unit"
)

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

func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Fatalf("got %v, want %s", err, key)
	}
}

// A load cell's readings are taken as a millionth of a millinewton each, its loads as one each: then both
// are whole.
const million = 1e6

func shown(r checkfile.Row, column string) unit.Load {
	return unit.Load(math.Round(number(r, column) * million))
}

func loadCell(t *testing.T) (points []spring.Weighing) {
	t.Helper()
	checkfile.Each(t, "../budget/fit/testdata/check/pontius.txt", func(t *testing.T, r checkfile.Row) {
		points = append(points, spring.Weighing{Applied: unit.Load(number(r, "x")), Shown: shown(r, "y")})
	})
	return points
}

func calibrated(t *testing.T, points []spring.Weighing) spring.Tester {
	t.Helper()
	tester, err := spring.Calibrate(points)
	if err != nil {
		t.Fatal(err)
	}
	return tester
}

func TestTester(t *testing.T) {
	tester := calibrated(t, loadCell(t))
	if !tester.Bent() {
		t.Error("a line through points that are bent")
	}
	checkfile.Each(t, "testdata/check/tester.txt", func(t *testing.T, r checkfile.Row) {
		got, err := tester.Correct(shown(r, "shown"), 1)
		if err != nil || got.Beyond {
			t.Fatalf("%+v, %v", got, err)
		}
		near(t, "load", float64(got.Load), number(r, "applied"), 0)
	})
	checkfile.Each(t, "testdata/check/tester-digits.txt", func(t *testing.T, r checkfile.Row) {
		got, err := tester.Correct(shown(r, "shown"), 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "u", got.Doubt.U, number(r, "u"), number(r, "tolerance"))
		near(t, "ν", got.Doubt.Nu, 37, 0)
		often, err := tester.Correct(shown(r, "shown"), 9)
		if err != nil || often.Load != got.Load || often.Doubt.U >= got.Doubt.U {
			t.Errorf("read nine times %+v, %v; once %+v", often, err, got)
		}
	})
	t.Run("what it shows leads back to the load", rapid.MakeCheck(func(t *rapid.T) {
		var points []spring.Weighing
		gain, bend := rapid.Float64Range(.95, 1.05).Draw(t, "gain"), rapid.Float64Range(-2e-9, 2e-9).Draw(t, "bend")
		zero := rapid.Float64Range(-3000, 3000).Draw(t, "zero")
		for x := 0.0; x <= 2e6; x += 2e5 {
			points = append(points, spring.Weighing{Applied: unit.Load(x), Shown: unit.Load(math.Round(zero + gain*x + bend*x*x))})
		}
		tester, err := spring.Calibrate(points)
		if err != nil {
			t.Fatal(err)
		}
		applied := unit.Load(rapid.Int64Range(0, 2_000_000).Draw(t, "load"))
		got, err := tester.Correct(tester.Shows(applied), 1)
		if err != nil || got.Load < applied-2 || got.Load > applied+2 {
			t.Fatalf("%d comes back as %+v, %v", applied, got, err)
		}
	}))
	t.Run("beyond the weights", func(t *testing.T) {
		for applied, beyond := range map[unit.Load]bool{100_000: true, 150_100: false, 2_999_000: false, 3_100_000: true} {
			got, err := tester.Correct(tester.Shows(applied), 1)
			if err != nil || got.Beyond != beyond {
				t.Errorf("%d: %+v, %v", applied, got, err)
			}
		}
	})
	t.Run("straight points make a line, few too", func(t *testing.T) {
		var points []spring.Weighing
		for i, off := range []unit.Load{200, -300, 100, 300, -200, -100} {
			x := unit.Load(i+1) * 300_000
			points = append(points, spring.Weighing{Applied: x, Shown: x + x/100 + off})
		}
		for _, p := range [][]spring.Weighing{points, points[:3]} {
			tester := calibrated(t, p)
			if tester.Bent() {
				t.Error("bent")
			}
			// One part in a hundred too high.
			got, err := tester.Correct(606_000, 1)
			if err != nil || got.Load < 599_000 || got.Load > 601_000 {
				t.Errorf("%+v, %v", got, err)
			}
		}
	})
	t.Run("as it is told to", func(t *testing.T) {
		points := loadCell(t)
		bent, line := calibrated(t, points), func() spring.Tester {
			tester, err := spring.CalibrateAs(1, points)
			if err != nil {
				t.Fatal(err)
			}
			return tester
		}()
		same, err := spring.CalibrateAs(2, points)
		if err != nil || !same.Bent() || line.Bent() {
			t.Fatalf("line bent %v, parabola bent %v, %v", line.Bent(), same.Bent(), err)
		}
		if at := points[10].Applied; same.Shows(at) != bent.Shows(at) || line.Shows(at) == bent.Shows(at) {
			t.Errorf("%d mN: %d and %d as a parabola, %d as a line", at, same.Shows(at), bent.Shows(at), line.Shows(at))
		}
		for _, degree := range []int{0, 3} {
			_, err := spring.CalibrateAs(degree, points)
			wantKey(t, err, "spring.degree")
		}
	})
	t.Run("refused", func(t *testing.T) {
		_, err := spring.Calibrate(nil)
		wantKey(t, err, "budget.fit-few")
		_, err = spring.Calibrate([]spring.Weighing{{1, 1}, {2, 2}})
		wantKey(t, err, "budget.fit-few")
		_, err = spring.Calibrate([]spring.Weighing{{1, 1}, {1, 2}, {1, 3}, {1, 4}})
		wantKey(t, err, "budget.fit-same")
		falling := calibrated(t, []spring.Weighing{{0, 3000}, {1000, 2000}, {2000, 1010}})
		_, err = falling.Correct(2500, 1)
		wantKey(t, err, "budget.fit-falls")
		_, err = tester.Correct(1, 0)
		wantKey(t, err, "budget.fit-beyond")
	})
}

func TestWeight(t *testing.T) {
	checkfile.Each(t, "testdata/check/weight.txt", func(t *testing.T, r checkfile.Row) {
		mass, g := number(r, "mass_kg"), number(r, "gravity_m/s2")
		got, err := spring.Weight(mass, g)
		if err != nil {
			t.Fatal(err)
		}
		want := r.Load("load_N")
		if got != want {
			t.Errorf("%d mN, want %d", got, want)
		}
		near(t, "off the standard", 100*(g/9.80665-1), number(r, "percent_of_standard"), number(r, "tolerance"))
	})
	t.Run("two weights are one of both", rapid.MakeCheck(func(t *rapid.T) {
		m := rapid.Float64Range(.1, 100)
		a, b := m.Draw(t, "a"), m.Draw(t, "b")
		x, _ := spring.Weight(a, 9.81)
		y, _ := spring.Weight(b, 9.81)
		if both, err := spring.Weight(a+b, 9.81); err != nil || both < x+y-1 || both > x+y+1 {
			t.Fatalf("%d and %d, together %d, %v", x, y, both, err)
		}
	}))
	for _, mass := range []float64{0, -1, math.NaN(), math.Inf(1), 1e9} {
		_, err := spring.Weight(mass, 9.80665)
		wantKey(t, err, "spring.weight")
	}
	for _, g := range []float64{0, 9.7, 32.174, math.NaN()} {
		_, err := spring.Weight(1, g)
		wantKey(t, err, "spring.gravity")
	}
}

func TestDamper(t *testing.T) {
	checkfile.Each(t, "testdata/check/damper.txt", func(t *testing.T, r checkfile.Row) {
		up, down, err := spring.Strokes(r.Load("load_lbf"), r.Load("friction_lbf"))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "compressing", float64(up), float64(r.Load("compressing_lbf")), 1)
		near(t, "releasing", float64(down), float64(r.Load("releasing_lbf")), 1)
	})
	t.Run("friction found from both strokes leads back", rapid.MakeCheck(func(t *rapid.T) {
		load := unit.Load(rapid.Int64Range(0, 2_000_000).Draw(t, "load"))
		friction := unit.Load(rapid.Int64Range(0, int64(load)).Draw(t, "friction"))
		up, down, err := spring.Strokes(load, friction)
		if err != nil {
			t.Fatal(err)
		}
		f, ff, err := spring.Friction(up, down)
		if err != nil || f != load || ff != friction {
			t.Fatalf("%d ± %d come back as %d ± %d, %v", load, friction, f, ff, err)
		}
	}))
	_, _, err := spring.Strokes(1, -1)
	wantKey(t, err, "spring.friction")
	_, _, err = spring.Friction(1, 2)
	wantKey(t, err, "spring.strokes")
}

func TestSpread(t *testing.T) {
	checkfile.Each(t, "testdata/check/spread.txt", func(t *testing.T, r checkfile.Row) {
		s, err := spring.SpreadOf([]unit.Load{r.Load("first_lbf"), r.Load("second_lbf"), r.Load("third_lbf"), r.Load("fourth_lbf")})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean", float64(s.Mean), float64(r.Load("mean_lbf")), 1)
		near(t, "range", float64(s.Range), float64(r.Load("range_lbf")), 1)
		near(t, "first", float64(s.Off[0]), float64(r.Load("off_first_lbf")), 1)
		near(t, "last", float64(s.Off[3]), float64(r.Load("off_last_lbf")), 1)
		near(t, "worst", float64(s.Worst), number(r, "worst"), 0)
	})
	t.Run("what is off on one side is off on the other", rapid.MakeCheck(func(t *rapid.T) {
		loads := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) unit.Load {
			return unit.Load(rapid.Int64Range(0, 3_000_000).Draw(t, "load"))
		}), 1, 64).Draw(t, "loads")
		s, err := spring.SpreadOf(loads)
		if err != nil {
			t.Fatal(err)
		}
		sum, least, most := unit.Load(0), s.Off[0], s.Off[0]
		for _, off := range s.Off {
			sum += off
			least, most = min(least, off), max(most, off)
		}
		// The mean is rounded by half a millinewton at the most.
		if n := unit.Load(len(loads)); 2*sum > n || 2*sum < -n || most-least != s.Range || max(most, -least) != max(s.Off[s.Worst], -s.Off[s.Worst]) {
			t.Fatalf("%+v: sum %d", s, sum)
		}
	}))
	// Halves go to the even millinewton.
	if s, _ := spring.SpreadOf([]unit.Load{2, 3}); s.Mean != 2 {
		t.Errorf("mean %d", s.Mean)
	}
	_, err := spring.SpreadOf(nil)
	wantKey(t, err, "spring.none")
}
