package wire_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
	"keeperbook/model/spring/wire"
	"keeperbook/model/unit"
)

func number(r checkfile.Row, column string) float64 {
	x, _ := r.Rat(column).Float64()
	return x
}

func stress(r checkfile.Row, column string, one wire.Stress) wire.Stress {
	return wire.Stress(number(r, column)) * one
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// close compares relatively.
func close(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	near(t, what, got, want, relative*math.Abs(want))
}

func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Fatalf("got %v, want %s", err, key)
	}
}

// must is for what cannot fail in a test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func perInch(k unit.Rate) float64 { return float64(k) * .0254 / 4448.2216152605 }
func pounds(f unit.Load) float64  { return float64(f) / 4448.2216152605 }
func inches(l unit.Length) float64 {
	return float64(l) / float64(unit.Inch)
}
func millimetres(l unit.Length) float64 { return float64(l) / float64(unit.MM) }
func loadOf(n float64) unit.Load        { return unit.Load(math.Round(n * 1000)) }

func cylinder(r checkfile.Row, wireColumn, meanColumn, turns string, g wire.Stress) wire.Spring {
	return must(wire.Cylinder(r.Length(wireColumn), r.Length(meanColumn), number(r, turns), g))
}

// anySpring draws a beehive, a cone or a cylinder with its gaps known.
func anySpring(t *rapid.T) wire.Spring {
	d := unit.Length(rapid.Int64Range(int64(3*unit.MM), int64(6*unit.MM)).Draw(t, "d"))
	diameter := rapid.Int64Range(3*int64(d), 8*int64(d))
	gap := unit.Length(rapid.Int64Range(int64(unit.MM), int64(6*unit.MM)).Draw(t, "gap"))
	g := wire.Stress(rapid.Float64Range(70, 85).Draw(t, "G")) * wire.GPa
	turns := rapid.Float64Range(1, 8)
	var sections []wire.Section
	from := unit.Length(diameter.Draw(t, "D"))
	for range rapid.IntRange(1, 3).Draw(t, "sections") {
		to := from
		if rapid.Bool().Draw(t, "conical") {
			to = unit.Length(diameter.Draw(t, "to"))
		}
		sections = append(sections, wire.Section{From: from, To: to, Turns: turns.Draw(t, "turns"), Gap: gap})
		from = to
	}
	return must(wire.New(d, g, sections...))
}

func anyLoad(t *rapid.T, s wire.Spring) unit.Load {
	closed, _ := s.Closed()
	return unit.Load(rapid.Int64Range(1, int64(closed)-1).Draw(t, "load"))
}

func TestRate(t *testing.T) {
	checkfile.Each(t, "testdata/check/rate.txt", func(t *testing.T, r checkfile.Row) {
		s := cylinder(r, "wire_in", "mean_in", "active", stress(r, "g_Mpsi", wire.MPSI))
		near(t, "k", perInch(s.Rate()), number(r, "k_lbf/in"), number(r, "tolerance_lbf/in"))
	})
	checkfile.Each(t, "testdata/check/rate-handbook.txt", func(t *testing.T, r checkfile.Row) {
		s := cylinder(r, "wire_in", "mean_in", "active", stress(r, "g_Mpsi", wire.MPSI))
		close(t, "k", perInch(s.Rate()), number(r, "k_lbf/in"), number(r, "tolerance"))
	})
	t.Run("turns for a rate lead back", rapid.MakeCheck(func(t *rapid.T) {
		g := 79.5 * wire.GPa
		n := rapid.Float64Range(2, 12).Draw(t, "Na")
		s := must(wire.Cylinder(4*unit.MM, 28*unit.MM, n, g))
		if back := wire.ActiveFor(s.Rate(), 4*unit.MM, 28*unit.MM, g); math.Abs(back-n) > 1e-6*n {
			t.Fatalf("%g turns come back as %g", n, back)
		}
	}))
	t.Run("twice the turns, half the rate; sections in series", rapid.MakeCheck(func(t *rapid.T) {
		n := rapid.Float64Range(2, 12).Draw(t, "Na")
		cut := rapid.Float64Range(.1, .9).Draw(t, "cut") * n
		whole := must(wire.Cylinder(4*unit.MM, 28*unit.MM, n, 80*wire.GPa))
		parts := must(wire.New(4*unit.MM, 80*wire.GPa,
			wire.Section{From: 28 * unit.MM, To: 28 * unit.MM, Turns: cut}, wire.Section{From: 28 * unit.MM, To: 28 * unit.MM, Turns: n - cut}))
		twice := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 2*n, 80*wire.GPa))
		if d := whole.Rate() - parts.Rate(); d < -1 || d > 1 {
			t.Fatalf("%d in one, %d in two pieces", whole.Rate(), parts.Rate())
		}
		if d := whole.Rate() - 2*twice.Rate(); d < -2 || d > 2 {
			t.Fatalf("%d, twice the turns %d", whole.Rate(), twice.Rate())
		}
	}))
}

