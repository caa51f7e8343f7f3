package task_test

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/app/internal/task"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// asAnew fails the test where the record of the bench is not the one that the book gives, fingerprint and all.
func asAnew(t *testing.T, d *task.Desk, b *task.Bench, after string) {
	t.Helper()
	anew, err := d.Book.Record(context.Background(), b.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	is, err := exchange.Fingerprint(b.Record())
	if err != nil {
		t.Fatal(err)
	}
	was, err := exchange.Fingerprint(anew)
	if err != nil {
		t.Fatal(err)
	}
	if is == was {
		return
	}
	plain := func(r *record.Record) (m map[string]any) {
		text, _ := json.Marshal(r)
		json.Unmarshal(text, &m)
		return m
	}
	t.Fatalf("after %s the book has (+) what the bench has not (-): %s", after, cmp.Diff(plain(b.Record()), plain(anew)))
}

// However a head is typed, what is in memory is what the book gives back.
func TestBenchIsTheBook(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: one goroutine does one thing after the other")
	}
	ctx, d := context.Background(), emptyDesk(t)
	head := newHead
	head.Cylinders, head.Intakes, head.Exhausts = []string{"1", "3"}, 2, 1
	head.Units = record.Units{Length: unit.In, Load: unit.Lbf}
	setup, err := d.Begin(ctx, head)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	must := func(what string, err error) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		asAnew(t, d, b, what)
	}
	take := func(at record.Position, kind record.Kind, text string, how task.Taking) {
		t.Helper()
		must(string(kind)+" of "+at.String(), b.Take(ctx, task.Cell{Entry: task.Entry{At: at, Kind: kind, Text: text}}, how))
	}
	all := b.Record().Head.Positions()
	for _, kind := range []record.Kind{record.LiftChecking, record.BaseHeight, record.Tip} {
		for _, i := range rand.New(rand.NewPCG(3, 4)).Perm(len(all)) {
			take(all[i], kind, "1.842", task.First)
		}
	}
	last, one := all[len(all)-1], all[0]
	take(one, record.BaseHeight, "1.843", task.Again)
	take(one, record.LiftChecking, ".701", task.Instead)
	for _, at := range []record.Position{last, one} {
		must("shims", b.Take(ctx, task.Cell{Under: record.UnderLocator, Entry: task.Entry{At: at, Text: "30+15"}}, task.First))
		_, err := b.CutSeat(ctx, at, ".006")
		must("a cut", err)
		must("an acceptance", b.Accept(ctx, at, "bind", "agreed"))
		must("sharing", b.Share(ctx, map[bool]record.Kind{true: record.LiftChecking, false: record.BaseHeight}[at == last], at))
	}
	_, err = b.TakeBlock(ctx, []task.Cell{
		{Entry: task.Entry{At: last, Kind: record.SealGap, Text: ".700"}}, {Entry: task.Entry{At: one, Kind: record.SealGap, Text: ".710"}},
		{Entry: task.Entry{At: one, Kind: record.SealGap, Text: ".711*"}},
	})
	must("a block", err)
	must("what was struck", b.StrikeLast(ctx, task.Cell{Entry: task.Entry{At: one, Kind: record.SealGap}}, "slipped"))

	// What is named comes into the record, and what is named no more goes out of it.
	gauge := func(id string) record.Gauge { return record.Gauge{ID: id, Name: id} }
	must("gauges", b.Fit(ctx, gauge("z"), gauge("a")))
	for _, id := range []string{"z", "a"} {
		must("a reading on "+id, b.Take(ctx, task.Cell{Entry: task.Entry{At: last, Kind: record.Room, Text: "1.2*", Gauge: id}}, task.First))
	}
	spring := func(id string) record.Spring {
		return record.Spring{ID: id, Name: id, Coils: []record.Coil{{Name: "outer"}}}
	}
	must("springs", b.Fit(ctx, spring("y"), spring("b")))
	for _, role := range []record.Role{record.Exhaust, record.Intake} {
		for _, id := range []string{"y", "b"} {
			must("spring "+id, b.Keep(ctx, record.Package{Role: role, Spring: id}))
		}
	}
	must("a single spring", b.Keep(ctx, record.SpringPiece{Tag: "y-1", Spring: "y"}, record.Valve{At: one, Spring: "y-1"}))
	must("none", b.Keep(ctx, record.Valve{At: one}))
	must("another order", b.Keep(ctx, func() record.Head {
		h := b.Record().Head
		for i := range all {
			h.Order = append(h.Order, all[len(all)-1-i])
		}
		return h
	}()))
	for {
		step, err := b.PeekUndo(ctx)
		if err != nil || step == nil {
			must("all", err)
			return
		}
		_, err = b.Undo(ctx)
		must("undo", err)
	}
}
