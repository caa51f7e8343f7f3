package store

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// aLife is one run and one check of the head of a record, every field of them filled.
func aLife(r *record.Record) (record.Run, record.SpringCheck) {
	run := record.Run{
		ID: "RUN-1", Head: r.Head.ID, Day: "2026-03-01", Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", Speed: "140",
		From: "3000", To: "8000", Rate: "600", Top: "7800", Starts: 2, Burnouts: 6, OverRevs: 1, Oil: "210", OilDegree: "F",
		Where: "Marram Flats", Note: "head wind", By: "Tamsin",
	}
	check := record.SpringCheck{
		ID: "CHECK-1", Head: r.Head.ID, Setup: r.Setup.ID, Day: "2026-03-02", Service: record.CheckedRunIn, Gauge: "G-2",
		Valves: []record.CheckedValve{{
			At: in1, Load: lbf("230", 1_023_091), Height: q("1.830", 464_820_000), Free: q("2.4", 609_600_000), Found: q(".014", 3_556_000),
			Left: q(".012", 3_048_000), Seen: []record.Sight{record.Polish}, Note: "light",
		}},
		NextDay: "2026-04-02", NextIn: "40", NextOf: record.Passes, By: "Tamsin", Note: "warm",
	}
	return run, check
}

func TestLife(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r := rich()
	keepRecord(t, b, r)
	run, check := aLife(r)
	earlier := run
	earlier.ID, earlier.Day = "RUN-2", "2026-02-27"
	keep(t, b, "life", "", record.Put("", run), record.Put("", earlier), record.Put("", check))
	want := Life{[]record.Run{earlier, run}, []record.SpringCheck{check}}
	if got, err := b.Life(ctx, r.Head.ID); err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("%s, %v", cmp.Diff(want, got), err)
	}
	if got, err := b.LivedHeads(ctx); err != nil || cmp.Diff([]string{r.Head.ID}, got) != "" {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err := b.Life(ctx, "H-9"); err != nil || len(got.Runs)+len(got.Checks) > 0 {
		t.Errorf("%+v, %v", got, err)
	}
	sound(t, b)
	keep(t, b, "not that day", "", record.Remove("", earlier))
	if got, err := b.Life(ctx, r.Head.ID); err != nil || len(got.Runs) != 1 {
		t.Errorf("%+v, %v", got, err)
	}
	sound(t, b)

	t.Run("refused", func(t *testing.T) {
		nowhere, elsewhere := run, check
		nowhere.ID, nowhere.Head = "RUN-3", "H-9"
		elsewhere.ID, elsewhere.Setup = "CHECK-2", "S-9"
		for _, n := range []record.Noun{nowhere, elsewhere} {
			_, err := b.Keep(ctx, record.Action{Token: n.Key(), By: "x", At: noon, Edits: []record.Edit{record.Put("", n)}})
			if say.CodeOf(err) != say.NotFound {
				t.Errorf("%s: %v", n.Key(), err)
			}
		}
		// A tester that a check names stays.
		gauge := record.Gauge{ID: "G-77", Name: "old tester", Kind: record.SpringTester}
		named := check
		named.ID, named.Gauge = "CHECK-3", gauge.ID
		keep(t, b, "named", "", record.Put("", gauge), record.Put("", named))
		_, err := b.Keep(ctx, record.Action{Token: "off", By: "x", At: noon, Edits: []record.Edit{record.Remove("", gauge)}})
		if say.CodeOf(err) != say.Conflict {
			t.Errorf("%v", err)
		}
	})
}
