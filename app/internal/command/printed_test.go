package command

import (
	"bytes"
	"context"
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
)

// full takes some bytes and then no more, as a disk does.
type full struct{ room int }

func (f *full) Write(data []byte) (int, error) {
	n := min(f.room, len(data))
	if f.room -= n; n < len(data) {
		return n, &fs.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
	}
	return n, nil
}

// What cannot be printed is said in one sentence, and the command has failed, whatever it prints.
func TestUnprinted(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: one goroutine does one thing after the other")
	}
	ctx := context.Background()
	clock := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	book, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), "other.keeperbook")
	var paths bytes.Buffer
	if code := Run(ctx, Env{Out: &paths, Err: &paths, Clock: clock, Who: "test"}, []string{"demo", other}); code != OK {
		t.Fatal(paths.String())
	}
	desk, err := task.OpenBook(ctx, book, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	_, err = desk.BackUp(ctx, 0)
	if shut := desk.Book.Close(); err != nil || shut != nil {
		t.Fatal(err, shut)
	}
	sheet := strings.TrimSuffix(other, ".keeperbook") + "-DR-1L-as-found.pdf"
	for _, args := range [][]string{
		{"help"}, {"heads", book}, {"heads", book, "-json"}, {"life", book, "KV-4"}, {"plan", book, "QH-3", "-for", "shims"}, {"due", book}, {"copies", book},
		{"part", book, "DR-01"}, {"verify", sheet}, {"verify", sheet, "-json"}, {"export", book, "QH-3"}, {"springs", book}, {"history", book, "KV-4"}, {"examine", book},
		{"demo", filepath.Join(t.TempDir(), "new.keeperbook")},
	} {
		for _, room := range []int{0, 20} {
			if args[0] == "demo" && room > 0 {
				continue // it is there by now
			}
			var says bytes.Buffer
			status := Run(ctx, Env{Out: &full{room}, Err: &says, Clock: clock, Who: "test"}, args)
			const want = "Not all of it could be printed, for the system says: no space left on device; make room where it goes, or send it elsewhere. " +
				"What is in a book or a file by now stays there.\n"
			if status != Failed || says.String() != want {
				t.Errorf("%q with room for %d: %d, says %q", args, room, status, says.String())
			}
		}
	}
	// What is wrong besides comes first.
	var says bytes.Buffer
	if status := Run(ctx, Env{Out: &full{}, Err: &says, Clock: clock}, []string{"heads", "nowhere.keeperbook"}); status != Failed || !strings.Contains(says.String(), "nowhere") {
		t.Errorf("%d, says %q", status, says.String())
	}
}
