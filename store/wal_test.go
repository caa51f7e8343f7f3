package store

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// crashedBook returns a book as it lies there after the power went: it holds a record, and what was kept of it last stands in
// the log alone.
func crashedBook(t *testing.T, id string, entries int) string {
	t.Helper()
	b := newBook(t)
	keepRecord(t, b, small(id))
	if err := b.desk.exec(context.Background(), `PRAGMA wal_checkpoint(TRUNCATE)`); err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= entries; n++ {
		a := entry(n)
		a.Setup, a.Edits = "S-"+id, []record.Edit{record.Put("S-"+id, a.Edits[0].Noun)}
		if _, err := b.Keep(context.Background(), a); err != nil {
			t.Fatal(err)
		}
	}
	crashed := filepath.Join(t.TempDir(), "crashed.keeperbook")
	copyTo(t, b.Path(), crashed)
	copyTo(t, b.Path()+"-wal", crashed+"-wal")
	return crashed
}

// What lies beside a book in place of its log. Where that is no log, the book opens whole, at an end that its history had. The log
// of another book SQLite cannot tell from the book's own: it is read in, and only looking through the book finds that.
func TestLogsThatAreNotTheBooks(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct {
		name string
		do   func(path string)
		// entries that are there afterwards; −1 where the book must be refused, or found unsound by examine
		entries int
	}{
		{"the log itself", func(string) {}, 5},
		{"the log is missing", func(path string) { remove(t, path+"-wal") }, 0},
		{"the log is empty", func(path string) { writeFile(t, path+"-wal", "") }, 0},
		{"something else in its place", func(path string) { writeFile(t, path+"-wal", "valve, height\n1 in, 1.842\n") }, 0},
		{"the log was cut in its last page", func(path string) { cut(t, path+"-wal", 100) }, 4},
		{"the log of another book", func(path string) { copyTo(t, crashedBook(t, "2", 3)+"-wal", path+"-wal") }, -1},
		{"an index of a log that is gone", func(path string) {
			remove(t, path+"-wal")
			writeFile(t, path+"-shm", string(make([]byte, 32768)))
		}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := crashedBook(t, "1", 5)
			c.do(path)
			b, err := Open(ctx, path, options())
			if err != nil {
				if c.entries >= 0 || say.CodeOf(err) == say.Internal {
					t.Fatal(err)
				}
				return
			}
			defer b.Close()
			report, err := b.Examine(ctx)
			if err != nil {
				t.Fatal(err)
			}
			if !report.Sound() {
				if c.entries >= 0 {
					t.Fatalf("%+v", report)
				}
				return
			}
			if c.entries < 0 {
				t.Fatal("a book with pages of another in it passes for sound")
			}
			r, err := b.Record(ctx, "S-1")
			if err != nil {
				t.Fatal(err)
			}
			n := len(r.Setup.Readings)
			if n != c.entries {
				t.Errorf("%d entries, want %d", n, c.entries)
			}
			for i, one := range r.Setup.Readings {
				if one.N != i+1 || thousandths(one) != 1800+(i+1)%100 {
					t.Errorf("entry %d is %+v", i+1, one)
				}
			}
			// The book goes on from there.
			if _, err := b.Keep(ctx, entry(n+1)); err != nil {
				t.Fatal(err)
			}
			sound(t, b)
		})
	}
}

func remove(t *testing.T, path string) {
	t.Helper()
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
}

// cut takes bytes off the end of a file.
func cut(t *testing.T, path string, bytes int64) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, info.Size()-bytes); err != nil {
		t.Fatal(err)
	}
}
