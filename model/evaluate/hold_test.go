package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// gauged is the record of nested with its readings on the gauges of a small shop, numbers guarded. On 1 in
// the inner coil keeps .090 ± .004 over .070, which is within by plenty; tests change what they look at.
func gauged(t testing.TB) *record.Record {
	t.Helper()
	r := shop(t)
	r.Parts.Retainers[0].Gauge, r.Parts.Locators[0].Gauge = "C", "C"
	for i := range r.Parts.Springs[0].Coils {
		r.Parts.Springs[0].Coils[i].Bind.Gauge = "C"
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		at := record.Position{Cylinder: "1", Role: role, N: 1}
		r.Put(record.Valve{At: at, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderLocator, Gauge: "M"}}})
		on(t, r, at, record.BaseHeight, 0, "H", "1.900")
		on(t, r, at, record.LiftChecking, 0, "D", "0.700")
	}
	return r
}

// measuredShim puts another shim that the micrometer measured under 1 in.
func measuredShim(t testing.TB, r *record.Record, read string) {
	t.Helper()
	shim(t, r, read)
	v := r.ValveAt(intake)
	v.Stack[0].Gauge = "M"
	r.Put(v)
}

// sealedOn is sealed with the gap read on the caliper.
func sealedOn(t *testing.T, r *record.Record, seal, gap string) {
	t.Helper()
	sealed(t, r, seal, gap)
	last := lastOf(r, intake, record.SealGap, 0)
	last.Gauge, last.When = "C", "2026-03-02T10:00:00Z"
}

func most(t *testing.T, r *record.Record, read string) {
	t.Helper()
	p := r.PackageOf(record.Intake)
	p.Most = ptr(in(t, read))
	r.Put(p)
}

