package measure_test

import (
	"math/big"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/measure"
	"keeperbook/model/unit"
)

func length(name string) *rapid.Generator[unit.Length] {
	return rapid.Custom(func(t *rapid.T) unit.Length {
		return unit.Length(rapid.Int64Range(0, int64(3*unit.Inch)).Draw(t, name))
	})
}

func same(t *testing.T, got, want unit.Length) {
	t.Helper()
	if got != want {
		t.Errorf("got %s in, want %s in", unit.Inches.LengthIn(got), unit.Inches.LengthIn(want))
	}
}

func TestCorrected(t *testing.T) {
	checkfile.Each(t, "testdata/check/correction.txt", func(t *testing.T, r checkfile.Row) {
		same(t, measure.Corrected(r.Length("reading_in"), r.Length("first_in"), r.Length("second_in")), r.Length("want_in"))
	})
	t.Run("putting the parts back gives the reading", rapid.MakeCheck(func(t *rapid.T) {
		reading, e, f := length("R").Draw(t, "R"), length("e").Draw(t, "e"), length("f").Draw(t, "f")
		if got := measure.Corrected(reading, e, f) + e + f; got != reading {
			t.Fatalf("%d, was %d", got, reading)
		}
	}))
}

func TestWorkBack(t *testing.T) {
	checkfile.Each(t, "testdata/check/workback.txt", func(t *testing.T, r checkfile.Row) {
		coils := []measure.Coil{
			{Bind: r.Length("outer_bind_in"), Least: r.Length("least_in")},
			{Bind: r.Length("inner_bind_in"), Steps: r.Length("inner_step_in"), Least: r.Length("least_in")},
		}
		got, governs := measure.WorkBack(r.Length("lift_in"), coils)
		same(t, got, r.Length("want_in"))
		if want, _ := strconv.Atoi(r.Text("governs")); governs != want {
			t.Errorf("coil %d governs, want %d", governs, want)
		}
	})
	t.Run("at the target the governing coil has exactly its least margin and no coil less", rapid.MakeCheck(func(t *rapid.T) {
		coils := make([]measure.Coil, rapid.IntRange(1, 4).Draw(t, "coils"))
		for i := range coils {
			coils[i] = measure.Coil{Bind: length("S").Draw(t, "S"), Least: length("c").Draw(t, "c")}
			if i > 0 {
				coils[i].Steps = length("steps").Draw(t, "steps")
			}
		}
		lift := length("L").Draw(t, "L")
		target, g := measure.WorkBack(lift, coils)
		var margins, least []unit.Length
		for _, c := range coils {
			h := measure.CoilHeight(target, 0, c.Steps, 0)
			margins = append(margins, measure.Margin(h, lift, c.Bind))
			least = append(least, c.Least)
		}
		if margins[g] != least[g] || measure.Governing(margins, least) < 0 {
			t.Fatalf("margin %d, least %d", margins[g], least[g])
		}
		for i := range margins {
			if margins[i] < least[i] {
				t.Fatalf("coil %d has %d under its least", i, least[i]-margins[i])
			}
		}
	}))
}

func TestCoilHeight(t *testing.T) {
	checkfile.Each(t, "testdata/check/coil-height.txt", func(t *testing.T, r checkfile.Row) {
		same(t, measure.CoilHeight(r.Length("base_in"), r.Length("under_locator_in"), r.Length("step_in"), 0), r.Length("want_in"))
		// Through the outer coil's height it must come to the same.
		outer := measure.CoilHeight(r.Length("base_in"), r.Length("under_locator_in")+r.Length("outer_only_in"), 0, 0)
		same(t, measure.CoilHeightFromCheck(outer, r.Length("outer_only_in"), r.Length("step_in"), 0), r.Length("want_in"))
	})
}

func TestGoverning(t *testing.T) {
	checkfile.Each(t, "testdata/check/governing.txt", func(t *testing.T, r checkfile.Row) {
		got := measure.Governing(
			[]unit.Length{r.Length("first_in"), r.Length("second_in")},
			[]unit.Length{r.Length("first_least_in"), r.Length("second_least_in")})
		if want, _ := strconv.Atoi(r.Text("governs")); got != want {
			t.Errorf("%d governs, want %d", got, want)
		}
	})
	if got := measure.Governing(nil, nil); got != -1 {
		t.Errorf("of none %d governs, want -1", got)
	}
}

