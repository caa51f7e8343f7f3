package shell_test

import (
	"context"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// A sheet that is dropped is looked at, with a book and without one; a book is opened; anything else says what can be dropped.
// Where something would be lost it is asked about first.
func TestDropped(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 1)
	st := newStage(t, newApp(t), folder, "")
	st.Drop(filepath.Join(folder, "sheet.pdf"))
	st.sees("the check of sheet.pdf without a book")
	st.Drop(filepath.Join(folder, "heads.keeperbook"))
	st.sees("KB-0001")
	st.Drop(filepath.Join(folder, "picture.jpg"))
	st.sees("picture.jpg cannot be dropped here")
	st.press(fyne.KeyDown, fyne.KeyReturn)
	st.Drop(filepath.Join(folder, "SHEET.PDF"), filepath.Join(folder, "other.pdf"))
	st.sees("2 files were dropped at once")
	st.Drop(filepath.Join(folder, "SHEET.PDF"))
	st.sees("the check of SHEET.PDF with a book")
	st.OpenSetup(st.bench.Record().Setup.ID)
	st.leaves["Valves"].unkept = []say.Line{say.New("task.draft-waits", ".612")}
	st.Drop(filepath.Join(folder, "sheet.pdf"))
	st.sees("Not everything is in the book yet")
	st.press(fyne.KeyEscape)
	st.Drop()
}

// The history of the open head stands in its place, and the way back leads to it again.
func TestHistoryInThePlaceOfAHead(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 1)
	st := newStage(t, newApp(t), folder, folder+"/heads.keeperbook")
	st.History() // of no head
	st.press(fyne.KeyDown, fyne.KeyReturn)
	st.menu("History")
	st.sees("what became of KB-0001")
	st.OpenSetup(st.bench.Record().Setup.ID)
	st.sees("Valves")

	// The keys of the leaves lead back to them too.
	st.menu("History")
	st.sees("what became of KB-0001")
	if !st.menu("Parts") {
		t.Error("there is no way back to a leaf")
	}
	if f := st.Window().Canvas().Focused(); f != fyne.Focusable(st.leaves["Parts"].field) {
		t.Errorf("%T has the keyboard", f)
	}
}

// history and check stand in for the pages of a set-up's history and of a signed sheet.
func historyStand(_ kit.Host, bench *task.Bench, _ func(func())) shell.Pages {
	return &pages{label: widget.NewLabel("what became of " + bench.Record().Head.Tag)}
}

func checkStand(_ *shell.Shell, desk *task.Desk, _ bool, path string, _ func(func())) shell.Pages {
	with := " without a book"
	if desk != nil {
		if _, err := desk.Trusted(context.Background()); err == nil {
			with = " with a book"
		}
	}
	return &pages{label: widget.NewLabel("the check of " + filepath.Base(path) + with)}
}

// What was told on the bottom line is told of a page: it goes as somebody goes to another one, and stays where the program
// itself leads there.
func TestToldOfAPage(t *testing.T) {
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 1)
	st := newStage(t, newApp(t), folder, folder+"/heads.keeperbook")
	st.press(fyne.KeyDown, fyne.KeyReturn)
	told := func() { st.Tell(say.New("copies.restored", "before.keeperbook")) }
	told()
	st.Show("Parts")
	st.sees("before.keeperbook")
	st.menu("Sheet")
	st.silent("before.keeperbook")
	told()
	st.menu("History")
	st.silent("before.keeperbook")
	told()
	st.menu("Parts")
	st.silent("before.keeperbook")
}
