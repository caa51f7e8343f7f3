package register_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/register"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// shelf answers as a book does: every word has to stand in what is said of a head.
type shelf struct {
	lines []task.HeadLine
	fault error
}

func (s *shelf) Heads(_ context.Context, text string) (found []task.HeadLine, err error) {
	for _, l := range s.lines {
		all, fits := strings.ToLower(l.Tag+" "+l.Owner+" "+l.Engine+" "+l.WorkOrder), true
		for _, w := range strings.Fields(strings.ToLower(text)) {
			fits = fits && strings.Contains(all, w)
		}
		if fits {
			found = append(found, l)
		}
	}
	return found, s.fault
}

func three() *shelf {
	return &shelf{lines: []task.HeadLine{
		{Head: "h1", Tag: "LB-1", Owner: "Fennick", Engine: "Launch", WorkOrder: "77", Setup: "s1", Kind: record.AsBuilt, State: record.Open, Begun: "2026-05-12T09:00:00Z"},
		{Head: "h2", Tag: "LB-12", Owner: "Fennick", Engine: "Ferry", Setup: "s2", Kind: record.AsFound, State: record.Closed, Begun: "2026-05-11T09:00:00Z"},
		{Head: "h3", Tag: "QX", Engine: "QX"},
	}}
}

func TestFilterAndEnter(t *testing.T) {
	for _, c := range []struct {
		name, text string
		down       int
		setup      string
		code       say.Code
		count      string
	}{
		{"the newest without a text", "", 0, "s1", "", "3 heads"},
		{"the one below", "", 1, "s2", "", "3 heads"},
		{"the end of the list stays", "", 9, "", say.NotFound, "3 heads"}, // QX has no set-up
		{"one remains", "ferry", 0, "s2", "", "1 of 3 heads"},
		{"several remain: none is chosen by chance", "fennick", 0, "", say.Conflict, "2 of 3 heads"},
		{"several remain: the arrow chooses", "fennick", 1, "s1", "", "2 of 3 heads"},
		{"several remain: the arrow goes on", "fennick", 2, "s2", "", "2 of 3 heads"},
		{"a tag in full, though it begins another", "lb-1", 0, "s1", "", "2 of 3 heads"},
		{"a work order in full", "77", 0, "s1", "", "1 of 3 heads"},
		{"no such head", "zz", 0, "", say.NotFound, "0 of 3 heads"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := register.NewPresenter(context.Background(), three())
			for _, text := range []string{"", c.text} {
				if err := p.Filter(text); err != nil {
					t.Fatal(err)
				}
			}
			for range c.down {
				p.Move(1)
			}
			setup, err := p.Enter()
			if setup != c.setup || say.CodeOf(err) != c.code {
				t.Errorf("got %q, %v, want %q, %q", setup, err, c.setup, c.code)
			}
			if got := say.English().Line(p.Count()); got != c.count {
				t.Errorf("count %q, want %q", got, c.count)
			}
		})
	}
}

func TestEmpty(t *testing.T) {
	p := register.NewPresenter(context.Background(), &shelf{})
	if err := p.Filter(""); err != nil {
		t.Fatal(err)
	}
	p.Move(1)
	if got := say.English().Line(p.Empty()); !strings.Contains(got, "Ctrl+N") {
		t.Errorf("an empty register says %q and not its first key", got)
	}
	if _, err := p.Enter(); say.CodeOf(err) != say.NotFound {
		t.Errorf("Enter in an empty register: %v", err)
	}
	if !p.Count().Zero() {
		t.Error("nothing is counted")
	}
}

func TestFaultLeavesTheList(t *testing.T) {
	s := three()
	p := register.NewPresenter(context.Background(), s)
	if err := p.Filter(""); err != nil {
		t.Fatal(err)
	}
	s.fault = errors.New("the disk is away")
	if err := p.Filter("ferry"); err == nil {
		t.Error("a fault was not said")
	}
	if len(p.Lines()) != 3 {
		t.Errorf("%d lines are left", len(p.Lines()))
	}
}

func TestReloadKeepsTheChosen(t *testing.T) {
	s := three()
	p := register.NewPresenter(context.Background(), s)
	if err := p.Filter(""); err != nil {
		t.Fatal(err)
	}
	p.Choose(1)
	s.lines = append([]task.HeadLine{{Head: "h4", Tag: "NEW", Setup: "s4"}}, s.lines...)
	if err := p.Reload(); err != nil {
		t.Fatal(err)
	}
	if l, ok := p.Chosen(); !ok || l.Head != "h2" {
		t.Errorf("chosen is %+v", l)
	}
	if p.Choose(99); p.Cursor() != 2 {
		t.Errorf("a line that is not there was chosen: %d", p.Cursor())
	}
}

