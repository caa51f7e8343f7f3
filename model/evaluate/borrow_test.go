package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

var second = record.Position{Cylinder: "1", Role: record.Intake, N: 2}

// borrowing is nested with a second intake, 1 in 2, which has a lift and shims of its own and takes a kind from 1 in 1.
func borrowing(t *testing.T, kind record.Kind, change func(v *record.Valve)) *record.Record {
	t.Helper()
	r := nested(t)
	r.Head.Intakes = 2
	r.Parts.Locks = append(r.Parts.Locks, record.Locks{ID: "low", Offset: ptr(in(t, "-0.050"))})
	r.Parts.Retainers = append(r.Parts.Retainers, record.Retainer{ID: "other", Steps: []unit.Quantity{in(t, "0.095")}})
	v := record.Valve{At: second, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderLocator}}}
	change(&v)
	r.Put(v)
	add(t, r, second, record.LiftChecking, 0, "0.700")
	if kind != record.BaseHeight {
		add(t, r, second, record.BaseHeight, 0, "1.900")
	}
	r.Put(record.Shared{Kind: kind, Role: record.Intake, From: intake})
	return r
}

// A base height of 1.900 that was taken on 1 in 1 is not that of a valve with other parts. The inner coil keeps
// base − .030 − .095 − .700 − .985.
func TestBorrowedBaseOverOtherParts(t *testing.T) {
	none := func(*record.Valve) {}
	for _, c := range []struct {
		name         string
		fitted       func(v *record.Valve)
		change       func(r *record.Record)
		base, margin string
		mark         evaluate.Mark
		stale        bool
		said         string
	}{
		{"the same parts", none, nil, "1.900", ".090", evaluate.Borrowed, false, ""},
		{"locks that set the retainer .050 lower", func(v *record.Valve) { v.Locks = "low" }, nil, "1.850", ".040", evaluate.Predicted, true,
			"1 in 2: base height is taken from 1 in 1, but what it was measured over is not the same here (locks); it is moved by what that does; measure it here."},
		{"a seat of its own cut by .020", none, func(r *record.Record) {
			r.Put(record.SeatWork{ID: "c", At: second, Depth: in(t, "0.020")})
		}, "1.920", ".110", evaluate.Predicted, true, "not the same here (seat work)"},
		{"the seat cut that it was measured on", none, func(r *record.Record) {
			r.Put(record.SeatWork{ID: "c", At: intake, Depth: in(t, "0.020")})
		}, "1.900", ".090", evaluate.Borrowed, false, ""},
		{"another retainer", func(v *record.Valve) { v.Retainer = "other" }, nil, "1.900", ".090", evaluate.Borrowed, true,
			"1 in 2: base height is taken from 1 in 1, but what it was measured over is not the same here (retainer); measure it here."},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := borrowing(t, record.BaseHeight, c.fitted)
			if c.change != nil {
				c.change(r)
			}
			v := evaluate.Evaluate(r).Valves[1]
			if shown(v.Base) != c.base || shown(v.Margin) != c.margin || v.Base.Mark != c.mark || v.Base.Stale != c.stale {
				t.Errorf("base %s (%s, stale %v), margin %s, want %s (%s, stale %v), %s",
					shown(v.Base), v.Base.Mark, v.Base.Stale, shown(v.Margin), c.base, c.mark, c.stale, c.margin)
			}
			if (v.Verdict == evaluate.Within) == c.stale {
				t.Errorf("verdict %v", v.Verdict)
			}
			if c.said != "" {
				wantSaid(t, v, c.said)
			}
		})
	}
}

// The retainer of 1 in 2 sits .050 lower over its locks, so that .760 to the seal and .760 of room are .710: .010 at a lift of .700.
// A base height by difference goes by the depth to that retainer.
func TestBorrowedGapOverOtherLocks(t *testing.T) {
	low := func(v *record.Valve) { v.Locks = "low" }
	r := borrowing(t, record.SealGap, low)
	sealed(t, r, "seal", "0.760")
	if v := evaluate.Evaluate(r).Valves[1]; shown(v.SealOpen) != ".010" || v.Verdict == evaluate.Within {
		t.Errorf("seal %s, %v", shown(v.SealOpen), v.Verdict)
	}
	r = borrowing(t, record.Room, low)
	add(t, r, intake, record.Room, 0, "0.760")
	if v := evaluate.Evaluate(r).Valves[1]; shown(v.RoomOpen) != ".010" || v.Verdict == evaluate.Within {
		t.Errorf("room %s, %v", shown(v.RoomOpen), v.Verdict)
	}
	r = borrowing(t, record.RetainerDepth, low)
	drop(r, second, record.BaseHeight)
	add(t, r, second, record.SeatDepth, 0, "2.500")
	add(t, r, intake, record.RetainerDepth, 0, "0.600", record.Taken{Part: record.Lid, Amount: in(t, "0.000")})
	v := evaluate.Evaluate(r).Valves[1]
	if shown(v.Base) != "1.850" {
		t.Errorf("base by difference %s, want 2.500 − .600 − .050", shown(v.Base))
	}
	wantSaid(t, v, "1 in 2: base height is taken from 1 in 1")
}

// A check height holds one valve's own height: .002 more shims on 1 in 2 are not put right by that of 1 in 1.
func TestNoBorrowedCheckHeight(t *testing.T) {
	r := borrowing(t, record.CheckHeight, func(v *record.Valve) { v.Stack[0].Thickness = in(t, "0.052") })
	shim(t, r, "0.050")
	add(t, r, intake, record.CheckHeight, 0, "1.851")
	v := evaluate.Evaluate(r).Valves[1]
	if v.Check.Known || shown(v.Height) != "1.848" {
		t.Errorf("check %s, height %s, want none and 1.900 − .052", shown(v.Check), shown(v.Height))
	}
}
