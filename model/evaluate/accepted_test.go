package evaluate_test

import (
	"slices"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// accept accepts what is found of a kind at 1 in, as it is.
func accept(t *testing.T, r *record.Record, finding string) {
	t.Helper()
	ev := evaluate.Evaluate(r)
	found := ev.Found(intake, finding, r.Setup.Units)
	if len(found) == 0 {
		t.Fatalf("there is no finding %q to accept", finding)
	}
	r.Put(record.Deviation{ID: finding, At: intake, Finding: finding, Reason: "agreed", By: "M. Ashlock", Found: found})
}

// Who accepted a finding accepted it as it was: it is open again once it is worse, and stays accepted where it is better.
func TestAcceptedUntilWorse(t *testing.T) {
	shims := func(read string) func(*testing.T, *record.Record) {
		return func(t *testing.T, r *record.Record) { shim(t, r, read) }
	}
	band := func(least, most string) func(*testing.T, *record.Record) {
		return func(t *testing.T, r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.SeatLoad = &record.Band{}
			if least != "" {
				p.SeatLoad.Least = ptr(lbf(t, least))
			}
			if most != "" {
				p.SeatLoad.Most = ptr(lbf(t, most))
			}
			r.Put(p)
		}
	}
	loaded := func(t *testing.T, r *record.Record) {
		band("301", "")(t, r)
		seatLoad(t, r, "300", "")
	}
	cut := func(depth string) func(*testing.T, *record.Record) {
		return func(t *testing.T, r *record.Record) {
			r.Put(record.SeatWork{ID: "cut " + depth, At: intake, Depth: in(t, depth)})
		}
	}
	for _, c := range []struct {
		name         string
		finding      string
		before, then func(*testing.T, *record.Record)
		open         bool
	}{
		{"short by .001, then by .060", "bind", shims("0.051"), shims("0.110"), true},
		{"short by .001, then by .002", "bind", shims("0.051"), shims("0.052"), true},
		{"short by .002, then by .001", "bind", shims("0.052"), shims("0.051"), false},
		{"short, then the same", "bind", shims("0.051"), shims("0.051"), false},
		{"a load short by a pound, then by fifty", "seat-load", loaded, band("350", ""), true},
		{"a load short by a pound, then by half of one", "seat-load", loaded, band("300.5", ""), false},
		{"a load too small, then too great", "seat-load", loaded, band("", "299.9"), true},
		{"stale by a cut, then by another", "stale", cut("0.001"), cut("0.002"), false},
		{"stale by a cut, then by other locks too", "stale", cut("0.001"), func(t *testing.T, r *record.Record) {
			v := r.ValveAt(intake)
			v.Locks = "others"
			r.Put(v)
		}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := nested(t)
			c.before(t, r)
			accept(t, r, c.finding)
			opened := func() bool {
				ev := evaluate.Evaluate(r)
				return slices.ContainsFunc(ev.Unsettled(), func(u evaluate.Unsettled) bool { return u.Finding == c.finding })
			}
			if opened() {
				t.Fatal("what was accepted is open")
			}
			c.then(t, r)
			if opened() != c.open {
				t.Errorf("open: %v", !c.open)
			}
			// As books of before have it, it is accepted whatever it comes to.
			d := r.Setup.Deviations[0]
			d.Found = nil
			r.Put(d)
			if opened() {
				t.Error("what was accepted without its number is open")
			}
		})
	}
}

// How far a number is beyond its limit is exact.
func TestFoundIsExact(t *testing.T) {
	r := nested(t)
	shim(t, r, "0.051")
	ev := evaluate.Evaluate(r)
	f := ev.Found(intake, "bind", r.Setup.Units)
	if len(f) != 1 || f[0].Verdict != "short" || f[0].Beyond == nil || *f[0].Beyond != in(t, "0.001").Length() || f[0].Line == "" {
		t.Errorf("%+v", f)
	}
}
