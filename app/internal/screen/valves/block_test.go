package valves_test

import (
	"slices"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/model/record"
)

func TestPaste(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.Paste("1842\t700\t30\r\n1836\t.690\t.015+.015\n\n1851*; 1853*\t\tnone\n")
	r.wantTold("9 entries pasted")
	for _, c := range [][3]string{
		{"1 in", "base", "1.842"}, {"1 in", "seal", ".700"}, {"1 in", "shims", ".030"},
		{"1 ex", "base", "1.836"}, {"1 ex", "seal", ".690"}, {"1 ex", "shims", ".015+.015"},
		{"3 in", "base", ""}, {"3 ex", "base", "1.852"}, {"3 ex", "shims", "none"},
	} {
		r.wantCell(c[0], c[1], c[2])
	}
	if s := r.State(); s.Anchor != r.place("1 in", "base") || s.Cursor != r.place("3 ex", "shims") {
		t.Errorf("what was pasted is not selected: %v %v", s.Anchor, s.Cursor)
	}
	r.press(table.Undo)
	r.wantTold("8 cells") // nine entries, two of them in one cell
	r.wantCell("3 ex", "shims", "")
	r.wantCell("1 in", "base", "")
}

// All or nothing: one bad cell keeps all out, and every bad one is named.
func TestPasteRefused(t *testing.T) {
	r := newRig(t, four())
	r.on("1 ex", "seal")
	r.types(".700⏎")
	r.on("1 ex", "shims")
	r.types("30⏎")
	r.on("1 in", "base")
	block := "1842\tx\t30\t1.812\n1836\t.690\t15\n\t\t\n\t\t\n18\n"
	r.Paste(block)
	q := r.Asked()
	if q == nil || q.About != valves.AboutBlock {
		t.Fatal("taken in")
	}
	var faults []string
	for _, d := range q.Details {
		faults = append(faults, r.out.words.Line(d))
	}
	want := []string{
		`1 in, seal gap, closed: "x" is not a number; type digits with at most one decimal mark, such as .030.`,
		`1 in, calc: The column calc is worked out and takes no entry; choose a cell that is measured.`,
		`1 ex, shims: .030 stands here already; strike it first.`,
		`"18" (row 5, cell 1 of the block) lies outside the table; paste further up or left.`,
	}
	if !slices.Equal(faults, want) {
		t.Errorf("faults %q", faults)
	}
	r.wantCell("1 in", "base", "")
	r.answer("keep it in the tray")
	if got := r.trayTexts(); !slices.Equal(got, []string{block}) {
		t.Errorf("the tray holds %q", got)
	}
	// A reading on a filled cell is found when all the rest is right.
	r.Drop(0)
	r.Paste("1842\t.700\n1836\t.690")
	if q := r.Asked(); q == nil || len(q.Details) != 1 {
		t.Fatalf("asked %+v", q)
	}
	r.press(table.Escape)
	if len(r.again().Setup.Readings) != 1 {
		t.Error("part of the block was kept")
	}
}

func TestPasteOne(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("18")
	r.Paste("42")
	r.press(table.Enter)
	r.wantCell("1 in", "base", "1.842")
	r.Paste("1836")
	r.wantCell("1 ex", "base", "1.836")
	r.Paste("1837")
	if q := r.Asked(); q == nil || q.About != valves.AboutFilled {
		t.Fatal("a filled cell was not asked about")
	}
	r.answer("replace")
	r.wantCell("1 ex", "base", "1.837")
	r.Paste("")
	r.Paste("\n")
	if r.Asked() != nil || len(r.Tray()) != 0 {
		t.Error("nothing was pasted, and something happened")
	}
}

