package valves_test

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/task"
)

func (r *rig) unsaved(label, column string) bool {
	p := r.place(label, column)
	return r.State().Cells[p.Row][p.Column].Unsaved
}

// moveAway renames the book while it is open, and back.
func (r *rig) moveAway() (back func()) {
	r.Helper()
	path := r.desk.Path()
	r.must(os.Rename(path, path+".away"))
	return func() { r.must(os.Rename(path+".away", path)) }
}

func TestBookRenamed(t *testing.T) {
	r := newRig(t, four())
	back := r.moveAway()
	r.on("1 in", "base")
	r.types("1842⏎")
	r.wantTold("1 not saved, the last at 1 in:")
	r.wantTold("Save a copy under another name")
	r.wantCell("1 in", "base", "1842")
	if !r.unsaved("1 in", "base") || r.out.accepted != 0 || r.out.refused != 1 {
		t.Error("the cell does not say that it is not saved")
	}
	// The gauge goes on, each reading on its own valve.
	r.wantHere("1 ex", "base")
	r.types("1836⏎")
	r.on("3 in", "shims")
	r.types("30⏎")
	// Somebody types over one: what was there is not lost unasked.
	r.on("1 ex", "base")
	r.types("1837⏎")
	r.answer("drop the new one")
	r.wantCell("1 ex", "base", "1836")
	r.types("1837⏎")
	r.answer("replace")
	r.wantCell("1 ex", "base", "1837")
	r.on("1 in", "base")
	r.press(table.Delete)
	r.answer("leave it in its cell")
	if r.Open() < 3 || r.NotSaved().Zero() {
		t.Error("nothing says that entries are not saved")
	}
	r.press(table.Enter)
	r.wantTold("3 not saved")
	r.wantHere("1 in", "base")
	back()
	r.press(table.Enter)
	r.wantTold("3 saved now")
	for _, c := range [][3]string{{"1 in", "base", "1.842"}, {"1 ex", "base", "1.837"}, {"3 in", "shims", ".030"}} {
		r.wantCell(c[0], c[1], c[2])
		if r.unsaved(c[0], c[1]) {
			t.Errorf("%s still unsaved", c[0])
		}
	}
	if got := r.again().Setup; len(got.Readings) != 2 || len(got.Valves) != 1 {
		t.Errorf("kept %d readings", len(got.Readings))
	}
	if !r.NotSaved().Zero() || !r.Save() {
		t.Error("still not saved")
	}
}

// What waits is kept in the order it was typed, also where the next reading is what brings it about.
func TestUnsavedKeepsOrder(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎")
	back := r.moveAway()
	r.on("1 in", "shims")
	r.types("30⏎")
	back()
	r.on("1 in", "check")
	r.types("1.812⏎")
	r.wantCell("1 in", "check", "1.812") // measured over the shim, so it is not stale
	r.wantCell("1 in", "shims", ".030")
	back = r.moveAway()
	r.on("3 in", "base")
	r.types("1850⏎")
	r.on("3 in", "base")
	r.press(table.Modify, table.Backspace)
	r.types("1⏎")
	r.wantCell("3 in", "base", "1851")
	r.on("3 in", "base")
	r.press(table.Delete)
	r.answer("drop it")
	r.wantCell("3 in", "base", "")
	r.Paste("1842\t.700")
	r.wantTold("Nothing was pasted and the block lies in the tray")
	r.press(table.Undo)
	r.wantTold("Save a copy under another name")
	back()
	r.on("3 in", "base")
	r.Place(0)
	r.wantCell("3 in", "seal", ".700")
}

func TestReadOnlyBook(t *testing.T) {
	r := newRig(t, four())
	setup := r.bench.Record().Setup.ID
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, r.desk.Path(), "M. Ashlock", r.time.clock())
	r.must(err)
	defer desk.Close()
	bench, err := desk.OpenBench(ctx, setup)
	r.must(err)
	r.bench, r.out = bench, &window{words: bench.Words()}
	r.Presenter = valves.New(bench, r.out)
	r.on("1 in", "base")
	r.types("1842⏎")
	r.wantTold("was opened for reading only")
	if !r.unsaved("1 in", "base") {
		t.Error("the cell does not say that it is not saved")
	}
}

// On a full disk readings stay in their cells until there is room again.
func TestDiskFull(t *testing.T) {
	folder := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", folder).CombinedOutput(); err != nil {
		t.Skipf("a small disk to fill cannot be mounted here: %s", bytes.TrimSpace(out))
	}
	t.Cleanup(func() { exec.Command("umount", folder).Run() })
	w := newWatch()
	desk, err := task.MakeBook(context.Background(), filepath.Join(folder, "valves"), "M. Ashlock", w.clock())
	if err != nil {
		t.Fatal(err)
	}
	r := rigOn(t, desk, w, headOf("1", "2", "3", "4", "5", "6", "7", "8"))
	ballast := filepath.Join(folder, "ballast")
	os.WriteFile(ballast, make([]byte, 1<<21), 0o600) // it fails once the disk is full, as it is meant to
	r.on("1 in", "base")
	var want []string
	for i := range 16 {
		text := "1.8" + string(rune('0'+i/10)) + string(rune('0'+i%10))
		want = append(want, text)
		r.types(text + "⏎")
	}
	if !strings.Contains(r.out.words.Line(r.NotSaved()), "no room left on the disk") {
		t.Errorf("told %q", r.out.words.Line(r.NotSaved()))
	}
	texts := func() (all []string) {
		for row := range r.State().Rows {
			all = append(all, r.State().Cells[row][r.place("1 in", "base").Column].Text)
		}
		return all
	}
	if got := texts(); !slices.Equal(got, want) {
		t.Errorf("the cells say %q", got)
	}
	r.must(os.Remove(ballast))
	if !r.Save() {
		t.Fatalf("not saved: %s", r.out.last())
	}
	if got := texts(); !slices.Equal(got, want) || len(r.again().Setup.Readings) != 16 {
		t.Errorf("kept %q", got)
	}
	r.must(desk.Close())
}
