package store

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Once erased, no byte of a contact is left in any file of the book, not even of one that was
// replaced before; and it never was in the history.
func TestErasedContactIsGone(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	old := record.Contact{Owner: "O-1", Phone: "555-0147-old", Mail: "orla@old.example", Place: "1 Quay, Saltmere"}
	now := record.Contact{Owner: "O-1", Phone: "555-0199-now", Mail: "orla@now.example", Place: "2 Quay, Saltmere"}
	for _, c := range []record.Contact{old, now} {
		if err := b.SetContact(ctx, c); err != nil {
			t.Fatal(err)
		}
		if got, err := b.Contact(ctx, "O-1"); err != nil || got != c {
			t.Fatal(got, err)
		}
	}
	if !inFiles(t, b, now.Phone) {
		t.Fatal("the number is in no file, so that its absence would say nothing")
	}
	if err := b.EraseContact(ctx, "O-1"); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{old.Phone, old.Mail, old.Place, now.Phone, now.Mail, now.Place} {
		if inFiles(t, b, text) {
			t.Errorf("%s is still in a file", text)
		}
	}
	if got, err := b.Contact(ctx, "O-1"); err != nil || got != (record.Contact{Owner: "O-1"}) {
		t.Error(got, err)
	}
	refused(t, b.SetContact(ctx, record.Contact{Owner: "O-9"}), say.NotFound, "no owner O-9")
	sound(t, b)
}

func inFiles(t *testing.T, b *Book, text string) bool {
	t.Helper()
	for _, file := range folderState(t, filepath.Dir(b.Path())) {
		if bytes.Contains(file, []byte(text)) {
			return true
		}
	}
	return false
}

// A reader that holds on to an earlier moment keeps the log, and that is said.
func TestEraseWhileAReaderHoldsOn(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	if err := b.SetContact(ctx, record.Contact{Owner: "O-1", Phone: "555-0147"}); err != nil {
		t.Fatal(err)
	}
	if err := b.desk.exec(ctx, `PRAGMA busy_timeout = 50`); err != nil {
		t.Fatal(err)
	}
	err := b.read(ctx, func(src source) error {
		if _, err := schemaVersion(ctx, src); err != nil {
			return err
		}
		var n int
		if _, err := one(ctx, src, `SELECT count(*) FROM contact`, nil, &n); err != nil || n != 1 {
			t.Fatal(n, err)
		}
		refused(t, b.EraseContact(ctx, "O-1"), say.Busy, "erase it again")
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.EraseContact(ctx, "O-1"); err != nil {
		t.Fatal(err)
	}
	if inFiles(t, b, "555-0147") {
		t.Error("the number is still in a file")
	}
}
