package evaluate_test

import (
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The worked figures of the trade, as they come out on a whole valve. Common practice, no published source.
func TestWorkedFigures(t *testing.T) {
	t.Run("1.215 read through lid and locator is 1.060", func(t *testing.T) {
		r := nested(t)
		r.Parts.Springs[0].Coils[0].Bind = bind(t, "1.215")
		r.Parts.Springs[0].Coils[0].Bind.Correction = []record.Taken{
			{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed},
			{Part: record.Floor, Amount: in(t, "0.060"), Zero: record.NotZeroed},
		}
		v := first(r)
		if got := shown(v.Coils[0].Bind); got != "1.060" {
			t.Errorf("bind %s, want 1.060", got)
		}
		wantSaid(t, v, "bind height 1.060 ⟵ 1.215 − .095 − .060")
	})
	t.Run("a part the gauge was zeroed on is not taken off again", func(t *testing.T) {
		r := nested(t)
		r.Parts.Springs[0].Coils[0].Bind.Correction = []record.Taken{{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.Zeroed}}
		v := first(r)
		if got := shown(v.Coils[0].Bind); got != "1.060" {
			t.Errorf("bind %s, want 1.060", got)
		}
		wantSaid(t, v, "bind height 1.060 (gauge zeroed on lid)")
	})
	t.Run("the inner coil governs and asks for 1.850, not 1.830", func(t *testing.T) {
		v := first(nested(t))
		if got := shown(v.Target); got != "1.850" || v.Coils[v.Governing].Name != "inner" {
			t.Errorf("aim for %s, governed by %q", got, v.Coils[v.Governing].Name)
		}
		if got := shown(v.ShimNeeded); got != ".050" {
			t.Errorf("shim needed %s, want .050", got)
		}
		wantSaid(t, v, "aim for, inner coil = .700 + .985 + .095 + .070 = 1.850",
			"over the outer land the coils together bind at 1.080", "nearest stack of the shop's sizes, .000 under what would fit = .030 + .020 = .050")
	})
	t.Run("a shim under the outer coil only leaves the inner at 1.747", func(t *testing.T) {
		r := nested(t)
		drop(r, intake, record.BaseHeight)
		add(t, r, intake, record.BaseHeight, 0, "1.842")
		r.Put(record.Valve{At: intake, NoShim: "none", Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderOuter}}})
		v := first(r)
		if got := shown(v.Coils[1].Height); got != "1.747" {
			t.Errorf("inner coil at %s, want 1.747", got)
		}
		if got := shown(v.Coils[0].Height); got != "1.812" {
			t.Errorf("outer coil at %s, want 1.812", got)
		}
	})
	t.Run("a seal keeps .088 of .700 at a lift of .612, and .058 in one piece on a .030 shim", func(t *testing.T) {
		for seal, want := range map[string]string{"seal": ".088", "one-piece": ".058"} {
			r := nested(t)
			drop(r, intake, record.LiftChecking)
			add(t, r, intake, record.LiftChecking, 0, "0.612")
			sealed(t, r, seal, "0.700")
			if got := shown(first(r).SealOpen); got != want {
				t.Errorf("%s keeps %s, want %s", seal, got, want)
			}
		}
	})
	t.Run("too little height is answered in numbers", func(t *testing.T) {
		r := nested(t)
		drop(r, intake, record.BaseHeight)
		add(t, r, intake, record.BaseHeight, 0, "1.800")
		v := first(r)
		if got := shown(v.ShimNeeded); got != "−.050" {
			t.Errorf("shim needed %s, want −.050", got)
		}
		wantSaid(t, v, "locks or a retainer with +.050 offset: raises base height and seal gap by .050, lowers retainer to rocker by .050")
	})
	t.Run("a new lash shim is 2.80 + .32 − .25 = 2.87", func(t *testing.T) {
		r := nested(t)
		mm := func(read string) unit.Quantity {
			q, err := unit.Of(read, unit.Mm)
			if err != nil {
				t.Fatal(err)
			}
			return q
		}
		p := r.PackageOf(record.Intake)
		p.Lash = &record.Lash{Target: mm("0.25"), At: record.Cold}
		r.Put(p)
		r.Put(record.Reading{At: intake, Kind: record.LashShim, N: 1, Quantity: mm("2.80")})
		r.Put(record.Reading{At: intake, Kind: record.LashFound, N: 1, Quantity: mm("0.32")})
		if got := first(r).LashShim.Value; got != 287*unit.MM/100 {
			t.Errorf("new shim %s mm, want 2.87", unit.Millimetres.LengthIn(got))
		}
	})
	t.Run("repeats are averaged, and a lift taken once serves its role", func(t *testing.T) {
		r := nested(t)
		r.Head.Intakes = 2
		second := record.Position{Cylinder: "1", Role: record.Intake, N: 2}
		r.Put(record.Valve{At: second, NoShim: "none"})
		add(t, r, second, record.BaseHeight, 0, "1.890")
		add(t, r, intake, record.LiftChecking, 0, "0.704")
		r.Put(record.Shared{Kind: record.LiftChecking, Role: record.Intake, From: intake})
		ev := evaluate.Evaluate(r)
		if got := shown(ev.Valves[0].Lift); got != ".702" {
			t.Errorf("mean lift %s, want .702", got)
		}
		if v := ev.Valves[1]; shown(v.Lift) != ".702" || v.Lift.Mark != evaluate.Borrowed || v.Verdict != evaluate.Within {
			t.Errorf("borrowed lift %s, mark %q, verdict %v", shown(v.Lift), v.Lift.Mark, v.Verdict)
		}
		wantSaid(t, ev.Valves[1], "measured on 1 in 1 for the whole role")
	})
	t.Run("boost of 15 psi on a 2.02 valve takes 48.1 lbf", func(t *testing.T) {
		r := nested(t)
		psi, err := unit.Of("15", unit.Psi)
		if err != nil {
			t.Fatal(err)
		}
		r.Setup.Needs.Boost = &psi
		p := evaluate.Words(r.Setup.Units)
		if got := p.Line(evaluate.Evaluate(r).Notes[0]); got != "Boost of 15 psi on a 2.02 valve takes 48.1 lbf off the seat load of the intakes." {
			t.Error(got)
		}
	})
}

