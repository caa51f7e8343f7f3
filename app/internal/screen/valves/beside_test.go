package valves_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/model/record"
)

// fill reads what a valve needs for a margin.
func (r *rig) fill(label string, base, shims, lift, bind string) {
	r.Helper()
	for _, c := range [][2]string{{"base", base}, {"shims", shims}, {"lift", lift}, {"bind-1", bind}} {
		if c[1] != "" {
			r.on(label, c[0])
			r.types(c[1] + "⏎")
		}
	}
}

// next opens a set-up that follows the open one, a day later.
func (r *rig) next(kind record.SetupKind) *rig {
	r.Helper()
	r.time.passes(24 * time.Hour)
	id, err := r.desk.Follow(r.ctx, r.bench.Record().Setup.ID, kind)
	r.must(err)
	return r.open(id)
}

// open opens a set-up of the same book.
func (r *rig) open(setup string) *rig {
	r.Helper()
	bench, err := r.desk.OpenBench(r.ctx, setup)
	r.must(err)
	n := &rig{TB: r.TB, ctx: r.ctx, desk: r.desk, bench: bench, time: r.time, out: &window{words: bench.Words()}}
	n.Presenter = valves.New(bench, n.out)
	return n
}

// twice is a head that was measured as found and again as built, the newer set-up open.
func twice(t testing.TB) (older, newer *rig) {
	t.Helper()
	head := four()
	head.Kind = record.AsFound
	older = newRig(t, head)
	older.coils("outer")
	older.fill("1 in", "1842", "30", ".600", "1.114")
	older.fill("1 ex", "1836", "30", ".600", "1.200")
	older.fill("3 in", "1840", "", "", "")
	newer = older.next(record.AsBuilt)
	newer.fill("1 in", "1842", "2x15", ".6005", "1.114")
	newer.fill("1 ex", "1841", "15", ".600", "1.150")
	newer.fill("3 ex", "1839", "", "", "")
	return older, newer
}

func TestSideBySide(t *testing.T) {
	_, r := twice(t)
	r.on("1 ex", "base")
	r.press(table.Beside)
	if !r.SideBySide() {
		t.Fatal("nothing lies beside")
	}
	if got := r.out.words.Line(r.Compared()); got != "Old: as found, begun 2026-06-01. New: as built, begun 2026-06-02, which is the open one." {
		t.Errorf("says %q", got)
	}
	r.wantHere("1 ex", "new-base")
	want := strings.Fields("old-verdict new-verdict old-margin new-margin by-margin old-base new-base by-base old-shims new-shims by-shims " +
		"old-height new-height by-height old-lift new-lift by-lift old-open new-open by-open old-bind new-bind by-bind")
	if got := columnKeys(r.State()); !slices.Equal(got, want) {
		t.Errorf("columns %v", got)
	}
	for _, c := range []struct{ label, number, old, new, by string }{
		{"1 in", "verdict", "within", "within", ""},
		{"1 in", "margin", ".098", ".0975", "−.0005"},
		{"1 in", "base", "1.842", "1.842", ".000"},
		{"1 in", "shims", ".030", ".015+.015", ".000"},
		{"1 in", "lift", ".600", ".6005", "+.0005"},
		{"1 ex", "verdict", "short", "within", ""},
		{"1 ex", "margin", ".006", ".076", "+.070"},
		{"1 ex", "base", "1.836", "1.841", "+.005"},
		{"1 ex", "shims", ".030", ".015", "−.015"},
		{"1 ex", "height", "1.806", "1.826", "+.020"},
		{"1 ex", "open", "1.206", "1.226", "+.020"},
		{"1 ex", "bind", "1.200", "1.150", "−.050"},
		{"3 in", "verdict", "missing", "missing", ""},
		{"3 in", "base", "1.840", "", ""},
		{"3 ex", "base", "", "1.839", ""},
		{"3 ex", "margin", "", "", ""},
	} {
		r.wantCell(c.label, "old-"+c.number, c.old)
		r.wantCell(c.label, "new-"+c.number, c.new)
		if c.number != "verdict" {
			r.wantCell(c.label, "by-"+c.number, c.by)
		}
	}
	s := r.State()
	for column, strong := range map[string]bool{
		"old-base": true, "new-base": true, "by-base": false, "old-shims": true, "old-height": false, "new-lift": true, "new-bind": true, "new-margin": false,
	} {
		p := r.place("1 ex", column)
		if s.Cells[p.Row][p.Column].Strong != strong {
			t.Errorf("%s is bold: %t", column, !strong)
		}
	}
	for column, group := range map[string]string{"old-base": "base", "by-base": "base", "new-height": "installed", "new-verdict": "verdict"} {
		if got := s.Columns[r.place("1 ex", column).Column].Group; got != group {
			t.Errorf("%s stands under %q", column, got)
		}
	}
	if p := r.place("1 in", "by-base"); !s.Cells[p.Row][p.Column].Faint {
		t.Error("what did not change stands out")
	}
	was, is := r.Sides()
	if was.Valve.Label != "1 ex" || was.Record.Setup.Kind != record.AsFound || is.Record.Setup.Kind != record.AsBuilt ||
		is.Valve.Base.Value <= was.Valve.Base.Value {
		t.Errorf("the sides are %s of %s and of %s", was.Valve.Label, was.Record.Setup.Kind, is.Record.Setup.Kind)
	}
}

