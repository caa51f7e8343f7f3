package valves_test

import (
	"slices"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/model/record"
)

var _ table.Handler = (*valves.Presenter)(nil)

func TestColumns(t *testing.T) {
	r := newRig(t, four())
	want := []string{
		"verdict", "bar", "margin", "u", "base", "seal", "shims", "calc", "check", "lift", "open", "bind-1", "least", "up-to", "seal-open", "tip",
	}
	if got := columnKeys(r.State()); !slices.Equal(got, want) {
		t.Errorf("a bare head has the columns %v", got)
	}
	r.on("3 in", "lift")
	r.coils("outer", "inner")
	r.wantHere("3 in", "lift")
	r.must(r.bench.Keep(r.ctx, record.Package{Role: record.Intake, Spring: "s", Nearest: "rocker", Lash: &record.Lash{Target: in(t, "0.010"), At: record.Hot}}))
	r.Begin(valves.Difference, true)
	r.Begin(valves.OuterShims, true)
	r.wantHere("1 in", "outer")
	want = []string{
		"verdict", "bar", "margin", "u", "taken-seat-depth", "taken-retainer-depth", "base", "seal", "room", "shims", "outer", "calc", "check", "lift", "open",
		"bind-1", "bind-2", "least", "up-to", "seal-open", "room-open", "tip", "lash-found", "taken-lash-shim", "lash-shim", "lash-left",
	}
	s := r.State()
	if got := columnKeys(s); !slices.Equal(got, want) {
		t.Errorf("with everything %v", got)
	}
	for key, title := range map[string]string{"bind-1": "bind, outer", "bind-2": "bind, inner", "outer": "outer only", "taken-lash-shim": "shim found"} {
		if got := s.Columns[r.place("1 in", key).Column].Title; got != title {
			t.Errorf("%s is called %q", key, got)
		}
	}
	if !s.Columns[r.place("1 in", "base").Column].Computed {
		t.Error("a base height by difference can be typed into")
	}
	if s.Rows[0].Group == s.Rows[2].Group || s.Rows[0].Group != s.Rows[1].Group {
		t.Error("cylinders are not grouped")
	}
}

// A reading is understood after every key and refused only on Enter.
func TestUnderstood(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	for _, step := range []struct{ key, understood string }{
		{"1", ""}, {"8", ""}, {"4", ".184 in"}, {"2", "1.842 in"},
	} {
		r.types(step.key)
		e := r.State().Edit
		if e == nil || e.Understood != step.understood || e.Refused != "" || e.Unit != "in" {
			t.Errorf("after %s: %+v, want %q", step.key, e, step.understood)
		}
	}
	if r.out.refused != 0 {
		t.Error("refused before Enter")
	}
	r.press(table.Enter)
	r.wantCell("1 in", "base", "1.842")
	r.wantHere("1 ex", "base")
	if r.out.accepted != 1 || r.State().Edit != nil {
		t.Error("the reading was not accepted")
	}
	p := r.place("1 in", "base")
	if !r.State().Cells[p.Row][p.Column].Strong {
		t.Error("a measured number is not strong")
	}
}

