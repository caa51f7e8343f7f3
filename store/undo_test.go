package store

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// heights is the plain model of a set-up: what each entry reads, in thousandths.
type heights map[string]int

// played holds the book against the model.
type played struct {
	t      *rapid.T
	b      *Book
	is     heights
	undo   []heights // as it was before each action that can be taken back
	redo   []heights
	tokens int
}

func (p *played) token() string { p.tokens++; return fmt.Sprint("token ", p.tokens) }

// Any order of entries, undo, redo and reopening leaves the book where a list of states says.
func TestUndoAgainstAListOfStates(t *testing.T) {
	ctx := context.Background()
	folder, games := t.TempDir(), 0
	rapid.Check(t, func(rt *rapid.T) {
		games++
		b, err := Create(ctx, filepath.Join(folder, fmt.Sprint(games, ".keeperbook")), options())
		if err != nil {
			rt.Fatal(err)
		}
		p := &played{t: rt, b: b, is: heights{}}
		defer func() { p.b.Close() }()
		r := small("1")
		if _, err := b.Keep(ctx, record.Action{Token: "begin", By: "Tamsin", At: noon, Edits: editsOf(r)}); err != nil {
			rt.Fatal(err)
		}
		rt.Repeat(map[string]func(*rapid.T){
			"enter":  func(rt *rapid.T) { p.t = rt; p.enter(ctx) },
			"undo":   func(rt *rapid.T) { p.t = rt; p.back(ctx, &p.undo, &p.redo, twice(p.b.Undo, p), p.b.PeekUndo) },
			"redo":   func(rt *rapid.T) { p.t = rt; p.back(ctx, &p.redo, &p.undo, twice(p.b.Redo, p), p.b.PeekRedo) },
			"reopen": func(rt *rapid.T) { p.t = rt; p.reopen(ctx) },
			"":       func(rt *rapid.T) { p.t = rt; p.compare(ctx) },
		})
		report, err := p.b.Examine(ctx)
		if err != nil || !report.Sound() {
			rt.Fatalf("%+v %v", report, err)
		}
	})
}

type turning func(ctx context.Context, setup, by string, at record.Stamp, token string) (*Step, error)

// twice asks twice under one token, as somebody does who did not hear the first answer.
func twice(turn turning, p *played) func(context.Context) (*Step, error) {
	return func(ctx context.Context) (*Step, error) {
		token := p.token()
		step, err := turn(ctx, "S-1", "Tamsin", noon, token)
		if err != nil {
			return nil, err
		}
		again, err := turn(ctx, "S-1", "Tamsin", noon, token)
		if err == nil && !cmp.Equal(step, again) {
			err = fmt.Errorf("asked again: %s", cmp.Diff(step, again))
		}
		return step, err
	}
}

func (p *played) enter(ctx context.Context) {
	next := maps.Clone(p.is)
	var edits []record.Edit
	for range rapid.IntRange(1, 4).Draw(p.t, "edits") {
		valve := record.Position{
			Cylinder: "1", Role: rapid.SampledFrom([]record.Role{record.Intake, record.Exhaust}).Draw(p.t, "role"), N: 1,
		}
		r := height(valve, rapid.IntRange(1800, 1803).Draw(p.t, "height"))
		r.N = rapid.IntRange(1, 2).Draw(p.t, "repeat")
		if rapid.IntRange(0, 3).Draw(p.t, "strike") == 0 {
			edits = append(edits, record.Remove("S-1", r))
			delete(next, r.Key())
		} else {
			edits = append(edits, record.Put("S-1", r))
			next[r.Key()] = thousandths(r)
		}
	}
	k, err := p.b.Keep(ctx, record.Action{Token: p.token(), Setup: "S-1", By: "Tamsin", At: noon, Edits: edits})
	if err != nil {
		p.t.Fatal(err)
	}
	if k.Changes > 0 {
		p.undo, p.redo = append(p.undo, p.is), nil
	}
	p.is = next
}

func (p *played) back(ctx context.Context, from, to *[]heights, turn func(context.Context) (*Step, error),
	peek func(context.Context, string) (*Step, error)) {
	seen, err := peek(ctx, "S-1")
	if err != nil {
		p.t.Fatal(err)
	}
	step, err := turn(ctx)
	if len(*from) == 0 {
		if say.CodeOf(err) != say.NotFound || seen != nil {
			p.t.Fatalf("nothing is left, and %v, %v", seen, err)
		}
		return
	}
	if err != nil {
		p.t.Fatal(err)
	}
	if d := cmp.Diff(seen, step); d != "" {
		p.t.Fatal(d)
	}
	last := len(*from) - 1
	*to = append(*to, p.is)
	p.is = (*from)[last]
	*from = slices.Delete(*from, last, last+1)
}