// Copied cells carry the raw reading with its correction, and pasted elsewhere they are the same.
func TestCopy(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer")
	g := record.Gauge{ID: "g", Name: "bind fixture", Kind: record.Fixture, Setting: []record.Taken{
		{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed},
		{Part: record.Jaws, Amount: in(t, "0.010"), Zero: record.Zeroed},
	}}
	r.must(r.bench.Keep(r.ctx, g))
	r.on("1 in", "bind-1")
	r.ReadThrough(r.Ways()[1])
	r.wantTold("bind from now on: read on bind fixture through lid .095, jaws .010 zeroed.")
	if got := r.State().Columns[r.State().Cursor.Column].Title; got != "bind −.095" {
		t.Errorf("the column is called %q", got)
	}
	r.types("1.209⏎1.212⏎")
	r.wantCell("1 in", "bind-1", "1.114")
	r.on("1 in", "bind-1")
	r.types("1.211*⏎")
	r.on("1 in", "lift")
	r.types(".612⏎")
	r.on("1 in", "base")
	r.types("12.5 mm⏎46.79 mm⏎")
	r.on("1 in", "lift")
	r.Key(table.Right, true)
	r.Key(table.Right, true)
	want := "0.612\t\t1.209 [lid 0.095 in + jaws 0.010 in zeroed]; 1.211* [lid 0.095 in + jaws 0.010 in zeroed]"
	if got := r.Copy(); got != want {
		t.Errorf("copied %q, want %q", got, want)
	}
	copied := r.Copy()
	r.on("3 in", "bind-1")
	_, bind, _ := cutTwice(copied)
	r.Paste(bind)
	r.wantCell("3 in", "bind-1", r.says("1 in", "bind-1"))
	a := r.bench.Record().ReadingsAt(record.Position{Cylinder: "1", Role: record.Intake, N: 1}, record.BindReading, 1)
	b := r.bench.Record().ReadingsAt(record.Position{Cylinder: "3", Role: record.Intake, N: 1}, record.BindReading, 1)
	if len(a) != 2 || len(b) != 2 || a[1].Quantity.Value != b[1].Quantity.Value || len(b[1].Correction) != 2 || b[1].Correction[1].Zero != record.Zeroed {
		t.Errorf("pasted as %+v", b)
	}
	r.on("1 in", "base")
	if got := r.Copy(); got != "12.5 mm" {
		t.Errorf("copied %q", got)
	}
}

func cutTwice(row string) (first, last string, n int) {
	cells := 0
	for i := len(row) - 1; i >= 0; i-- {
		if row[i] == '\t' {
			return row[:i], row[i+1:], cells
		}
	}
	return "", row, cells
}

func TestPasteBareBind(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer")
	r.must(r.bench.Keep(r.ctx, record.Gauge{ID: "g", Name: "bind fixture", Kind: record.Fixture, Setting: []record.Taken{
		{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed}}}))
	r.on("1 in", "bind-1")
	r.Paste("1.209\n1.114 [at-the-spring]\n")
	q := r.Asked()
	if q == nil || q.About != valves.AboutBare || len(q.Choices) != 3 {
		t.Fatalf("asked %+v", q)
	}
	r.answer("read on bind fixture through lid .095")
	r.wantCell("1 in", "bind-1", "1.114")
	r.wantCell("1 ex", "bind-1", "1.114")
	r.on("3 in", "bind-1")
	r.Paste("1.115")
	r.answer("nothing, they are the spring's own")
	r.wantCell("3 in", "bind-1", "1.115")
	r.on("3 ex", "bind-1")
	r.Paste("1.115")
	r.press(table.Escape)
	r.wantCell("3 ex", "bind-1", "")
	if got := r.trayTexts(); !slices.Equal(got, []string{"1.115"}) {
		t.Errorf("the tray holds %q", got)
	}
	r.Paste("1.115 [lid 0.1 + lid 0.1]")
	if q := r.Asked(); q == nil || q.About != valves.AboutBlock {
		t.Errorf("a correction that takes the lid off twice was taken: %+v", q)
	}
}

// Of two stacks in one cell one would be lost, so neither is taken.
func TestTwoStacksInACell(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "shims")
	r.Paste("0.5 mm; 1.0 mm\n.030")
	if q := r.Asked(); q == nil || len(q.Details) != 1 {
		t.Fatalf("asked %+v", q)
	}
	r.answer("put it away")
	if got := r.again().Setup.Valves; len(got) != 0 {
		t.Errorf("kept %+v", got)
	}
}
