package evaluate_test

import (
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Whatever is left out or changed, evaluation comes to an end, and within is said only where every coil
// was looked at, no number is an estimate or stale, and nothing is missing; where something is kept back,
// only where every coil keeps its least margin by that, on enough readings that agree.
func TestNeverWithinOnTooLittle(t *testing.T) {
	changes := []func(r *record.Record){
		func(r *record.Record) { drop(r, intake, record.BaseHeight) },
		func(r *record.Record) { drop(r, intake, record.LiftChecking) },
		func(r *record.Record) { add(t, r, intake, record.LiftRunning, 0, "0.690") },
		func(r *record.Record) { card(t, r, "0.430") },
		func(r *record.Record) { add(t, r, intake, record.CheckHeight, 0, "1.871") },
		func(r *record.Record) { add(t, r, intake, record.CheckHeight, 0, "1.880") },
		func(r *record.Record) { cut(t, r, "0.006") },
		func(r *record.Record) { shim(t, r, "0.045") },
		func(r *record.Record) { r.Put(record.Valve{At: intake}) },
		func(r *record.Record) {
			r.Put(record.Valve{At: intake, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderOuter}}})
		},
		func(r *record.Record) { r.Parts.Springs[0].Coils[0].Bind = nil },
		func(r *record.Record) { r.Parts.Springs[0].Coils[1].Bind = nil },
		func(r *record.Record) {
			if b := r.Parts.Springs[0].Coils[1].Bind; b != nil {
				b.Source = record.Estimated
			}
		},
		func(r *record.Record) { r.Parts.Springs[0].Coils = nil },
		func(r *record.Record) {
			r.Parts.Springs[0].Assembly = &record.Assembly{Bind: bind(t, "1.080"), Retainer: "stepped", Locator: "cup"}
		},
		func(r *record.Record) { r.Parts.Retainers = nil },
		func(r *record.Record) { r.Parts.Retainers = append(r.Parts.Retainers, record.Retainer{ID: "other"}) },
		func(r *record.Record) {
			v := r.ValveAt(intake)
			v.Retainer = "other"
			r.Put(v)
		},
		func(r *record.Record) { r.Parts.Locators[0].Steps = []unit.Quantity{in(t, "-0.010")} },
		func(r *record.Record) { sealed(t, r, "seal", "0.790") },
		func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Least = p.Least[:len(p.Least)/2]
			r.Put(p)
		},
		func(r *record.Record) { r.Setup.Packages = nil },
		func(r *record.Record) { r.Parts = record.Parts{} },
		func(r *record.Record) {
			r.Put(record.Shared{Kind: record.LiftChecking, Role: record.Intake, From: exhaust})
		},
		func(r *record.Record) {
			drop(r, intake, record.BaseHeight)
			add(t, r, intake, record.SeatDepth, 0, "2.400")
			add(t, r, intake, record.RetainerDepth, 0, "0.400")
		},
		func(r *record.Record) { r.Setup.Rules.Assumed = nil },
		func(r *record.Record) { r.Setup.Rules.ShimTolerance = nil },
		func(r *record.Record) { r.Gauges[indexOf(r, "D")].Repeat.Freedom = "1" },
		func(r *record.Record) { r.Gauges[indexOf(r, "D")].Repeat.S = in(t, "0.006") },
		func(r *record.Record) { r.Gauges[indexOf(r, "C")].Repeat = nil },
		func(r *record.Record) {
			r.Gauges[indexOf(r, "H")].Step, r.Gauges[indexOf(r, "H")].Calibration = nil, nil
		},
		func(r *record.Record) { r.Gauges[indexOf(r, "D")].Calibration.U = in(t, "0.020") },
		func(r *record.Record) { r.Gauges = r.Gauges[1:] },
		func(r *record.Record) { on(t, r, intake, record.LiftChecking, 0, "D", "0.690") },
		func(r *record.Record) {
			r.Parts.Springs[0].Coils[0].Bind.Lot = &record.Lot{Count: 3, Spread: in(t, "0.020")}
		},
		func(r *record.Record) { r.Parts.Springs[0].Coils[1].Bind.Source = record.Supplied },
		func(r *record.Record) { measuredShim(t, r, "0.047") },
	}
	rapid.Check(t, func(rt *rapid.T) {
		r := gauged(t)
		r.Setup.Rules.Decision = rapid.SampledFrom(append(record.Decisions, "")).Draw(rt, "rule")
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(changes)-1), 0, 6).Draw(rt, "changes") {
			// Some changes need what an earlier one took away.
			func() {
				defer func() { _ = recover() }()
				changes[i](r)
			}()
		}
		ev := evaluate.Evaluate(r)
		ev.Figures(evaluate.Words(r.Setup.Units), r.Setup.Units)
		v := ev.Valves[0]
		said(v)
		if v.Verdict != evaluate.Within {
			return
		}
		if len(v.Missing) > 0 || !v.Height.Known || !v.Lift.Known || v.Lift.Mark == evaluate.Estimate || len(v.Coils) == 0 {
			rt.Fatalf("within, with %v missing, height %v, lift %v, %d coils", v.Missing, v.Height.Known, v.Lift, len(v.Coils))
		}
		for _, c := range v.Coils {
			if !c.Bind.Known || !c.Proven || !c.Least.Known || !c.Slack.Known || c.Slack.Value < 0 {
				rt.Fatalf("within, with the %s coil at %+v", c.Name, c)
			}
		}
		if r.Setup.Rules.Decision != record.Plain {
			wantSure(rt, r, v)
		}
		for _, f := range []evaluate.Figure{v.Base, v.Check, v.Seal, v.Room} {
			if f.Stale {
				rt.Fatal("within on a stale reading")
			}
		}
	})
}

// wantSure fails unless every coil keeps its least margin by what the rule keeps back.
func wantSure(t *rapid.T, r *record.Record, v evaluate.Valve) {
	for _, c := range v.Coils {
		b, err := c.Margin.Sure()
		if err != nil {
			t.Fatalf("within, and of the %s coil: %v", c.Name, err)
		}
		back := b.Expanded
		if r.Setup.Rules.Decision == record.Guarded95 {
			back = b.OneSided()
		}
		if float64(c.Slack.Value) < back || b.Nu < budget.LeastNu {
			t.Fatalf("within, with the %s coil %d over its least, %g kept back, ν %g", c.Name, c.Slack.Value, back, b.Nu)
		}
	}
	if p, ok := v.Chance(); !ok || p < 0.9 {
		t.Fatalf("within, with a chance of %g", p)
	}
	for _, f := range v.Findings {
		if f.Key == "repeats" {
			t.Fatal("within on repeats that lie apart")
		}
	}
}