// A check height that is in force is measured, and the governing coil is said where it is another one.
func TestSideBySideSaysWhatChanged(t *testing.T) {
	_, r := twice(t)
	r.on("1 ex", "check")
	r.types("1.826⏎")
	r.must(r.bench.Keep(r.ctx, record.Spring{ID: "s2", Name: "nest", Coils: []record.Coil{{Name: "outer"}, {Name: "inner"}}},
		record.Package{Role: record.Exhaust, Spring: "s2", Retainer: "r", Least: []record.Least{
			{Coil: 1, Margin: in(t, "0.060")}, {Coil: 2, Margin: in(t, "0.060")},
		}}))
	r.Refresh()
	r.on("1 ex", "bind-2")
	r.types("1.100⏎")
	r.press(table.Beside)
	r.wantCell("1 ex", "new-height", "1.826")
	if p := r.place("1 ex", "new-height"); !r.State().Cells[p.Row][p.Column].Strong {
		t.Error("a check height does not look measured")
	}
	r.wantCell("1 ex", "governs", "outer → inner")
	r.wantCell("1 in", "governs", "")
	// The inner coil's open height and bind are no successors of the outer one's.
	r.wantCell("1 ex", "new-bind", "1.100")
	r.wantCell("1 ex", "by-bind", "")
	r.wantCell("1 ex", "by-open", "")
	r.wantCell("1 ex", "by-margin", "+.025")
}

// The ways back, and where each leads.
func TestBackFromSideBySide(t *testing.T) {
	for name, c := range map[string]struct {
		key           table.Key
		label, column string
	}{
		"Esc":          {table.Escape, "1 ex", "base"},
		"the same key": {table.Beside, "1 ex", "base"},
		"F3":           {table.NextMissing, "3 in", "base"},
		"undo":         {table.Undo, "3 ex", "base"},
	} {
		t.Run(name, func(t *testing.T) {
			_, r := twice(t)
			r.on("1 in", "base")
			r.press(table.Beside, table.Right, table.Right, table.Enter)
			r.wantHere("1 ex", "old-shims")
			r.press(c.key)
			if r.SideBySide() {
				t.Fatal("still side by side")
			}
			r.wantHere(c.label, c.column)
		})
	}
}

func TestSideBySideTakesNoEntry(t *testing.T) {
	_, r := twice(t)
	before := len(r.again().Setup.Readings)
	r.on("3 in", "base")
	r.press(table.Beside)
	r.wantHere("3 in", "new-base")
	r.types("1.851⏎")
	r.wantTold("went to the tray")
	r.time.passes(5 * time.Second)
	r.types("1.852")
	r.wantTold("Side by side nothing is entered; Esc goes back to the table.")
	r.time.passes(5 * time.Second)
	r.Paste("1.853\t.700")
	r.press(table.Delete, table.Modify)
	r.wantTold("Side by side nothing is entered")
	r.Place(0)
	if got := r.trayTexts(); !slices.Equal(got, []string{"1.851", "1.852", "1.853\t.700"}) {
		t.Errorf("the tray holds %q", got)
	}
	if got := r.out.words.Line(r.Next()); got != "Side by side: Esc goes back" {
		t.Errorf("next is %q", got)
	}
	if r.SelectedColumn() != "base" {
		t.Errorf("the place to come back to is %q", r.SelectedColumn())
	}
	if got := len(r.again().Setup.Readings); got != before || r.State().Edit != nil {
		t.Errorf("%d readings are kept, %d were", got, before)
	}
	// Back in the table it is placed.
	r.press(table.Escape)
	r.Place(0)
	r.wantCell("3 in", "base", "1.851")
}