// The work that the load does is what the wire holds in torsion, ∫ τ²/(2G) over its volume.
func TestEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, mean := 4*unit.MM, unit.Length(rapid.Int64Range(int64(16*unit.MM), int64(40*unit.MM)).Draw(t, "D"))
		n, g := rapid.Float64Range(2, 10).Draw(t, "Na"), 80*wire.GPa
		s := must(wire.Cylinder(d, mean, n, g))
		f := unit.Load(rapid.Int64Range(50_000, 900_000).Draw(t, "load"))
		work := float64(f) / 1e3 * float64(must(s.Deflection(f))) / 1e10 / 2
		// Without a factor for curvature: τ at the surface, half of its square over the section's area.
		tau := float64(must(s.Stress(f, func(float64) float64 { return 1 })))
		volume := math.Pi * math.Pi * math.Pow(float64(d)/1e10, 2) * float64(mean) / 1e10 * n / 4
		if held := tau * tau / (4 * float64(g)) * volume; math.Abs(held-work) > 1e-6*work {
			t.Fatalf("work %g J, held %g J", work, held)
		}
	})
}

func TestStress(t *testing.T) {
	checkfile.Each(t, "testdata/check/factors.txt", func(t *testing.T, r checkfile.Row) {
		c, within := number(r, "c"), number(r, "tolerance")
		near(t, "Wahl", wire.Wahl(c), number(r, "wahl"), within)
		near(t, "Bergsträsser", wire.Bergstrasser(c), number(r, "bergstrasser"), within)
		near(t, "as EN 13906-1 writes it", wire.Bergstrasser(c), (c+.5)/(c-.75), 1e-14)
	})
	// Of a straight wire both are one.
	near(t, "Wahl without curvature", wire.Wahl(1e9), 1, 1e-8)
	near(t, "Bergsträsser without curvature", wire.Bergstrasser(1e9), 1, 1e-8)
	checkfile.Each(t, "testdata/check/rate-university.txt", func(t *testing.T, r checkfile.Row) {
		s := cylinder(r, "wire_in", "mean_in", "active", stress(r, "g_Mpsi", wire.MPSI))
		near(t, "C", s.Index(), number(r, "c"), 5.1e-5)
		near(t, "Wahl", wire.Wahl(s.Index()), number(r, "wahl"), 5.1e-5)
		sut := wire.Strength{A: stress(r, "a_psi", wire.KPSI) / 1000, M: number(r, "m"), Of: unit.Inch}.At(r.Length("wire_in"))
		near(t, "Sut", float64(sut/wire.KPSI), number(r, "sut_kpsi"), .051)
		near(t, "Ssy", float64(.45*sut/wire.KPSI), number(r, "ssy_kpsi"), .051)
		near(t, "k", perInch(s.Rate()), number(r, "k_lbf/in"), .0051)
		near(t, "F", pounds(must(s.Bears(.45*sut, wire.Wahl))), number(r, "f_lbf"), .011)
	})
	t.Run("the load at a stress leads back", rapid.MakeCheck(func(t *rapid.T) {
		s := anySpring(t)
		closes, _ := s.Closes()
		f := unit.Load(rapid.Int64Range(1000, int64(closes)-1).Draw(t, "load"))
		back, err := s.Bears(must(s.Stress(f, wire.Wahl)), wire.Wahl)
		if err != nil || back < f-1 || back > f+1 {
			t.Fatalf("%d comes back as %d, %v", f, back, err)
		}
	}))
	s := must(wire.Cone(4*unit.MM, 18*unit.MM, 28*unit.MM, 6, 15*unit.MM/10, 79.5*wire.GPa))
	_, err := s.Bears(2*wire.GPa, wire.Wahl)
	wantKey(t, err, "spring.closes")
	_, err = s.Bears(wire.Stress(math.NaN()), wire.Wahl)
	wantKey(t, err, "spring.stress")
	_, err = s.Stress(-1, wire.Wahl)
	wantKey(t, err, "spring.pulled")
}

