package store

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// planted is the program's own steps and one more.
func planted(t *testing.T, second string) migrations {
	t.Helper()
	first, err := fs.ReadFile(embedded, "migrations/0001_book.sql")
	if err != nil {
		t.Fatal(err)
	}
	return migrations{fstest.MapFS{
		"0001_book.sql": {Data: first},
		"0002_more.sql": {Data: []byte(second)},
	}}
}

func TestMigrationCopiesFirst(t *testing.T) {
	ctx := context.Background()
	path := closedBook(t)
	backups := t.TempDir()
	o := Options{Clock: clock, Backups: backups}
	copied := filepath.Join(backups, "bench before 2 20260302T120000Z.keeperbook")
	writeFile(t, copied, "an older copy of that very name")

	b, err := open(ctx, path, o, planted(t, `ALTER TABLE owner ADD COLUMN since TEXT; CREATE TABLE more (x TEXT) STRICT;`))
	if err != nil {
		t.Fatal(err)
	}
	end := b.chainEnd(t)
	if version, err := b.desk.version(ctx); err != nil || version != 2 {
		t.Errorf("version %d, %v", version, err)
	}
	keep(t, b, "after", "S-1", record.Put("S-1", height(in1, 1700)))
	var was what
	var body string
	if _, err := one(ctx, b.desk, `SELECT what, after FROM event WHERE seq = ?`, []any{end.seq}, &was, &body); err != nil {
		t.Fatal(err)
	}
	if was != checkpoint || !strings.HasPrefix(body, `{"schema":2,"state":"`) {
		t.Errorf("the last event is %s %s", was, body)
	}
	for _, look := range []func(context.Context, source) (*say.Line, say.Line, error){lookAtHistory, lookAtState} {
		if err := b.read(ctx, func(src source) error {
			trouble, _, err := look(ctx, src)
			if trouble != nil {
				t.Error(say.English().Line(*trouble))
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	// The copy is the book as it was, under a name of its own.
	if text, err := os.ReadFile(copied); err != nil || !strings.HasPrefix(string(text), "an older copy") {
		t.Errorf("%q %v", text, err)
	}
	readsEverything(t, strings.TrimSuffix(copied, ".keeperbook")+" 2.keeperbook")
	// The program of before refuses the book of now.
	untouched(t, filepath.Dir(path), func() {
		_, err = Open(ctx, path, options())
		refused(t, err, say.Newer, "form is 2")
	})
	if _, err := openReadOnly(ctx, path, 3); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("a book that must be migrated first: %v", err)
	}
}

func TestFailedMigrationLeavesTheBook(t *testing.T) {
	ctx := context.Background()
	for name, second := range map[string]string{
		"bad SQL after good":   `CREATE TABLE more (x TEXT) STRICT; INSERT INTO more VALUES ('x'); ALTER TABLE nothing ADD COLUMN x TEXT;`,
		"rows without parents": `PRAGMA defer_foreign_keys = 1; INSERT INTO engine VALUES ('E-9', 'O-9', 'x', 1, '{"id":"E-9","owner":"O-9","name":"x"}');`,
		"rewritten history":    `UPDATE event SET by = 'x';`,
	} {
		t.Run(name, func(t *testing.T) {
			path := closedBook(t)
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			_, err = open(ctx, path, options(), planted(t, second))
			if say.CodeOf(err) != say.Internal || !strings.Contains(err.Error(), "form 2, and is as it was before") {
				t.Fatal(err)
			}
			after, err := os.ReadFile(path)
			if err != nil || !bytes.Equal(before, after) {
				t.Errorf("the book is not as it was, %v", err)
			}
			readsEverything(t, path)
			readsEverything(t, filepath.Join(filepath.Dir(path), "bench before 2 20260302T120000Z.keeperbook"))
		})
	}
}

// Without a copy there is no migration.
func TestNoMigrationWithoutACopy(t *testing.T) {
	path := closedBook(t)
	o := Options{Clock: clock, Backups: filepath.Join(t.TempDir(), "no such folder")}
	untouched(t, filepath.Dir(path), func() {
		_, err := open(context.Background(), path, o, planted(t, `CREATE TABLE more (x TEXT) STRICT`))
		refused(t, err, say.NotFound)
	})
}

func TestAMissingStepIsNoticed(t *testing.T) {
	m := migrations{fstest.MapFS{"0001_a.sql": {}, "0003_b.sql": {}}}
	if _, err := m.list(); err == nil {
		t.Error("step 2 is missing")
	}
}
