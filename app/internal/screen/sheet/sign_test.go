package sheet_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/screen/sheet"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}

// A key is made, the set-up signed with it, and what leaves the book from then on is the signed sheet, whole.
func TestSign(t *testing.T) {
	ctx := context.Background()
	desk := demonstration(t)
	b := bench(t, desk, "setup-hill-built")
	p := sheet.NewPresenter(b)
	p.On(task.Letter)
	for _, c := range []struct {
		n   task.NewKey
		key string
	}{
		{task.NewKey{File: "porter.p12", Name: "", Secret: "grinding paste", Again: "grinding paste"}, "seal.no-name"},
		{task.NewKey{File: "", Name: "J. Peverel", Secret: "grinding paste", Again: "grinding paste"}, "sign.no-file"},
		{task.NewKey{File: "porter.p12", Name: "J. Peverel", Secret: "grinding paste", Again: "grinding wheel"}, "sign.secrets-differ"},
		{task.NewKey{File: "porter.p12", Name: "J. Peverel", Secret: "short", Again: "short"}, "seal.short-secret"},
	} {
		if _, err := p.MakeKey(c.n); keyOf(err) != c.key {
			t.Errorf("%+v: %v, want %s", c.n, err, c.key)
		}
	}
	told, err := p.MakeKey(task.NewKey{File: "porter.p12", Name: "J. Peverel", Secret: "grinding paste", Again: "grinding paste"})
	if err != nil {
		t.Fatal(err)
	}
	key := filepath.Join(filepath.Dir(desk.Path()), "porter.p12")
	if info, err := os.Stat(key); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 || told.Args[0] != key {
		t.Errorf("%v, %v, told %v", info, err, told)
	}
	if _, err := p.MakeKey(task.NewKey{File: "porter.p12", Name: "J. Peverel", Secret: "grinding paste", Again: "grinding paste"}); keyOf(err) != "sign.key-there" {
		t.Errorf("written over: %v", err)
	}
	if err := p.Sign(ctx, task.Signing{KeyFile: "porter.p12", Secret: "grinding wheel"}); keyOf(err) != "seal.secret" {
		t.Errorf("with another passphrase: %v", err)
	}
	if err := os.Chmod(key, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := p.Sign(ctx, task.Signing{KeyFile: "porter.p12", Secret: "grinding paste"}); runtime.GOOS != "windows" && keyOf(err) != "sign.key-open" {
		t.Errorf("with a key that others read: %v", err)
	}
	if err := os.Chmod(key, 0o600); err != nil {
		t.Fatal(err)
	}
	if p.Signed() != "" || b.Record().Setup.State != record.Open {
		t.Error("refused, and yet signed")
	}
	if err := p.Sign(ctx, task.Signing{KeyFile: "porter.p12", Secret: "grinding paste", Role: "head porter"}); err != nil {
		t.Fatal(err)
	}
	if p.Signed() != "J. Peverel on 2026-06-01" || b.Record().Setup.State != record.Closed {
		t.Errorf("signed by %q, it is %s", p.Signed(), b.Record().Setup.State)
	}
	var files [][]byte
	for _, paper := range sheet.Papers() {
		p.On(paper)
		path := filepath.Join(t.TempDir(), "signed.pdf")
		if _, err := p.Save(task.OutSheet, path, false); err != nil {
			t.Fatal(err)
		}
		file, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("the signed sheet depends on the paper in sight")
	}
	v, err := task.Verify(files[0])
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || v.Signatures[0].Reason != "head porter" {
		t.Errorf("%v, %+v", err, v)
	}
	// Nothing is kept for it any more, and a changed copy of the sheet is not taken in.
	note := b.Record().Setup.Valves[0]
	note.Note = "later"
	if err := b.Keep(ctx, note); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("kept: %v", err)
	}
	changed := bytes.Clone(files[0])
	changed[len(changed)/2] ^= 1
	if _, err := desk.TakeInSheet(ctx, changed); keyOf(err) != "sign.not-whole" && keyOf(err) != "seal.foreign" {
		t.Errorf("taken in: %v", err)
	}
	// A set-up that follows goes on from it.
	if _, err := desk.Follow(ctx, "setup-hill-built", record.AsBuilt); err != nil {
		t.Error(err)
	}
}

// What is not within, and what binds, is not signed as it is.
func TestNotSigned(t *testing.T) {
	ctx := context.Background()
	desk := demonstration(t)
	for setup, want := range map[string]string{"setup-ferry-built": "sign.open", "setup-ferry-found": "sign.open"} {
		p := sheet.NewPresenter(bench(t, desk, setup))
		file := setup + ".p12"
		if _, err := p.MakeKey(task.NewKey{File: file, Name: "J. Peverel", Secret: "grinding paste", Again: "grinding paste"}); err != nil {
			t.Fatal(err)
		}
		if err := p.Sign(ctx, task.Signing{KeyFile: file, Secret: "grinding paste"}); keyOf(err) != want {
			t.Errorf("%s: %v, want %s", setup, err, want)
		}
	}
	// What binds is signed only as it was found.
	b := bench(t, desk, "setup-ferry-found")
	setup := b.Record().Setup
	setup.Kind = record.AsBuilt
	if err := b.Keep(ctx, setup); err != nil {
		t.Fatal(err)
	}
	p := sheet.NewPresenter(b)
	if err := p.Sign(ctx, task.Signing{KeyFile: "setup-ferry-found.p12", Secret: "grinding paste"}); keyOf(err) != "sign.binds" {
		t.Errorf("%v", err)
	}
}

// By the keyboard: K makes a key, S signs, and nobody can read the passphrase off the screen.
func TestSignByKeyboard(t *testing.T) {
	_, b, h, v := shown(t, "setup-hill-built")
	v.Focus()
	types := func(text string) {
		for _, r := range text {
			h.win.Canvas().Focused().TypedRune(r)
		}
		time.Sleep(300 * time.Millisecond) // what ends at once was a gauge
	}
	types("k")
	types("J. Peverel")
	h.keys(t, fyne.KeyReturn, fyne.KeyReturn) // the file as it is proposed
	types("grinding paste")
	h.keys(t, fyne.KeyReturn)
	types("grinding paste")
	h.keys(t, fyne.KeyReturn)
	if h.asks() || !strings.Contains(h.told, "The key is in ") {
		t.Fatalf("told %q, failed %v", h.told, h.failed)
	}
	v.Focus()
	types("s")
	h.keys(t, fyne.KeyReturn)
	types("grinding paste")
	h.keys(t, fyne.KeyReturn, fyne.KeyReturn)
	types("head porter")
	h.keys(t, fyne.KeyReturn)
	if h.asks() || !strings.HasPrefix(h.told, "Signed.") || b.Record().Setup.State != record.Closed {
		t.Fatalf("told %q, failed %v, it is %s", h.told, h.failed, b.Record().Setup.State)
	}
	h.failed = nil
	v.Focus()
	types("s")
	if h.asks() || keyOf(errors.Unwrap(h.failed)) != "sign.already" && keyOf(h.failed) != "sign.already" {
		t.Errorf("asked again: %v", h.failed)
	}
}
