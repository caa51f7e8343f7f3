package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// atHead gives a window with the first head of a book open, and something on a leaf that is not kept where draft is true.
func atHead(t *testing.T, draft bool) (st *stage, folder string) {
	t.Helper()
	folder = t.TempDir()
	fill(t, folder+"/shop.keeperbook", 2)
	st = newStage(t, newApp(t), folder, folder+"/shop.keeperbook")
	st.press(fyne.KeyDown, fyne.KeyReturn)
	if st.bench == nil {
		t.Fatal("no head is open")
	}
	if draft {
		st.leaves["Valves"].unkept = []say.Line{say.New("task.draft-waits", ".612")}
	}
	return st, folder
}

const unkept = "Not everything is in the book yet"

// past keeps a reading in the open set-up past its bench, as pages that stand over it do.
func past(t *testing.T, st *stage) {
	t.Helper()
	bench, err := st.Desk().OpenBench(context.Background(), st.bench.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	at := bench.Record().Head.Positions()[0]
	if err := bench.Take(context.Background(), task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: "1.842"}}, task.First); err != nil {
		t.Fatal(err)
	}
}

// readings are how many the leaves know of.
func (st *stage) readings() int { return len(st.bench.Record().Setup.Readings) }

// What pages over a head kept in it is on its leaves again, whichever way leads back.
func TestLeavesKnowWhatWasKept(t *testing.T) {
	table := filepath.Join(t.TempDir(), "runs.csv")
	if err := os.WriteFile(table, []byte("head,day,count,kind\nKB-0001,2026-06-01,6,passes\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, back := range map[string]func(st *stage){
		"another language": func(st *stage) { st.Speak("de") },
		"another file": func(st *stage) {
			if err := st.TakeFile(table); err != nil {
				t.Fatal(err)
			}
		},
		"a leaf": func(st *stage) { st.menu("Parts") },
	} {
		t.Run(name, func(t *testing.T) {
			defer say.Speak("en")
			st, _ := atHead(t, false)
			st.menu("History")
			past(t, st)
			back(st)
			if got := st.readings(); got != 1 {
				t.Errorf("they know of %d readings", got)
			}
		})
	}
}

// A question that a check of a sheet asks over its own dialog can be answered, and the window can be left afterwards.
func TestCheckingASheetAsksFirst(t *testing.T) {
	st, _ := atHead(t, true)
	st.menu("Check a signed sheet…")
	st.press(fyne.KeyEnd)
	st.write("x.pdf")
	st.press(fyne.KeyReturn)
	st.sees(unkept)
	st.press(fyne.KeyReturn)
	st.silent(unkept)
	st.Quit()
	st.sees(unkept)
	st.write("l")
}

// A file that is taken in makes the leaves anew: what is not kept on them is asked about before.
func TestTakingInAsksFirst(t *testing.T) {
	st, folder := atHead(t, true)
	for _, ending := range []string{".csv", ".tsv", ".txt"} {
		file := filepath.Join(folder, "runs"+ending)
		if err := os.WriteFile(file, []byte("head\tday\tcount\tkind\nKB-0001\t2026-06-01\t6\tpasses\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		leaf := st.leaves["Valves"]
		leaf.unkept = []say.Line{say.New("task.draft-waits", ".612")}
		st.Drop(file)
		st.sees(unkept)
		st.press(fyne.KeyEscape)
		if st.leaves["Valves"] != leaf {
			t.Error("the leaves are new")
		}
		st.Drop(file)
		st.write("l")
		st.silent(unkept)
		st.sees("1 run")
	}
}

// A gauge that types while the window waits is heard, and what it typed is asked about before its leaf goes.
func TestAGaugeTypesMeanwhile(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/shop.keeperbook", 2)
	st, next := besides(t, folder, folder+"/shop.keeperbook")
	st.press(fyne.KeyDown, fyne.KeyReturn)
	st.menu("Demonstration book")
	if !kit.Busy(st.Window()) {
		t.Error("something else can be begun")
	}
	st.leaves["Valves"].unkept = []say.Line{say.New("task.draft-waits", ".612")}
	next()
	st.sees(unkept)
	st.press(fyne.KeyEscape)
	st.sees("KB-0001")
}

// Esc that puts a sentence away leaves the keyboard where it is; from a button of the banner it goes back to work.
func TestPuttingAwayKeepsTheKeyboard(t *testing.T) {
	st, _ := atHead(t, false)
	st.Unfold()
	c, field := st.Window().Canvas(), st.leaves["Needs"].field
	c.Focus(field)
	st.Fail(say.Fail(say.Invalid, "shell.dropped-several", 2))
	c.OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	st.silent("dropped at once")
	if c.Focused() != fyne.Focusable(field) {
		t.Errorf("%T has the keyboard", c.Focused())
	}
	st.Fail(say.Fail(say.Invalid, "shell.dropped-several", 2))
	pressButton(t, st.Shell, "Put away")
	if f := c.Focused(); f == nil || f == fyne.Focusable(field) {
		t.Errorf("%T has the keyboard", f)
	}
}

// A shortcut puts a menu away before it does anything: what the menu was shown for may be gone then.
func TestAShortcutPutsAMenuAway(t *testing.T) {
	st, _ := atHead(t, false)
	done := false
	kit.ShowMenu(st.Window().Content(), []kit.Item{{Label: "delete", Do: func() { done = true }}}, fyne.NewPos(100, 100))
	if !st.over() {
		t.Fatal("there is no menu")
	}
	st.menu("Close book")
	if st.over() {
		t.Error("the menu is shown still")
	}
	st.press(fyne.KeyDown, fyne.KeyReturn)
	if done {
		t.Error("it was done on what is gone")
	}
}

// A copy that cannot be put back leaves the book open that was.
func TestACopyThatIsNotPutBack(t *testing.T) {
	st, folder := atHead(t, false)
	bad := filepath.Join(folder, "bad.keeperbook")
	if err := os.WriteFile(bad, []byte("no book"), 0o600); err != nil {
		t.Fatal(err)
	}
	st.Restore(bad)
	st.sees("KB-0001")
	st.silent("Open a book")
}

// The keys of leaves lead out of the guide and out of pages of sentences too.
func TestLeavesOutOfTheGuide(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/shop.keeperbook", 1)
	st := newStageWith(t, newApp(t), folder, folder+"/shop.keeperbook", func(cfg *shell.Config) { cfg.Help = assets.Help() })
	st.press(fyne.KeyDown, fyne.KeyReturn)
	for _, page := range []func(){st.Guide, func() { st.menu("Cautions") }} {
		page()
		if st.leafSeen() {
			t.Fatal("nothing stands over the leaves")
		}
		st.menu("Parts")
		if f := st.Window().Canvas().Focused(); f != fyne.Focusable(st.leaves["Parts"].field) {
			t.Errorf("%T has the keyboard", f)
		}
		if !st.leafSeen() {
			t.Error("the leaf is not seen")
		}
	}
}

// leafSeen reports whether a leaf is what the window shows.
func (st *stage) leafSeen() bool {
	var find func(o fyne.CanvasObject) bool
	find = func(o fyne.CanvasObject) bool {
		switch o := o.(type) {
		case *fyne.Container:
			return slices.ContainsFunc(o.Objects, find)
		case *container.Scroll:
			return find(o.Content)
		}
		return slices.ContainsFunc([]string{"Needs", "Parts", "Valves", "Sheet"}, func(n string) bool { return o == fyne.CanvasObject(st.leaves[n].field) })
	}
	return find(st.Window().Content())
}
