package task_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/app/internal/task"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
)

const springsHeader = "tag,spring,batch,condition,what,coil,height,load,back,correction,gauge,retainer,locator,note\n"

// A table goes in, comes out, and goes in again without a change.
func TestSpringsTable(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	table := springsHeader +
		"T-1,nest 12,B,run-in,load,1,1.915,124,,lid .095,spring tester 7,,,\n" +
		"T-1,,,,load,1,1305,319,305,lid .095,,,,\n" +
		"T-1,,,,bind,1,1.115,,,at-the-spring,bind fixture,,,\n" +
		"T-1,,,,free,,2.208,,,,,,,\n" +
		"T-2,nest 12,,new,load,,1.915,180,,as-set,spring tester 7,,,sat long\n" +
		"T-2,,,,load,,1.400,330,,as-set,,,,\n"
	n, err := desk.SpringsIn(ctx, []byte(table))
	if err != nil || n != 2 {
		t.Fatalf("%d springs, %v", n, err)
	}
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	piece := func(tag string) record.SpringPiece {
		for _, p := range counter.Parts().Pieces {
			if p.Tag == tag {
				return p
			}
		}
		t.Fatalf("%s is not in the book", tag)
		return record.SpringPiece{}
	}
	one, two := piece("T-1"), piece("T-2")
	l := task.PieceLoads(one, 1)
	if one.Condition != record.RunIn || one.Batch != "B" || len(l.Points) != 2 || l.Points[1].Height.Typed != "1305" || l.Points[1].Back.Read != "305" ||
		l.By != "test" || l.Source != record.Measured || len(l.Correction) != 1 || one.Free.Read != "2.208" || task.PieceBind(one, 1) == nil {
		t.Errorf("kept is %+v, loads %+v", one, l)
	}
	if l := task.PieceLoads(two, 0); two.Note != "sat long" || l == nil || len(l.Points) != 2 {
		t.Errorf("kept is %+v", two)
	}
	out, err := task.SpringsOut(ctx, desk.Book)
	if err != nil || !strings.Contains(string(out), "T-1,nest 12,B,run-in,load,1,1.915 in,124 lbf,,lid 0.095 in,spring tester 7,") {
		t.Errorf("%v, out comes\n%s", err, out)
	}
	if _, err := desk.SpringsIn(ctx, out); err != nil {
		t.Errorf("what came out does not go in: %v", err)
	}
	if again, err := task.SpringsOut(ctx, desk.Book); err != nil || string(again) != string(out) {
		t.Errorf("%v, the second time out comes\n%s", err, again)
	}
}

// What the book has and a table says again stays as it was typed, and every record keeps its fingerprint.
func TestSpringsTableChangesNoRecord(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	prints := func() map[string]string {
		all := map[string]string{}
		for _, setup := range setups(t, desk.Book) {
			rec, err := desk.Book.Record(ctx, setup)
			if err != nil {
				t.Fatal(err)
			}
			if all[setup], err = exchange.Fingerprint(rec); err != nil {
				t.Fatal(err)
			}
		}
		return all
	}
	before := prints()
	rec, err := desk.Book.Record(ctx, "setup-launch-built")
	if err != nil || !slices.ContainsFunc(rec.Parts.Pieces, func(p record.SpringPiece) bool {
		return p.Free != nil && p.Free.Typed != p.Free.Plain() && len(p.Loads) > 0
	}) {
		t.Fatalf("no spring of it could change: %v", err)
	}
	out, err := task.SpringsOut(ctx, desk.Book)
	if err != nil {
		t.Fatal(err)
	}
	if n, err := desk.SpringsIn(ctx, out); err != nil || n == 0 {
		t.Fatalf("%d springs, %v", n, err)
	}
	if d := cmp.Diff(before, prints()); d != "" {
		t.Error(d)
	}
}

// Nothing of a table with a fault goes in, and every fault says its line.
func TestSpringsTableRefused(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: it reads a table some hundred times, one after the other")
	}
	ctx := context.Background()
	for _, c := range []struct{ name, lines, want string }{
		{"a type that is not there", "T-1,no such,,,free,,2.208,,,,,,,", `Line 2 is of the type "no such", and the book has no such type`},
		{"no type", "T-1,,,,free,,2.208,,,,,,,", "Line 2 begins a new single spring and does not say of which type"},
		{"a coil too many", "T-1,single 31,,,bind,2,1.115,,,at-the-spring,,,,", "Line 2 is of coil 2"},
		{"a height that is none", "T-1,nest 12,,,free,,tall,,,,,,,", "line 2: "},
		{"a load that is none", "T-1,nest 12,,,load,1,1.915,much,,lid .095,,,,", "line 2: "},
		{"a tester that is not there", "T-1,nest 12,,,load,1,1.915,124,,lid .095,tester 99,,,", "line 2: Gauge tester 99 is not in this book"},
		{"as set on nothing", "T-1,nest 12,,,load,1,1.915,124,,as-set,,,,", "line 2: "},
		{"a retainer that is not there", "T-1,nest 12,,,load,,1.915,124,,at-the-spring,,gold,,", `Line 2 names "gold"`},
		{"one height twice", "T-1,nest 12,,,load,1,1.915,124,,lid .095,,,,\nT-1,,,,load,1,1.915,126,,lid .095,,,,", "line 2: "},
		{"a bind above a load", "T-1,nest 12,,,load,1,1.915,124,,lid .095,,,,\nT-1,,,,load,1,1.305,319,,lid .095,,,,\nT-1,,,,bind,1,1.400,,,at-the-spring,,,,", "line 2: "},
		{"two faults", "T-1,nest 12,,,free,,tall,,,,,,,\nT-2,,,,free,,2.208,,,,,,,", "\nLine 3 begins a new single spring"},
	} {
		t.Run(c.name, func(t *testing.T) {
			desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
			before, err := task.SpringsOut(ctx, desk.Book)
			if err != nil {
				t.Fatal(err)
			}
			_, err = desk.SpringsIn(ctx, []byte(springsHeader+c.lines+"\n"))
			var refused *task.Refused
			if !errors.As(err, &refused) || !strings.Contains("\n"+refused.Error(), c.want) {
				t.Errorf("said is %v, without %q", err, c.want)
			}
			if after, err := task.SpringsOut(ctx, desk.Book); err != nil || string(after) != string(before) {
				t.Errorf("%v; the book now has\n%s", err, after)
			}
		})
	}
}

// What the book has of a spring is not written over by a table.
func TestSpringsTableAgainstTheBook(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	if _, err := desk.SpringsIn(ctx, []byte(springsHeader+
		"T-1,nest 12,,,load,1,1.915,124,,lid .095,,,,\nT-1,,,,bind,1,1.115,,,at-the-spring,,,,\nT-1,,,,free,,2.208,,,,,,,\n")); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{
		"T-1,,,,load,1,1.915,126,,lid .095,,,,", "T-1,,,,bind,1,1.117,,,at-the-spring,,,,", "T-1,,,,free,,2.201,,,,,,,", "T-1,beehive 6,,,free,,2.208,,,,,,,",
	} {
		_, err := desk.SpringsIn(ctx, []byte(springsHeader+line+"\n"))
		var refused *task.Refused
		if !errors.As(err, &refused) || !strings.Contains(refused.Error(), "Line 2 ") {
			t.Errorf("%s: %v", line, err)
		}
	}
	// What it says of its state is new each time.
	if _, err := desk.SpringsIn(ctx, []byte(springsHeader+"T-1,,,used,free,,2.208,,,,,,,\n")); err != nil {
		t.Error(err)
	}
}
