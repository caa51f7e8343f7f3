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

// A load on the head is at the installed height, or at one of its own, off which the setting of what read
// that height is taken.
func TestReadInLoads(t *testing.T) {
	ctx := context.Background()
	d, b := gauged(t)
	if err := b.Keep(ctx, record.Gauge{ID: "t", Name: "tester 8", Kind: record.SpringTester}); err != nil {
		t.Fatal(err)
	}
	tag := b.Record().Head.Tag
	table := strings.ReplaceAll(`head,valve,what,reading,correction,gauge,height,height-gauge
T,1 in,seat-load,131,,tester 8,,
T,1 in,seat-load,133*,as-set,tester 8,,
T,1 ex,seat-load,583 N,as-set,tester 8,1.896,height gauge 1
T,1 ex,seat-load,131*,at-the-spring,tester 8,1800,
`, "\nT,", "\n"+tag+",")
	if kept, err := d.ReadIn(ctx, []byte(table)); err != nil || kept != 4 {
		t.Fatalf("kept %d: %v", kept, err)
	}
	rec, err := d.Book.Record(ctx, b.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	in, ex := rec.ReadingsAt(in1, record.SeatLoad, 0), rec.ReadingsAt(ex1, record.SeatLoad, 0)
	for _, r := range in {
		if r.Quantity.Unit != unit.Lbf || r.Height != nil || r.Correction != nil || r.Gauge != "t" || r.Over == nil {
			t.Errorf("%+v", r)
		}
	}
	if r := ex[0]; r.Quantity.Read != "583" || r.Height.Read != "1.896" || r.Heights != "h" || task.CorrectionWord(r.Correction) != "lid 0.095 in + zero 0.001 in" {
		t.Errorf("%+v", r)
	}
	if r := ex[1]; r.Height.Read != "1.800" || r.Heights != "" || r.Correction != nil {
		t.Errorf("%+v", r)
	}
	for what, row := range map[string]string{
		"a height that is none":   "1 in,seat-load,131*,at-the-spring,tester 8,.095,",
		"a gauge that nobody has": "1 in,seat-load,131*,at-the-spring,tester 8,1.800,caliper",
		"a load in inches":        "1 in,seat-load,1.842 in*,,tester 8,,",
		"as set, and on no gauge": "1 in,seat-load,131*,as-set,,1.800,",
	} {
		if _, err := d.ReadIn(ctx, []byte("head,valve,what,reading,correction,gauge,height,height-gauge\n"+tag+","+row+"\n")); err == nil {
			t.Errorf("%s was taken", what)
		}
	}
}

// Parts of which not everything can be so are not kept, from a page of the shop or from a set-up.
func TestPartsThatCannotBe(t *testing.T) {
	ctx := context.Background()
	d, b := gauged(t)
	q := func(read string, u unit.Symbol) unit.Quantity {
		v, err := unit.Of(read, u)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	s := record.Spring{ID: "s", Name: "nest 12", Coils: []record.Coil{{
		Name: "outer", Bind: &record.Bind{Reading: q("1.210", unit.In), Source: record.Measured},
		Loads: &record.Loads{Source: record.Measured, Points: []record.Point{
			{Height: q("1.800", unit.In), Load: q("131", unit.Lbf)}, {Height: q("1.200", unit.In), Load: q("382", unit.Lbf)},
		}},
	}}}
	if err := b.Keep(ctx, s); err == nil || !strings.Contains(err.Error(), "nest 12, outer coil: The spring is said to be solid") {
		t.Errorf("kept with a set-up: %v", err)
	}
	c, err := d.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Keep(ctx, s); err == nil {
		t.Error("kept with the shop's springs")
	}
	s.Coils[0].Bind.Reading = q("1.200", unit.In)
	if err := c.Keep(ctx, s); err != nil {
		t.Error(err)
	}
}
