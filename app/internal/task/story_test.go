package task_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// A single spring stands on one head at a time: on another it goes once its head has a set-up without it, or once it lies in a
// box, and its cycles go with it.
func TestASpringStandsOnOneHead(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "M. Ashlock", Clock: clock}
	open := func(tag string) *task.Bench {
		t.Helper()
		setup, err := task.InService(ctx, book, tag, task.StampOf(clock()))
		if err != nil {
			t.Fatal(err)
		}
		b, err := desk.OpenBench(ctx, setup)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	lower, other := open("OF-2P"), open("DR-1L")
	at := lower.Record().Head.Positions()[0]
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	refused := func(err error, code say.Code, words string) {
		t.Helper()
		if say.CodeOf(err) != code || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want %s with %q", err, code, words)
		}
	}
	piece := record.SpringPiece{Tag: "OF-91", Spring: lower.Record().PackageOf(at.Role).Spring}
	must(counter.Keep(ctx, piece))
	valve := lower.Record().ValveAt(at)
	valve.Spring = piece.Tag
	must(lower.Keep(ctx, valve))
	there := other.Record().ValveAt(other.Record().Head.Positions()[0])
	there.Spring = piece.Tag
	refused(other.Keep(ctx, there), say.Conflict, "Spring OF-91 is on OF-2P at 1 ex since 2026-03-02")

	// Neither does taking a step back put it on both: it is taken off, goes to the other head, and its first valve is undone.
	off := valve
	off.Spring = ""
	must(lower.Keep(ctx, off))
	must(other.Keep(ctx, there))
	_, err = lower.Undo(ctx)
	refused(err, say.Conflict, "Spring OF-91 is on DR-1L")
	if _, err = other.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if _, err = lower.Undo(ctx); err != nil || lower.Record().ValveAt(at).Spring != piece.Tag {
		t.Errorf("the spring lies nowhere, and is not back: %v", err)
	}
	_, err = other.Redo(ctx)
	refused(err, say.Conflict, "Spring OF-91 is on OF-2P at 1 ex")

	story, err := counter.Story(ctx, record.PieceItem, piece.Tag)
	must(err)
	life, err := lower.Life(ctx)
	must(err)
	if w := story.Story.Where(); w == nil || w.Head != "OF-2P" || story.Ran.Cycles != life.Ran.Cycles || story.Ran.Cycles == 0 {
		t.Errorf("%+v, its head ran %g", story.Story, life.Ran.Cycles)
	}
	_, err = counter.Goes(ctx, record.PieceItem, piece.Tag, "DR-1L 1 in")
	refused(err, say.Invalid, "by the set-up of its head")
	boxed, err := counter.Goes(ctx, record.PieceItem, piece.Tag, "2026-05-20 box 4")
	must(err)
	must(counter.Keep(ctx, boxed))
	must(other.Keep(ctx, there))
	story, err = counter.Story(ctx, record.PieceItem, piece.Tag)
	must(err)
	// The head went on without it.
	if n := len(story.Spells); n != 3 || story.Spells[0].Ran.Cycles+story.Spells[1].Ran.Cycles+story.Spells[2].Ran.Cycles != story.Ran.Cycles {
		t.Errorf("%+v", story.Spells)
	}
	all, err := task.PartsCalled(ctx, book, piece.Tag)
	if err != nil || len(all) != 1 || len(all[0].Lines()) < 3 {
		t.Errorf("%+v, %v", all, err)
	}
	_, err = task.PartsCalled(ctx, book, "nothing")
	refused(err, say.NotFound, "has the tag nothing")
}

