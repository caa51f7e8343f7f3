package task_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What was read on a type of spring says nothing of another one: put on, the valve goes by that one's own bind height. By hand: base
// 1.842 less shims .030 less lift .700 leaves 1.112, which is .052 over a bind of 1.060 and .088 under one of 1.200.
func TestAnotherSpringIsAnotherReading(t *testing.T) {
	ctx := context.Background()
	b := emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	at := b.Record().Head.Positions()[0]
	bind := func(text string) *record.Bind {
		q, err := unit.Of(text, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		return &record.Bind{Reading: q, Source: record.Measured}
	}
	least, err := unit.Of("0.050", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	soft := record.Spring{ID: "a", Name: "soft", Coils: []record.Coil{{Name: "outer"}}}
	stiff := record.Spring{ID: "b", Name: "stiff", Coils: []record.Coil{{Name: "outer", Bind: bind("1.200")}}}
	pack := record.Package{Role: at.Role, Spring: "a", Seal: "s1", Least: []record.Least{{Coil: 1, Margin: least}}}
	if err := b.Fit(ctx, soft, stiff, record.Seal{ID: "s1", Name: "low", Sits: record.OnGuide}, record.Seal{ID: "s2", Name: "tall", Sits: record.OnGuide}, pack); err != nil {
		t.Fatal(err)
	}
	for _, c := range []task.Cell{
		{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: "1842"}},
		{Entry: task.Entry{At: at, Text: ".030"}, Under: record.UnderLocator},
		{Entry: task.Entry{At: at, Kind: record.LiftChecking, Text: ".700"}},
		{Entry: task.Entry{At: at, Kind: record.BindReading, Coil: 1, Text: "1060"}},
		{Entry: task.Entry{At: at, Kind: record.SeatLoad, Text: "130"}},
		{Entry: task.Entry{At: at, Kind: record.SealGap, Text: ".800"}},
	} {
		if err := b.Take(ctx, c, task.First); err != nil {
			t.Fatal(err)
		}
	}
	valve := func() evaluate.Valve { return b.Evaluation().Valves[0] }
	says := func(margin string, loads, gaps int) {
		t.Helper()
		v := valve()
		if got := unit.Inches.LengthIn(v.Margin.Value); !v.Margin.Known || got != margin {
			t.Errorf("margin %s, want %s", got, margin)
		}
		for kind, want := range map[record.Kind]int{record.SeatLoad: loads, record.SealGap: gaps} {
			if got := len(b.Counting(task.Cell{Entry: task.Entry{At: at, Kind: kind}})); got != want {
				t.Errorf("%d readings of %s count, want %d", got, kind, want)
			}
		}
	}
	says(".052", 1, 1)
	if err := b.PutOn(ctx, at.Role, "b"); err != nil {
		t.Fatal(err)
	}
	says("−.088", 0, 1)
	if n := b.Notice(); n.Key != "task.outdated" || n.Args[0] != 2 {
		t.Errorf("it says %+v", n)
	}
	if _, err := b.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	says(".052", 1, 1)
	pack.Seal = "s2"
	given, stop := context.WithCancel(ctx)
	stop()
	if err := b.Keep(given, pack); err == nil || !b.Notice().Zero() {
		t.Errorf("what was not kept says something: %v", err)
	}
	if err := b.Keep(ctx, pack); err != nil {
		t.Fatal(err)
	}
	says(".052", 1, 0)
	if n := b.Notice(); n.Key != "task.outdated" || n.Args[0] != 1 {
		t.Errorf("it says %+v", n)
	}
	if err := b.Keep(ctx, pack); err != nil {
		t.Fatal(err)
	}
	if n := b.Notice(); !n.Zero() {
		t.Errorf("nothing changed, and it says %+v", n)
	}
}