func TestWholeSpring(t *testing.T) {
	for file, digits := range map[string]map[string]float64{
		"handbook": {"sut": .51, "ssy": .51, "factor": 5.1e-4, "f": .0071, "y": .0051, "solid": 5.1e-4, "free": .0051, "pitch": 5.1e-4, "stable": .0051},
		"digits":   {"sut": .0051, "ssy": .0051, "factor": 5.1e-5, "f": 5.1e-4, "y": 5.1e-5, "solid": 5.1e-5, "free": 5.1e-5, "pitch": 5.1e-5, "stable": 5.1e-5},
	} {
		checkfile.Each(t, "testdata/check/solid-"+file+".txt", func(t *testing.T, r checkfile.Row) {
			d, mean, g := r.Length("wire_in"), r.Length("mean_in"), stress(r, "g_Mpsi", wire.MPSI)
			total := number(r, "total")
			active := wire.Squared.Active(total)
			s := must(wire.Cylinder(d, mean, active, g))
			sut := wire.Strength{A: stress(r, "a_kpsi", wire.KPSI), M: number(r, "m"), Of: unit.Inch}.At(d)
			f := must(s.Bears(.45*sut, wire.Bergstrasser))
			y := must(s.Deflection(f))
			solid := wire.Squared.Solid(d, total)
			free := unit.Length(solid) + y
			stable := must(wire.Stable(mean, g*wire.Stress(number(r, "e_over_g")), g, wire.Plates))
			for column, got := range map[string]float64{
				"sut_kpsi": float64(sut / wire.KPSI), "ssy_kpsi": float64(.45 * sut / wire.KPSI), "factor": wire.Bergstrasser(s.Index()),
				"f_lbf": pounds(f), "y_in": inches(y), "solid_in": inches(unit.Length(solid)), "free_in": inches(free),
				"pitch_in": inches(wire.Squared.Pitch(d, free, active)), "stable_in": inches(stable),
			} {
				what := column
				for i, c := range column {
					if c == '_' {
						what = column[:i]
						break
					}
				}
				near(t, column, got, number(r, column), digits[what])
			}
		})
	}
	checkfile.Each(t, "testdata/check/valve-spring.txt", func(t *testing.T, r checkfile.Row) {
		d, mean, g := r.Length("wire_mm"), r.Length("mean_mm"), stress(r, "g_MPa", wire.MPa)
		near(t, "Na", wire.ActiveFor(r.Rate("k_N/mm"), d, mean, g), number(r, "active"), 5.1e-7)
		taken, total := number(r, "taken"), number(r, "total")
		near(t, "Nt", wire.SquaredGround.Total(taken), total, 0)
		s := must(wire.Cylinder(d, mean, taken, g))
		y := must(s.Deflection(r.Load("most_N")))
		near(t, "δ", millimetres(y), number(r, "deflection_mm"), 5.1e-4)
		free := float64(wire.SquaredGround.Solid(d, total)) + 1.15*float64(y)
		near(t, "L0", free/float64(unit.MM), number(r, "free_mm"), 5.1e-5)
		near(t, "pitch", math.Round(free/float64(unit.MM))/(total-1), number(r, "pitch_mm"), 1e-9)
		tau := must(s.Stress(r.Load("most_N"), wire.Wahl))
		near(t, "τ", float64(tau/wire.MPa), number(r, "stress_MPa"), .051)
		if tau >= stress(r, "limit_MPa", wire.MPa) {
			t.Errorf("τ %g over the limit", tau)
		}
	})
}

