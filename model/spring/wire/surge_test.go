package wire_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/spring/wire"
	"keeperbook/model/unit"
)

func TestSurge(t *testing.T) {
	checkfile.Each(t, "testdata/check/surge.txt", func(t *testing.T, r checkfile.Row) {
		s := cylinder(r, "wire_mm", "mean_mm", "active", stress(r, "g_GPa", wire.GPa))
		density := wire.Density(number(r, "density_kg/m3"))
		k, m, within := s.Rate(), s.Mass(density), number(r, "tolerance")
		close(t, "k", float64(k)/1e3, number(r, "k_N/m"), within)
		close(t, "m", m*1e3, number(r, "mass_g"), within)
		close(t, "f", wire.BetweenPlates(k, m), number(r, "held_Hz"), within)
		close(t, "f with an end free", wire.OneFree(k, m), number(r, "free_Hz"), 3*within)
		// A chain has no formula for a cylinder in it.
		close(t, "chain", must(s.Surge(0, density)), wire.BetweenPlates(k, m), 1e-6)
		close(t, "another chain", must(s.Surge(0, density)), number(r, "chain_held_Hz"), number(r, "chain_tolerance"))
		close(t, "another chain with an end free", wire.OneFree(k, m), number(r, "chain_free_Hz"), number(r, "chain_tolerance"))
	})
	for _, file := range []string{"handbook", "digits"} {
		checkfile.Each(t, "testdata/check/surge-"+file+".txt", func(t *testing.T, r checkfile.Row) {
			s := cylinder(r, "wire_in", "mean_in", "active", stress(r, "g_Mpsi", wire.MPSI))
			m := s.Mass(wire.SteelHandbook)
			close(t, "W", m/.45359237, number(r, "weight_lbf"), 1e-3)
			close(t, "f", wire.BetweenPlates(s.Rate(), m), number(r, "held_Hz"), number(r, "tolerance"))
		})
	}
	checkfile.Each(t, "testdata/check/surge-standard.txt", func(t *testing.T, r checkfile.Row) {
		s := cylinder(r, "wire_mm", "mean_mm", "active", stress(r, "g_MPa", wire.MPa))
		of := func(coefficient float64) float64 {
			return coefficient * number(r, "wire_mm") / (number(r, "active") * math.Pow(number(r, "mean_mm"), 2)) *
				math.Sqrt(number(r, "g_MPa")/number(r, "density_kg/dm3"))
		}
		near(t, "as the standard rounds it", of(number(r, "coefficient")), number(r, "held_Hz"), .0051)
		f := wire.BetweenPlates(s.Rate(), s.Mass(wire.Density(1000*number(r, "density_kg/dm3"))))
		close(t, "the same", f, of(number(r, "exact")), 1e-5)
	})
	t.Run("no slower than what Rayleigh's quotient allows", rapid.MakeCheck(func(t *rapid.T) {
		// For any shape of motion that is at rest at both ends the quotient is not below the first
		// frequency's square. Here along the wire's compliance, half a sine.
		from := rapid.Float64Range(.014, .032).Draw(t, "from")
		to := rapid.Float64Range(.014, .032).Draw(t, "to")
		n := rapid.Float64Range(2, 8).Draw(t, "turns")
		length := func(m float64) unit.Length { return unit.Length(math.Round(m * 1e10)) }
		s := must(wire.Cone(4*unit.MM, length(from), length(to), n, 0, 79.5*wire.GPa))
		got := must(s.Surge(0, wire.SteelEN))
		const pieces = 4000
		whole, at := 0.0, 0.0
		cube := func(i float64) float64 { return math.Pow(from+(to-from)*i/pieces, 3) }
		for i := range pieces {
			whole += cube(float64(i) + .5)
		}
		var pull, mass float64
		for i := range pieces {
			soft := cube(float64(i)+.5) / whole // share of the deflection
			phase := math.Pi * (at + soft/2)
			at += soft
			slope := math.Pi * math.Cos(phase)
			pull += slope * slope * soft
			d := from + (to-from)*(float64(i)+.5)/pieces
			mass += math.Pow(math.Sin(phase), 2) * 7850 * math.Pi * math.Pi * .004 * .004 / 4 * d * n / pieces
		}
		bound := math.Sqrt(pull*float64(s.Rate())/1e3/mass) / (2 * math.Pi)
		if got > bound*(1+1e-5) || got < .8*bound {
			t.Fatalf("%g Hz, at the most %g", got, bound)
		}
	}))
	t.Run("the first mode, not a higher one", rapid.MakeCheck(func(t *rapid.T) {
		mean := unit.Length(rapid.Int64Range(int64(16*unit.MM), int64(40*unit.MM)).Draw(t, "D"))
		n := rapid.Float64Range(1, 12).Draw(t, "turns")
		s := must(wire.Cylinder(4*unit.MM, mean, n, 79.5*wire.GPa))
		want := wire.BetweenPlates(s.Rate(), s.Mass(wire.SteelEN))
		if got := must(s.Surge(0, wire.SteelEN)); math.Abs(got-want) > 1e-5*want {
			t.Fatalf("%g Hz, want %g", got, want)
		}
	}))
	t.Run("which way up a spring stands does not matter, closed turns do", func(t *testing.T) {
		gap := 2 * unit.MM
		up := must(wire.Beehive(4*unit.MM, 26*unit.MM, 17*unit.MM, 3.5, 2.5, gap, 79*wire.GPa))
		down := must(wire.New(4*unit.MM, 79*wire.GPa, wire.Section{From: 17 * unit.MM, To: 26 * unit.MM, Turns: 2.5, Gap: gap},
			wire.Section{From: 26 * unit.MM, To: 26 * unit.MM, Turns: 3.5, Gap: gap}))
		open := must(up.Surge(0, wire.SteelEN))
		close(t, "upside down", must(down.Surge(0, wire.SteelEN)), open, 1e-9)
		closes, _ := up.Closes()
		if shut := must(up.Surge(closes+1000, wire.SteelEN)); shut < 1.5*open {
			t.Errorf("%.0f Hz with the cylinder closed, %.0f open", shut, open)
		}
	})
	_, err := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 6, 80*wire.GPa)).Surge(0, 0)
	wantKey(t, err, "spring.density")
}