func (p *played) reopen(ctx context.Context) {
	path := p.b.Path()
	if err := p.b.Close(); err != nil {
		p.t.Fatal(err)
	}
	b, err := Open(ctx, path, options())
	if err != nil {
		p.t.Fatal(err)
	}
	p.b = b
}

func (p *played) compare(ctx context.Context) {
	r, err := p.b.Record(ctx, "S-1")
	if err != nil {
		p.t.Fatal(err)
	}
	is := heights{}
	for _, one := range r.Setup.Readings {
		is[one.Key()] = thousandths(one)
	}
	if d := cmp.Diff(p.is, is); d != "" {
		p.t.Fatal(d)
	}
}

func TestUndoOfAWholeSetup(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	second := small("1").Setup
	second.ID, second.Begun = "S-2", "2026-03-03T08:00:00Z"
	keep(t, b, "begin", "S-2", record.Put("", second), record.Put("S-2", height(in1, 1842)))
	if _, err := b.Undo(ctx, "S-2", "Piran", noon, "u"); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Record(ctx, "S-2"); say.CodeOf(err) != say.NotFound {
		t.Error(err)
	}
	lines, err := b.Heads(ctx, Filter{})
	if err != nil || len(lines) != 1 || lines[0].Setup != "S-1" || lines[0].Setups != 1 {
		t.Errorf("%+v %v", lines, err)
	}
	step, err := b.Redo(ctx, "S-2", "Piran", noon, "r")
	if err != nil || step.By != "Tamsin" || len(step.Changes) != 2 {
		t.Fatalf("%+v %v", step, err)
	}
	r, err := b.Record(ctx, "S-2")
	if err != nil || len(r.Setup.Readings) != 1 {
		t.Fatal(err)
	}
	sound(t, b)
}

// A step is refused as a whole where one of its values was changed meanwhile by something that is
// not of this set-up.
func TestUndoRefusedWhereAValueChanged(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	spring := record.Spring{ID: "SP-1", Name: "single", Coils: []record.Coil{{Name: "outer"}}}
	keep(t, b, "spring", "", record.Put("", spring))
	blue := spring
	blue.Note = "blue dab"
	keep(t, b, "both", "S-1", record.Put("S-1", height(in1, 1842)), record.Put("", blue))
	red := spring
	red.Note = "red dab"
	keep(t, b, "red", "", record.Put("", red))

	before := b.chainEnd(t)
	_, err := b.Undo(ctx, "S-1", "Tamsin", noon, "u")
	refused(t, err, say.Conflict, "spring SP-1 was changed again since")
	if b.chainEnd(t) != before {
		t.Error("something was written")
	}
	// Back as the action left it, the step can be taken.
	keep(t, b, "blue again", "", record.Put("", blue))
	if _, err := b.Undo(ctx, "S-1", "Tamsin", noon, "u"); err != nil {
		t.Fatal(err)
	}
	keep(t, b, "red again", "", record.Put("", red))
	_, err = b.Redo(ctx, "S-1", "Tamsin", noon, "r")
	refused(t, err, say.Conflict, "spring SP-1")
	sound(t, b)
}

func TestUndoStopsAtAClosedSetup(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r := small("1")
	keepRecord(t, b, r)
	keep(t, b, "height", "S-1", record.Put("S-1", height(in1, 1842)))
	closed := r.Setup
	closed.State = record.Closed
	keep(t, b, "close", "S-1", record.Put("", closed))
	for _, turn := range []turning{b.Undo, b.Redo} {
		_, err := turn(ctx, "S-1", "Tamsin", noon, "t")
		refused(t, err, say.ReadOnly, "S-1 is closed")
	}
	for _, peek := range []func(context.Context, string) (*Step, error){b.PeekUndo, b.PeekRedo} {
		if step, err := peek(ctx, "S-1"); step != nil || err != nil {
			t.Errorf("%+v %v", step, err)
		}
	}
}

// Each set-up has its own undo, also where entries of two take turns.
func TestUndoIsOfOneSetup(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	keepRecord(t, b, small("2"))
	for i, setup := range []string{"S-1", "S-2", "S-1", "S-2"} {
		r := height(in1, 1800+i)
		r.N = i + 1
		keep(t, b, fmt.Sprint(i), setup, record.Put(setup, r))
	}
	step, err := b.Undo(ctx, "S-1", "Tamsin", noon, "u")
	if err != nil || step.Changes[0].Item.Key != "1/in/1/0/base/3" {
		t.Fatalf("%+v %v", step, err)
	}
	if step, err := b.PeekRedo(ctx, "S-2"); step != nil || err != nil {
		t.Errorf("%+v %v", step, err)
	}
}
