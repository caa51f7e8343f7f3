package task_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
)

// Where the sheet cannot be handed over nobody has signed: the disk is full, the folder is gone, or not to be written in. The
// set-up stays open, no half file is left, and it can be signed afterwards.
func TestSheetThatCannotBeWritten(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "test", Clock: clock}
	s := task.Signature{Key: signerKey(t), Name: "J. Peverel", When: clock(), Paper: pdf.A4}
	small := t.TempDir()
	full := true
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=16k", "tmpfs", small).CombinedOutput(); err != nil {
		t.Logf("a small disk to fill cannot be mounted here: %s", bytes.TrimSpace(out))
		full = false
	} else {
		t.Cleanup(func() { exec.Command("umount", small).Run() })
	}
	folder := t.TempDir()
	for path, code := range map[string]say.Code{
		filepath.Join(small, "sheet.pdf"): say.Full, filepath.Join(folder, "gone", "sheet.pdf"): say.NotFound, folder: say.Invalid,
	} {
		if code == say.Full && !full {
			continue
		}
		if _, err := desk.Sign(ctx, "setup-hill-built", s, func(file []byte) error { return files.Write(path, file) }); say.CodeOf(err) != code {
			t.Errorf("%s: %v, want %s", path, err, code)
		}
		if rec, err := book.Record(ctx, "setup-hill-built"); err != nil || rec.Setup.State != record.Open {
			t.Errorf("%s: it is %v, %v", path, rec.Setup.State, err)
		}
		if left, err := os.ReadDir(small); err != nil || len(left) != 0 {
			t.Errorf("%d files are left, %v", len(left), err)
		}
	}
	if all, err := book.Signatures(ctx, "setup-hill-built"); err != nil || len(all) != 0 {
		t.Errorf("%v, %v", all, err)
	}
	path := filepath.Join(folder, "sheet.pdf")
	if _, err := desk.Sign(ctx, "setup-hill-built", s, func(file []byte) error { return files.Write(path, file) }); err != nil {
		t.Error(err)
	}
	// A second signature that cannot be handed over is none either.
	if _, err := desk.Countersign(ctx, "setup-launch-found", s, func([]byte) error { return say.Fail(say.Full, "files.full", path) }); say.CodeOf(err) != say.Full {
		t.Errorf("%v", err)
	}
	if all, err := book.Signatures(ctx, "setup-launch-found"); err != nil || len(all) != 1 {
		t.Errorf("%v, %v", all, err)
	}
}

// What stands in the way of a signature is told in the words of the window, with its decimal mark; a command tells it in English,
// whatever language its sheet is printed in.
func TestWhatIsNotAcceptedIsToldInOneLanguage(t *testing.T) {
	ctx := context.Background()
	defer say.Speak("en")
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "test", Clock: clock}
	bench, err := desk.OpenBench(ctx, "setup-ferry-built")
	if err != nil {
		t.Fatal(err)
	}
	key := signerKey(t)
	say.Speak("de")
	told := func(err error, by say.Printer) string {
		t.Helper()
		var e *say.Error
		if !errors.As(err, &e) || e.Line.Key != "sign.open" {
			t.Fatalf("%v", err)
		}
		return by.Line(e.Line)
	}
	got := told(bench.Sign(ctx, key, task.Signing{Paper: task.A4}), bench.Words())
	if want := "1 ex (Innenfeder ,061 ± ,0042, mind. ,060)"; !strings.Contains(got, want) {
		t.Errorf("the window says %q, want %q", got, want)
	}
	_, err = desk.Sign(ctx, "setup-ferry-built", task.Signature{Key: key, Name: "J. Peverel", When: clock(), Paper: pdf.A4, Language: "de"}, nil)
	if got, want := told(err, say.English()), "1 ex (inner coil .061 ± .0042, least .060)"; !strings.Contains(got, want) {
		t.Errorf("the command says %q, want %q", got, want)
	}
}