// A text that is being typed is settled first; one that is refused holds the table.
func TestSideBySideSettlesWhatIsTyped(t *testing.T) {
	_, r := twice(t)
	r.on("3 in", "base")
	r.types("1.8.4")
	r.press(table.Beside)
	if r.SideBySide() || r.Held() == nil {
		t.Fatal("a refused reading was left behind")
	}
	r.press(table.Escape)
	r.types("1851")
	r.press(table.Beside)
	r.wantCell("3 in", "new-base", "1.851")
	r.wantCell("3 in", "by-base", "+.011")
}

func TestSideBySideAlone(t *testing.T) {
	r := newRig(t, four())
	r.press(table.Beside)
	r.wantTold("T-1 has this set-up alone; begin another one in the menu Head, then F4 lays the two side by side.")
	if r.SideBySide() || !r.Compared().Zero() {
		t.Error("something lies beside it")
	}
}

// Which set-up is laid beside which, and which of the two is the older.
func TestSideBySideChooses(t *testing.T) {
	first, second := twice(t)
	third := second.next(record.AsBuilt)
	second.time.passes(24 * time.Hour)
	for name, c := range map[string]struct {
		open *rig
		want string
	}{
		"the one it replaces": {third, "Old: as built, begun 2026-06-02. New: as built, begun 2026-06-03, which is the open one."},
		"also in the middle":  {second, "Old: as found, begun 2026-06-01. New: as built, begun 2026-06-02, which is the open one."},
		"the first after it":  {first, "Old: as found, begun 2026-06-01, which is the open one. New: as built, begun 2026-06-02."},
	} {
		r := c.open
		r.press(table.Beside)
		if got := r.out.words.Line(r.Compared()); got != c.want {
			t.Errorf("%s: %q", name, got)
		}
		r.press(table.Escape)
	}
	// The older is the left one, whichever is open.
	first.press(table.Beside)
	first.wantCell("1 ex", "old-base", "1.836")
	first.wantCell("1 ex", "new-base", "1.841")
	first.wantCell("1 ex", "by-base", "+.005")

	third.on("1 ex", "lift")
	third.press(table.Beside, table.Choose)
	if q := third.Asked(); q == nil || q.About != valves.AboutBeside || len(q.Choices) != 2 {
		t.Fatalf("asked %+v", third.Asked())
	}
	third.answer("as found, begun 2026-06-01")
	third.wantHere("1 ex", "new-lift")
	third.wantCell("1 ex", "old-lift", ".600")
	third.wantCell("1 ex", "old-base", "1.836")
	third.press(table.Choose)
	third.answer("leave")
	third.press(table.Escape)
	third.wantHere("1 ex", "lift")

	_, pair := twice(t)
	pair.press(table.Beside, table.Choose)
	pair.wantTold("T-1 has these two set-ups and no other.")
}

// What another screen changes is seen on both sides, and a copy is what stands there.
func TestSideBySideFollowsAndCopies(t *testing.T) {
	older, r := twice(t)
	r.on("1 in", "base")
	r.press(table.Beside)
	older.on("3 ex", "base")
	older.types("1838⏎")
	r.Refresh()
	r.wantCell("3 ex", "old-base", "1.838")
	r.wantCell("3 ex", "by-base", "+.001")
	r.on("1 ex", "old-base")
	r.Tap(r.place("3 in", "by-base"), true)
	if got := r.Copy(); got != "1.836\t1.841\t+.005\n1.840\t\t" {
		t.Errorf("copied %q", got)
	}
	// Where the book cannot be read any more, it says so and goes back to what it knows.
	r.must(r.desk.Close())
	told := len(r.out.told)
	r.Refresh()
	if r.SideBySide() || len(r.out.told) == told || r.out.refused == 0 {
		t.Errorf("with the book shut, side by side %t, told %q", r.SideBySide(), r.out.last())
	}
	r.wantHere("3 in", "base")
	told = len(r.out.told)
	r.press(table.Beside)
	if r.SideBySide() || len(r.out.told) == told {
		t.Error("with the book shut, something lies beside")
	}
}
