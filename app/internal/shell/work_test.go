package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/takein"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
)

// besides gives a window whose work is begun and ended by what it returns.
func besides(t *testing.T, folder, book string) (st *stage, next func()) {
	t.Helper()
	var work []func()
	st = newStageWith(t, newApp(t), folder, book, func(cfg *shell.Config) {
		cfg.Background = func(w func()) { work = append(work, w) }
		cfg.View = func(path string) error { return st.view(path) }
		cfg.Table = func(host kit.Host, table *task.TableIn, background func(func())) shell.Pages {
			return takein.New(host, table, background)
		}
	})
	return st, func() {
		t.Helper()
		if len(work) == 0 {
			t.Fatal("nothing is done beside the window")
		}
		// The last one: what was begun before is a copy of the book, or what is due.
		w := work[len(work)-1]
		work = work[:len(work)-1]
		w()
	}
}

// waited is how long a person waits until the window says what it does.
func waited() { time.Sleep(450 * time.Millisecond) }

func events(t *testing.T, path string) int64 {
	t.Helper()
	desk, err := task.ReadBook(context.Background(), path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	defer desk.Close()
	seq, err := desk.Book.Seq(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return seq
}

// A table that is taken in and stopped with Esc leaves the book as it was, and nothing else is begun meanwhile.
func TestTakingInIsStopped(t *testing.T) {
	if testing.Short() {
		t.Skip("two goroutines draw: a test has no loop of a window")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 2)
	var table strings.Builder
	table.WriteString("head,day,count,kind\n")
	for i := range 300 {
		fmt.Fprintf(&table, "KB-000%d,2026-06-01,%d,hours\n", 1+i%2, 1+i)
	}
	file := filepath.Join(folder, "runs.csv")
	if err := os.WriteFile(file, []byte(table.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	st, next := besides(t, folder, path)
	st.press(fyne.KeyReturn)
	before := events(t, path)
	for _, stop := range []bool{true, false} {
		if err := st.TakeFile(file); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(st.words(), "runs.csv is being taken in") {
			t.Error("it is said at once, and flickers")
		}
		waited()
		st.sees("runs.csv is being taken in")
		st.menu("Quit")
		st.menu("Valves")
		st.Drop(file)
		st.sees("runs.csv is being taken in")
		if n := len(st.Window().Canvas().Overlays().List()); n != 1 {
			t.Errorf("%d things lie over the window", n)
		}
		if stop {
			st.press(fyne.KeyEscape)
			st.sees("It is being stopped")
		}
		next()
		if kit.Busy(st.Window()) {
			t.Error("it goes on for ever")
		}
		if stop {
			st.sees("Stopped: nothing of runs.csv is in the book.")
			if now := events(t, path); now != before {
				t.Errorf("%d entries of it are in the book", now-before)
			}
		}
	}
	st.sees("300 runs")
	if now := events(t, path); now != before+300 {
		t.Errorf("%d entries of it are in the book", now-before)
	}
}

// A table of readings is opened beside the window and shown with what fits.
func TestATableOpensBesideTheWindow(t *testing.T) {
	folder := t.TempDir()
	path, file := filepath.Join(folder, "shop.keeperbook"), filepath.Join(folder, "readings.csv")
	fill(t, path, 1)
	if err := os.WriteFile(file, []byte("head,valve,what,reading\nKB-0001,1 in,base,1.842\nKB-0001,9 in,base,1.842\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	st, next := besides(t, folder, path)
	st.Drop(file)
	if !kit.Busy(st.Window()) {
		t.Error("it is read in the window")
	}
	next()
	st.sees("1 readings and shim stacks fit; 1 lines do not, and stay out.")
	pressButton(t, st.Shell, "Take in what fits")
	next()
	st.sees("It is in the book.")
}

// The sheet that is printed is that of the set-up as it was when it was asked for, whatever is entered while it is written.
func TestThePrintedSheetIsThatOfTheKey(t *testing.T) {
	folder := t.TempDir()
	t.Setenv("XDG_CACHE_HOME", folder)
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 1)
	st, next := besides(t, folder, path)
	viewed := ""
	st.view = func(path string) error { viewed = path; return nil }
	st.press(fyne.KeyReturn)
	before := filepath.Join(folder, "before.pdf")
	if _, err := st.bench.Save(task.OutSheet, st.bench.UsualPaper(), before, false); err != nil {
		t.Fatal(err)
	}
	st.Print()
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	if err := st.bench.Take(context.Background(), task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: "1842"}}, task.First); err != nil {
		t.Fatal(err)
	}
	next()
	want, err := os.ReadFile(before)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(viewed); err != nil || !bytes.Equal(got, want) {
		t.Errorf("%q is another sheet of %d bytes, not of %d, %v", viewed, len(got), len(want), err)
	}
}

// What is left of a damaged book is saved beside the window; stopped, there is no new book and no file of no use.
func TestSavingWhatIsLeftIsStopped(t *testing.T) {
	if testing.Short() {
		t.Skip("two goroutines draw: a test has no loop of a window")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 2)
	damaged, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	copy(damaged[4096:], make([]byte, 4096))
	if err := os.WriteFile(path, damaged, 0o600); err != nil {
		t.Fatal(err)
	}
	st, next := besides(t, folder, "")
	st.Reopen(path)
	next() // the copies are looked through
	pressButton(t, st.Shell, "Save what is left")
	waited()
	st.sees("What is left of shop.keeperbook is being saved")
	st.press(fyne.KeyEscape)
	next()
	st.sees("Stopped: there is no new book, and the damaged one is as it was.")
	if left, err := filepath.Glob(filepath.Join(folder, "*keeperbook*")); err != nil || len(left) != 1 {
		t.Errorf("%q, %v", left, err)
	}
	st.Reopen(path)
	next()
	pressButton(t, st.Shell, "Save what is left")
	next()
	st.sees("What was left is saved:")
}