// What the uncertainty of the gauges does to the verdicts, on the smallest change that brings it about.
func TestGuardedVerdict(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(r *record.Record)
		want   evaluate.Verdict
		key    string // of the worst finding
		said   string
	}{
		{"within by more than U", func(*record.Record) {}, evaluate.Within, "bind", "1 in: the inner coil keeps .090 ± .004 to bind, its least margin is .070."},
		{"over the least by less than U", func(r *record.Record) { measuredShim(t, r, "0.047") },
			evaluate.Unproven, "bind", "1 in: the inner coil keeps .073 ± .004 to bind against a least margin of .070: too near to say, .001 more would do; the greatest part of the doubt ("},
		{"under the least by less than U", func(r *record.Record) { measuredShim(t, r, "0.052") },
			evaluate.Unproven, "bind", "inner coil .068 ± .004, least .070"},
		{"under the least by more than U", func(r *record.Record) { measuredShim(t, r, "0.056") },
			evaluate.Short, "bind", "1 in: the inner coil keeps .064 ± .004 to bind, less than its least margin of .070."},
		{"a margin that may be nought binds", func(r *record.Record) { measuredShim(t, r, "0.117") },
			evaluate.Binds, "bind", "1 in: the inner coil keeps .003 ± .004 to bind and may go solid; stop, do not turn the engine."},
		{"a margin below nought binds", func(r *record.Record) { measuredShim(t, r, "0.130") },
			evaluate.Binds, "bind", "the inner coil goes solid, its margin is −.010 ± .004; stop"},
		{"a lot that varies makes another coil than the governing one unproven", func(r *record.Record) {
			outer := &r.Parts.Springs[0].Coils[0]
			outer.Bind.Reading = in(t, "1.079")
			outer.Bind.Lot = &record.Lot{Count: 16, Spread: in(t, "0.010")}
		}, evaluate.Unproven, "bind", "the outer coil keeps .091 ± .023"},
		{"a coil that binds is said although another has less over its least margin", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Least[0].Margin, p.Least[1].Margin = in(t, "0.000"), in(t, "0.150")
			r.Put(p)
			r.Parts.Springs[0].Coils[0].Bind.Reading = in(t, "1.168")
		}, evaluate.Binds, "bind", "the outer coil keeps .002 ± .0034 to bind and may go solid"},
		{"a spring type of which nobody said how it varies is said to lack that", func(r *record.Record) {},
			evaluate.Within, "bind", "bind height of another spring of the type |  | nobody said how far they differ; not in it"},
		{"no lift: the limit keeps U back, but for the lift's part", func(r *record.Record) { drop(r, intake, record.LiftChecking) },
			evaluate.WithinUpTo, "bind", "lift limit = 1.775 − .985 − .070 − .0032 = .7168, rounded down to .716"},
		{"an estimated lift beyond the limit", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			add(t, r, intake, record.LiftRunning, 0, "0.718")
		}, evaluate.Unproven, "bind", "the lift of .718 is an estimate and more than the .716 that can be promised (inner coil near bind)"},
		{"no lift limit is promised on an estimated bind", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			r.Parts.Springs[0].Coils[1].Bind.Source = record.Estimated
		}, evaluate.Unproven, "bind", "cannot be promised"},
		{"seal gap too near", func(r *record.Record) { sealedOn(t, r, "seal", "0.752") },
			evaluate.Unproven, "seal", "1 in: retainer on the seal keeps .052 ± .0028 at full lift, .050 asked for: too near to say, .0008 more would do"},
		{"seal gap within by U", func(r *record.Record) { sealedOn(t, r, "seal", "0.754") },
			evaluate.Within, "bind", "retainer on the seal keeps .054 ± .0028 at full lift, .050 asked for."},
		{"seal gap short by more than U", func(r *record.Record) { sealedOn(t, r, "seal", "0.746") },
			evaluate.Short, "seal", "retainer on the seal keeps .046 ± .0028 at full lift, less than .050"},
		{"a seal in one piece doubts its shims too", func(r *record.Record) { sealedOn(t, r, "one-piece", "0.782") },
			evaluate.Unproven, "seal", "keeps .052 ± .0028"},
		{"rated lift too near", func(r *record.Record) { r.Parts.Springs[0].RatedLift = ptr(in(t, "0.701")) },
			evaluate.Unproven, "rated-lift", "the lift of .700 ± .0023 is too near to the .701 its maker gives the spring"},
		{"rated lift with room", func(r *record.Record) { r.Parts.Springs[0].RatedLift = ptr(in(t, "0.703")) }, evaluate.Within, "bind", ""},
		{"over a rated lift by more than U", func(r *record.Record) { r.Parts.Springs[0].RatedLift = ptr(in(t, "0.697")) },
			evaluate.Over, "rated-lift", "more than the .697"},
		{"a check height that agrees is taken as it is", func(r *record.Record) {
			on(t, r, intake, record.CheckHeight, 0, "H", "1.873")
		}, evaluate.Within, "bind", "check height 1.873 agrees with 1.870 within .003"},
		{"more than the most is a note", func(r *record.Record) { most(t, r, "0.080") }, evaluate.Within, "bind", "more than the most margin of .080 asked for"},
		{"a window that nothing can be within", func(r *record.Record) { most(t, r, "0.077") },
			evaluate.Within, "bind", "1 in: nothing can be within the window from .070 to .077 asked for, for .0079 is kept back at its ends"},
		{"repeats that do not agree", func(r *record.Record) { on(t, r, intake, record.LiftChecking, 0, "D", "0.690") },
			evaluate.Unproven, "repeats", "readings of the lift on checking springs lie .010 apart (.700, .690), more than the dial indicator scatters; measure it again"},
		{"repeats that agree", func(r *record.Record) { on(t, r, intake, record.LiftChecking, 0, "D", "0.698") }, evaluate.Within, "bind", ""},
		{"a scatter known from too few", func(r *record.Record) {
			r.Gauges[indexOf(r, "D")].Repeat = &record.Repeat{S: in(t, "0.0020"), Freedom: "1"}
		}, evaluate.Unproven, "bind", "but how far readings of the lift on checking springs scatter is known from too few; read it again"},
		{"nobody said how a gauge reads, and nothing is assumed", func(r *record.Record) {
			r.Gauges[indexOf(r, "H")].Repeat, r.Setup.Rules.Assumed = nil, nil
		}, evaluate.Unproven, "bind", "How sure base height is cannot be said"},
		{"shims nobody measured, and no tolerance", func(r *record.Record) {
			shim(t, r, "0.030")
			r.Setup.Rules.ShimTolerance = nil
		}, evaluate.Unproven, "bind", "How sure shims as sold is cannot be said"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := gauged(t)
			c.change(r)
			v := first(r)
			if v.Verdict != c.want {
				t.Errorf("verdict %v, want %v\n%s", v.Verdict, c.want, said(v))
			}
			if v.Findings[0].Key != c.key {
				t.Errorf("worst finding %q, want %q", v.Findings[0].Key, c.key)
			}
			if c.said != "" {
				wantSaid(t, v, c.said)
			}
		})
	}
}

