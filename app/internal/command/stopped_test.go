package command

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// stopping returns a context that is given up once work says a sentence for the nth time.
func stopping(t *testing.T, key string, n int) context.Context {
	ctx, stop := context.WithCancel(context.Background())
	t.Cleanup(stop)
	return say.Telling(ctx, func(l say.Line) {
		if l.Key == "work.file" {
			l = l.Args[2].(say.Line)
		}
		if l.Key == key {
			if n--; n == 0 {
				stop()
			}
		}
	})
}

// A command that is stopped ends with one sentence and not with 0, and leaves nothing by halves.
func TestStopped(t *testing.T) {
	clock := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	folder := t.TempDir()
	book, err := task.DemoBook(context.Background(), folder, assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	sheet := strings.TrimSuffix(book, ".keeperbook") + "-DR-1L-as-found.pdf"
	var tables []string
	for i := range 3 {
		path := filepath.Join(folder, fmt.Sprintf("%d.csv", i))
		if err := os.WriteFile(path, []byte("head,valve,what,reading\nDR-1L,1 in,lift,.598*\nDR-1L,1 ex,lift,.601*\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		tables = append(tables, path)
	}
	fresh, saved := filepath.Join(folder, "fresh.keeperbook"), filepath.Join(folder, "saved.keeperbook")
	const plain = "Stopped before it was done; nothing was left by halves.\n"
	for _, c := range []struct {
		key   string
		n     int
		args  []string
		says  string
		print int // lines on standard output
	}{
		{"work.lines", 4, append([]string{"import", book}, tables...), "Stopped: 1 of 3 files are in the book, and nothing of the others.\n", 1},
		{"work.record", 1, []string{"import", fresh, sheet}, "Stopped: 0 of 1 files are in the book, and nothing of the others.\n", 0},
		{"work.signatures", 1, []string{"verify", sheet}, plain, 0},
		{"work.record", 1, []string{"verify", sheet, "-book", book}, plain, 0},
		{"work.look", 4, []string{"examine", book}, plain, 0},
		{"work.pages", 5, []string{"salvage", book, saved}, plain, 0},
		{"work.finishing", 1, []string{"salvage", book, saved}, plain, 0},
	} {
		var out, bad bytes.Buffer
		status := Run(stopping(t, c.key, c.n), Env{Out: &out, Err: &bad, Clock: clock, Who: "test"}, c.args)
		if status != Failed || bad.String() != c.says || strings.Count(out.String(), "\n") != c.print {
			t.Errorf("%q: %d, says %q and %q", c.args, status, bad.String(), out.String())
		}
	}
	for _, path := range []string{fresh, saved} {
		if _, err := os.Lstat(path); !os.IsNotExist(err) {
			t.Errorf("%s is there", path)
		}
	}
}

// How far it is stands on one line of a terminal, not before a blink is over nor too often, and goes before anything else is said.
func TestFarLine(t *testing.T) {
	now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	var screen bytes.Buffer
	ctx, env := telling(context.Background(), Env{Out: &screen, Err: &screen}, func() time.Time { return now })
	for i := range 10 {
		now = now.Add(60 * time.Millisecond)
		say.Tell(ctx, "work.written", 96+i, 200)
	}
	fmt.Fprintln(env.Out, "done")
	env.Err.Write(nil)
	const want = "\r100 of 200 entries are written.\r102 of 200 entries are written.\r104 of 200 entries are written."
	wiped := "\r" + strings.Repeat(" ", len("104 of 200 entries are written.")) + "\r"
	if got := screen.String(); got != want+wiped+"done\n" {
		t.Errorf("%q", got)
	}
}