// An undo of what made a height stale restores it, since staleness is only a comparison.
func TestStaleIsDerived(t *testing.T) {
	r := nested(t)
	add(t, r, intake, record.CheckHeight, 0, "1.871")
	before := first(r)
	shim(t, r, "0.020")
	if v := first(r); v.Verdict != evaluate.Stale || v.Height.Value == before.Height.Value {
		t.Fatalf("with another shim: %v at %s", v.Verdict, shown(v.Height))
	}
	shim(t, r, "0.030")
	if v := first(r); v.Verdict != evaluate.Within || shown(v.Height) != "1.871" {
		t.Errorf("with the shim back: %v at %s", v.Verdict, shown(v.Height))
	}
}

// A reading taken after the seat was cut makes the one from before it count no more.
func TestReadingAfterSeatWork(t *testing.T) {
	r := nested(t)
	cut(t, r, "0.006")
	add(t, r, intake, record.BaseHeight, 0, "1.907")
	v := first(r)
	if shown(v.Base) != "1.907" || v.Base.Stale || v.Verdict != evaluate.Within {
		t.Errorf("base %s stale %v verdict %v", shown(v.Base), v.Base.Stale, v.Verdict)
	}
}

// Whatever is typed: a margin is height − lift − bind of its coil, the verdict is what the integers
// say, the tightest coil governs, and the lift limit is where the governing margin runs out.
func TestMarginProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := nested(t)
		draw := func(name string, lo, hi int64) unit.Quantity {
			v := rapid.Int64Range(lo, hi).Draw(rt, name)
			return unit.Quantity{Typed: "drawn", Read: "drawn", Unit: unit.In, Value: v * 254}
		}
		for i, c := range []string{"outer", "inner"} {
			r.Parts.Springs[0].Coils[i].Bind.Reading = draw(c, 900_000, 1_100_000)
		}
		for i := range r.Setup.Readings {
			if o := &r.Setup.Readings[i]; o.At == intake && o.Kind == record.LiftChecking {
				o.Quantity = draw("lift", 600_000, 800_000)
			}
		}
		v := first(r)
		for _, c := range v.Coils {
			if c.Margin.Value != c.Height.Value-v.Lift.Value-c.Bind.Value {
				rt.Fatalf("%s: margin %d", c.Name, c.Margin.Value)
			}
			if c.Slack.Value < v.Coils[v.Governing].Slack.Value {
				rt.Fatalf("%s is tighter than the one that governs", c.Name)
			}
		}
		want := evaluate.Within
		switch least := v.Least.Value; {
		case v.Margin.Value <= 0:
			want = evaluate.Binds
		case v.Margin.Value < least:
			want = evaluate.Short
		}
		if v.Verdict != want {
			rt.Fatalf("verdict %v, want %v", v.Verdict, want)
		}
		if v.UpTo.Value-v.Lift.Value != v.Margin.Value-v.Least.Value {
			rt.Fatalf("limit %d at lift %d and margin %d", v.UpTo.Value, v.Lift.Value, v.Margin.Value)
		}
	})
}
