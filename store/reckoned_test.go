package store

import (
	"context"
	"testing"

	"keeperbook/model/record"
)

// What was worked out of a head stays until something changes that it may have come from, and no longer.
func TestReckonedStaysUntilTheHeadIsStirred(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r := rich()
	keepRecord(t, b, r)
	run, check := aLife(r)
	keep(t, b, "life", "", record.Put("", run), record.Put("", check))
	want := Reckoned{Head: r.Head.ID, Setup: r.Setup.ID, By: "1", Body: `[{"key":"x"}]`}
	there := func(by string) (bool, int64) {
		t.Helper()
		all, upTo, err := b.Reckoned(ctx, by)
		if err != nil {
			t.Fatal(err)
		}
		return all[want.Head] == want, upTo
	}
	put := func() {
		t.Helper()
		_, upTo := there("1")
		if err := b.KeepReckoned(ctx, upTo, []Reckoned{want}); err != nil {
			t.Fatal(err)
		}
		if is, _ := there("1"); !is {
			t.Fatal("it was not kept")
		}
	}
	put()
	if is, _ := there("2"); is {
		t.Error("it is taken for what another program worked out")
	}
	valve := r.Setup.Valves[0]
	valve.Note = "another"
	head := r.Head
	head.Note = "another"
	gauge := r.Gauges[0]
	gauge.Note = "another"
	later := check
	later.Note = "another"
	for name, edit := range map[string]record.Edit{
		"reading": record.Put(r.Setup.ID, height(in1, 1700)), "valve": record.Put(r.Setup.ID, valve), "head": record.Put("", head),
		"gauge": record.Put("", gauge), "check": record.Put("", later), "run": record.Remove("", run), "set-up": record.Put("", bare(r.Setup)),
	} {
		put()
		if name == "set-up" {
			s := bare(r.Setup)
			s.Note = "another"
			edit = record.Put("", s)
		}
		keep(t, b, name, r.Setup.ID, edit)
		if is, _ := there("1"); is {
			t.Errorf("after another %s it is still there", name)
		}
		put()
		if name == "reading" || name == "valve" {
			if _, err := b.Undo(ctx, r.Setup.ID, "Tamsin", noon, "back "+name); err != nil {
				t.Fatal(err)
			}
			if is, _ := there("1"); is {
				t.Errorf("after %s was undone it is still there", name)
			}
			put()
		}
	}
	keep(t, b, "what nothing is worked out from", "", record.Put("", record.Trust{
		Root: "00000000000000000000000000000000000000000000000000000000000000aa", Name: "M. Ashlock", How: "on paper", By: "x", When: noon,
	}))
	if is, _ := there("1"); !is {
		t.Error("trust took it away")
	}
	// What was worked out of the book of before is not kept.
	_, upTo := there("1")
	keep(t, b, "meanwhile", "", record.Put("", gauge), record.Put("", record.Gauge{ID: "G-88", Name: "new"}))
	if err := b.KeepReckoned(ctx, upTo, []Reckoned{want}); err != nil {
		t.Fatal(err)
	}
	if is, _ := there("1"); is {
		t.Error("what was worked out before the gauge is kept")
	}
	// A row that rotted is passed over.
	put()
	if err := b.desk.exec(ctx, `UPDATE reckoned SET body = '[]'`); err != nil {
		t.Fatal(err)
	}
	if is, _, err := b.Reckoned(ctx, "1"); err != nil || len(is) != 0 {
		t.Errorf("%+v, %v", is, err)
	}
	sound(t, b)
}

// A part with a tag stands in the book with its places; one on a head that is not there is refused.
func TestTagged(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r := rich()
	keepRecord(t, b, r)
	part := record.Tagged{
		Of: record.RetainerItem, Tag: "R-03", Type: r.Parts.Retainers[0].ID, Note: "light",
		Stays: []record.Stay{{Day: "2026-02-01", Box: "box 4", By: "Tamsin"}, {Day: "2026-03-01", Head: r.Head.ID, At: &in1, By: "Tamsin"}},
	}
	keep(t, b, "tag", "", record.Put("", part))
	if all, err := b.Tagged(ctx); err != nil || len(all) != 1 || all[0].Tag != "R-03" || *all[0].Last().At != in1 {
		t.Errorf("%+v, %v", all, err)
	}
	sound(t, b)
	for token, wrong := range map[string]record.Tagged{
		"head":  {Of: record.LocksItem, Tag: "K-1", Type: r.Parts.Locks[0].ID, Stays: []record.Stay{{Day: "2026-02-01", Head: "H-9", At: &in1, By: "x"}}},
		"piece": {Of: record.PieceItem, Tag: "nowhere", Stays: []record.Stay{{Day: "2026-02-01", Box: "4", By: "x"}}},
	} {
		if _, err := b.Keep(ctx, record.Action{Token: token, By: "x", At: noon, Edits: []record.Edit{record.Put("", wrong)}}); err == nil {
			t.Errorf("%s is kept", token)
		}
	}
	// A retainer with a tag stays in the book.
	if _, err := b.Keep(ctx, record.Action{Token: "off", By: "x", At: noon, Edits: []record.Edit{record.Remove("", r.Parts.Retainers[0])}}); err == nil {
		t.Error("the type of a part with a tag was taken away")
	}
	keep(t, b, "day", "", record.Put("", record.UsualDay{Engine: r.Engine.ID, Name: "race day", Line: "6 passes", By: "Tamsin"}))
	if all, err := b.UsualDays(ctx, r.Engine.ID); err != nil || len(all) != 1 || all[0].Line != "6 passes" {
		t.Errorf("%+v, %v", all, err)
	}
	if all, err := b.UsualDays(ctx, "E-9"); err != nil || len(all) != 0 {
		t.Errorf("%+v, %v", all, err)
	}
	sound(t, b)
	fits, err := b.Fitted(ctx, r.Parts.Pieces[0].Tag)
	if err != nil || len(fits) == 0 || fits[0].Head != r.Head.ID || fits[0].Setup != r.Setup.ID {
		t.Errorf("%+v, %v", fits, err)
	}
}