// Of retainers and locks that have tags it is written down where they go: one is on a valve at a time, and nothing goes back.
func TestWhereRetainersGo(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "M. Ashlock", Clock: clock}
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	add := func(tag string) {
		t.Helper()
		part, err := counter.NewTagged(record.RetainerItem, tag)
		if err == nil {
			err = counter.Keep(ctx, part)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	goes := func(tag, place string) error {
		part, err := counter.Goes(ctx, record.RetainerItem, tag, place)
		if err != nil {
			return err
		}
		return counter.Keep(ctx, part)
	}
	add("R-03")
	add("R-04")
	if _, err := counter.NewTagged(record.RetainerItem, "R-03"); say.CodeOf(err) != say.Conflict {
		t.Errorf("%v", err)
	}
	if err := goes("R-03", "2026-03-10 OF-2P 3 ex"); err != nil {
		t.Fatal(err)
	}
	if err := goes("R-04", "OF-2P 3 ex 2"); err == nil || err.Error() != "The head OF-2P has no valve 3 ex 2; look at the valve." {
		t.Errorf("%v", err)
	}
	for place, want := range map[string]say.Code{
		"2026-03-12 OF-2P 3 ex": say.Conflict, "OF-2P 9 ex": say.NotFound, "ZZ-9 3 ex": say.NotFound, "somewhere": say.Invalid,
		"2026-06-20 box 4": say.Invalid,
	} {
		if err := goes("R-04", place); say.CodeOf(err) != want {
			t.Errorf("%q: %v", place, err)
		}
	}
	if err := goes("R-03", "2026-03-09 box 4"); say.CodeOf(err) != say.Invalid {
		t.Errorf("back in time: %v", err)
	}
	if err := goes("R-03", "2026-04-15 box 4"); err != nil {
		t.Fatal(err)
	}
	if err := goes("R-04", "2026-04-15 OF-2P 3 ex"); err != nil {
		t.Fatal(err)
	}
	first, err := counter.Story(ctx, record.RetainerItem, "R-03")
	if err != nil {
		t.Fatal(err)
	}
	second, err := counter.Story(ctx, record.RetainerItem, "R-04")
	if err != nil {
		t.Fatal(err)
	}
	life, err := task.LifeOf(ctx, book, "setup-ferry-built")
	if err != nil {
		t.Fatal(err)
	}
	// What the head ran before the first came on, the first, and the second add up to what the head ran.
	before := 0.0
	for _, r := range life.Runs {
		if r.Day < "2026-03-10" {
			before++
		}
	}
	if n := int(before) + first.Ran.Runs + second.Ran.Runs; n != len(life.Runs) || first.Ran.Runs == 0 || second.Ran.Runs == 0 {
		t.Errorf("%d and %d runs of %d", first.Ran.Runs, second.Ran.Runs, len(life.Runs))
	}
	if first.Where().Key != "story.box-now" || second.Where().Key != "story.is-on" {
		t.Errorf("%+v, %+v", first.Where(), second.Where())
	}
}

// A spring that is to be changed is not built in again; what holds goes on.
func TestWornSpringsAreNotBuiltInAgain(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "M. Ashlock", Clock: clock}
	bench, err := desk.OpenBench(ctx, "setup-ferry-built")
	if err != nil {
		t.Fatal(err)
	}
	spring := bench.Record().PackageOf(record.Exhaust).Spring
	tags := map[string]string{"3": "OF-93", "5": "OF-95"}
	for cylinder, tag := range tags {
		v := bench.Record().ValveAt(record.Position{Cylinder: cylinder, Role: record.Exhaust, N: 1})
		v.Spring = tag
		if err := bench.Keep(ctx, record.SpringPiece{Tag: tag, Spring: spring}, v); err != nil {
			t.Fatal(err)
		}
	}
	for kind, want := range map[record.SetupKind]string{record.AsFound: "OF-93", record.AsBuilt: ""} {
		next, err := desk.Follow(ctx, "setup-ferry-built", kind)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := book.Record(ctx, next)
		if err != nil {
			t.Fatal(err)
		}
		for cylinder, tag := range map[string]string{"3": want, "5": "OF-95"} {
			if got := rec.ValveAt(record.Position{Cylinder: cylinder, Role: record.Exhaust, N: 1}).Spring; got != tag {
				t.Errorf("%s: on %s ex is %q, want %q", kind, cylinder, got, tag)
			}
		}
	}
}
