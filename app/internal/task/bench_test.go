package task_test

import (
	"context"
	"errors"
	"path/filepath"
	"slices"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// emptyDesk is a new book with nothing in it.
func emptyDesk(t *testing.T) *task.Desk {
	t.Helper()
	book, err := store.Create(context.Background(), filepath.Join(t.TempDir(), "new.keeperbook"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return &task.Desk{Book: book, Who: "test", Clock: clock}
}

var newHead = task.NewHead{
	Owner: "Somebody", Engine: "Engine one", Tag: "T-1", Cylinders: []string{"1", "3"}, Intakes: 1, Exhausts: 1,
	Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
}

// From an empty book to a margin, and back again by undo.
func TestBench(t *testing.T) {
	ctx, d := context.Background(), emptyDesk(t)
	setup, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	in := func(read string) unit.Quantity {
		q, err := unit.Of(read, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	cell := func(kind record.Kind, coil int, text string) task.Cell {
		return task.Cell{Entry: task.Entry{At: at, Kind: kind, Coil: coil, Text: text}}
	}
	base := func(text string) task.Cell { return cell(record.BaseHeight, 0, text) }
	steps := []func() error{
		func() error {
			return b.Keep(ctx, record.Spring{ID: "s", Name: "single", Coils: []record.Coil{{Name: "outer"}}},
				record.Package{Role: record.Intake, Spring: "s", Least: []record.Least{{Coil: 1, Margin: in("0.060")}}})
		},
		func() error { return b.Take(ctx, cell(record.BaseHeight, 0, "1842"), task.First) },
		func() error {
			return b.Take(ctx, task.Cell{Entry: task.Entry{At: at, Text: "30"}, Under: record.UnderLocator}, task.First)
		},
		func() error { return b.Take(ctx, cell(record.LiftChecking, 0, ".612"), task.First) },
		func() error { return b.Take(ctx, cell(record.BindReading, 1, "1.114"), task.First) },
	}
	for i, step := range steps {
		if err := step(); err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
	}
	v := b.Evaluation().Valves[0]
	if got := unit.Inches.LengthIn(v.Margin.Value); got != ".086" || v.Verdict != evaluate.Within {
		t.Errorf("margin %s, verdict %v", got, v.Verdict)
	}

	err = b.Take(ctx, base("1836"), task.First)
	var e *say.Error
	if !errors.As(err, &e) || e.Code != say.Conflict {
		t.Errorf("a filled place took a second reading: %v", err)
	}
	if err := b.Take(ctx, base("1840"), task.Again); err != nil {
		t.Fatal(err)
	}
	if got := unit.Inches.LengthIn(b.Evaluation().Valves[0].Base.Value); got != "1.841" {
		t.Errorf("mean of two %s, want 1.841", got)
	}
	if err := b.Take(ctx, base("1836"), task.Instead); err != nil {
		t.Fatal(err)
	}
	if got := unit.Inches.LengthIn(b.Evaluation().Valves[0].Base.Value); got != "1.836" {
		t.Errorf("replaced by %s, want 1.836", got)
	}
	if got := len(b.Record().ReadingsAt(at, record.BaseHeight, 0)); got != 3 {
		t.Errorf("%d base readings are kept, struck ones too; want 3", got)
	}
	if err := b.StrikeLast(ctx, cell(record.LiftChecking, 0, ""), ""); err != nil {
		t.Fatal(err)
	}
	if b.Evaluation().Valves[0].Verdict != evaluate.WithinUpTo {
		t.Errorf("without a lift %v", b.Evaluation().Valves[0].Verdict)
	}
	if _, err := b.CutSeat(ctx, at, "6"); err != nil {
		t.Fatal(err)
	}
	if b.Evaluation().Valves[0].Verdict != evaluate.Stale {
		t.Errorf("after seat work %v", b.Evaluation().Valves[0].Verdict)
	}
	for range 3 { // seat work, strike, replace
		if _, err := b.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if v := b.Evaluation().Valves[0]; unit.Inches.LengthIn(v.Base.Value) != "1.841" || v.Verdict != evaluate.Within {
		t.Errorf("after three undos %s, %v", unit.Inches.LengthIn(v.Base.Value), v.Verdict)
	}
	if _, err := b.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	if got := unit.Inches.LengthIn(b.Evaluation().Valves[0].Base.Value); got != "1.836" {
		t.Errorf("after a redo %s", got)
	}
}

func TestFollow(t *testing.T) {
	ctx, d := context.Background(), emptyDesk(t)
	found, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, found)
	if err != nil {
		t.Fatal(err)
	}
	at := record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	if err := b.Keep(ctx, record.Retainer{ID: "r", Name: "r"}, record.Package{Role: record.Exhaust, Retainer: "r", Nearest: "guide"}); err != nil {
		t.Fatal(err)
	}
	if err := b.Take(ctx, task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: "1842"}}, task.First); err != nil {
		t.Fatal(err)
	}
	next, err := d.Follow(ctx, found, record.AsBuilt)
	if err != nil {
		t.Fatal(err)
	}
	n, err := d.OpenBench(ctx, next)
	if err != nil {
		t.Fatal(err)
	}
	s := n.Record().Setup
	if s.Replaces != found || s.Kind != record.AsBuilt || len(s.Readings) != 0 || n.Record().PackageOf(record.Exhaust).Nearest != "guide" {
		t.Errorf("followed by %+v", s)
	}
}

func TestBeginRefuses(t *testing.T) {
	ctx, d := context.Background(), emptyDesk(t)
	for key, change := range map[string]func(*task.NewHead){
		"task.no-tag":    func(n *task.NewHead) { n.Tag = " " },
		"task.cylinders": func(n *task.NewHead) { n.Cylinders = nil },
		"task.valves":    func(n *task.NewHead) { n.Intakes = 4 },
		"task.label":     func(n *task.NewHead) { n.Cylinders = []string{"1", "1"} },
	} {
		n := newHead
		change(&n)
		_, err := d.Begin(ctx, n)
		var e *say.Error
		if !errors.As(err, &e) || e.Line.Key != key {
			t.Errorf("%v, want %s", err, key)
		}
	}
	// A second head of the same engine makes neither engine nor owner anew.
	if _, err := d.Begin(ctx, newHead); err != nil {
		t.Fatal(err)
	}
	second := newHead
	second.Tag = "T-2"
	if _, err := d.Begin(ctx, second); err != nil {
		t.Fatal(err)
	}
	heads, err := d.Book.Heads(ctx, store.Filter{Text: "Engine one"})
	if err != nil || len(heads) != 2 {
		t.Errorf("%d heads, %v", len(heads), err)
	}
}

func TestCylinders(t *testing.T) {
	for text, want := range map[string][]string{
		"4": {"1", "2", "3", "4"}, "1 3 5 7": {"1", "3", "5", "7"}, "2-4-6-8": {"2", "4", "6", "8"},
		"front": {"front"}, "": nil, "17": {"17"},
	} {
		if got := task.Cylinders(text); !slices.Equal(got, want) {
			t.Errorf("%q is %v, want %v", text, got, want)
		}
	}
}
