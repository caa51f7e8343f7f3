package valves_test

import (
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
)

// What else is done here comes after what waits, and not at all while that cannot be kept.
func TestNothingOvertakesWhatWaits(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(r *rig) error
	}{
		{"a cut", func(r *rig) error { return r.CutSeat(".020") }},
		{"an acceptance", func(r *rig) error { return r.Accept("bind", "agreed") }},
		{"sharing", func(r *rig) error { r.Share(); return nil }},
		{"a strike", func(r *rig) error { r.press(table.Delete); return nil }},
		{"an undo", func(r *rig) error { r.press(table.Undo); return nil }},
		{"a block", func(r *rig) error { r.on("3 in", "base"); r.Paste("1843\t.700"); return nil }},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, four())
			r.on("1 ex", "base")
			r.types("1850⏎")
			back := r.moveAway()
			r.on("1 in", "base")
			r.types("1842⏎")
			r.on("1 ex", "base")
			if err := c.do(r); err == nil {
				r.wantTold("1 in")
				r.wantTold("Save a copy under another name")
			} else if told := task.Told(err); told.Key != "valves.not-saved" {
				t.Errorf("refused with %v", err)
			}
			back()
			if got := r.again().Setup; len(got.Readings) != 1 || len(got.SeatWork)+len(got.Shared)+len(got.Deviations) > 0 {
				t.Fatalf("kept %+v", got)
			}
			r.on("1 ex", "base")
			r.must(c.do(r))
			if !r.NotSaved().Zero() {
				t.Error("it waits still")
			}
		})
	}
}

// A seat is cut after what was read before it: that is stale, and says so.
func TestCutAfterWhatWaited(t *testing.T) {
	r := newRig(t, four())
	back := r.moveAway()
	r.on("1 in", "base")
	r.types("1842⏎")
	back()
	r.on("1 in", "check")
	r.must(r.CutSeat(".020"))
	rec := r.again()
	if len(rec.Setup.Readings) != 1 || rec.Setup.Readings[0].Over.Seat != 0 || !r.bench.Evaluation().Valves[0].Base.Stale {
		t.Errorf("read over %+v", rec.Setup.Readings)
	}
}

// What waits while another leaf changes what is fitted was read over what was fitted then, with the shims that waited before it.
func TestWaitingKeepsWhatItWasReadOver(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Fit(r.ctx, record.SpringPiece{Tag: "A"}, record.SpringPiece{Tag: "B"}, record.Retainer{ID: "old"}, record.Retainer{ID: "new"}))
	at := r.bench.Record().Head.Positions()[0]
	r.must(r.bench.Fit(r.ctx, record.Valve{At: at, Spring: "A", Retainer: "old"}))
	r.Refresh()
	back := r.moveAway()
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "shims")
	r.types("30⏎")
	r.on("1 in", "check")
	r.types("1.812⏎")
	r.Begin(valves.SeatLoads, true)
	r.on("1 in", "seat-read")
	r.types("130⏎")
	back()
	// Another leaf, on the same bench.
	_, err := r.bench.CutSeat(r.ctx, at, ".020")
	r.must(err)
	r.must(r.bench.Fit(r.ctx, record.Valve{At: at, Spring: "B", Retainer: "new"}))
	r.Refresh()
	r.on("1 in", "check")
	r.press(table.Modify, table.Backspace)
	r.types("3⏎") // put right what was typed: it is the same reading
	if !r.Save() {
		t.Fatal(r.out.last())
	}
	rec := r.again()
	if len(rec.Setup.Readings) != 3 {
		t.Fatalf("kept %+v", rec.Setup.Readings)
	}
	for _, x := range rec.Setup.Readings {
		shims := map[bool]int{true: 0, false: 1}[x.Kind == record.BaseHeight]
		if x.Over == nil || x.Over.Seat != 0 || x.Over.Retainer != "old" || len(x.Over.Stack) != shims {
			t.Errorf("%s read over %+v", x.Kind, x.Over)
		}
		if x.Kind == record.SeatLoad && x.Piece != "A" {
			t.Errorf("load read on %q", x.Piece)
		}
	}
	is, err := r.desk.Book.Record(r.ctx, rec.Setup.ID)
	r.must(err)
	if len(is.Parts.Retainers) != 2 || len(r.bench.Record().Parts.Retainers) != 2 {
		t.Error("the retainer that it was read over is not in the record")
	}
}