func TestEnds(t *testing.T) {
	of := map[string]wire.End{"plain": wire.Plain, "plain-ground": wire.PlainGround, "squared": wire.Squared, "squared-ground": wire.SquaredGround}
	checkfile.Each(t, "testdata/check/ends.txt", func(t *testing.T, r checkfile.Row) {
		e, d, total := of[r.Text("name")], r.Length("wire_mm"), number(r, "total")
		near(t, "Na", e.Active(total), number(r, "active"), 0)
		near(t, "Nt", e.Total(e.Active(total)), total, 0)
		solid := e.Solid(d, total)
		near(t, "Ls", millimetres(unit.Length(solid)), number(r, "solid_mm"), 0)
		// At a pitch of one wire the spring is solid, whatever its ends.
		if free := e.Free(d, d, e.Active(total)); wire.Estimate(free) != solid {
			t.Errorf("free at a pitch of one wire %d, solid %d", free, solid)
		}
		free := e.Free(d, 3*d, e.Active(total))
		if pitch := e.Pitch(d, free, e.Active(total)); pitch != 3*d {
			t.Errorf("pitch %d, was %d", pitch, 3*d)
		}
	})
	t.Run("a cylinder closes at the height of its ends' formula, a cone lower", func(t *testing.T) {
		s := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 6, 80*wire.GPa))
		if got, want := s.Solid(wire.SquaredGround), wire.SquaredGround.Solid(4*unit.MM, 8); got != want {
			t.Errorf("%d, want %d", got, want)
		}
		// By hand: six turns whose radius falls by 3 mm each lie √(4² − 3²) apart.
		cone := must(wire.Cone(4*unit.MM, 60*unit.MM, 24*unit.MM, 6, 0, 80*wire.GPa))
		near(t, "cone", millimetres(unit.Length(cone.Solid(wire.SquaredGround))), 6*math.Sqrt(7)+8, 1e-6)
		// Turns that clear each other lie in one plane.
		flat := must(wire.Cone(4*unit.MM, 84*unit.MM, 24*unit.MM, 6, 0, 80*wire.GPa))
		near(t, "flat", millimetres(unit.Length(flat.Solid(wire.SquaredGround))), 8, 1e-6)
	})
}

