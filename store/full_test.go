package store

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// A full disk is played by a limit to the pages of the file: SQLite answers both with the same code.
func TestFullDisk(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	var pages, page int
	if _, err := one(ctx, b.desk, `PRAGMA page_count`, nil, &pages); err != nil {
		t.Fatal(err)
	}
	if _, err := one(ctx, b.desk, fmt.Sprintf(`PRAGMA max_page_count = %d`, pages), nil, &page); err != nil {
		t.Fatal(err)
	}
	note := func(n int) record.Action {
		a := entry(n)
		r := a.Edits[0].Noun.(record.Reading)
		r.Note = strings.Repeat("long ", 4000)
		// Two edits: the first may still fit.
		a.Edits = append([]record.Edit{record.Put("", record.Owner{ID: "O-x", Name: "half"})}, record.Put("S-1", r))
		return a
	}
	before := b.chainEnd(t)
	for range 3 {
		_, err := b.Keep(ctx, note(1))
		refused(t, err, say.Full, b.Path(), "no room left", "Make room")
		if after := b.chainEnd(t); after != before {
			t.Fatal("half of it was kept")
		}
	}
	if r, err := b.Record(ctx, "S-1"); err != nil || len(r.Setup.Readings) != 0 {
		t.Fatalf("reading goes on: %v", err)
	}
	if _, err := one(ctx, b.desk, `PRAGMA max_page_count = 1000000`, nil, &page); err != nil {
		t.Fatal(err)
	}
	k, err := b.Keep(ctx, note(1))
	if err != nil || k.Repeated || k.Changes != 2 {
		t.Fatalf("%+v, %v", k, err)
	}
	sound(t, b)
}

// A copy that fails leaves nothing, and a copy is refused over anything.
func TestCopy(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	folder := t.TempDir()
	taken := filepath.Join(folder, "taken")
	writeFile(t, taken, "something else")
	untouched(t, folder, func() {
		refused(t, b.Copy(ctx, taken), say.Conflict, taken, "nothing is written over it")
	})
	refused(t, b.Copy(ctx, filepath.Join(folder, "no", "such", "folder")), say.NotFound)

	gone, stop := context.WithCancel(ctx)
	stop()
	untouched(t, folder, func() {
		if err := b.Copy(gone, filepath.Join(folder, "never")); err == nil {
			t.Error("a copy that was given up came about")
		}
	})

	good := filepath.Join(folder, "good.keeperbook")
	if err := b.Copy(ctx, good); err != nil {
		t.Fatal(err)
	}
	report, err := Examine(ctx, good)
	if err != nil || !report.Sound() {
		t.Errorf("%+v %v", report, err)
	}
	if files := folderState(t, folder); len(files) != 2 {
		t.Errorf("%d files", len(files))
	}
	keep(t, b, "after", "S-1", record.Put("S-1", height(in1, 1700))) // the connection writes on
	readsEverything(t, good)
}
