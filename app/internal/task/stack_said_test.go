package task_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Shims under the outer coil say nothing of what lies under the locator: "none" there is said beside them and stays, is written
// in the history and in the table, and comes back with an undo.
func TestOuterShimsLeaveTheLocatorsUnsaid(t *testing.T) {
	ctx, b := context.Background(), emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	at := b.Record().Head.Positions()[0]
	want := func(when string, said bool, noShim string, shims int) {
		t.Helper()
		v := b.Record().ValveAt(at)
		if is := b.Evaluation().Valves[0].StackSaid; is != said || v.NoShim != noShim || len(v.Stack) != shims {
			t.Errorf("%s: said %v, %+v", when, is, v)
		}
	}
	take := func(under record.Under, text string) {
		t.Helper()
		if err := b.Take(ctx, task.Cell{Under: under, Entry: task.Entry{At: at, Text: text}}, task.First); err != nil {
			t.Fatal(err)
		}
	}
	undo := func() {
		t.Helper()
		if _, err := b.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	take(record.UnderOuter, "15")
	want("outer alone", false, "", 1)
	take(record.UnderLocator, "none")
	want("none beside it", true, "none", 1)
	undo()
	want("none undone", false, "", 1)
	if _, err := b.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	take(record.UnderOuter, "20")
	want("outer typed again", true, "none", 1)
	if got := b.Raw(task.Cell{Under: record.UnderLocator, Entry: task.Entry{At: at}}); got != "none" {
		t.Errorf("the cell reads %q", got)
	}
	if csv := string(exchange.WriteCSV(b.Record())); !strings.Contains(csv, "shims,,none,") || !strings.Contains(csv, "shims-outer,,") {
		t.Errorf("the table has\n%s", csv)
	}
	past, err := b.Past()(ctx)
	if err != nil || !strings.Contains(past.Text(), "none, .020 outer") {
		t.Errorf("%v, the history has\n%s", err, past.Text())
	}
	if err := b.StrikeLast(ctx, task.Cell{Under: record.UnderOuter, Entry: task.Entry{At: at}}, ""); err != nil {
		t.Fatal(err)
	}
	want("outer taken away", true, "none", 0)
	undo()
	want("that undone", true, "none", 1)
	if err := b.StrikeLast(ctx, task.Cell{Under: record.UnderLocator, Entry: task.Entry{At: at}}, ""); err != nil {
		t.Fatal(err)
	}
	want("none taken away", false, "", 1)
	undo()
	take(record.UnderLocator, "30")
	want("a shim after all", true, "", 2)
}
