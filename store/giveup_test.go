package store

import (
	"context"
	"errors"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// until returns a context that is given up once work says a sentence for the nth time, and tells whether it did, and ended then.
func until(t *testing.T, key string, n int) (ctx context.Context, said func() bool) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	t.Cleanup(stop)
	times := 0
	return say.Telling(ctx, func(l say.Line) {
		if l.Key != key {
			return
		}
		if times++; times == n {
			stop()
		}
	}), func() bool { return times == n }
}

// givenUp has to fail because it was given up, and midway.
func givenUp(t *testing.T, what string, said func() bool, err error) {
	t.Helper()
	if !errors.Is(err, context.Canceled) || !said() {
		t.Errorf("%s: %v, begun %v", what, err, said())
	}
}

// actions are two of a table of two heads.
func actions(second record.Noun) []record.Action {
	return []record.Action{
		{Token: "one", Setup: "S-1", By: "Tamsin", At: noon, Edits: []record.Edit{
			record.Put("S-1", height(in1, 1700)), record.Put("S-1", height(in1, 1701)),
		}},
		{Token: "two", Setup: "S-1", By: "Tamsin", At: noon, Edits: []record.Edit{record.Put("S-1", height(in1, 1702)), record.Put("S-1", second)}},
	}
}

// Several actions are kept together or not at all, each with its own number.
func TestKeepAll(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	before, err := b.Seq(ctx)
	if err != nil {
		t.Fatal(err)
	}
	same := func(what string) {
		t.Helper()
		if seq, err := b.Seq(ctx); err != nil || seq != before {
			t.Errorf("%s: %d events, want %d, %v", what, seq, before, err)
		}
	}
	_, err = b.KeepAll(ctx, actions(record.Run{Head: "nowhere"})...)
	if err == nil {
		t.Error("what cannot be was kept")
	}
	same("the second one cannot be")
	for n := 1; n <= 4; n++ {
		gone, said := until(t, "work.written", n)
		_, err := b.KeepAll(gone, actions(height(in1, 1703))...)
		givenUp(t, "two actions", said, err)
		same("given up")
	}
	all, err := b.KeepAll(ctx, actions(height(in1, 1703))...)
	if err != nil || len(all) != 2 || all[0].Action == 0 || all[1].Action != all[0].Action+1 {
		t.Errorf("%+v, %v", all, err)
	}
	again, err := b.KeepAll(ctx, actions(height(in1, 1703))...)
	if err != nil || !again[0].Repeated || !again[1].Repeated {
		t.Errorf("again: %+v, %v", again, err)
	}
	sound(t, b)
}

// A record that is given up while it comes in has left nothing, and comes in afterwards.
func TestTakeInGivenUp(t *testing.T) {
	b := newBook(t)
	for _, n := range []int{1, 7} {
		gone, said := until(t, "work.written", n)
		_, err := b.TakeIn(gone, rich(), record.Action{Token: "in", By: "Tamsin", At: noon})
		givenUp(t, "a record", said, err)
		if heads, err := b.Heads(context.Background(), Filter{}); err != nil || len(heads) != 0 {
			t.Errorf("%d heads, %v", len(heads), err)
		}
	}
	sound(t, b)
	keepRecord(t, b, rich())
	sound(t, b)
}

// A book that is salvaged and given up at any of its steps leaves no file, and none of a name of no use.
func TestSalvageGivenUp(t *testing.T) {
	book, copied, _, _ := busy(t, 20)
	folder := t.TempDir()
	untouched(t, folder, func() {
		for _, at := range []struct {
			key string
			n   int
		}{{"work.pages", 1}, {"work.pages", 9}, {"work.beginning", 1}, {"work.written", 1}, {"work.written", 20}, {"work.finishing", 1}} {
			for _, base := range []string{"", copied} {
				gone, said := until(t, at.key, at.n)
				_, err := Salvage(gone, book, base, filepath.Join(folder, "saved.keeperbook"), options())
				givenUp(t, at.key, said, err)
			}
		}
	})
	if _, err := Salvage(context.Background(), book, copied, filepath.Join(folder, "saved.keeperbook"), options()); err != nil {
		t.Error(err)
	}
}

// A look through a book that is given up has no report.
func TestExamineGivenUp(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	for n := 1; n <= 9; n++ {
		gone, said := until(t, "work.look", n)
		_, err := b.Examine(gone)
		givenUp(t, "a look", said, err)
	}
}
