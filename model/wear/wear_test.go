package wear_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
	"keeperbook/model/wear"
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

func numbers(t *testing.T, text string) (all []float64) {
	t.Helper()
	for _, one := range strings.Fields(text) {
		x, err := strconv.ParseFloat(one, 64)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, x)
	}
	return all
}

func checks(cycles, loads []float64, u float64) (wear.Check, []wear.Check) {
	var all []wear.Check
	for i, n := range cycles {
		all = append(all, wear.Check{Cycles: n, Load: loads[i], U: u})
	}
	return all[0], all[1:]
}

// published are sets of readings from outside, as checks of one spring whose baseline is at nought. A baseline of no weight to
// speak of goes before what was not read at nought.
func published(t *testing.T, name string, u float64) (wear.Check, []wear.Check) {
	t.Helper()
	var all []wear.Check
	if name == "scatter" {
		baseline, all := checks([]float64{0, 1, 2, 3, 4}, []float64{580, 575, 560, 556, 541}, 2)
		return baseline, all
	}
	checkfile.Each(t, "../budget/fit/testdata/check/"+name+".txt", func(t *testing.T, r checkfile.Row) {
		all = append(all, wear.Check{Cycles: number(r, "x"), Load: number(r, "y"), U: u})
	})
	return wear.Check{U: u * 1e9}, all
}

func TestCertified(t *testing.T) {
	checkfile.Each(t, "testdata/check/certified.txt", func(t *testing.T, r checkfile.Row) {
		// An uncertainty far below the scatter: what the readings themselves tell counts, as in the published values.
		s, relative := number(r, "s"), number(r, "relative")
		baseline, all := published(t, r.Text("data"), s/1000)
		f, err := wear.Fit(wear.Line, baseline, all, 0)
		if err != nil {
			t.Fatal(err)
		}
		// The baseline of no weight adds a degree of freedom.
		nu := number(r, "nu") + 1
		near(t, "ν", f.Nu, nu, 0)
		near(t, "s", math.Sqrt(f.Chi2/(nu-1))*s/1000, s, relative*s)
		near(t, "a", f.Baseline(), number(r, "a"), relative*math.Abs(number(r, "a")))
		// What a degree more makes of the scatter is taken out again.
		half := budget.Student(.975, nu) * math.Sqrt((nu-1)/nu)
		at := f.Load(0)
		near(t, "se(a)", (at.High-at.Low)/2/half, number(r, "se_a"), relative*number(r, "se_a"))
		const far = 1e15 // where all of the doubt is the slope's
		at = f.Load(far)
		near(t, "se(b)", (at.High-at.Low)/2/half/far, number(r, "se_b"), relative*number(r, "se_b"))
		b := number(r, "b")
		near(t, "b", (f.Load(1e6).At-f.Baseline())/1e6, b, relative*math.Abs(b))
	})
}

func TestBands(t *testing.T) {
	checkfile.Each(t, "testdata/check/bands.txt", func(t *testing.T, r checkfile.Row) {
		u := .5
		baseline, all := published(t, r.Text("data"), u)
		if r.Text("data") == "scatter" {
			u = 2
		} else {
			baseline, all = all[0], all[1:]
			for i := range all {
				if all[i].Cycles < baseline.Cycles {
					baseline, all[i] = all[i], baseline
				}
			}
		}
		f, err := wear.Fit(wear.Line, baseline, all, 0)
		if err != nil {
			t.Fatal(err)
		}
		n := number(r, "cycles") - baseline.Cycles
		now, next := f.Load(n), f.Next(n, u)
		const within = 2e-8
		near(t, "fit", now.At, number(r, "fit"), within)
		near(t, "low", now.Low, number(r, "low"), within)
		near(t, "high", now.High, number(r, "high"), within)
		near(t, "next low", next.Low, number(r, "next_low"), within)
		near(t, "next high", next.High, number(r, "next_high"), within)
	})
}

