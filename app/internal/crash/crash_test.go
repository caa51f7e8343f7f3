package crash_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/crash"
)

var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

// fault runs what breaks and returns how it was caught.
func fault(run func()) (f crash.Fault) {
	defer func() { f = crash.Of(recover(), debug.Stack()) }()
	run()
	return f
}

// A note says where the program broke, and nothing that anybody typed; each is told of once.
func TestNote(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "notes")
	if got := crash.Untold(folder); got != "" {
		t.Errorf("before there is one: %q", got)
	}
	owner := "Quillane, 0555 014 217"
	path, err := crash.Write(folder, "1.2.3", noon, fault(func() { panic(errors.New("no head of " + owner)) }))
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"keeperbook 1.2.3", "2026-06-01T12:00:00Z", "*errors.errorString", "crash_test.TestNote"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%q stands not in\n%s", want, text)
		}
	}
	if strings.Contains(string(text), "Quillane") || strings.Contains(string(text), "0555") {
		t.Errorf("whose head it was stands in\n%s", text)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
	first := crash.Untold(folder)
	if first == "" || crash.Untold(folder) != "" {
		t.Errorf("told of %q, and again", first)
	}
	var none []int
	path, err = crash.Write(folder, "1.2.3", noon.Add(time.Hour), fault(func() { _ = none[len(owner)] }))
	if err != nil {
		t.Fatal(err)
	}
	if text, err := os.ReadFile(path); err != nil || !strings.Contains(string(text), "index out of range [22]") {
		t.Errorf("%s, %v", text, err)
	}
	if crash.Untold(folder) == "" {
		t.Error("nobody is told of the second")
	}
	for i := range 30 {
		if _, err := crash.Write(folder, "1.2.3", noon.Add(time.Duration(2+i)*time.Hour), crash.Fault{What: "x"}); err != nil {
			t.Fatal(err)
		}
	}
	if all, err := os.ReadDir(folder); err != nil || len(all) > 21 {
		t.Errorf("%d notes, %v", len(all), err)
	}
}
