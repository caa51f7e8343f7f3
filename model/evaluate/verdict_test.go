package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// Every verdict, on the smallest change that brings it about.
func TestVerdict(t *testing.T) {
	step := in(t, "0.095")
	for _, c := range []struct {
		name   string
		change func(r *record.Record)
		want   evaluate.Verdict
		key    string // of the worst finding
		said   string
	}{
		{"within", func(*record.Record) {}, evaluate.Within, "bind", "1 in: the inner coil keeps .090 to bind, its least margin is .070."},
		{"exactly the least margin is within", func(r *record.Record) {
			shim(t, r, "0.050")
		}, evaluate.Within, "bind", "the inner coil keeps .070 to bind"},
		{"a ten-thousandth under it is short, and the page says which is less", func(r *record.Record) {
			shim(t, r, "0.050004")
		}, evaluate.Short, "bind", "the inner coil keeps .069996 to bind, less than its least margin of .070."},
		{"short", func(r *record.Record) { shim(t, r, "0.060") }, evaluate.Short, "bind", "inner coil .060 < .070"},
		{"binds at nought", func(r *record.Record) { shim(t, r, "0.120") }, evaluate.Binds, "bind", "stop, do not turn the engine"},
		{"solid with the valve closed", func(r *record.Record) {
			shim(t, r, "0.820")
			drop(r, intake, record.LiftChecking)
		}, evaluate.Binds, "bind", "solid with the valve closed"},
		{"no lift leaves the least margin", func(r *record.Record) {
			shim(t, r, "0.800")
			drop(r, intake, record.LiftChecking)
		}, evaluate.Short, "bind", "no lift fits"},
		{"no lift measured", func(r *record.Record) { drop(r, intake, record.LiftChecking) },
			evaluate.WithinUpTo, "bind", "within up to a lift of .720 (inner coil near bind)"},
		{"lift on running springs proves nothing", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			add(t, r, intake, record.LiftRunning, 0, "0.690")
		}, evaluate.WithinUpTo, "bind", "the lift of .690 is an estimate"},
		{"lift by the card proves nothing", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			card(t, r, "0.440")
		}, evaluate.WithinUpTo, "bind", "lift by the card, an estimate = .440 × 1.6 − .016 lash hot = .688"},
		{"an estimated lift that leaves too little is short all the same", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			card(t, r, "0.470")
		}, evaluate.Short, "bind", ""},
		{"an estimated bind proves nothing", func(r *record.Record) {
			r.Parts.Springs[0].Coils[0].Bind.Source = record.Estimated
		}, evaluate.Unproven, "bind", "a bind height is an estimate; measure it"},
		{"missing base height", func(r *record.Record) { drop(r, intake, record.BaseHeight) }, evaluate.Missing, "missing", "not known yet: base height."},
		{"missing bind of one coil", func(r *record.Record) { r.Parts.Springs[0].Coils[1].Bind = nil },
			evaluate.Missing, "missing", "not known yet: bind height of the inner coil."},
		{"missing step", func(r *record.Record) { r.Parts.Retainers[0].Steps = nil }, evaluate.Missing, "missing", "retainer step under the inner coil"},
		{"missing shims", func(r *record.Record) { r.Put(record.Valve{At: intake}) }, evaluate.Missing, "missing", "the word that there are none"},
		{"none is a word about shims", func(r *record.Record) { r.Put(record.Valve{At: intake, NoShim: "none"}) }, evaluate.Within, "bind", ""},
		{"missing least margin", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Least = p.Least[:1]
			r.Put(p)
		}, evaluate.Missing, "missing", "least margin of the inner coil"},
		{"a coil that binds is said although another is not known", func(r *record.Record) {
			r.Parts.Springs[0].Coils[1].Bind = nil
			shim(t, r, "0.140")
		}, evaluate.Binds, "bind", ""},
		{"check height agrees at the rule", func(r *record.Record) { add(t, r, intake, record.CheckHeight, 0, "1.873") },
			evaluate.Within, "bind", "check height 1.873 agrees with 1.870 within .003"},
		{"check height disagrees", func(r *record.Record) { add(t, r, intake, record.CheckHeight, 0, "1.8731") },
			evaluate.Disagrees, "check", "check height 1.8731 and computed height 1.870 differ by .0031, more than .003"},
		{"check height is stale after another shim", func(r *record.Record) {
			add(t, r, intake, record.CheckHeight, 0, "1.870")
			shim(t, r, "0.020")
		}, evaluate.Stale, "stale", "check height was measured before a change of shims"},
		{"base height is stale after seat work", func(r *record.Record) { cut(t, r, "0.006") },
			evaluate.Stale, "stale", "base height moved by what was changed since, measure it again = 1.900 + .006 = 1.906"},
		{"base height is stale after other locks", func(r *record.Record) {
			v := r.ValveAt(intake)
			v.Locks = "plus-50"
			r.Put(v)
		}, evaluate.Stale, "stale", "1.900 + .050 = 1.950"},
		{"base height is stale after another retainer, and not moved", func(r *record.Record) {
			r.Parts.Retainers = append(r.Parts.Retainers, record.Retainer{ID: "other", Steps: r.Parts.Retainers[0].Steps})
			v := r.ValveAt(intake)
			v.Retainer = "other"
			r.Put(v)
		}, evaluate.Stale, "stale", "base height was measured before a change of retainer; measure it again."},
		{"seal gap short", func(r *record.Record) { sealed(t, r, "seal", "0.731") }, evaluate.Short, "seal", "seal .031 < .050"},
		{"seal in one piece rises with the shims", func(r *record.Record) { sealed(t, r, "one-piece", "0.770") },
			evaluate.Short, "seal", "seal gap open = .770 − .030 − .700 = .040"},
		{"seal gap missing", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Seal = "seal"
			r.Put(p)
		}, evaluate.Missing, "missing", "seal gap"},
		{"retainer gap short, and what it comes near is named", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Nearest = "guide boss"
			r.Put(p)
			add(t, r, intake, record.Room, 0, "0.745")
		}, evaluate.Short, "room", "retainer on the guide boss keeps .045 at full lift, less than .050"},
		{"more lift than the spring is rated for", func(r *record.Record) {
			r.Parts.Springs[0].RatedLift = ptr(in(t, "0.650"))
		}, evaluate.Over, "rated-lift", "more than the .650 its maker gives the spring"},
		{"a rated lift is asked for over the rule", func(r *record.Record) {
			r.Setup.Rules.RatedOver = in(t, "0.600")
		}, evaluate.Unproven, "rated-lift", "ask the spring's maker"},
		{"over a most margin is a note", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Most = ptr(in(t, "0.080"))
			r.Put(p)
		}, evaluate.Within, "bind", "more than the most margin of .080 asked for"},
		{"a tall assembly is one coil on the parts it was measured on", func(r *record.Record) {
			r.Parts.Springs[0].Coils[1].Bind = nil
			r.Parts.Springs[0].Assembly = &record.Assembly{Bind: bind(t, "1.080"), Retainer: "stepped", Locator: "cup"}
		}, evaluate.Within, "bind", "the assembly keeps .090 to bind"},
		{"an assembly measured on other parts counts for nothing", func(r *record.Record) {
			r.Parts.Springs[0].Coils[1].Bind = nil
			r.Parts.Springs[0].Assembly = &record.Assembly{Bind: bind(t, "1.080"), Retainer: "other", Locator: "cup"}
		}, evaluate.Missing, "missing", "bind height on this retainer and locator"},
		{"a reading of the spring as one on this valve", func(r *record.Record) {
			r.Parts.Springs[0].Coils[1].Bind = nil
			add(t, r, intake, record.BindReading, 0, "1.180", record.Taken{Part: record.Lid, Amount: in(t, "0.100"), Zero: record.NotZeroed})
		}, evaluate.Within, "bind", "bind height 1.080 ⟵ 1.180 − .100"},
		{"a bind read here comes before the type's", func(r *record.Record) {
			add(t, r, intake, record.BindReading, 2, "1.125", record.Taken{Part: record.RetainerStep, Amount: step, Zero: record.NotZeroed})
		}, evaluate.Short, "bind", "bind height 1.030 ⟵ 1.125 − .095"},
		{"a bind read of another spring does not count", func(r *record.Record) {
			add(t, r, intake, record.BindReading, 2, "1.200")
			lastOf(r, intake, record.BindReading, 2).Piece = "bag 7"
		}, evaluate.Within, "bind", ""},
		{"the tagged spring comes before its type", func(r *record.Record) {
			r.Parts.Pieces = []record.SpringPiece{{Tag: "bag 7", Spring: "nest", Binds: []record.PieceBind{{Coil: 2, Bind: *bind(t, "1.020")}}}}
			v := r.ValveAt(intake)
			v.Spring = "bag 7"
			r.Put(v)
		}, evaluate.Short, "bind", "of spring bag 7, measured"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := nested(t)
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

func shim(t testing.TB, r *record.Record, read string) {
	t.Helper()
	v := r.ValveAt(intake)
	v.Stack = []record.Shim{{Thickness: in(t, read), Under: record.UnderLocator}}
	r.Put(v)
}

func card(t *testing.T, r *record.Record, lobe string) {
	t.Helper()
	p := r.PackageOf(record.Intake)
	p.Card = &record.Card{Lobe: in(t, lobe), Ratio: "1.6", Lash: in(t, "0.016"), At: record.Hot}
	r.Put(p)
}

func cut(t *testing.T, r *record.Record, depth string) {
	t.Helper()
	r.Put(record.SeatWork{ID: "cut " + depth, At: intake, Depth: in(t, depth)})
}

func sealed(t *testing.T, r *record.Record, seal, gap string) {
	t.Helper()
	p := r.PackageOf(record.Intake)
	p.Seal = seal
	r.Put(p)
	add(t, r, intake, record.SealGap, 0, gap)
}
