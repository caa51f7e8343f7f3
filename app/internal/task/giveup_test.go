package task_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// until returns a context that is given up once work says a sentence for the nth time.
func until(t *testing.T, key string, n int) context.Context {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	t.Cleanup(func() {
		stop()
		if n > 0 {
			t.Errorf("%s is never said", key)
		}
	})
	return say.Telling(ctx, func(l say.Line) {
		if l.Key == key {
			if n--; n == 0 {
				stop()
			}
		}
	})
}

// What is taken in and given up midway has left nothing in the book, of two heads as of one, and goes in whole afterwards.
func TestTakeInGivenUp(t *testing.T) {
	ctx := context.Background()
	demo, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	sheet := strings.TrimSuffix(demo, ".keeperbook") + "-DR-1L-as-found.pdf"
	ours := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	record, err := task.Export(ctx, ours.Book, "setup-launch-found")
	if err != nil {
		t.Fatal(err)
	}
	empty := func() *task.Desk {
		desk, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "other"), "test", clock)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { desk.Close() })
		return desk
	}
	folder := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, c := range []struct {
		name string
		desk *task.Desk
		path string
		at   map[string][]int
	}{
		{"readings of two heads", ours, file("two.csv", "head,valve,what,reading\nDR-1L,1 in,lift,.598\nDR-1L,1 ex,lift,.601\nOF-2P,1 in,lift,.561*\n"),
			map[string][]int{"work.lines": {1, 3}, "work.written": {1, 2, 3}}},
		{"springs", ours, file("springs.csv", "tag,spring,what,height\nZ-1,nest 12,free,2.2\nZ-2,nest 12,free,2.21\n"),
			map[string][]int{"work.springs": {2}, "work.written": {1, 2}}},
		{"a record", empty(), file("record.json", string(record)), map[string][]int{"work.written": {1, 20}}},
		{"a sheet", empty(), sheet, map[string][]int{"work.signatures": {1}, "work.record": {1}, "work.written": {3}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, err := c.desk.Book.Seq(ctx)
			if err != nil {
				t.Fatal(err)
			}
			for key, all := range c.at {
				for _, n := range all {
					_, err := c.desk.TakeFile(until(t, key, n), c.path)
					if !errors.Is(err, context.Canceled) {
						t.Errorf("%s, %d: %v", key, n, err)
					}
					if seq, err := c.desk.Book.Seq(ctx); err != nil || seq != before {
						t.Errorf("%s, %d: %d events more, %v", key, n, seq-before, err)
					}
				}
			}
			if _, err := c.desk.TakeFile(ctx, c.path); err != nil {
				t.Error(err)
			}
			if seq, _ := c.desk.Book.Seq(ctx); seq == before {
				t.Error("nothing came in")
			}
		})
	}
}

// A table that is looked through and given up stays as it was.
func TestTableGivenUp(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	setup, err := task.Find(ctx, desk.Book, "DR-1L", "")
	if err != nil {
		t.Fatal(err)
	}
	bench, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "mine.csv")
	if err := os.WriteFile(path, []byte("valve,lift,b\n1 in,.598,x\n1 ex,.601,x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := desk.OpenTable(until(t, "work.lines", 2), path, bench); !errors.Is(err, context.Canceled) {
		t.Errorf("opened: %v", err)
	}
	table, err := desk.OpenTable(ctx, path, bench)
	if err != nil {
		t.Fatal(err)
	}
	was := fmt.Sprint(table.Columns(), table.Right(), table.Length())
	if _, err := table.Use(until(t, "work.lines", 2), 2, "note"); !errors.Is(err, context.Canceled) {
		t.Errorf("a column: %v", err)
	}
	if _, err := table.In(until(t, "work.lines", 1), "mm"); !errors.Is(err, context.Canceled) {
		t.Errorf("a unit: %v", err)
	}
	if is := fmt.Sprint(table.Columns(), table.Right(), table.Length()); is != was {
		t.Errorf("it is %s, and was %s", is, was)
	}
	table, err = table.Use(ctx, 2, "")
	if err != nil || table.Right() != 2 {
		t.Fatalf("%d fit, %v", table.Right(), err)
	}
	if n, err := table.Keep(until(t, "work.written", 2)); n != 0 || !errors.Is(err, context.Canceled) {
		t.Errorf("%d kept, %v", n, err)
	}
	if n, err := table.Keep(ctx); n != 2 || err != nil {
		t.Errorf("%d kept, %v", n, err)
	}
}

// A check of a sheet that is given up says nothing of it, and a book that is saved and given up is not there.
func TestChecksGivenUp(t *testing.T) {
	ctx := context.Background()
	folder := t.TempDir()
	demo, err := task.DemoBook(ctx, folder, assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, demo, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := desk.BackUp(ctx, 0); err != nil {
		t.Fatal(err)
	}
	if err := desk.Close(); err != nil {
		t.Fatal(err)
	}
	sheet := strings.TrimSuffix(demo, ".keeperbook") + "-DR-1L-as-found.pdf"
	for _, key := range []string{"work.signatures", "work.record"} {
		if v, err := task.VerifyFile(until(t, key, 1), nil, sheet); !errors.Is(err, context.Canceled) || v.Whole || v.Record != nil {
			t.Errorf("%s: %+v, %v", key, v, err)
		}
	}
	for _, key := range []string{"work.look", "work.sheets"} {
		if _, err := task.Examine(until(t, key, 2), demo); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", key, err)
		}
	}
	to := filepath.Join(folder, "saved.keeperbook")
	for _, key := range []string{"work.copies", "work.pages", "work.beginning", "work.finishing"} {
		if _, _, err := task.Salvage(until(t, key, 1), demo, "", to, clock); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", key, err)
		}
		if _, err := os.Lstat(to); !os.IsNotExist(err) {
			t.Errorf("%s: there is a new book", key)
		}
		if left, _ := filepath.Glob(filepath.Join(folder, ".keeperbook-*")); len(left) > 0 {
			t.Errorf("%s: left is %q", key, left)
		}
	}
}
