package task_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Every number of a plan is on its paper, and every line of the pick list, as another reader of the file finds them.
func TestPlanOnPaper(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	b, err := desk.OpenBench(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	p, err := b.NewPlan(ctx, task.PlanAsk{Most: task.MostShims})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.SavePlan(p, task.A4, filepath.Join(t.TempDir(), "none.pdf"), false); err == nil {
		t.Error("a plan that was not made is on paper")
	}
	if err := p.Make(plan.Options{}); err != nil {
		t.Fatal(err)
	}
	for _, paper := range []task.Paper{task.A4, task.Letter} {
		path, err := b.SavePlan(p, paper, filepath.Join(t.TempDir(), "pick"), false)
		if err != nil || filepath.Ext(path) != ".pdf" {
			t.Fatal(path, err)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(textOf(t, data)), " ")
		for i := range p.Made.Rows {
			cells := p.Made.Rows[i].Cells(b.Words())
			for _, c := range cells[:len(cells)-1] { // of the verdict only what will be
				if c.From = ""; !strings.Contains(text, c.Text()) {
					t.Errorf("%s: %s: %q is not on the paper", paper, cells[0].Is, c.Text())
				}
			}
		}
		for _, l := range p.Made.Pick {
			if line := b.Words().Line(l); !strings.Contains(text, line) {
				t.Errorf("%s: %q is not on the paper", paper, line)
			}
		}
	}
}

// Two heads of an engine are planned together, put on in one step and taken back in one.
func TestPlanForAnEngine(t *testing.T) {
	ctx := context.Background()
	d, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "engine"), "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	of := func(read string, s unit.Symbol) unit.Quantity {
		q, err := unit.Of(read, s)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	begin := func(tag, engine string, bases ...string) *task.Bench {
		setup, err := d.Begin(ctx, task.NewHead{
			Engine: engine, Tag: tag, Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1, Kind: record.AsBuilt,
			Units: record.Units{Length: unit.In, Load: unit.Lbf},
		})
		if err != nil {
			t.Fatal(err)
		}
		b, err := d.OpenBench(ctx, setup)
		if err != nil {
			t.Fatal(err)
		}
		nouns := []record.Noun{record.Spring{ID: "type", Name: "single 7", Coils: []record.Coil{{Name: "outer"}}}}
		target := of("150", unit.Lbf)
		for i, at := range b.Record().Head.Positions() {
			spring := tag + "-" + string(at.Role)
			nouns = append(nouns,
				record.Package{Role: at.Role, Spring: "type", SeatLoad: &record.Band{Target: &target},
					Least: []record.Least{{Coil: 1, Margin: of("0.060", unit.In)}}},
				record.SpringPiece{Tag: spring, Spring: "type",
					Binds: []record.PieceBind{{Coil: 1, Bind: record.Bind{Reading: of("1.000", unit.In), Source: record.Measured}}},
					Loads: []record.PieceLoads{{Coil: 1, Loads: record.Loads{Source: record.Measured, Points: []record.Point{
						{Height: of("1.900", unit.In), Load: of([]string{"118", "130"}[i], unit.Lbf)}, {Height: of("1.200", unit.In), Load: of("400", unit.Lbf)},
					}}}}},
				record.Valve{At: at, NoShim: "none", Spring: spring},
				record.Reading{At: at, Kind: record.BaseHeight, N: 1, Quantity: of(bases[i], unit.In), Method: record.Typed},
				record.Reading{At: at, Kind: record.LiftChecking, N: 1, Quantity: of("0.600", unit.In), Method: record.Typed})
		}
		if err := b.Fit(ctx, nouns...); err != nil {
			t.Fatal(err)
		}
		return b
	}
	left := begin("L", "V engine", "1.860", "1.850")
	right := begin("R", "V engine", "1.845", "1.870")
	begin("X", "another", "1.860", "1.860")
	if kin, err := left.Kin(ctx); err != nil || len(kin) != 1 || kin[0].Tag != "R" {
		t.Fatalf("%v, %v", kin, err)
	}
	p, err := left.NewPlan(ctx, task.PlanAsk{Most: 3, All: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Make(plan.Options{}); err != nil {
		t.Fatal(err)
	}
	if len(p.Made.Rows) != 4 || len(p.Made.Edits) == 0 {
		t.Fatalf("%+v", p.Made)
	}
	stacks := func() (text string) {
		for _, b := range []*task.Bench{left, right} {
			rec, err := d.Book.Record(ctx, b.Record().Setup.ID)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range rec.Setup.Valves {
				text += v.Spring
				for _, s := range v.Stack {
					text += " " + s.Thickness.Read
				}
				text += "; "
			}
		}
		return text
	}
	before := stacks()
	// A change on the other head is seen.
	note := right.Record().Setup.Valves[0]
	was := note
	note.Note = "looked at"
	if err := right.Keep(ctx, note); err != nil {
		t.Fatal(err)
	}
	if err := left.PutPlan(ctx, p); say.CodeOf(err) != say.Conflict {
		t.Errorf("put on over a change: %v", err)
	}
	if err := right.Keep(ctx, was); err != nil {
		t.Fatal(err)
	}
	if err := left.PutPlan(ctx, p); err != nil {
		t.Fatal(err)
	}
	if after := stacks(); after == before {
		t.Errorf("nothing changed: %s", after)
	}
	if _, err := left.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if after := stacks(); after != before {
		t.Errorf("taken back it is %s, was %s", after, before)
	}
}

// A spring that lay on the shelf when the plan was made, and went onto another head meanwhile, is not put on two.
func TestPlanOfASpringThatWent(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	b, err := desk.OpenBench(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	p, err := b.NewPlan(ctx, task.PlanAsk{Most: task.MostShims})
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Make(plan.Options{}); err != nil {
		t.Fatal(err)
	}
	standing := map[string]bool{"": true}
	for _, v := range b.Record().Setup.Valves {
		standing[v.Spring] = true
	}
	tag := ""
	for _, e := range p.Made.Edits {
		if !standing[e.Valve.Spring] {
			tag = e.Valve.Spring
		}
	}
	if tag == "" {
		t.Fatal("the plan takes no spring off the shelf")
	}
	setup, err := desk.Begin(ctx, task.NewHead{
		Engine: "other", Tag: "other", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1, Kind: record.AsBuilt,
		Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	other, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	at := other.Record().Head.Positions()[0]
	if err := other.Fit(ctx, record.Valve{At: at, Spring: tag}); err != nil {
		t.Fatal(err)
	}
	if err := b.PutPlan(ctx, p); say.CodeOf(err) != say.Conflict {
		t.Errorf("a spring was put on a second head: %v", err)
	}
	if err := other.Fit(ctx, record.Valve{At: at}); err != nil {
		t.Fatal(err)
	}
	if err := b.PutPlan(ctx, p); err != nil {
		t.Errorf("taken off the other head, it does not go on this one: %v", err)
	}
}
