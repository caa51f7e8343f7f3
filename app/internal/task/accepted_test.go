package task_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
)

// Whoever accepts a finding, on whichever leaf, accepts it as it is.
func TestAcceptedAsItIs(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: one goroutine does one thing after the other")
	}
	ctx := context.Background()
	d := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	b, err := d.OpenBench(ctx, "setup-ferry-found")
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range b.Evaluation().Valves {
		for _, f := range v.Findings {
			if f.Note || f.Verdict >= evaluate.WithinUpTo || f.Accepted != nil {
				continue
			}
			drafted, err := b.Accepting(v.At, f.Key, "agreed")
			if err != nil {
				t.Fatal(err)
			}
			if err := b.Accept(ctx, v.At, f.Key, "agreed"); err != nil {
				t.Fatal(err)
			}
			rec, err := d.Book.Record(ctx, b.Record().Setup.ID)
			if err != nil {
				t.Fatal(err)
			}
			line := b.Words().Line(f.Line)
			for _, kept := range append(rec.Setup.Deviations, drafted) {
				if kept.At == v.At && kept.Finding == f.Key && (len(kept.Found) == 0 || kept.Found[0].Line != line || b.Outgrown(kept)) {
					t.Errorf("%s: accepted %+v", line, kept.Found)
				}
			}
			if b.Outgrown(drafted) {
				t.Error("what was just accepted is worse already")
			}
			drafted.Found[0].Verdict, drafted.Found[0].Line, drafted.Found[0].Beyond = "within", "", nil
			if !b.Outgrown(drafted) {
				t.Error("what was accepted when it was within is still so")
			}
			return
		}
	}
	t.Fatal("nothing to accept")
}
