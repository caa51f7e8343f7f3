package files_test

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
)

func TestWrite(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "sheet.pdf")
	for _, text := range []string{"first", "second, which replaces it"} {
		if err := files.Write(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != text {
			t.Fatalf("read %q, %v", got, err)
		}
	}
	alone(t, folder, "sheet.pdf")
	if err := files.Write(filepath.Join(folder, "no", "such.pdf"), nil); say.CodeOf(err) != say.NotFound {
		t.Errorf("a folder that is not there: %v", err)
	}
	if err := os.Mkdir(filepath.Join(folder, "taken"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, key := range map[string]string{
		"taken": "files.folder", filepath.Join("sheet.pdf", "x.pdf"): "files.below-file", strings.Repeat("x", 300) + ".pdf": "files.long-name",
	} {
		if err := files.Write(filepath.Join(folder, name), []byte("x")); keyOf(err) != key {
			t.Errorf("%s: %v, want %s", name, err, key)
		}
	}
	alone(t, folder, "sheet.pdf", "taken")
}

// On a full disk nothing is left behind and what was there before stays.
func TestWriteDiskFull(t *testing.T) {
	folder := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", folder).CombinedOutput(); err != nil {
		t.Skipf("a small disk to fill cannot be mounted here: %s", bytes.TrimSpace(out))
	}
	t.Cleanup(func() { exec.Command("umount", folder).Run() })
	path := filepath.Join(folder, "sheet.pdf")
	if err := files.Write(path, []byte("what was there before")); err != nil {
		t.Fatal(err)
	}
	err := files.Write(path, bytes.Repeat([]byte("x"), 1<<20))
	var e *say.Error
	if !errors.As(err, &e) || e.Code != say.Full || e.Line.Key != "files.full" {
		t.Errorf("said %v", err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "what was there before" {
		t.Errorf("read %q, %v", got, err)
	}
	alone(t, folder, "sheet.pdf")
}

// alone checks that nothing but these names lies in a folder.
func alone(t *testing.T, folder string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(names) {
		t.Errorf("the folder holds %v", entries)
	}
}

func TestRead(t *testing.T) {
	folder := t.TempDir()
	big := filepath.Join(folder, "noise.csv")
	if err := os.WriteFile(big, bytes.Repeat([]byte("\x00\xff;,\n"), 2<<20), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path string
		key  string
	}{
		{big, "files.large"}, // 10 MB of noise
		{folder, "files.folder"},
		{filepath.Join(folder, "no.csv"), "files.not-there"},
	} {
		_, err := files.Read(c.path, 2<<20)
		var e *say.Error
		if !errors.As(err, &e) || e.Line.Key != c.key {
			t.Errorf("%s: %v, want %s", c.path, err, c.key)
		}
	}
}

// A book is not written over: not the one that is worked with, whatever is in it, nor another one, whatever it is called.
func TestSpare(t *testing.T) {
	folder := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	torn, other, sheet, short := put("torn.pdf", "no header any more"), put("other.pdf", "SQLite format 3\x00 and more"), put("sheet.pdf", "%PDF-1.7 of a sheet"), put("short.pdf", "")
	linked := filepath.Join(folder, "linked.pdf")
	if err := os.Link(torn, linked); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ path, key string }{
		{torn, "files.book"}, {linked, "files.book"}, {other, "files.book"}, {folder, "files.folder"}, {sheet, ""}, {short, ""}, {filepath.Join(folder, "new.pdf"), ""},
	} {
		if got := keyOf(files.Spare(c.path, torn)); got != c.key {
			t.Errorf("%s: %q, want %q", c.path, got, c.key)
		}
	}
	if _, err := files.Place("bench.KEEPERBOOK", sheet, true); keyOf(err) != "files.book" {
		t.Errorf("a sheet may be named as a book: %v", err)
	}
}

// keyOf is the key of the sentence that an error is.
func keyOf(err error) string {
	var e *say.Error
	if errors.As(err, &e) {
		return e.Line.Key
	}
	return ""
}
