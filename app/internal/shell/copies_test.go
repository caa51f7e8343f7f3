package shell_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/shell"
)

// copiesIn are the files in a folder.
func copiesIn(t *testing.T, folder string) (names []string) {
	t.Helper()
	all, err := os.ReadDir(folder)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	for _, f := range all {
		names = append(names, filepath.Join(folder, f.Name()))
	}
	return names
}

// A book that is closed after something was kept leaves a copy of itself beside it; damaged, it is offered back, and what it was
// is kept.
func TestADamagedBookComesBackFromItsCopy(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 3)
	st := newStage(t, app, folder, path)
	st.sees("3 heads")
	st.CloseBook()
	copies := copiesIn(t, filepath.Join(folder, "shop-copies"))
	if len(copies) != 1 {
		t.Fatalf("copies %q", copies)
	}
	st.Reopen(path)
	st.CloseBook()
	if again := copiesIn(t, filepath.Join(folder, "shop-copies")); len(again) != 1 {
		t.Errorf("nothing was kept, and there are %q", again)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rotten := append([]byte(nil), whole...)
	for i := 4096; i < 3*4096; i++ {
		rotten[i] = 0x5a
	}
	if err := os.WriteFile(path, rotten, 0o644); err != nil {
		t.Fatal(err)
	}
	st.Reopen(path)
	st.sees("There is a copy of it of")
	st.sees("3 heads, 3 set-ups")
	pressButton(t, st.Shell, "Save what is left")
	st.sees("3 heads")
	st.sees("What was left is saved:")
	st.CloseBook()
	st.Reopen(path)
	pressButton(t, st.Shell, "Put it back")
	st.sees("3 heads")
	st.sees("The copy is back. The book as it was lies at")
	before, err := filepath.Glob(filepath.Join(folder, "shop before *.keeperbook"))
	if err != nil || len(before) != 1 {
		t.Fatal(before, err)
	}
	if was, err := os.ReadFile(before[0]); err != nil || string(was) != string(rotten) {
		t.Errorf("the damaged book is not kept: %v", err)
	}
	if again := copiesIn(t, filepath.Join(folder, "shop-copies")); len(again) != 1 || !strings.HasPrefix(again[0], folder) {
		t.Errorf("the copy itself is gone: %q", again)
	}
}

// A book on a disk of another machine opens with a warning that says why, and what to do.
func TestABookOnANetworkWarns(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 2)
	st := newStageWith(t, app, folder, "", func(cfg *shell.Config) { cfg.Elsewhere = func(p string) bool { return p == path } })
	st.Reopen(path)
	st.sees("shop.keeperbook lies on a disk of another machine")
	st.sees("2 heads")
}

// A book that cannot be copied as it is closed is closed all the same, and why is said; another one opens as ever.
func TestACopyThatFailsIsSaid(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path, other := filepath.Join(folder, "shop.keeperbook"), filepath.Join(folder, "other.keeperbook")
	fill(t, path, 2)
	fill(t, other, 3)
	// A file stands where the folder of the copies would.
	if err := os.WriteFile(filepath.Join(folder, "shop-copies"), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	st := newStage(t, app, folder, path)
	st.sees("2 heads")
	st.Reopen(other)
	st.sees("3 heads")
	st.sees("shop-copies")
}

// A large book is copied beside the window as it closes: that can be waited for, or left.
func TestALargeBookIsCopiedBesideTheWindow(t *testing.T) {
	if testing.Short() {
		t.Skip("two goroutines draw: a test has no loop of a window")
	}
	for _, c := range []struct {
		name   string
		left   bool
		copies int
	}{{"waited for", false, 1}, {"left", true, 0}} {
		t.Run(c.name, func(t *testing.T) {
			app, folder := newApp(t), t.TempDir()
			path := filepath.Join(folder, "shop.keeperbook")
			fill(t, path, 2)
			var work []func()
			st := newStageWith(t, app, folder, path, func(cfg *shell.Config) {
				cfg.LongCopy = 1
				cfg.Background = func(w func()) { work = append(work, w) }
			})
			work = nil // of the copy an hour after the last
			st.CloseBook()
			waited()
			st.sees("The book is being copied")
			st.sees("It is large")
			st.sees("2 heads")
			if len(work) != 1 {
				t.Fatalf("%d things are done beside the window", len(work))
			}
			if c.left {
				pressButton(t, st.Shell, "Go on without a copy")
			}
			work[0]()
			st.sees("Open a book")
			if got := copiesIn(t, filepath.Join(folder, "shop-copies")); len(got) != c.copies {
				t.Errorf("copies %q", got)
			}
			st.Reopen(path)
			st.sees("2 heads")
		})
	}
}

// A book that cannot be copied is closed only where whoever sits there says so.
func TestClosingWithoutACopyIsAsked(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 2)
	if err := os.WriteFile(filepath.Join(folder, "shop-copies"), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	st := newStage(t, app, folder, path)
	st.CloseBook()
	st.sees("The book could not be copied")
	pressButton(t, st.Shell, "Stay here")
	st.sees("2 heads")
	st.CloseBook()
	pressButton(t, st.Shell, "Close it without a copy")
	st.sees("Open a book")
}