func TestTyping(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	tests := map[string]struct {
		column string
		before func(r *rig)
		text   string
		keys   []table.Key
		want   string // of 1 ex
		here   string
	}{
		"Enter keeps":           {column: "base", text: "1842", keys: keys(table.Enter), want: "1.842", here: "3 in"},
		"Tab keeps":             {column: "base", text: "1842", keys: keys(table.Tab), want: "1.842", here: "1 ex"},
		"arrow keeps":           {column: "base", text: "1842", keys: keys(table.Up), want: "1.842", here: "1 in"},
		"Escape gives back":     {column: "base", text: "1842", keys: keys(table.Escape, table.Down), want: "", here: "3 in"},
		"undo takes back":       {column: "base", text: "1842", keys: keys(table.Undo), want: "", here: "1 ex"},
		"all erased is no text": {column: "base", text: "1", keys: keys(table.Backspace, table.Enter), want: "", here: "3 in"},
		"backspace":             {column: "base", text: "18423", keys: keys(table.Backspace, table.Enter), want: "1.842", here: "3 in"},
		"caret only with F2":    {column: "base", text: "1842", keys: keys(table.Modify, table.Home, table.Delete, table.Enter), want: ".842", here: "3 in"},
		"nominal of the role": {column: "base", before: func(r *rig) {
			r.on("3 ex", "base")
			r.types("1840⏎")
			r.on("1 in", "base")
			r.types("1900⏎")
		}, text: "+2", keys: keys(table.Enter), want: "1.842", here: "3 in"},
		"row above": {column: "base", before: func(r *rig) {
			r.on("1 in", "base")
			r.types("1851⏎")
		}, text: `"`, keys: keys(table.Enter), want: "1.851", here: "3 in"},
		"shims": {column: "shims", text: ".030+.015", keys: keys(table.Enter), want: ".030+.015", here: "3 in"},
		"shims above": {column: "shims", before: func(r *rig) {
			r.on("1 in", "shims")
			r.types("2x15⏎")
		}, text: `"`, keys: keys(table.Enter), want: ".015+.015", here: "3 in"},
		"none above": {column: "shims", before: func(r *rig) {
			r.on("1 in", "shims")
			r.types("none⏎")
		}, text: `"`, keys: keys(table.Enter), want: "none", here: "3 in"},
		"millimetres behind": {column: "base", text: "46.79 mm", keys: keys(table.Enter), want: "1.8421", here: "3 in"},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, four())
			if c.before != nil {
				c.before(r)
			}
			r.on("1 ex", c.column)
			r.types(c.text)
			r.press(c.keys...)
			r.wantCell("1 ex", c.column, c.want)
			s := r.State()
			if got := s.Rows[s.Cursor.Row].Label; got != c.here {
				t.Errorf("the cursor is on %s, want %s", got, c.here)
			}
			if s.Edit != nil {
				t.Errorf("still typing %q", s.Edit.Text)
			}
		})
	}
}

// What was typed is kept as it was typed, also where it counts from a nominal or repeats a cell.
func TestTypedIsKept(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types(`1842⏎"⏎+2⏎`)
	var typed, read []string
	for _, reading := range r.again().Setup.Readings {
		typed = append(typed, reading.Quantity.Typed)
		read = append(read, reading.Quantity.Read)
	}
	if !slices.Equal(typed, []string{"1842", `"`, "+2"}) || !slices.Equal(read, []string{"1.842", "1.842", "1.844"}) {
		t.Errorf("kept %q read as %q", typed, read)
	}
}

// F2 goes on with what was typed; where that only meant something in its place, with what it was read as.
func TestModify(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types(`1842⏎"⏎+2⏎`)
	for label, want := range map[string]string{"1 in": "1842", "1 ex": "1.842 in", "3 in": "1.844 in", "3 ex": ""} {
		r.on(label, "base")
		r.press(table.Modify)
		if e := r.State().Edit; e == nil || e.Text != want || e.Caret != len(want) {
			t.Errorf("%s goes on with %+v, want %q", label, e, want)
		}
		r.press(table.Enter) // unchanged, so nothing is asked and nothing kept
		if r.Asked() != nil || r.Held() != nil {
			t.Fatal("a text that is as it was is not let go")
		}
	}
	if n := len(r.bench.Record().Setup.Readings); n != 3 {
		t.Errorf("%d readings are kept", n)
	}
	r.on("1 in", "base")
	r.press(table.Modify, table.Backspace)
	r.types("5⏎")
	r.answer("replace")
	r.wantCell("1 in", "base", "1.845")
}

func TestSelection(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.Key(table.Down, true)
	r.Key(table.Right, true)
	s := r.State()
	if s.Anchor != r.place("1 in", "base") || s.Cursor != r.place("1 ex", "seal") {
		t.Errorf("selected %v to %v", s.Anchor, s.Cursor)
	}
	r.types("700")
	if s := r.State(); s.Anchor != s.Cursor {
		t.Error("typing leaves a selection")
	}
	r.press(table.Enter)
	r.wantCell("1 ex", "seal", ".700")
	for _, step := range []struct {
		key  table.Key
		want table.Place
	}{
		{table.Home, at(2, 0)}, {table.End, at(2, len(s.Columns)-1)}, {table.PageUp, at(0, len(s.Columns)-1)},
		{table.PageDown, at(3, len(s.Columns)-1)}, {table.Left, at(3, len(s.Columns)-2)}, {table.Right, at(3, len(s.Columns)-1)},
		{table.Right, at(3, len(s.Columns)-1)}, {table.Down, at(3, len(s.Columns)-1)},
	} {
		r.press(step.key)
		if got := r.State().Cursor; got != step.want {
			t.Errorf("key %d leads to %v, want %v", step.key, got, step.want)
		}
	}
}

