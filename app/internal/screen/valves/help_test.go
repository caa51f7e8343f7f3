package valves_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// watch is a clock that stands until it is moved.
type watch struct{ t time.Time }

func (w *watch) now() time.Time             { return w.t }
func (w *watch) passes(by time.Duration)    { w.t = w.t.Add(by) }
func newWatch() *watch                      { return &watch{time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)} }
func (w *watch) clock() func() time.Time    { return w.now }
func at(row, col int) (place table.Place)   { return table.Place{Row: row, Column: col} }
func keys(k ...table.Key) (all []table.Key) { return k }

// window stands in for the view: it notes what it was told.
type window struct {
	told     []string
	asked    []valves.Question
	refused  int
	accepted int
	changed  int
	words    say.Printer
}

func (w *window) Changed()              { w.changed++ }
func (w *window) Ask(q valves.Question) { w.asked = append(w.asked, q) }
func (w *window) Tell(l say.Line)       { w.told = append(w.told, w.words.Line(l)) }
func (w *window) Refused()              { w.refused++ }
func (w *window) Accepted()             { w.accepted++ }

func (w *window) last() string {
	if len(w.told) == 0 {
		return ""
	}
	return w.told[len(w.told)-1]
}

// rig is a table on a real book.
type rig struct {
	testing.TB
	*valves.Presenter
	ctx   context.Context
	desk  *task.Desk
	bench *task.Bench
	out   *window
	time  *watch
}

// four is a head of four valves: 1 in, 1 ex, 3 in, 3 ex.
func four() task.NewHead { return headOf("1", "3") }

func headOf(cylinders ...string) task.NewHead {
	return task.NewHead{
		Owner: "Somebody", Engine: "Engine one", Tag: "T-1", Cylinders: cylinders, Intakes: 1, Exhausts: 1,
		Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
	}
}

func newRig(t testing.TB, head task.NewHead) *rig {
	t.Helper()
	w := newWatch()
	desk, err := task.MakeBook(context.Background(), filepath.Join(t.TempDir(), "valves"), "M. Ashlock", w.clock())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	return rigOn(t, desk, w, head)
}

func rigOn(t testing.TB, desk *task.Desk, w *watch, head task.NewHead) *rig {
	t.Helper()
	ctx := context.Background()
	setup, err := desk.Begin(ctx, head)
	if err != nil {
		t.Fatal(err)
	}
	bench, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	r := &rig{TB: t, ctx: ctx, desk: desk, bench: bench, time: w, out: &window{words: bench.Words()}}
	r.Presenter = valves.New(bench, r.out)
	return r
}

func (r *rig) must(err error) {
	r.Helper()
	if err != nil {
		r.Fatal(err)
	}
}

func in(t testing.TB, read string) unit.Quantity {
	t.Helper()
	q, err := unit.Of(read, unit.In)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// coils fits springs of these coils to both roles, each with a least margin of .060.
func (r *rig) coils(names ...string) {
	r.Helper()
	spring := record.Spring{ID: "s", Name: "spring"}
	var least []record.Least
	for i, n := range names {
		spring.Coils = append(spring.Coils, record.Coil{Name: n})
		least = append(least, record.Least{Coil: i + 1, Margin: in(r, "0.060")})
	}
	retainer := record.Retainer{ID: "r", Name: "retainer", Steps: []unit.Quantity{in(r, "0.095"), in(r, "0.095")}}
	r.must(r.bench.Keep(r.ctx, spring, retainer,
		record.Package{Role: record.Intake, Spring: "s", Retainer: "r", Least: least},
		record.Package{Role: record.Exhaust, Spring: "s", Retainer: "r", Least: least}))
	r.Refresh()
}

// types sends a text as a gauge or a person does, a character at a time; ⏎ is Enter.
func (r *rig) types(text string) {
	for _, c := range text {
		if c == '⏎' {
			r.Key(table.Enter, false)
			continue
		}
		r.Rune(c)
	}
}

func (r *rig) press(all ...table.Key) {
	for _, k := range all {
		r.Key(k, false)
	}
}

// on puts the cursor on a cell, by the valve's label and the column's key.
func (r *rig) on(label, column string) {
	r.Helper()
	place := r.place(label, column)
	r.Tap(place, false)
	if r.State().Cursor != place {
		r.Fatalf("the cursor did not go to %s, %s: %s", label, column, r.out.last())
	}
}

func (r *rig) place(label, column string) table.Place {
	r.Helper()
	s := r.State()
	place := at(-1, -1)
	for i, row := range s.Rows {
		if row.Label == label {
			place.Row = i
		}
	}
	for i, c := range s.Columns {
		if c.Key == column {
			place.Column = i
		}
	}
	if place.Row < 0 || place.Column < 0 {
		r.Fatalf("no cell %s, %s in %v", label, column, columnKeys(s))
	}
	return place
}

func columnKeys(s table.State) []string {
	var all []string
	for _, c := range s.Columns {
		all = append(all, c.Key)
	}
	return all
}

// says returns what a cell shows.
func (r *rig) says(label, column string) string {
	r.Helper()
	p := r.place(label, column)
	return r.State().Cells[p.Row][p.Column].Text
}

func (r *rig) wantCell(label, column, want string) {
	r.Helper()
	if got := r.says(label, column); got != want {
		r.Errorf("%s, %s says %q, want %q", label, column, got, want)
	}
}

// wantHere checks where the cursor is.
func (r *rig) wantHere(label, column string) {
	r.Helper()
	s := r.State()
	got, key := s.Rows[s.Cursor.Row].Label, s.Columns[s.Cursor.Column].Key
	if got != label || key != column {
		r.Errorf("the cursor is on %s, %s; want %s, %s", got, key, label, column)
	}
}

func (r *rig) wantTold(part string) {
	r.Helper()
	if !strings.Contains(r.out.last(), part) {
		r.Errorf("told %q, want %q in it", r.out.last(), part)
	}
}

// answer takes the choice of the open question that says this.
func (r *rig) answer(choice string) {
	r.Helper()
	var choices []say.Line
	if h := r.Held(); h != nil {
		choices = h.Choices
	} else if q := r.Asked(); q != nil {
		choices = q.Choices
	}
	for i, c := range choices {
		if r.out.words.Line(c) == choice {
			r.Answer(i)
			return
		}
	}
	r.Fatalf("no answer %q", choice)
}

func (r *rig) trayTexts() []string {
	var all []string
	for _, b := range r.Tray() {
		all = append(all, b.Text)
	}
	return all
}

// again opens the set-up anew from the book.
func (r *rig) again() *record.Record {
	r.Helper()
	b, err := r.desk.OpenBench(r.ctx, r.bench.Record().Setup.ID)
	r.must(err)
	return b.Record()
}