func TestAssemblyBind(t *testing.T) {
	t.Run("worked back as one it comes to the same height", rapid.MakeCheck(func(t *rapid.T) {
		least, lift := length("c").Draw(t, "c"), length("L").Draw(t, "L")
		coils := make([]measure.Coil, rapid.IntRange(1, 4).Draw(t, "coils"))
		for i := range coils {
			coils[i] = measure.Coil{Bind: length("S").Draw(t, "S"), Steps: length("r+q").Draw(t, "r+q"), Least: least}
		}
		one := []measure.Coil{{Bind: measure.AssemblyBind(coils), Least: least}}
		a, _ := measure.WorkBack(lift, coils)
		b, _ := measure.WorkBack(lift, one)
		if a != b {
			t.Fatalf("coil by coil %d, as one %d", a, b)
		}
	}))
	// Common practice, no published source: outer 1.060, inner .985 on a step of .095 is 1.080 as one.
	same(t, measure.AssemblyBind([]measure.Coil{{Bind: 1060 * unit.Thou}, {Bind: 985 * unit.Thou, Steps: 95 * unit.Thou}}), 1080*unit.Thou)
}

func TestGapOpen(t *testing.T) {
	checkfile.Each(t, "testdata/check/seal-gap.txt", func(t *testing.T, r checkfile.Row) {
		same(t, measure.GapOpen(r.Length("closed_in"), r.Length("under_in"), r.Length("lift_in")), r.Length("want_in"))
	})
}

func TestLashShim(t *testing.T) {
	checkfile.Each(t, "testdata/check/lash-shim.txt", func(t *testing.T, r checkfile.Row) {
		got := measure.LashShim(r.Length("old_mm"), r.Length("lash_mm"), r.Length("target_mm"))
		same(t, got, r.Length("want_mm"))
		// With the new shim the lash is the target: what the shim gained the lash lost.
		same(t, r.Length("lash_mm")-(got-r.Length("old_mm")), r.Length("target_mm"))
	})
}

func TestLiftLimit(t *testing.T) {
	checkfile.Each(t, "testdata/check/lift-limit.txt", func(t *testing.T, r checkfile.Row) {
		h, s, c := r.Length("height_in"), r.Length("bind_in"), r.Length("least_in")
		got := measure.LiftLimit(h-s, c, r.Length("guard_in"))
		same(t, got, r.Length("want_in"))
		// Lifted by the limit, the margin is the least margin and what was kept back.
		same(t, measure.Margin(h, got, s), c+r.Length("guard_in"))
	})
}

func TestLoads(t *testing.T) {
	checkfile.Each(t, "testdata/check/loads.txt", func(t *testing.T, r checkfile.Row) {
		rate, l, p := r.Rate("rate_lbf/in"), r.Length("length_in"), r.Pressure("pressure_psi")
		var got unit.Load
		switch r.Text("what") {
		case "lid", "step":
			got = measure.Bias(rate, l)
		case "boost":
			got = measure.BoostLoss(p, l)
		}
		if off := got - r.Load("want_lbf"); off < -r.Load("tolerance_lbf") || off > r.Load("tolerance_lbf") {
			t.Errorf("got %s lbf, want %s", unit.Inches.LoadIn(got), r.Text("want_lbf"))
		}
	})
	// Common practice, no published source: 280 lbf bare is about 300 with the inner coil on its step.
	const lbf = unit.Load(4448)
	with := 280*lbf + measure.Bias(rateOf(t, "210"), 95*unit.Thou)
	if with < 299*lbf || with > 301*lbf {
		t.Errorf("with the step %s lbf, want about 300", unit.Inches.LoadIn(with))
	}
}

func rateOf(t *testing.T, read string) unit.Rate {
	t.Helper()
	v, err := unit.Value(read, unit.LbfPerIn)
	if err != nil {
		t.Fatal(err)
	}
	return unit.Rate(v)
}

func TestCardLift(t *testing.T) {
	checkfile.Each(t, "testdata/check/card-lift.txt", func(t *testing.T, r checkfile.Row) {
		same(t, measure.CardLift(r.Length("lobe_in"), r.Rat("ratio"), r.Length("lash_in")), r.Length("want_in"))
	})
	t.Run("a ratio of one leaves the lobe less the lash", rapid.MakeCheck(func(t *rapid.T) {
		lobe, lash := length("lobe").Draw(t, "lobe"), length("lash").Draw(t, "lash")
		if got := measure.CardLift(lobe, big.NewRat(1, 1), lash); got != lobe-lash {
			t.Fatalf("%d, want %d", got, lobe-lash)
		}
	}))
}