func TestClosing(t *testing.T) {
	checkfile.Each(t, "testdata/check/cone.txt", func(t *testing.T, r checkfile.Row) {
		d, small, large := r.Length("wire_mm"), r.Length("small_mm"), r.Length("large_mm")
		n, g := number(r, "turns"), stress(r, "g_GPa", wire.GPa)
		for _, s := range []wire.Spring{
			must(wire.Cone(d, small, large, n, r.Length("gap_mm"), g)), must(wire.Cone(d, large, small, n, r.Length("gap_mm"), g)),
		} {
			near(t, "k", float64(s.Rate())/1e3, number(r, "k_N/m"), .0051)
			closes, known := s.Closes()
			near(t, "F₁", float64(closes)/1e3, number(r, "closes_N"), 5.1e-4)
			if !known {
				t.Error("not known")
			}
			near(t, "δ", millimetres(must(s.Deflection(r.Load("load_N")))), number(r, "deflection_mm"), 5.1e-7)
			near(t, "tangent", float64(must(s.RateAt(r.Load("load_N"))))/1e6, number(r, "tangent_N/mm"), 5.1e-4)
		}
		mean := must(wire.Cylinder(d, (small+large)/2, n, g))
		near(t, "a cylinder of the mean diameter", float64(mean.Rate())/1e3, number(r, "cylinder_N/m"), .0051)
	})
	t.Run("turn by turn it comes to the same", rapid.MakeCheck(func(t *rapid.T) {
		d := 4 * unit.MM
		from := unit.Length(rapid.Int64Range(int64(14*unit.MM), int64(32*unit.MM)).Draw(t, "from"))
		to := unit.Length(rapid.Int64Range(int64(14*unit.MM), int64(32*unit.MM)).Draw(t, "to"))
		n, gap := rapid.Float64Range(1, 8).Draw(t, "turns"), 15*unit.MM/10
		s := must(wire.Cone(d, from, to, n, gap, 79.5*wire.GPa))
		f := anyLoad(t, s)
		// Each of many slices of the wire gives way by 8 F D³/(G d⁴) a turn, and by its gap at the most.
		const slices = 20_000
		sum := 0.0
		for i := range slices {
			mean := (float64(from) + (float64(to)-float64(from))*(float64(i)+.5)/slices) / 1e10
			sum += min(8*float64(f)/1e3*math.Pow(mean, 3)/(79.5e9*math.Pow(.004, 4)), .0015) * n / slices
		}
		if got := float64(must(s.Deflection(f))) / 1e10; math.Abs(got-sum) > 1e-7*sum+1e-10 {
			t.Fatalf("in metres %g, turn by turn %g", got, sum)
		}
	}))
	t.Run("the tangent is how load and deflection change, and only rises", rapid.MakeCheck(func(t *rapid.T) {
		s := anySpring(t)
		f := anyLoad(t, s)
		step := max(f/1000, 1)
		closed, _ := s.Closed()
		if f <= step || f+step >= closed {
			t.Skip("no room for a difference")
		}
		k := must(s.RateAt(f))
		if below, above := must(s.RateAt(f-step)), must(s.RateAt(f+step)); below > k+1 || above < k-1 {
			t.Fatalf("%d, %d, %d: falls with the load", below, k, above)
		} else {
			dy := float64(must(s.Deflection(f+step)) - must(s.Deflection(f-step)))
			if dy < 1e4 {
				t.Skip("no room for a difference")
			}
			slope := 2 * float64(step) / dy * 1e10 // mN/m
			// A whole cylinder closes at once: then the difference lies between the two rates.
			if slope < .999*float64(below) || slope > 1.001*float64(above) {
				t.Fatalf("tangents %d to %d, by differences %.0f", below, above, slope)
			}
		}
	}))
	t.Run("the load at a deflection leads back", rapid.MakeCheck(func(t *rapid.T) {
		s := anySpring(t)
		f := anyLoad(t, s)
		y := must(s.Deflection(f))
		back, err := s.Load(y)
		if err != nil {
			t.Fatal(err)
		}
		// Where the last turns close it takes many loads to give way by a tenth of a nanometre.
		closed, _ := s.Closed()
		if d := must(s.Deflection(min(back, closed-1))) - y; d < -1 || d > 1 {
			t.Fatalf("%d comes back as %d, off by %d", f, back, d)
		}
	}))
	t.Run("a beehive is its cylinder and its cone in series", rapid.MakeCheck(func(t *rapid.T) {
		gap := 2 * unit.MM
		whole := must(wire.Beehive(4*unit.MM, 26*unit.MM, 17*unit.MM, 3.5, 2.5, gap, 79*wire.GPa))
		straight := must(wire.New(4*unit.MM, 79*wire.GPa, wire.Section{From: 26 * unit.MM, To: 26 * unit.MM, Turns: 3.5, Gap: gap}))
		cone := must(wire.Cone(4*unit.MM, 26*unit.MM, 17*unit.MM, 2.5, gap, 79*wire.GPa))
		closes, _ := whole.Closes()
		f := unit.Load(rapid.Int64Range(0, int64(closes)-1).Draw(t, "load"))
		sum := must(straight.Deflection(f)) + must(cone.Deflection(f))
		if d := must(whole.Deflection(f)) - sum; d < -1 || d > 1 {
			t.Fatalf("off by %d", d)
		}
		// Beyond that the cylinder is closed all at once and its deflection stays at its gaps.
		after := closes + 1000
		sum = 7*unit.MM + must(cone.Deflection(after))
		if d := must(whole.Deflection(after)) - sum; d < -1 || d > 1 {
			t.Fatalf("closed, off by %d", d)
		}
		a, b := must(whole.Stress(closes-1, wire.Wahl)), must(whole.Stress(after, wire.Wahl))
		if float64(b)/float64(after) >= float64(a)/float64(closes-1) {
			t.Fatalf("the closed turns still count: %g, %g", a, b)
		}
	}))
	t.Run("solid", func(t *testing.T) {
		s := must(wire.Beehive(4*unit.MM, 26*unit.MM, 17*unit.MM, 3.5, 2.5, 2*unit.MM, 79*wire.GPa))
		closed, known := s.Closed()
		if !known {
			t.Fatal("not known")
		}
		_, err := s.Deflection(closed)
		wantKey(t, err, "spring.closed")
		_, err = s.RateAt(closed)
		wantKey(t, err, "spring.closed")
		_, err = s.Stress(closed, wire.Wahl)
		wantKey(t, err, "spring.closed")
		_, err = s.Surge(closed, wire.SteelEN)
		wantKey(t, err, "spring.closed")
		// Six turns, 2 mm each.
		if y := must(s.Deflection(closed - 1)); y < 12*unit.MM-1000 || y > 12*unit.MM {
			t.Errorf("%d when all but closed", y)
		}
		_, err = s.Load(12*unit.MM + 1000)
		wantKey(t, err, "spring.deep")
		_, err = s.Load(-1)
		wantKey(t, err, "spring.stretched")
		_, err = s.Deflection(-1)
		wantKey(t, err, "spring.pulled")
	})
	t.Run("with a gap not known the turns stay open", func(t *testing.T) {
		s := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 6, 80*wire.GPa))
		if _, known := s.Closes(); known {
			t.Error("closes")
		}
		if _, known := s.Closed(); known {
			t.Error("closed")
		}
		f := loadOf(5000)
		if back := must(s.Load(must(s.Deflection(f)))); back != f {
			t.Errorf("%d comes back as %d", f, back)
		}
		_, err := s.Load(unit.Limit)
		if err != nil {
			t.Error(err)
		}
	})
}

