package store

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"keeperbook/model/say"
)

// crashedBook returns a book as it lies there after the power went: what was kept last stands in its log alone.
func crashedBook(t *testing.T, entries int) string {
	t.Helper()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.desk.exec(context.Background(), `PRAGMA wal_checkpoint(TRUNCATE)`); err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= entries; n++ {
		if _, err := b.Keep(context.Background(), entry(n)); err != nil {
			t.Fatal(err)
		}
	}
	crashed := filepath.Join(t.TempDir(), "crashed.keeperbook")
	copyTo(t, b.Path(), crashed)
	copyTo(t, b.Path()+"-wal", crashed+"-wal")
	return crashed
}

// What lies beside a book in place of its log: whatever SQLite makes of it, the book opens whole, at some end that its
// history had, or is refused in a sentence. Nothing is opened as another book.
func TestLogsThatAreNotTheBooks(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct {
		name string
		do   func(path string)
		// entries that are there afterwards; −1 where it may as well be refused or found unsound
		entries int
	}{
		{"the log itself", func(string) {}, 5},
		{"the log is missing", func(path string) { remove(t, path+"-wal") }, 0},
		{"the log is empty", func(path string) { writeFile(t, path+"-wal", "") }, 0},
		{"something else in its place", func(path string) { writeFile(t, path+"-wal", "valve, height\n1 in, 1.842\n") }, 0},
		{"the log was cut in its last page", func(path string) { cut(t, path+"-wal", 100) }, 4},
		{"the log of another book", func(path string) { copyTo(t, crashedBook(t, 3)+"-wal", path+"-wal") }, -1},
		{"an index of a log that is gone", func(path string) {
			remove(t, path+"-wal")
			writeFile(t, path+"-shm", string(make([]byte, 32768)))
		}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := crashedBook(t, 5)
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
			r, err := b.Record(ctx, "S-1")
			if err != nil {
				t.Fatal(err)
			}
			n := len(r.Setup.Readings)
			if c.entries >= 0 && n != c.entries {
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