// Tab goes from one column that readings are typed into to the next, past what is computed; an arrow goes to
// its neighbour.
func TestTabPassesWhatIsComputed(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "shims")
	r.press(table.Tab)
	if got, want := r.State().Cursor, r.place("1 in", "check"); got != want {
		t.Errorf("Tab leads to %v, the check height is at %v", got, want)
	}
	r.press(table.BackTab)
	if got, want := r.State().Cursor, r.place("1 in", "shims"); got != want {
		t.Errorf("back it leads to %v, the shims are at %v", got, want)
	}
	r.press(table.Right)
	if got, want := r.State().Cursor, r.place("1 in", "calc"); got != want {
		t.Errorf("the arrow leads to %v, the computed height is at %v", got, want)
	}
}

func TestLargeAndPreview(t *testing.T) {
	r := newRig(t, four())
	r.SetLarge(true)
	if !r.State().Large || !r.Large() {
		t.Error("not large")
	}
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "shims")
	r.types("30")
	v := r.Preview(r.Selected())
	if got := r.out.words.Show; got == nil || !v.Installed.Known {
		t.Fatal("the section does not follow what is typed")
	}
	if text := v.Installed.Text(r.out.words); text != "1.812" {
		t.Errorf("previewed %s", text)
	}
	if lines := r.Working(v); !slices.Contains(lines, "installed height = 1.842 − .030 = 1.812") {
		t.Errorf("working %q", lines)
	}
	r.press(table.Escape)
	if r.Preview(r.Selected()).Installed.Known || len(r.again().Setup.Valves) != 0 {
		t.Error("a preview was kept")
	}
}

// Another screen turns the head round while somebody types: the text stays on its valve, and so does the
// cursor. Where the valve is gone the text goes to the tray.
func TestHeadChangesWhileTyping(t *testing.T) {
	r := newRig(t, four())
	r.on("3 in", "base")
	r.types("184")
	head := r.bench.Record().Head
	before := head.Positions()
	head.Order = []record.Position{before[3], before[2], before[1], before[0]}
	r.must(r.bench.Keep(r.ctx, head))
	r.Refresh()
	r.wantHere("3 in", "base")
	r.types("2⏎")
	r.wantCell("3 in", "base", "1.842")
	r.wantHere("1 ex", "base")
	head.Order = before
	r.must(r.bench.Keep(r.ctx, head))
	r.Refresh()
	r.wantHere("1 ex", "base")
	r.types("1836")
	head.Order = []record.Position{before[0], before[2]}
	r.must(r.bench.Keep(r.ctx, head))
	r.Refresh()
	if s := r.State(); s.Edit != nil || !slices.Equal(r.trayTexts(), []string{"1836"}) {
		t.Errorf("typing %+v, the tray holds %q", s.Edit, r.trayTexts())
	}
}

// A column that comes to be worked out while somebody types into it takes nothing, and loses nothing.
func TestColumnChangesWhileTyping(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("18⏎")
	r.Begin(valves.Difference, true)
	if r.Held() != nil || !slices.Equal(r.trayTexts(), []string{"18"}) {
		t.Errorf("held %+v, the tray holds %q", r.Held(), r.trayTexts())
	}
	r.Drop(0)
	r.coils("outer")
	lid := in(t, "0.100")
	r.must(r.bench.Keep(r.ctx, record.Retainer{ID: "r", Name: "retainer", Lid: &lid}))
	r.on("1 in", "taken-seat-depth")
	r.types("3.042⏎")
	r.on("1 in", "taken-retainer-depth")
	r.types("1.100⏎")
	r.wantCell("1 in", "taken-seat-depth", "3.042")
	r.wantCell("1 in", "base", "1.842")
	r.Begin(valves.Difference, false)
	r.wantCell("1 in", "taken-seat-depth", "3.042")
}

func TestSelect(t *testing.T) {
	r := newRig(t, four())
	ex := record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	r.Select(ex, "lift")
	r.wantHere("3 ex", "lift")
	if r.Selected() != ex || r.SelectedColumn() != "lift" {
		t.Errorf("selected %v, %s", r.Selected(), r.SelectedColumn())
	}
	r.Select(ex, "gone")
	r.wantHere("3 ex", "lift")
}