func TestCarrying(t *testing.T) {
	const k, m = 37_126_420, .05491
	root := math.Sqrt(k / 1e3 / m)
	checkfile.Each(t, "testdata/check/carrying.txt", func(t *testing.T, r checkfile.Row) {
		ratio := number(r, "ratio")
		f := wire.Carrying(k, m, m/ratio)
		near(t, "β", f*2*math.Pi/root, number(r, "beta"), number(r, "tolerance"))
		// Rayleigh's rule, a third of the spring's mass with the other: a little fast, as it must be.
		rule := math.Sqrt(k/1e3/(m/ratio+m/3)) / (2 * math.Pi)
		if over := rule/f - 1; over < .0005 || over > .018 {
			t.Errorf("the rule is %.2f %% fast", 100*over)
		}
	})
	close(t, "nothing on it", wire.Carrying(k, m, 0), wire.OneFree(k, m), 1e-12)
	close(t, "a mass beside which the spring has none", wire.Carrying(k, m, 1e4*m), math.Sqrt(k/1e3/(1e4*m))/(2*math.Pi), 1e-4)
}

func TestMass(t *testing.T) {
	checkfile.Each(t, "testdata/check/density.txt", func(t *testing.T, r checkfile.Row) {
		near(t, "handbook", float64(wire.SteelHandbook), number(r, "handbook_kg/m3"), .0051)
		near(t, "EN", float64(wire.SteelEN), number(r, "en_kg/m3"), 0)
	})
	// Pappus: the wire's section times the way of its centre. Of a weighed spring the active part is the same.
	s := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 6, 80*wire.GPa))
	whole := must(wire.Cylinder(4*unit.MM, 28*unit.MM, 8, 80*wire.GPa))
	close(t, "m", s.Mass(wire.SteelEN), 7850*math.Pi/4*.004*.004*6*math.Pi*.028, 1e-12)
	close(t, "active of all", wire.ActiveMass(whole.Mass(wire.SteelEN), 6, 8), s.Mass(wire.SteelEN), 1e-12)
}

func BenchmarkSurge(b *testing.B) {
	s := must(wire.Beehive(4*unit.MM, 26*unit.MM, 17*unit.MM, 3.5, 2.5, 2*unit.MM, 79*wire.GPa))
	for b.Loop() {
		must(s.Surge(0, wire.SteelEN))
	}
}