func TestShare(t *testing.T) {
	checkfile.Each(t, "testdata/check/nested.txt", func(t *testing.T, r checkfile.Row) {
		g := stress(r, "g_MPa", wire.MPa)
		outer := cylinder(r, "outer_wire_mm", "outer_mean_mm", "outer_active", g)
		inner := cylinder(r, "inner_wire_mm", "inner_mean_mm", "inner_active", g)
		const free = 150 * unit.MM // of both; the example has no other
		y, each, err := wire.Share(r.Load("load_N"), wire.Nested{Free: free, Rate: outer.Rate()}, wire.Nested{Free: free, Rate: inner.Rate()})
		if err != nil {
			t.Fatal(err)
		}
		close(t, "P1", float64(each[0])/1e3, number(r, "outer_N"), 1e-6)
		close(t, "P2", float64(each[1])/1e3, number(r, "inner_N"), 1e-6)
		close(t, "δ", millimetres(y), number(r, "deflection_mm"), 1e-6)
		close(t, "τ1", float64(must(outer.Stress(each[0], wire.Wahl))/wire.MPa), number(r, "outer_MPa"), 1e-6)
		close(t, "τ2", float64(must(inner.Stress(each[1], wire.Wahl))/wire.MPa), number(r, "inner_MPa"), 1e-6)
	})
	t.Run("what they carry is the load, each by its own deflection", rapid.MakeCheck(func(t *rapid.T) {
		springs := make([]wire.Nested, rapid.IntRange(1, 4).Draw(t, "springs"))
		tallest := unit.Length(0)
		for i := range springs {
			springs[i] = wire.Nested{
				Free: unit.Length(rapid.Int64Range(int64(30*unit.MM), int64(60*unit.MM)).Draw(t, "free")),
				Rate: unit.Rate(rapid.Int64Range(1_000_000, 100_000_000).Draw(t, "k")),
			}
			tallest = max(tallest, springs[i].Free)
		}
		f := unit.Load(rapid.Int64Range(0, 3_000_000).Draw(t, "load"))
		y, each, err := wire.Share(f, springs...)
		if err != nil {
			t.Fatal(err)
		}
		sum := unit.Load(0)
		for i, s := range springs {
			sum += each[i]
			own := s.Rate.Times(max(y-(tallest-s.Free), 0))
			if d := each[i] - own; d < -2 || d > 2 {
				t.Fatalf("%d of a spring that gives %d there", each[i], own)
			}
		}
		if d := sum - f; d < -4 || d > 4 {
			t.Fatalf("%d in all, %d on them", sum, f)
		}
	}))
	one := wire.Nested{Free: unit.Inch, Rate: 1_000_000}
	_, _, err := wire.Share(1)
	wantKey(t, err, "spring.no-coil")
	_, _, err = wire.Share(-1, one)
	wantKey(t, err, "spring.pulled")
	_, _, err = wire.Share(1, one, wire.Nested{Free: unit.Inch})
	wantKey(t, err, "spring.nested")
	_, _, err = wire.Share(1, one, wire.Nested{Rate: 1})
	wantKey(t, err, "spring.nested")
}