func TestWordsOfALine(t *testing.T) {
	for _, c := range []struct {
		line                 task.HeadLine
		engine, whose, state string
	}{
		{three().lines[0], "Launch", "Fennick · 77", "as built, 2026-05-12"},
		{three().lines[1], "Ferry", "Fennick", "as found, closed, 2026-05-11"},
		{three().lines[2], "", "", "no set-up yet"},
	} {
		if got := register.Engine(c.line); got != c.engine {
			t.Errorf("got %q, want %q", got, c.engine)
		}
		if got := register.Whose(c.line); got != c.whose {
			t.Errorf("got %q, want %q", got, c.whose)
		}
		if got := say.English().Line(register.State(c.line)); got != c.state {
			t.Errorf("got %q, want %q", got, c.state)
		}
	}
}

func TestDraft(t *testing.T) {
	for _, c := range []struct {
		name      string
		change    func(*register.Draft)
		cylinders string
		in, ex    int
		code      say.Code
	}{
		{"as it stands", func(d *register.Draft) {}, "1 2 3 4", 1, 1, ""},
		{"six", func(d *register.Draft) { d.Cylinders = "6" }, "1 2 3 4 5 6", 1, 1, ""},
		{"labels", func(d *register.Draft) { d.Cylinders, d.Valves = "1 3 5 7", "4" }, "1 3 5 7", 2, 2, ""},
		{"five valves", func(d *register.Draft) { d.Valves = "5" }, "1 2 3 4", 3, 2, ""},
		{"two and one", func(d *register.Draft) { d.Valves = "2 + 1" }, "1 2 3 4", 2, 1, ""},
		{"three", func(d *register.Draft) { d.Valves = "3" }, "1 2 3 4", 2, 1, ""},
		{"a word", func(d *register.Draft) { d.Valves = "two" }, "", 0, 0, say.Invalid},
		{"one", func(d *register.Draft) { d.Valves = "1" }, "", 0, 0, say.Invalid},
		{"many", func(d *register.Draft) { d.Valves = "8" }, "", 0, 0, say.Invalid},
		{"four and one", func(d *register.Draft) { d.Valves = "4+1" }, "", 0, 0, say.Invalid},
		{"no tag", func(d *register.Draft) { d.Tag = " " }, "", 0, 0, say.Invalid},
		{"no cylinders", func(d *register.Draft) { d.Cylinders = "" }, "", 0, 0, say.Invalid},
		{"a label twice", func(d *register.Draft) { d.Cylinders = "1 3 3" }, "", 0, 0, say.Invalid},
		{"another unit", func(d *register.Draft) { d.Length = "cm" }, "", 0, 0, say.Invalid},
		{"another kind", func(d *register.Draft) { d.Kind = "sold" }, "", 0, 0, say.Invalid},
		{"half", func(d *register.Draft) { d.Valves = "2+" }, "", 0, 0, say.Invalid},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := register.NewDraft()
			d.Tag = "T"
			c.change(&d)
			n, err := d.Head()
			if say.CodeOf(err) != c.code {
				t.Fatal(err)
			}
			if err == nil && (strings.Join(n.Cylinders, " ") != c.cylinders || n.Intakes != c.in || n.Exhausts != c.ex) {
				t.Errorf("got %+v", n)
			}
		})
	}
	t.Run("units", func(t *testing.T) {
		d := register.NewDraft()
		d.Tag, d.Length, d.Kind = "T", " MM", "as built"
		n, err := d.Head()
		if err != nil || n.Units != (record.Units{Length: unit.Mm, Load: unit.N}) || n.Kind != record.AsBuilt {
			t.Errorf("got %+v, %v", n, err)
		}
	})
	t.Run("the next one keeps the habits", func(t *testing.T) {
		d := register.Draft{Tag: "A", Cylinders: "1 3", Valves: "4", Owner: "O", Length: "mm", Kind: "built"}
		if n := d.Next(); n.Tag != "" || n.Owner != "" || n.Cylinders != "1 3" || n.Valves != "4" || n.Length != "mm" {
			t.Errorf("got %+v", n)
		}
	})
}
