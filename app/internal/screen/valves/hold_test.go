package valves_test

import (
	"slices"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
)

func TestRefusedHolds(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("18⏎")
	h := r.Held()
	if h == nil || h.Valve != "1 in" || h.Read != "18" || r.out.words.Line(h.Column) != "base height" {
		t.Fatalf("held %+v", h)
	}
	if got := r.out.words.Line(h.Why); got != "18 reads as .018 in; type 1.8 for inches or 1800 for thousandths." {
		t.Errorf("says %q", got)
	}
	if e := r.State().Edit; e == nil || e.Text != "18" || e.Refused == "" {
		t.Errorf("the cell shows %+v", e)
	}
	// What arrives now does not land anywhere by itself.
	r.time.passes(2 * time.Second)
	began := r.time.now()
	r.types("1.842⏎")
	r.time.passes(2 * time.Second)
	r.types("1.843⏎")
	r.Paste("1.844\n")
	r.Stray("1.845")
	if got := r.trayTexts(); !slices.Equal(got, []string{"1.842", "1.843", "1.844\n", "1.845"}) {
		t.Errorf("the tray holds %q", got)
	}
	if !r.Tray()[0].At.Equal(began) {
		t.Errorf("the first burst came at %v, want %v", r.Tray()[0].At, began)
	}
	r.Tap(r.place("3 in", "base"), false)
	r.wantHere("1 in", "base")
	r.wantTold("holds the table")
	r.Place(0)
	if len(r.Tray()) != 4 {
		t.Error("placed on a table that is held")
	}
	for _, c := range [][2]string{{"1 in", "base"}, {"1 ex", "base"}} {
		r.wantCell(c[0], c[1], "")
	}
	r.answer("take it as 1.8")
	r.wantCell("1 in", "base", "1.800")
	r.wantHere("1 ex", "base")
	r.Place(1)
	r.wantCell("1 ex", "base", "1.843")
	r.on("3 in", "base")
	r.Drop(0)
	r.Place(0)
	r.wantCell("3 in", "base", "1.844")
	r.Drop(0)
	r.Drop(0)
	if len(r.Tray()) != 0 {
		t.Errorf("the tray holds %q", r.trayTexts())
	}
}

func TestHeldLetGo(t *testing.T) {
	for name, c := range map[string]struct {
		let  func(r *rig)
		want string // of 1 in, after Enter
	}{
		"dropped by Escape":         {func(r *rig) { r.press(table.Escape) }, ""},
		"changed by F2":             {func(r *rig) { r.press(table.Modify, table.Backspace); r.types("42") }, "1.842"},
		"changed by Backspace":      {func(r *rig) { r.press(table.Backspace); r.types("42") }, "1.842"},
		"changed by a tap":          {func(r *rig) { r.Tap(r.State().Cursor, false); r.press(table.Backspace); r.types("42") }, "1.842"},
		"picked with arrow, change": {func(r *rig) { r.press(table.Up, table.Up, table.Enter, table.Backspace); r.types("42") }, "1.842"},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, four())
			r.on("1 in", "base")
			r.types("1.8x⏎")
			if r.Held() == nil {
				t.Fatal("not held")
			}
			c.let(r)
			if r.Held() != nil {
				t.Error("still held")
			}
			r.press(table.Enter)
			r.wantCell("1 in", "base", c.want)
			if len(r.Tray()) != 0 {
				t.Errorf("the tray holds %q", r.trayTexts())
			}
		})
	}
}

// A reading that the record doubts holds the table as one that is no number does.
func TestDoubtHolds(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "shims")
	r.types("none⏎")
	r.on("1 in", "lift")
	r.types("1.900⏎")
	if h := r.Held(); h == nil || r.out.words.Line(h.Why) == "" {
		t.Fatal("a lift longer than the spring was taken")
	}
	r.press(table.Escape)
	r.wantCell("1 in", "lift", "")
}

// One reading of a gauge is never torn in two, whenever the table stops or begins to listen.
func TestBurstStaysWhole(t *testing.T) {
	for name, c := range map[string]struct {
		send func(r *rig)
		tray []string
		cell string
	}{
		"dialog opens within": {func(r *rig) {
			r.types("1.8")
			r.SetBlocked(true)
			r.types("42⏎")
			r.SetBlocked(false)
		}, []string{"1.842"}, ""},
		"dialog opens before Enter": {func(r *rig) {
			r.types("1.842")
			r.SetBlocked(true)
			r.types("⏎")
			r.SetBlocked(false)
		}, []string{"1.842"}, ""},
		"dialog closes within": {func(r *rig) {
			r.SetBlocked(true)
			r.types("1.8")
			r.SetBlocked(false)
			r.types("42⏎")
		}, []string{"1.842"}, ""},
		"dialog closes before Enter": {func(r *rig) {
			r.SetBlocked(true)
			r.types("1.842")
			r.SetBlocked(false)
			r.types("⏎")
		}, []string{"1.842"}, ""},
		"a person typed before": {func(r *rig) {
			r.types("18")
			r.time.passes(time.Second)
			r.SetBlocked(true)
			r.types("1.851⏎")
			r.SetBlocked(false)
			r.types("42⏎")
		}, []string{"1.851"}, "1.842"},
		"two readings": {func(r *rig) {
			r.SetBlocked(true)
			r.types("1.851")
			r.time.passes(2 * time.Second)
			r.types("1.852⏎1.853⏎")
			r.SetBlocked(false)
			r.time.passes(time.Second)
			r.types("1.842⏎")
		}, []string{"1.851", "1.852", "1.853"}, "1.842"},
		"a slip in the tray": {func(r *rig) {
			r.SetBlocked(true)
			r.types("1.85")
			r.press(table.Backspace)
			r.types("6⏎")
			r.SetBlocked(false)
		}, []string{"1.86"}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, four())
			r.on("1 in", "base")
			c.send(r)
			if got := r.trayTexts(); !slices.Equal(got, c.tray) {
				t.Errorf("the tray holds %q, want %q", got, c.tray)
			}
			r.wantCell("1 in", "base", c.cell)
		})
	}
}

// A reading sent to a column that takes none waits in the tray too.
func TestComputedColumn(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "calc")
	r.types("1.842⏎")
	if got := r.trayTexts(); !slices.Equal(got, []string{"1.842"}) {
		t.Errorf("the tray holds %q", got)
	}
	r.wantHere("1 in", "calc")
	r.Place(0)
	r.wantTold("takes no entry")
	r.on("1 in", "base")
	r.types("1")
	r.Place(0)
	r.wantTold("Keep what is being typed")
	r.press(table.Escape)
	r.Place(0)
	r.wantCell("1 in", "base", "1.842")
}
