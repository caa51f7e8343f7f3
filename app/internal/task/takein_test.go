package task_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// A shop that has another spring and another gauge under the same names takes a signed sheet in: both are kept, it is told which,
// its own set-ups come to what they came to, and one that follows the sheet goes on with the parts of the sheet.
func TestFollowsTheirParts(t *testing.T) {
	ctx := context.Background()
	ours := demonstration(t)
	signed, err := ours.Sheet(ctx, "setup-launch-found")
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "other.keeperbook"), "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { theirs.Close() })
	inch := func(text string) *unit.Quantity {
		q, err := unit.Of(text, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		return &q
	}
	spring := record.Spring{ID: "spring-beehive-6", Name: "their own", Coils: []record.Coil{{Name: "outer", Bind: &record.Bind{
		Reading: *inch("1.300"), Source: record.Supplied,
	}}}}
	gauge := record.Gauge{ID: "gauge-height-1", Name: "their height gauge", Kind: record.HeightGauge}
	_, err = theirs.Book.Keep(ctx, record.Action{Token: "own", By: "test", At: "2026-06-01T12:00:00Z", Edits: []record.Edit{record.Put("", spring), record.Put("", gauge)}})
	if err != nil {
		t.Fatal(err)
	}
	taken, err := theirs.TakeInSheet(ctx, signed.File)
	if err != nil {
		t.Fatal(err)
	}
	told := ""
	for _, l := range taken.Lines() {
		told += say.English().Line(l) + "\n"
	}
	if len(taken.Named) < 2 || !strings.Contains(told, "Spring type spring-beehive-6 is otherwise here, so that of the sheet is kept beside it, as spring-beehive-6-") {
		t.Errorf("%+v\n%s", taken.Named, told)
	}
	follow := func(d *task.Desk) *task.Bench {
		t.Helper()
		id, err := d.Follow(ctx, "setup-launch-found", record.AsBuilt)
		if err != nil {
			t.Fatal(err)
		}
		b, err := d.OpenBench(ctx, id)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []task.Cell{
			{Entry: task.Entry{Kind: record.BaseHeight, Text: "1842"}}, {Entry: task.Entry{Kind: record.LiftChecking, Text: "604"}},
			{Entry: task.Entry{Text: ".030"}, Under: record.UnderLocator},
		} {
			c.At = record.Position{Cylinder: "1", Role: record.Intake, N: 1}
			if err := b.Take(ctx, c, task.First); err != nil {
				t.Fatal(err)
			}
		}
		return b
	}
	home, away := follow(&task.Desk{Book: ours, Who: "test", Clock: clock}), follow(theirs)
	a, b := home.Evaluation().Valves[0], away.Evaluation().Valves[0]
	if !a.Margin.Known || a.Margin.Value != b.Margin.Value || a.Bind.Value != b.Bind.Value {
		t.Errorf("the margin is %v with their parts and %v here", a.Margin, b.Margin)
	}
	if a.Bind.Value == inch("1.300").Length() {
		t.Error("the bind is that of the other spring")
	}
	if all, err := theirs.Book.Parts(ctx); err != nil || len(all.Springs) != 2 {
		t.Errorf("%d types of springs, %v", len(all.Springs), err)
	}
}
