package store

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

func takeIn(b *Book, token string, r *record.Record) (Taken, error) {
	return b.TakeIn(context.Background(), r, record.Action{Token: token, By: "Tamsin", At: noon})
}

func TestTakeIn(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	taken, err := takeIn(b, "first", rich())
	if err != nil || taken.Already || taken.Changes != len(editsOf(rich())) || taken.Shop != (record.Shop{}) {
		t.Fatalf("%+v %v", taken, err)
	}
	got, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(rich(), got); d != "" {
		t.Fatal(d)
	}
	if again, err := takeIn(b, "first", rich()); err != nil || !again.Repeated || again.Action != taken.Action {
		t.Errorf("%+v %v", again, err)
	}
	before := b.chainEnd(t)
	if again, err := takeIn(b, "second", rich()); err != nil || !again.Already || again.Changes != 0 {
		t.Errorf("%+v %v", again, err)
	}
	if b.chainEnd(t) != before {
		t.Error("something was written")
	}
	if step, err := b.PeekUndo(ctx, "S-1"); step != nil || err != nil {
		t.Errorf("taking in is not undone, yet %+v %v", step, err)
	}
	keep(t, b, "on", "S-1", record.Put("S-1", height(in1, 1700)))
	sound(t, b)
}

// A closed set-up of another shop comes in whole, beside what is here; this book's shop stays.
func TestTakeInFromAnotherShop(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("2"))
	r := rich()
	r.Shop = record.Shop{Name: "Moorside Engines"}
	r.Setup.State = record.Closed
	taken, err := takeIn(b, "first", r)
	if err != nil || taken.Shop != r.Shop {
		t.Fatalf("%+v %v", taken, err)
	}
	got, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	r.Shop = small("2").Shop
	if d := cmp.Diff(r, got); d != "" {
		t.Error(d)
	}
	sound(t, b)
}

func TestTakeInWritesNothingOver(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	spring := rich().Parts.Springs[0]
	spring.Note = "red dab"
	keep(t, b, "spring", "", record.Put("", spring))
	keep(t, b, "height", "S-1", record.Put("S-1", height(in1, 1700)), record.Remove("S-1", rich().Setup.Checks[0]))
	more := record.SeatWork{ID: "W-9", At: in1, Depth: inch(".001", 254_000), By: "Tamsin", When: noon}
	keep(t, b, "work", "S-1", record.Put("S-1", more))

	before := b.chainEnd(t)
	_, err := takeIn(b, "again", rich())
	refused(t, err, say.Conflict, "spring SP-1", "reading 1/in/1/0/base/1", "check C-1", "seat-work W-9", "Nothing was taken in")
	if b.chainEnd(t) != before {
		t.Error("something was written")
	}
	orphan := small("3")
	orphan.Owner = nil
	_, err = takeIn(b, "orphan", orphan)
	refused(t, err, say.NotFound, "no owner O-3")
}
