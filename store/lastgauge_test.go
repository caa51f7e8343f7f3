package store

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
)

// What was read last on a gauge is the gauge of its kind, in whichever set-up; struck readings and such
// without a gauge say nothing.
func TestLastGauges(t *testing.T) {
	ctx, b := context.Background(), newBook(t)
	want := func(what string, want map[record.Kind]string) {
		t.Helper()
		got, err := b.LastGauges(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", what, d)
		}
	}
	want("an empty book", map[record.Kind]string{})
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	on := func(n int, gauge string, when record.Stamp) record.Reading {
		r := height(at, 1842)
		r.N, r.Gauge, r.When = n, gauge, when
		return r
	}
	first, second := small("1"), small("2")
	second.Setup.Begun = "2026-03-03T12:00:00Z"
	for _, id := range []string{"G-1", "G-2", "G-3", "G-4"} {
		keep(t, b, id, "", record.Put("", record.Gauge{ID: id, Name: id, Kind: record.HeightGauge}))
	}
	first.Setup.Readings = []record.Reading{on(1, "G-1", "2026-03-02T12:00:00Z"), on(2, "G-2", "2026-03-04T12:00:00Z")}
	bind := on(1, "G-4", noon)
	bind.Kind = record.BindReading
	struck := on(2, "G-3", "2026-03-05T12:00:00Z")
	struck.Struck = &record.Strike{Reason: "slipped", By: "Tamsin", When: noon}
	second.Setup.Readings = []record.Reading{on(1, "G-1", "2026-03-03T12:00:00Z"), struck, on(3, "", "2026-03-06T12:00:00Z"), bind}
	keepRecord(t, b, first)
	keepRecord(t, b, second)
	want("two set-ups", map[record.Kind]string{record.BaseHeight: "G-2", record.BindReading: "G-4"})
}