func TestCrossing(t *testing.T) {
	checkfile.Each(t, "testdata/check/crossing.txt", func(t *testing.T, r checkfile.Row) {
		baseline, all := checks(numbers(t, r.Text("cycles")), numbers(t, r.Text("loads")), number(r, "u"))
		f, err := wear.Fit(wear.Shape(r.Text("shape")), baseline, all, number(r, "settling"))
		if err != nil {
			t.Fatal(err)
		}
		x, err := f.Cross(number(r, "share"))
		if err != nil {
			t.Fatal(err)
		}
		relative := number(r, "relative")
		near(t, "χ²", f.Chi2, number(r, "chi2"), relative*number(r, "chi2"))
		near(t, "at", x.At, number(r, "at"), relative*number(r, "at"))
		near(t, "low", x.Low, number(r, "low"), relative*number(r, "low"))
		if r.Text("high") == "none" {
			if !x.Open() {
				t.Errorf("a latest number of cycles: %g", x.High)
			}
			return
		}
		near(t, "high", x.High, number(r, "high"), 100*relative*number(r, "high"))
	})
	t.Run("the fitted load has lost the share there", rapid.MakeCheck(func(t *rapid.T) {
		_, trend := drawn(t)
		share := rapid.Float64Range(.01, .3).Draw(t, "share")
		for _, f := range []wear.Fitted{trend.Line, trend.Settles} {
			x, err := f.Cross(share)
			if err != nil {
				t.Fatal(err)
			}
			if !(x.Low <= x.At && x.At <= x.High) || x.Low < 0 {
				t.Fatalf("%s: %+v", f.Shape, x)
			}
			if x.At > 1e12 {
				continue
			}
			if got, want := f.Load(x.At).At, (1-share)*f.Baseline(); math.Abs(got-want) > 1e-6*want {
				t.Fatalf("%s: %g at the crossing, want %g", f.Shape, got, want)
			}
		}
	}))
}

// drawn are checks of a spring that loses something.
func drawn(t *rapid.T) (u float64, trend wear.Trend) {
	u = rapid.Float64Range(.2, 4).Draw(t, "u")
	n := rapid.IntRange(4, 9).Draw(t, "n")
	lost := rapid.Float64Range(0, .002).Draw(t, "lost")
	var cycles, loads []float64
	for i := range n {
		cycles = append(cycles, float64(i))
		loads = append(loads, 240*(1-lost*float64(i))+u*rapid.Float64Range(-2, 2).Draw(t, "off"))
	}
	baseline, all := checks(cycles, loads, u)
	trend, err := wear.Of(baseline, all, 2)
	if err != nil {
		t.Fatal(err)
	}
	return u, trend
}

func TestTrend(t *testing.T) {
	cycles := []float64{0, 10, 20, 40, 80, 160}
	load := func(f func(n float64) float64) []float64 {
		var all []float64
		for _, n := range cycles {
			all = append(all, f(n))
		}
		return all
	}
	for _, c := range []struct {
		name  string
		loads []float64
		u     float64
		want  wear.Shape
	}{
		{"a line", load(func(n float64) float64 { return 240 - .1*n }), .5, wear.Line},
		{"settling", load(func(n float64) float64 { return 240 - 6*math.Log1p(n/10) }), .5, wear.Settles},
		{"too rough to tell", load(func(n float64) float64 { return 240 - .1*n }), 5, wear.Either},
		{"nothing lost", load(func(float64) float64 { return 240 }), 1, wear.Either},
	} {
		t.Run(c.name, func(t *testing.T) {
			baseline, all := checks(cycles, c.loads, c.u)
			trend, err := wear.Of(baseline, all, 10)
			if err != nil {
				t.Fatal(err)
			}
			if got := trend.Shape(); got != c.want {
				t.Errorf("shape %s, want %s", got, c.want)
			}
			x, err := trend.Cross(.1)
			if err != nil {
				t.Fatal(err)
			}
			line, _ := trend.Line.Cross(.1)
			settles, _ := trend.Settles.Cross(.1)
			if c.want == wear.Either && (x.Low > min(line.Low, settles.Low) || x.High < max(line.High, settles.High)) {
				t.Errorf("%+v does not hold both %+v and %+v", x, line, settles)
			}
		})
	}
	t.Run("a rising load never crosses", func(t *testing.T) {
		baseline, all := checks([]float64{0, 1, 2, 3}, []float64{240, 250, 260, 270}, 1)
		f, err := wear.Fit(wear.Line, baseline, all, 0)
		if err != nil {
			t.Fatal(err)
		}
		if x, err := f.Cross(.1); err != nil || !x.Never() {
			t.Errorf("%+v, %v", x, err)
		}
	})
	t.Run("a check later is surer to lie in the prediction than the spring in its band", rapid.MakeCheck(func(t *rapid.T) {
		u, trend := drawn(t)
		n := rapid.Float64Range(0, 20).Draw(t, "at")
		now, next := trend.Load(n), trend.Next(n, u)
		if !(next.Low < now.Low && now.High < next.High) {
			t.Fatalf("%+v, %+v", now, next)
		}
	}))
}