// The design's own figures: 1.812 − 1.114 − .060 less what is kept back.
func TestLiftLimitKeepsBack(t *testing.T) {
	r := gauged(t)
	drop(r, intake, record.LiftChecking)
	drop(r, intake, record.BaseHeight)
	on(t, r, intake, record.BaseHeight, 0, "H", "1.842")
	r.Parts.Springs[0].Coils = r.Parts.Springs[0].Coils[:1]
	r.Parts.Springs[0].Coils[0].Bind.Reading = in(t, "1.114")
	p := r.PackageOf(record.Intake)
	p.Least = []record.Least{{Coil: 1, Margin: in(t, "0.060")}}
	r.Put(p)
	for spread, want := range map[string]string{"0.0015": ".634", "0.0022": ".632", "0.0030": ".631"} {
		r.Parts.Springs[0].Coils[0].Bind.Lot = &record.Lot{Count: 26, Spread: in(t, spread)}
		if got := shown(first(r).UpTo); got != want {
			t.Errorf("springs that differ by %s: up to %s, want %s", spread, got, want)
		}
	}
	r.Setup.Rules.Decision = record.Plain
	if got := shown(first(r).UpTo); got != ".638" {
		t.Errorf("with nothing kept back: up to %s, want .638", got)
	}
}

// The guard of the other rule is smaller: what is kept to with 95 in 100 on one side.
func TestGuarded95(t *testing.T) {
	r := gauged(t)
	measuredShim(t, r, "0.0465") // .0735 over .070; U .0040 and t₀.₉₅ u .0033
	for rule, want := range map[record.Decision]evaluate.Verdict{
		record.Plain: evaluate.Within, record.Guarded95: evaluate.Within, record.Guarded: evaluate.Unproven,
	} {
		r.Setup.Rules.Decision = rule
		if v := first(r); v.Verdict != want {
			t.Errorf("%s: %v, want %v\n%s", rule, v.Verdict, want, said(v))
		}
	}
	r.Setup.Rules.Decision = ""
	if v := first(r); v.Verdict != evaluate.Unproven {
		t.Errorf("without a rule: %v", v.Verdict)
	}
}

// What is printed in the table gives the verdict again.
func TestSpreadInTheTable(t *testing.T) {
	r := gauged(t)
	ev := evaluate.Evaluate(r)
	words := evaluate.Words(r.Setup.Units)
	if m, u := ev.Valves[0].Text(words, "margin"), ev.Valves[0].Text(words, "u"); m != ".090" || u != "±.004" {
		t.Errorf("the table has %s %s", m, u)
	}
	drop(r, intake, record.LiftChecking)
	card(t, r, "0.440")
	if u := evaluate.Evaluate(r).Valves[0].Text(words, "u"); u != "" {
		t.Errorf("an estimate has %s", u)
	}
	mm := evaluate.Words(record.Units{Length: unit.Mm, Load: unit.N})
	if u := ev.Valves[0].Text(mm, "u"); u != "±0.10" {
		t.Errorf("in millimetres %s", u)
	}
}

func TestChance(t *testing.T) {
	for _, c := range []struct{ shim, want string }{
		{"0.030", "more than 999 in 1,000"}, {"0.047", "93 in 100"}, {"0.052", "15 in 100"}, {"0.080", "less than 1 in 100"},
	} {
		r := gauged(t)
		measuredShim(t, r, c.shim)
		v := first(r)
		if got := evaluate.Words(r.Setup.Units).Line(v.ChanceLine()); got != c.want {
			t.Errorf("a shim of %s: %q, want %q", c.shim, got, c.want)
		}
	}
	r := gauged(t)
	drop(r, intake, record.LiftChecking)
	v := first(r)
	if _, ok := v.Chance(); ok || !v.ChanceLine().Zero() {
		t.Error("a chance without a lift")
	}
}

func TestPastDue(t *testing.T) {
	r := gauged(t)
	r.Gauges[indexOf(r, "H")].Calibration.Due = "2026-03-01"
	r.Gauges[indexOf(r, "D")].Calibration.Due = "2026-03-02"
	r.Gauges[indexOf(r, "C")].Calibration.Due = "2026-02-01"
	r.Parts.Springs[0].Coils[0].Bind.At = "2026-02-03T08:00:00Z"
	ev := evaluate.Evaluate(r)
	words := evaluate.Words(r.Setup.Units)
	var got []string
	for _, f := range ev.Findings {
		got = append(got, words.Line(f.Line))
		if !f.Note {
			t.Errorf("%s is no note", f.Key)
		}
	}
	want := []string{
		"The height gauge was due for calibration on 2026-03-01 and was read after that, last on 2026-03-02: base height (1 in, 1 ex).",
		"The caliper was due for calibration on 2026-02-01 and was read after that, last on 2026-02-03: bind height.",
	}
	if len(got) != len(want) || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("got %q", got)
	}
	if ev.Verdict != evaluate.Within {
		t.Errorf("a note changed the verdict to %v", ev.Verdict)
	}
	for _, g := range ev.Gauges {
		if want := g.Of.ID == "H" || g.Of.ID == "C"; g.PastDue != want {
			t.Errorf("%s is past due: %t", g.Of.Name, g.PastDue)
		}
	}
}
