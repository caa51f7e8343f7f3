package store

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// study is three readings on the tester of rich, one of them struck.
func study() record.Study {
	s := record.Study{ID: "ST-1", Gauge: "G-1", What: "bind of bag 7", Unit: unit.In, Note: "by turns"}
	for _, read := range []string{"1.155", "1.156", "1.16"} {
		s.Readings = append(s.Readings, record.StudyReading{By: "Tamsin", Quantity: inch(read, 0), When: noon})
	}
	s.Readings[2].Struck = &record.Strike{Reason: "slipped", By: "Tamsin", When: noon}
	return s
}

// A study belongs to the book: it is kept and changed like a part, it is in no record, and it stays
// while a gauge names it.
func TestStudies(t *testing.T) {
	ctx, b := context.Background(), newBook(t)
	keepRecord(t, b, rich())
	first, other := study(), record.Study{ID: "ST-0", Gauge: "G-2", What: "3 in", Unit: unit.Mm}
	keep(t, b, "studies", "", record.Put("", first), record.Put("", other))
	first.Note = "by turns, in the evening"
	keep(t, b, "note", "", record.Put("", first))
	got, err := b.Studies(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]record.Study{other, first}, got); d != "" {
		t.Error(d)
	}
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(rich(), r); d != "" {
		t.Error(d)
	}
	sound(t, b)

	_, err = b.Keep(ctx, record.Action{Token: "away", At: noon, Edits: []record.Edit{record.Remove("", first)}})
	refused(t, err, say.Conflict, "ST-1 is used")
	_, err = b.Keep(ctx, record.Action{Token: "gauge", At: noon, Edits: []record.Edit{record.Remove("", record.Gauge{ID: "G-2"})}})
	refused(t, err, say.Conflict, "G-2 is used")
	keep(t, b, "other away", "", record.Remove("", other))
	if got, err := b.Studies(ctx); err != nil || len(got) != 1 {
		t.Errorf("%v %v", got, err)
	}
}

// A gauge that is taken in names a study of the shop that made it; nothing is missing in this book.
func TestAStudyElsewhereIsNotMissed(t *testing.T) {
	b := newBook(t)
	if _, err := takeIn(b, "first", rich()); err != nil {
		t.Fatal(err)
	}
	sound(t, b)
}

// Taking away what only measured something would leave the record without it.
func TestAGaugeThatMeasuredAPartStays(t *testing.T) {
	ctx, b := context.Background(), newBook(t)
	keepRecord(t, b, rich())
	for _, id := range []string{"G-0", "G-4", "G-5", "G-6", "G-7", "G-8"} {
		i := slices.IndexFunc(rich().Gauges, func(g record.Gauge) bool { return g.ID == id })
		_, err := b.Keep(ctx, record.Action{Token: "away " + id, At: noon, Edits: []record.Edit{record.Remove("", rich().Gauges[i])}})
		refused(t, err, say.Conflict, id+" is used")
	}
}

// What cannot be is refused before anything is written, with its edit or with the record it came in.
func TestWhatCannotBeIsNotKept(t *testing.T) {
	ctx, b := context.Background(), newBook(t)
	keepRecord(t, b, small("2"))
	before := b.chainEnd(t)
	gauge := rich().Gauges[1]
	gauge.Calibration.Date, gauge.Calibration.Due = "2026-03-04", ""
	_, err := b.Keep(ctx, record.Action{Token: "gauge", At: noon, Edits: []record.Edit{record.Put("", rich().Shop), record.Put("", gauge)}})
	refused(t, err, say.Invalid, "The calibration of tester is dated 2026-03-04, which is still to come")
	r := rich()
	r.Gauges[1].Calibration = gauge.Calibration
	_, err = takeIn(b, "record", r)
	refused(t, err, say.Invalid, "The calibration of tester is dated 2026-03-04")
	if b.chainEnd(t) != before {
		t.Error("something was written")
	}
	// Two days later it can be.
	if _, err := b.Keep(ctx, record.Action{Token: "later", At: "2026-03-04T08:00:00Z", Edits: []record.Edit{record.Put("", gauge)}}); err != nil {
		t.Error(err)
	}
}

// Two shops calibrated the same gauge at different times: which is right is not for the book to say.
func TestTakeInRefusesAnotherCalibration(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	r := rich()
	r.Gauges[1].Calibration.Date = "2025-10-07"
	_, err := takeIn(b, "again", r)
	refused(t, err, say.Conflict, "gauge G-1", "Nothing was taken in")
}