// TestCoverage: of 10,000 histories the intervals of the crossing must hold the true one in 95 of 100, within what 10,000 can
// tell and what the widening adds: 93 to 97 with the shape known, 94 to 98 with the shape chosen.
func TestCoverage(t *testing.T) {
	const histories = 10_000
	random := rand.New(rand.NewPCG(8, 1))
	known, chosen := 0, 0
	for i := range histories {
		n := 5 + random.IntN(4)
		u := .6 + 1.2*random.Float64()
		lose := 8 + 12*random.Float64() // lbf over all checks
		settling := i%2 == 1
		const first = 20.0
		g := func(n float64) float64 {
			if settling {
				return math.Log1p(n / first)
			}
			return n
		}
		last := 40 * float64(n-1)
		rate := lose / g(last)
		var cycles, loads []float64
		for j := range n {
			at := 40 * float64(j)
			cycles, loads = append(cycles, at), append(loads, 240-rate*g(at)+u*random.NormFloat64())
		}
		share := .05
		truth := share * 240 / rate
		if settling {
			truth = first * math.Expm1(truth)
		}
		baseline, all := checks(cycles, loads, u)
		trend, err := wear.Of(baseline, all, first)
		if err != nil {
			t.Fatal(err)
		}
		f := trend.Line
		if settling {
			f = trend.Settles
		}
		one, err := f.Cross(share)
		if err != nil {
			t.Fatal(err)
		}
		both, err := trend.Cross(share)
		if err != nil {
			t.Fatal(err)
		}
		if one.Low <= truth && truth <= one.High {
			known++
		}
		if both.Low <= truth && truth <= both.High {
			chosen++
		}
	}
	t.Logf("known %.2f %%, chosen %.2f %%", float64(known)/histories*100, float64(chosen)/histories*100)
	if known < 9300 || known > 9700 {
		t.Errorf("%d of %d with the shape known", known, histories)
	}
	if chosen < 9400 || chosen > 9800 {
		t.Errorf("%d of %d with the shape chosen", chosen, histories)
	}
}

func TestRefuses(t *testing.T) {
	good, all := checks([]float64{0, 1, 2, 3}, []float64{240, 239, 238, 237}, 1)
	with := func(i int, c wear.Check) []wear.Check {
		bad := append([]wear.Check{}, all...)
		bad[i] = c
		return bad
	}
	for name, c := range map[string]struct {
		checks []wear.Check
		key    string
	}{
		"two checks":                 {all[:2], "wear.few"},
		"none":                       {nil, "wear.few"},
		"a check before the base":    {with(1, wear.Check{Cycles: -1, Load: 240, U: 1}), "wear.number"},
		"no uncertainty":             {with(1, wear.Check{Cycles: 1, Load: 240}), "wear.number"},
		"no number":                  {with(1, wear.Check{Cycles: 1, Load: math.NaN(), U: 1}), "wear.number"},
		"cycles that are no number":  {with(1, wear.Check{Cycles: math.NaN(), Load: 240, U: 1}), "wear.number"},
		"cycles that never end":      {with(1, wear.Check{Cycles: math.Inf(1), Load: 240, U: 1}), "wear.number"},
		"all at the baseline itself": {[]wear.Check{good, good, good}, "wear.number"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := wear.Of(good, c.checks, 1)
			wantKey(t, err, c.key)
		})
	}
	_, err := wear.Fit(wear.Settles, good, all, 0)
	wantKey(t, err, "wear.number")
	trend, err := wear.Of(good, all, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, share := range []float64{0, 1, -.1, math.NaN()} {
		_, err := trend.Cross(share)
		wantKey(t, err, "wear.share")
	}
	for _, load := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := wear.LossOf(wear.Check{Load: load}, good)
		wantKey(t, err, "wear.number")
		_, err = wear.LossOf(good, wear.Check{Load: load})
		wantKey(t, err, "wear.number")
	}
}

func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Errorf("got %v, want %s", err, key)
	}
}

func TestLost(t *testing.T) {
	checkfile.Each(t, "testdata/check/lost.txt", func(t *testing.T, r checkfile.Row) {
		within := number(r, "tolerance")
		load := wear.AtHeight(number(r, "found_lbf"), number(r, "rate"), number(r, "height_in"), number(r, "baseline_in"))
		near(t, "load", load, number(r, "load_lbf"), within)
		lost, err := wear.LossOf(wear.Check{Load: load, U: 1}, wear.Check{Load: number(r, "baseline_lbf"), U: 1})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "percent", 100*lost.Share, number(r, "percent"), within)
	})
	t.Run("its uncertainty is that of many tries", func(t *testing.T) {
		random := rand.New(rand.NewPCG(8, 2))
		now, base := wear.Check{Load: 215, U: 1.5}, wear.Check{Load: 240, U: 2}
		lost, err := wear.LossOf(now, base)
		if err != nil {
			t.Fatal(err)
		}
		const tries = 100_000
		squares := 0.0
		for range tries {
			l := 1 - (now.Load+now.U*random.NormFloat64())/(base.Load+base.U*random.NormFloat64())
			squares += (l - lost.Share) * (l - lost.Share)
		}
		near(t, "U", lost.U, 2*math.Sqrt(squares/tries), .01*lost.U)
	})
}

