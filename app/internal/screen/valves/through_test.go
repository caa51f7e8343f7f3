package valves_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// shifted is a gauge that reads through a lid and shows so much at nought.
func shifted(t *testing.T, zero string) record.Gauge {
	amount, err := unit.Of(zero, unit.In)
	if err != nil {
		t.Fatal(err)
	}
	return record.Gauge{ID: "g", Name: "height gauge 1", Kind: record.HeightGauge, Setting: []record.Taken{
		{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed},
		{Part: record.ZeroOffset, Amount: amount, Zero: record.NotZeroed},
	}}
}

// A column takes of a gauge's setting what its readings go through: a height all of it, a lift what the
// gauge shows at nought. Its head says so.
func TestReadThroughByKind(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Keep(r.ctx, shifted(t, "0.001")))
	head := func() string { s := r.State(); return s.Columns[s.Cursor.Column].Title }
	r.on("1 in", "base")
	r.ReadThrough(r.Ways()[1])
	r.wantTold("base height from now on: read on height gauge 1 through lid .095, zero offset .001.")
	if got := head(); got != "base −.095 − .001" {
		t.Errorf("the column is called %q", got)
	}
	r.types("1.938⏎")
	r.wantCell("1 in", "base", "1.842")
	r.on("1 in", "lift")
	r.ReadThrough(r.Ways()[1])
	r.wantTold("lift on checking springs from now on: read on height gauge 1 through zero offset .001.")
	r.types(".613⏎")
	r.wantCell("1 in", "lift", ".612")

	// The setting changes, and what was read stays as it was read.
	r.must(r.bench.Keep(r.ctx, shifted(t, "-0.002")))
	r.wantCell("1 in", "lift", ".612")
	r.on("1 ex", "lift")
	r.ReadThrough(r.Ways()[1])
	if got := head(); got != "lift +.002" {
		t.Errorf("the column is called %q", got)
	}
	r.types(".610⏎")
	r.wantCell("1 ex", "lift", ".612")
	r.wantCell("1 in", "lift", ".612")
}

// A seat load is read at the installed height, so nothing of a setting comes off it.
func TestSeatLoadHasNothingToComeOff(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Keep(r.ctx, shifted(t, "0.001")))
	r.Begin(valves.SeatLoads, true)
	r.ReadThrough(r.Ways()[1])
	s := r.State()
	if got := s.Columns[s.Cursor.Column].Title; got != "seat read" {
		t.Errorf("the column is called %q", got)
	}
	r.types("128⏎")
	r.wantCell("1 in", "seat-read", "128.0")
}

// What was read at the spring itself stays so when it is copied into a column that takes something off.
func TestCopySaysThatNothingIsTakenOff(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Keep(r.ctx, shifted(t, "0.001")))
	r.on("1 in", "lift")
	r.types(".612⏎")
	r.on("1 in", "lift")
	if got := r.Copy(); got != "0.612" {
		t.Errorf("copied %q", got)
	}
	r.ReadThrough(r.Ways()[1])
	copied := r.Copy()
	if copied != "0.612 [at-the-spring]" {
		t.Errorf("copied %q", copied)
	}
	r.on("1 ex", "lift")
	r.Paste(copied)
	r.wantCell("1 ex", "lift", ".612")
}

// Shims keep what they were measured on: as the column was told, else as the ones before; and the gauge
// comes into the record with them.
func TestShimsMeasuredOn(t *testing.T) {
	r := newRig(t, four())
	gauge := record.Gauge{ID: "m", Name: "micrometer 3", Kind: record.Micrometer}
	r.must(r.bench.Keep(r.ctx, gauge))
	measured := func(valve int) (on []string) {
		for _, s := range r.bench.Record().ValveAt(r.bench.Record().Head.Positions()[valve]).Stack {
			on = append(on, s.Gauge)
		}
		return on
	}
	want := func(valve int, gauges ...string) {
		t.Helper()
		got := measured(valve)
		if len(got) != len(gauges) {
			t.Fatalf("valve %d has shims measured on %q, want %q", valve, got, gauges)
		}
		for i := range got {
			if got[i] != gauges[i] {
				t.Errorf("valve %d has shims measured on %q, want %q", valve, got, gauges)
			}
		}
	}
	positions := r.bench.Record().Head.Positions()
	label := func(valve int) string { return r.bench.Record().Head.Label(positions[valve]) }
	r.on(label(0), "shims")
	r.types("15⏎")
	want(0, "")
	r.on(label(0), "shims")
	r.ReadThrough(r.Ways()[1])
	r.wantTold("shims from now on: measured on micrometer 3.")
	if got := r.out.words.Line(r.AskWay()); got != "What are the shims of this column measured on from now on?" {
		t.Errorf("asked %q", got)
	}
	r.on(label(1), "shims")
	r.types("30+15⏎")
	want(1, "m", "m")
	want(0, "")
	// Another day: the column goes on with the gauge of the shims that are there.
	bench, err := r.desk.OpenBench(r.ctx, r.bench.Record().Setup.ID)
	r.must(err)
	r.bench, r.Presenter = bench, valves.New(bench, r.out)
	r.on(label(2), "shims")
	r.types("60⏎")
	want(2, "m")
	r.on(label(2), "shims")
	r.ReadThrough(r.Ways()[0])
	r.wantTold("shims from now on: nothing measured them, they are as sold.")
	r.on(label(3), "shims")
	r.types("60⏎")
	want(3, "")
}

// What was read last is what was read last, and not what stands last in the order of the head.
func TestThroughTheNewest(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Fit(context.Background(), record.Gauge{ID: "old", Name: "old"}, record.Gauge{ID: "new", Name: "new"}))
	take := func(label, gauge, when string) {
		t.Helper()
		r.on(label, "base")
		r.must(r.bench.Take(context.Background(), task.Cell{Entry: task.Entry{
			At: r.Selected(), Kind: record.BaseHeight, Text: "1842", Gauge: gauge, When: record.Stamp(when),
		}}, task.First))
		r.Refresh()
	}
	take("3 in", "old", "2026-03-02T10:00:00Z")
	take("1 in", "new", "2026-03-02T11:00:00Z")
	r.on("1 ex", "base")
	r.types("1850⏎")
	for _, x := range r.again().Setup.Readings {
		if x.Quantity.Typed == "1850" && x.Gauge != "new" {
			t.Errorf("read on %q", x.Gauge)
		}
	}
}
