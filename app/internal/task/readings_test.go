package task_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// gauged is a new head in a book that has a height gauge with a lid and a zero offset, and a micrometer.
func gauged(t *testing.T) (*task.Desk, *task.Bench) {
	t.Helper()
	ctx, d := context.Background(), emptyDesk(t)
	setup, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	amount := func(read string) unit.Quantity {
		q, err := unit.Of(read, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	height := record.Gauge{ID: "h", Name: "height gauge 1", Kind: record.HeightGauge, Setting: []record.Taken{
		{Part: record.Lid, Amount: amount("0.095"), Zero: record.NotZeroed, Gauge: "m"},
		{Part: record.ZeroOffset, Amount: amount("0.001"), Zero: record.NotZeroed},
	}}
	if err := b.Keep(ctx, record.Gauge{ID: "m", Name: "micrometer 3", Kind: record.Micrometer}, height); err != nil {
		t.Fatal(err)
	}
	return d, b
}

// A table names gauges: of readings, whose setting as-set gives by what was read, and of shims.
func TestReadInGauges(t *testing.T) {
	ctx := context.Background()
	d, b := gauged(t)
	tag := b.Record().Head.Tag
	table := strings.ReplaceAll(`head,valve,what,coil,reading,correction,gauge
T,1 in,base,,1.938,as-set,height gauge 1
T,1 in,lift,,.613,as-set,height gauge 1
T,1 ex,base,,1.843,zero .001 + lid .000,h
T,1 ex,lift,,.613,,height gauge 1
T,1 in,shims,,.030+.015,,micrometer 3
T,1 in,shims-outer,,.010,,
T,1 ex,shims,,none,,micrometer 3
`, "\nT,", "\n"+tag+",")
	kept, err := d.ReadIn(ctx, []byte(table))
	if err != nil || kept != 7 {
		t.Fatalf("kept %d: %v", kept, err)
	}
	rec, err := d.Book.Record(ctx, b.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		at    record.Position
		kind  record.Kind
		parts string
	}{
		{in1, record.BaseHeight, "lid 0.095 in + zero 0.001 in"}, {in1, record.LiftChecking, "zero 0.001 in"},
		{ex1, record.BaseHeight, "zero 0.001 in + lid 0.000 in"}, {ex1, record.LiftChecking, "at-the-spring"},
	} {
		r := rec.ReadingsAt(want.at, want.kind, 0)
		if len(r) != 1 || r[0].Gauge != "h" || task.CorrectionWord(r[0].Correction) != want.parts {
			t.Errorf("%s of %v: %+v, want %s", want.kind, want.at, r, want.parts)
		}
	}
	// What was taken as set keeps what measured the lid; what the table says nothing of has nothing.
	if c := rec.ReadingsAt(in1, record.BaseHeight, 0)[0].Correction; c[0].Gauge != "m" || c[1].Gauge != "" {
		t.Errorf("the lid was measured on %q", c[0].Gauge)
	}
	stack := rec.ValveAt(in1).Stack
	if len(stack) != 3 || stack[0].Gauge != "m" || stack[1].Gauge != "m" || stack[2].Gauge != "" {
		t.Errorf("the shims are %+v", stack)
	}
	if v := rec.ValveAt(ex1); v.NoShim != "none" || len(v.Stack) != 0 {
		t.Errorf("no shims are %+v", v)
	}
	if len(rec.Gauges) != 2 {
		t.Errorf("the record names %d gauges", len(rec.Gauges))
	}
}

// Shims on a gauge that the book does not have are refused like a reading is, and nothing goes in.
func TestReadInShimsOnNoGauge(t *testing.T) {
	ctx := context.Background()
	d, b := gauged(t)
	tag := b.Record().Head.Tag
	_, err := d.ReadIn(ctx, []byte("head,valve,what,reading,gauge\n"+tag+",1 in,shims,.030,micrometer 3\n"+tag+",1 ex,shims,.030,micrometer 4\n"))
	if err == nil || !strings.Contains(err.Error(), "line 3: Gauge micrometer 4 is not in this book") {
		t.Errorf("%v", err)
	}
	rec, err := d.Book.Record(ctx, b.Record().Setup.ID)
	if err != nil || len(rec.Setup.Valves) != 0 {
		t.Errorf("%+v was kept, %v", rec.Setup.Valves, err)
	}
}
