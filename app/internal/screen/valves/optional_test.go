package valves_test

import (
	"slices"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/model/record"
)

// Each optional column is begun by its name, and what is typed into it is a reading of its kind.
func TestBegin(t *testing.T) {
	for _, c := range []struct {
		o            valves.Optional
		name, column string
		kind         record.Kind
		text, shows  string
	}{
		{valves.Difference, "base height by difference", "taken-seat-depth", record.SeatDepth, "3.042", "3.042"},
		{valves.Gap, "retainer gap", "room", record.Room, ".900", ".900"},
		{valves.RunningLift, "lift on running springs", "taken-lift-running", record.LiftRunning, "592", ".592"},
		{valves.WholeBind, "bind of the whole spring", "bind-0", record.BindReading, "1.120", "1.120"},
		{valves.Lash, "lash", "lash-found", record.LashFound, ".012", ".012"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, four())
			r.on("3 in", "lift")
			if slices.Contains(columnKeys(r.State()), c.column) {
				t.Fatal("the column is there from the first")
			}
			r.press(table.Choose)
			if q := r.Asked(); q == nil || q.About != valves.AboutColumns {
				t.Fatalf("asked %+v", q)
			}
			r.answer(c.name)
			r.wantHere("1 in", c.column)
			r.types(c.text + "⏎")
			r.wantHere("1 ex", c.column)
			r.wantCell("1 in", c.column, c.shows)
			kept := r.again().Setup.Readings
			if len(kept) != 1 || kept[0].Kind != c.kind || kept[0].Coil != 0 || kept[0].Quantity.Typed != c.text {
				t.Errorf("kept %+v", kept)
			}
			// With a reading in it the column stays, here and wherever the set-up is opened next.
			if slices.Contains(r.Optionals(), c.o) {
				t.Error("a column with a reading can be put away")
			}
			r.Begin(c.o, false)
			r.wantCell("1 in", c.column, c.shows)
			again := r.open(r.bench.Record().Setup.ID)
			again.wantCell("1 in", c.column, c.shows)
		})
	}
}

// A column that was begun for nothing is put away, and the cursor finds its place.
func TestPutAway(t *testing.T) {
	r := newRig(t, four())
	r.press(table.Choose)
	r.answer("shims, outer coil only")
	r.wantHere("1 in", "outer")
	r.wantTold("Begun: shims, outer coil only.")
	r.press(table.Choose)
	r.answer("without shims, outer coil only")
	r.wantTold("Put away: shims, outer coil only.")
	if slices.Contains(columnKeys(r.State()), "outer") {
		t.Error("the column is still there")
	}
	r.press(table.Choose)
	r.answer("leave")
	if r.Asked() != nil {
		t.Error("still asked")
	}
}

// An entry that waits to be saved keeps its column.
func TestUnsavedKeepsItsColumn(t *testing.T) {
	r := newRig(t, four())
	r.Begin(valves.RunningLift, true)
	back := r.moveAway()
	r.types("592⏎")
	if slices.Contains(r.Optionals(), valves.RunningLift) {
		t.Error("the column of an unsaved entry can be put away")
	}
	r.wantCell("1 in", "taken-lift-running", "592")
	back()
	if !r.Save() {
		t.Fatal("not saved")
	}
	r.wantCell("1 in", "taken-lift-running", ".592")
}

// A lift on running springs proves no margin, and gives way to one on checking springs.
func TestRunningLiftCounts(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer")
	r.fill("1 in", "1842", "30", "", "1.114")
	r.Begin(valves.RunningLift, true)
	r.types("592⏎")
	r.wantCell("1 in", "lift", ".592e")
	r.wantCell("1 in", "verdict", "up to .633") // 1.812 − 1.114 − .060, less the .005 that the gauges leave open
	r.on("1 in", "lift")
	r.types("600⏎")
	r.wantCell("1 in", "lift", ".600")
	r.wantCell("1 in", "taken-lift-running", ".592")
	r.wantCell("1 in", "verdict", "within")
}

func TestNothingLeftToBegin(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer")
	r.must(r.bench.Keep(r.ctx,
		record.Package{Role: record.Intake, Nearest: "rocker", Lash: &record.Lash{Target: in(t, "0.010"), At: record.Hot}},
		record.Valve{At: record.Position{Cylinder: "1", Role: record.Intake, N: 1}, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderOuter}}}))
	r.Refresh()
	for _, c := range []struct {
		o            valves.Optional
		column, text string
	}{{valves.Difference, "taken-seat-depth", "3.042"}, {valves.RunningLift, "taken-lift-running", ".592"}, {valves.SeatLoads, "seat-read", "128.0"}, {valves.WholeBind, "bind-0", "1.120"}} {
		r.Begin(c.o, true)
		r.types(c.text + "⏎")
		r.wantCell("1 in", c.column, c.text)
	}
	r.press(table.Choose)
	r.wantTold("Every column that there is stands in the table.")
}
