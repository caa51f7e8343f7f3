//go:build cgo && linux

package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/pdf/seal"
)

// secret opens the key of the signer.
const secret = "grinding paste"

// signs makes a signer, draws the signature by hand, signs the sheet of the lesson's head with it and lets the sheet out.
func (w *way) signs(t *testing.T) {
	w.key("ctrl+p")
	w.click(515, 120) // to the page of signers
	w.key("Tab", "Return")
	for _, text := range []string{"J. Peverel", "head porter", "", secret, secret} {
		w.slowly(text)
	}
	signers := filepath.Join(w.home, "config", "keeperbook", "signers")
	w.until("the signer's files", func() bool { return count(signers, "*.p12") == 1 && count(signers, "*.json") == 1 })
	w.eye.calm()
	w.on("Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab")
	w.key("Return")
	w.draw([][2]int{{560, 660}, {600, 610}, {640, 670}, {690, 600}, {760, 668}, {900, 640}}, [][2]int{{540, 680}, {1000, 672}})
	w.key("Tab", "Return") // keeps it
	w.slowly(secret)
	w.until("the drawn signature", func() bool { return count(signers, "*.hand") == 1 })
	w.eye.calm()

	w.click(82, 50) // back to the head
	w.key("alt+6", "s")
	w.key("Return")
	w.slowly(secret)
	w.until("a closed set-up", func() bool {
		worked := first(w.book)
		return worked != nil && worked.Record.Setup.State == record.Closed
	})
	w.eye.calm()
	w.key("p", "Return")
	w.until("the signed sheet", func() bool { _, err := os.Stat(w.sheet()); return err == nil })
	v, err := task.Verify(context.Background(), w.signed(t))
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || v.Signatures[0].Name != "J. Peverel" || v.Signatures[0].Reason != "head porter" {
		t.Fatalf("%v, %+v", err, v)
	}
	if r, err := seal.Check(w.signed(t)); err != nil || r.Language != "es" {
		t.Errorf("the sheet says that it is in %q, %v", r.Language, err)
	}
	if ink := v.Signatures[0].Ink; len(ink) != 2 || len(ink[0]) < 4 || len(ink[1]) < 2 {
		t.Errorf("drawn was %v", ink)
	}
}

// sheet is where the signed sheet goes.
func (w *way) sheet() string { return filepath.Join(filepath.Dir(w.book), "FIRST-as-built.pdf") }

// signed is the signed sheet.
func (w *way) signed(t *testing.T) []byte {
	t.Helper()
	file, err := os.ReadFile(w.sheet())
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// slowly types a text and Enter as somebody does who thinks in between: what ends at once was a gauge.
func (w *way) slowly(text string) {
	w.t.Helper()
	if text != "" {
		w.puts(text)
	}
	time.Sleep(150 * time.Millisecond)
	w.key("Return")
}

// hands has another shop's book look at the sheet, take the record in and trust whoever signed.
func (w *way) hands(t *testing.T) {
	ctx := context.Background()
	w.other = filepath.Join(w.home, "other.keeperbook")
	theirs, err := task.MakeBook(ctx, w.other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := theirs.Close(); err != nil {
		t.Fatal(err)
	}
	w.key("ctrl+o", "ctrl+a")
	w.put(w.other)
	w.check(w.sheet())
	w.key("Tab", "Return") // takes it in
	w.until("the record in the other book", func() bool { return first(w.other) != nil })
	w.eye.calm()
	w.key("Return") // trusts whoever signed
	w.slowly("")    // the name that is proposed
	w.slowly("by telephone")
	w.until("the trust in the other book", func() bool { return trusts(w.other) == 1 })
	w.eye.calm()

	file := w.signed(t)
	theirs, err = task.ReadBook(ctx, w.other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer theirs.Close()
	kept, err := theirs.Verify(ctx, file)
	if err != nil || kept.Book.Here != task.HereSame || kept.Book.Trusts[0] == nil || kept.Book.Trusts[0].How != "by telephone" {
		t.Errorf("%v, %+v", err, kept.Book)
	}
	same, err := task.Sheet(ctx, theirs.Book, task.FirstSetup, task.A4)
	if err != nil || !bytes.Equal(same, file) {
		t.Errorf("the other book has another sheet: %v", err)
	}
}