func TestCycles(t *testing.T) {
	checkfile.Each(t, "testdata/check/cycles.txt", func(t *testing.T, r checkfile.Row) {
		x := [4]float64{number(r, "x1"), number(r, "x2"), number(r, "x3"), number(r, "x4")}
		run := map[string]wear.Run{
			"hours": wear.Hours{Hours: x[0], Mean: x[1]},
			"timed": wear.Timed{Count: x[0], Seconds: x[1], Mean: x[2]},
			"road":  wear.Road{Distance: x[0], PerHour: x[1], Mean: x[2]},
			"pulls": wear.Pulls{Count: x[0], From: x[1], To: x[2], Rate: x[3]},
		}[r.Text("kind")]
		got, err := run.Cycles()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cycles", got, number(r, "cycles"), number(r, "tolerance"))
	})
	t.Run("a pull is as long as its mean speed makes it", rapid.MakeCheck(func(t *rapid.T) {
		from := rapid.Float64Range(0, 5000).Draw(t, "from")
		to := from + rapid.Float64Range(100, 5000).Draw(t, "more")
		rate := rapid.Float64Range(50, 2000).Draw(t, "rate")
		pull, err := wear.Pulls{Count: 1, From: from, To: to, Rate: rate}.Cycles()
		if err != nil {
			t.Fatal(err)
		}
		timed, err := wear.Timed{Count: 1, Seconds: (to - from) / rate, Mean: (from + to) / 2}.Cycles()
		if err != nil || math.Abs(pull-timed) > 1e-9*timed {
			t.Fatalf("%g and %g, %v", pull, timed, err)
		}
	}))
	for name, run := range map[string]wear.Run{
		"no time":            wear.Hours{Mean: 3000},
		"below nought":       wear.Hours{Hours: -1, Mean: -3000},
		"no number":          wear.Timed{Count: math.NaN(), Seconds: 1, Mean: 1},
		"no speed on a road": wear.Road{Distance: 1, Mean: 3000},
		"a pull downwards":   wear.Pulls{Count: 1, From: 8000, To: 3000, Rate: 600},
		"beyond all numbers": wear.Timed{Count: 1e200, Seconds: 1e200, Mean: 1},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := run.Cycles()
			wantKey(t, err, "wear.run-number")
		})
	}
}

func TestOutOfSet(t *testing.T) {
	// Modified z of −11.47 for the seventh by R 4.2.2: 0.6745 (x − median(x))/mad(x, constant = 1).
	set := []float64{131, 130, 132, 129.5, 131.5, 130.5, 118, 131}
	for _, c := range []struct {
		name        string
		values      []float64
		u, expanded float64
		out         []int
	}{
		{"one spring off", set, .5, 2, []int{6}},
		{"off by less than its U", set, .5, 13, nil},
		{"a rough tester", set, 8, 2, nil},
		{"five tell nothing", []float64{131, 131, 131, 131, 100}, .1, .2, nil},
		{"all alike but one, and a sure tester", []float64{131, 131, 131, 131, 131, 129}, .1, .2, []int{5}},
		{"all alike", []float64{131, 131, 131, 131, 131, 131}, 0, 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out []int
			for i, is := range wear.OutOfSet(c.values, c.u, c.expanded) {
				if is {
					out = append(out, i)
				}
			}
			if len(out) != len(c.out) || len(out) > 0 && out[0] != c.out[0] {
				t.Errorf("got %v, want %v", out, c.out)
			}
		})
	}
	t.Run("sound sets are left alone", func(t *testing.T) {
		random := rand.New(rand.NewPCG(8, 3))
		const sets = 10_000
		alone, guarded := 0, 0
		for range sets {
			values := make([]float64, 8)
			for i := range values {
				values[i] = 130 + random.NormFloat64()
			}
			if some(wear.OutOfSet(values, 0, 0)) {
				alone++
			}
			// All of the scatter is the tester's: its uncertainty is the scatter.
			if some(wear.OutOfSet(values, 1, 2*math.Sqrt(1+1./8))) {
				guarded++
			}
		}
		t.Logf("alone %.1f %%, with what the tester does %.2f %%", float64(alone)/sets*100, float64(guarded)/sets*100)
		if alone < 1200 || guarded > 100 {
			t.Errorf("%d alone, %d guarded, of %d", alone, guarded, sets)
		}
	})
}

func some(all []bool) bool {
	for _, b := range all {
		if b {
			return true
		}
	}
	return false
}