func TestRefused(t *testing.T) {
	g := 80 * wire.GPa
	for name, c := range map[string]struct {
		wire, from, to unit.Length
		turns          float64
		gap            unit.Length
		g              wire.Stress
		key            string
	}{
		"no wire":                  {0, 28 * unit.MM, 28 * unit.MM, 6, 0, g, "spring.wire"},
		"wire below nought":        {-1, 28 * unit.MM, 28 * unit.MM, 6, 0, g, "spring.wire"},
		"as thick as the coil":     {4 * unit.MM, 4 * unit.MM, 28 * unit.MM, 6, 0, g, "spring.mean"},
		"thicker than its top":     {4 * unit.MM, 28 * unit.MM, 3 * unit.MM, 6, 0, g, "spring.mean"},
		"a coil without end":       {4 * unit.MM, 28 * unit.MM, math.MaxInt64, 6, 0, g, "spring.mean"},
		"no turns":                 {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, 0, 0, g, "spring.turns"},
		"turns that are no number": {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, math.NaN(), 0, g, "spring.turns"},
		"turns without end":        {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, math.Inf(1), 0, g, "spring.turns"},
		"a gap below nought":       {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, 6, -1, g, "spring.gap"},
		"no modulus":               {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, 6, 0, 0, "spring.modulus"},
		"a modulus without end":    {4 * unit.MM, 28 * unit.MM, 28 * unit.MM, 6, 0, wire.Stress(math.Inf(1)), "spring.modulus"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := wire.Cone(c.wire, c.from, c.to, c.turns, c.gap, c.g)
			wantKey(t, err, c.key)
		})
	}
	_, err := wire.New(4*unit.MM, g)
	wantKey(t, err, "spring.turns")
}
