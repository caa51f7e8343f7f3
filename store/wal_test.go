package store

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// crashedBook returns a book as it lies there after the power went: it holds a record, and what was kept of it last stands in
// the log alone.
func crashedBook(t testing.TB, id string, entries int) string {
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
// of another book SQLite cannot tell from the book's own and would read it in: such a book is refused, and not a byte of it changes.
func TestLogsThatAreNotTheBooks(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct {
		name string
		do   func(path string)
		// entries that are there afterwards; −1 where the book must be refused
		entries int
	}{
		{"the log itself", func(string) {}, 5},
		{"the log is missing", func(path string) { remove(t, path+"-wal") }, 0},
		{"the log is empty", func(path string) { writeFile(t, path+"-wal", "") }, 0},
		{"something else in its place", func(path string) { writeFile(t, path+"-wal", "valve, height\n1 in, 1.842\n") }, 0},
		{"the log was cut in its last page", func(path string) { cut(t, path+"-wal", 100) }, 4},
		{"the log of another book", func(path string) { copyTo(t, crashedBook(t, "2", 3)+"-wal", path+"-wal") }, -1},
		{"the log of another book of more entries", func(path string) { copyTo(t, crashedBook(t, "2", 60)+"-wal", path+"-wal") }, -1},
		{"an older copy in the place of the book", func(path string) { putOlderBack(t, path) }, -1},
		{"an index of a log that is gone", func(path string) {
			remove(t, path+"-wal")
			writeFile(t, path+"-shm", string(make([]byte, 32768)))
		}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := crashedBook(t, "1", 5)
			c.do(path)
			if c.entries < 0 {
				refusedForItsLog(t, path)
				return
			}
			b, err := Open(ctx, path, options())
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			sound(t, b)
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

// putOlderBack leaves the book as it was at first beside a log that was begun some entries later.
func putOlderBack(t *testing.T, path string) {
	t.Helper()
	ctx := context.Background()
	older, log := filepath.Join(t.TempDir(), "older"), filepath.Join(t.TempDir(), "log")
	copyTo(t, path, older)
	b, err := Open(ctx, path, options())
	if err != nil {
		t.Fatal(err)
	}
	for n := 6; n <= 120; n++ {
		if _, err := b.Keep(ctx, entry(n)); err != nil {
			t.Fatal(err)
		}
		if n == 100 { // so many that what the log tells afterwards lies on other pages
			if err := b.desk.exec(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`); err != nil {
				t.Fatal(err)
			}
		}
	}
	copyTo(t, path+"-wal", log)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	copyTo(t, older, path)
	copyTo(t, log, path+"-wal")
}

// refusedForItsLog opens a book in each way, salvages it, and looks that it stays as it is, log and all.
func refusedForItsLog(t *testing.T, path string) {
	t.Helper()
	ctx := context.Background()
	before := [2]string{contents(t, path), contents(t, path+"-wal")}
	_, writing := Open(ctx, path, options())
	_, reading := OpenReadOnly(ctx, path, options())
	_, examined := Examine(ctx, path)
	for _, err := range []error{writing, reading, examined} {
		if say.CodeOf(err) != say.Conflict || !strings.Contains(err.Error(), path+"-wal") {
			t.Errorf("opened beside a log of another book: %v", err)
		}
	}
	if after := [2]string{contents(t, path), contents(t, path+"-wal")}; after != before {
		t.Error("the book or the log changed")
	}
	remove(t, path+"-wal")
	b, err := Open(ctx, path, options())
	if err != nil {
		t.Fatal("not opened without the log either: ", err)
	}
	sound(t, b)
	b.Close()
}

func contents(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
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

// A book that is damaged beside its log is left as it is, so that it can be salvaged from both.
func TestDamageBesideALog(t *testing.T) {
	path := crashedBook(t, "1", 2)
	whole := []byte(contents(t, path))
	for at := 4096; at < len(whole); at += 4096 {
		whole[at] ^= 0xff // what kind of page it is
	}
	writeFile(t, path, string(whole))
	log := contents(t, path+"-wal")
	if _, err := Open(context.Background(), path, options()); say.CodeOf(err) != say.Damaged {
		t.Fatalf("opened: %v", err)
	}
	if contents(t, path) != string(whole) || contents(t, path+"-wal") != log {
		t.Error("the damaged book or its log changed")
	}
}