// Common practice, no published source: a valve sunk by δ raises base height, tip and seal gap by δ
// and takes δ off the lash; locks with +.050 raise base height and seal gap by .050.
func TestMove(t *testing.T) {
	cut := measure.Move{Seat: 6 * unit.Thou}
	same(t, cut.Base(1842*unit.Thou), 1848*unit.Thou)
	same(t, cut.Gap(700*unit.Thou), 706*unit.Thou)
	same(t, cut.Tip(2100*unit.Thou), 2106*unit.Thou)
	same(t, cut.Lash(16*unit.Thou), 10*unit.Thou)
	locks := measure.Move{Offset: 50 * unit.Thou}
	same(t, locks.Base(1842*unit.Thou), 1892*unit.Thou)
	same(t, locks.Gap(700*unit.Thou), 750*unit.Thou)
	same(t, locks.Tip(2100*unit.Thou), 2100*unit.Thou)
	same(t, locks.Lash(16*unit.Thou), 16*unit.Thou)
	t.Run("undoing a move gives what was there", rapid.MakeCheck(func(t *rapid.T) {
		m := measure.Move{Seat: length("seat").Draw(t, "seat"), Offset: length("offset").Draw(t, "offset")}
		back := measure.Move{Seat: -m.Seat, Offset: -m.Offset}
		h := length("height").Draw(t, "height")
		if back.Base(m.Base(h)) != h || back.Gap(m.Gap(h)) != h || back.Tip(m.Tip(h)) != h || back.Lash(m.Lash(h)) != h {
			t.Fatalf("%d does not come back", h)
		}
	}))
}

func TestAgrees(t *testing.T) {
	rule := 3 * unit.Thou
	for _, c := range []struct {
		check unit.Length
		want  bool
	}{
		{1812 * unit.Thou, true},
		{1815 * unit.Thou, true}, // a difference equal to the rule agrees
		{1809 * unit.Thou, true},
		{1815*unit.Thou + 1, false},
		{1809*unit.Thou - 1, false},
	} {
		if got := measure.Agrees(c.check, 1812*unit.Thou, rule); got != c.want {
			t.Errorf("%s against 1.812 agrees: %v", unit.Inches.LengthIn(c.check), got)
		}
	}
}

func TestBaseByDifference(t *testing.T) {
	// By hand: 60.35 − 21.64 − 2.60 = 36.11 mm; without the locator in place its 1.00 mm comes off too.
	mm := func(h int64) unit.Length { return unit.Length(h) * unit.MM / 100 }
	same(t, measure.BaseByDifference(mm(6035), mm(2164), mm(260), 0), mm(3611))
	same(t, measure.BaseByDifference(mm(6035), mm(2164), mm(260), mm(100)), mm(3511))
}

func TestStacks(t *testing.T) {
	sizes := []unit.Length{15 * unit.Thou, 30 * unit.Thou, 60 * unit.Thou}
	checkfile.Each(t, "testdata/check/stacks.txt", func(t *testing.T, r checkfile.Row) {
		n, _ := strconv.Atoi(r.Text("want_thou"))
		want := unit.Length(n) * unit.Thou
		got := measure.Stacks(want, sizes, 8)
		if ways, _ := strconv.Atoi(r.Text("ways")); len(got) != ways {
			t.Fatalf("%d ways, want %d", len(got), ways)
		}
		if fewest, _ := strconv.Atoi(r.Text("fewest")); len(got[0]) != fewest {
			t.Errorf("fewest %d, want %d", len(got[0]), fewest)
		}
	})
	// Subset sums of {6, 9, 20}: 43 is the largest that cannot be made (known by heart; checked by search).
	coins := []unit.Length{6, 9, 20}
	if got := measure.Stacks(43, coins, 43); len(got) != 0 {
		t.Errorf("43 is made as %v", got)
	}
	for want := unit.Length(44); want < 100; want++ {
		if len(measure.Stacks(want, coins, 20)) == 0 {
			t.Errorf("%d is not made", want)
		}
	}
	t.Run("the nearest stack never passes and no other comes nearer", rapid.MakeCheck(func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) unit.Length {
			return unit.Length(rapid.Int64Range(-1, 12).Draw(t, "size"))
		}), 0, 4).Draw(t, "sizes")
		want := unit.Length(rapid.Int64Range(-2, 40).Draw(t, "want"))
		stack, sum := measure.NearestStack(want, sizes, 3)
		total := unit.Length(0)
		for _, s := range stack {
			total += s
			if !slices.Contains(sizes, s) || s <= 0 {
				t.Fatalf("%d is no size", s)
			}
		}
		if total != sum || sum > max(want, 0) || len(stack) > 3 {
			t.Fatalf("stack %v is %d, said %d, wanted %d", stack, total, sum, want)
		}
		for nearer := sum + 1; nearer <= want; nearer++ {
			if found := measure.Stacks(nearer, sizes, 3); len(found) > 0 {
				t.Fatalf("%v comes nearer to %d than %v", found[0], want, stack)
			}
		}
	}))
}
