package parts

import (
	"context"
	"slices"
	"testing"

	"keeperbook/model/record"
)

// A single spring is made by its tag on a valve, said how it is, and seen beside the valve; each is one
// action of the set-up that one undo takes back.
func TestSingleSpringOnAValve(t *testing.T) {
	ctx := context.Background()
	p, b := demo(t, "setup-ferry-built")
	here, there := p.ValveOf("3/ex/1"), p.ValveOf("2/in/1")
	if hasField(p, here, "batch") || hasField(p, here, "condition") {
		t.Error("a batch is asked for before there is a spring")
	}
	for _, step := range []struct{ field, text, shown string }{
		{"piece new", " B-17 ", "spring B-17"},
		{"condition", "run-in", "spring B-17 (run in)"},
		{"batch", "B", "spring B-17 (run in, batch B)"},
	} {
		commit(t, p, here, step.field, step.text)
		if got := saidOf(t, p, here); got != step.shown {
			t.Errorf("after %s the valve shows %q, want %q", step.field, got, step.shown)
		}
	}
	if f := field(t, p, here, "piece new"); f.Value != "" {
		t.Errorf("the next tag begins with %q", f.Value)
	}
	spring := b.Record().PackageOf(record.Exhaust).Spring
	want := record.SpringPiece{Tag: "B-17", Spring: spring, Batch: "B", Condition: record.RunIn}
	if got := b.Record().Parts.Pieces; len(got) != 1 || got[0].Tag != want.Tag || got[0].Spring != spring || got[0].Batch != "B" || got[0].Condition != record.RunIn {
		t.Errorf("the record has %+v, want %+v", got, want)
	}
	if o := p.Valves(); o[slices.IndexFunc(o, func(o Option) bool { return o.Value == here.At.String() })].More != "B-17" {
		t.Errorf("in the list of valves: %+v", o)
	}

	// On another valve it is offered with where it is, and refused; taken off, it can be chosen there.
	if got := option(t, p, there, "B-17"); got.More != "nest 12, run in, batch B, on 3 ex" {
		t.Errorf("offered as %q", got.More)
	}
	for _, name := range []string{"piece", "piece new"} {
		if err := p.Commit(ctx, there, name, "B-17"); keyOf(err) != "parts.piece-elsewhere" {
			t.Errorf("%s: one spring on two valves: %v", name, err)
		}
	}
	commit(t, p, here, "piece", "")
	commit(t, p, there, "piece", "B-17")
	if got := saidOf(t, p, there); got != "spring B-17 (run in, batch B)" || hasField(p, here, "batch") {
		t.Errorf("moved, the valve shows %q", got)
	}
	commit(t, p, there, "condition", "")
	if got := saidOf(t, p, there); got != "spring B-17 (batch B)" {
		t.Errorf("without a condition it shows %q", got)
	}
	for range 6 {
		if _, err := b.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if got := b.Record(); len(got.Parts.Pieces) != 0 || got.ValveAt(here.At).Spring != "" {
		t.Errorf("after undoing all of it: %+v", got.Parts.Pieces)
	}
}

// A tag is not made where nobody said which spring it could be, and the text stays in its field.
func TestTagWithoutAType(t *testing.T) {
	p, b := fresh(t)
	here := p.ValveOf("1/in/1")
	if err := p.Commit(context.Background(), here, "piece new", "A-1"); keyOf(err) != "parts.piece-type" {
		t.Errorf("a tag without a type: %v", err)
	}
	if f := field(t, p, here, "piece new"); f.Value != "A-1" || f.Refused == "" || len(b.Record().Setup.Valves) != 0 {
		t.Errorf("the field is %+v", f)
	}
	commit(t, p, intakeSpring, "new", "pair")
	commit(t, p, here, "piece new", "A-1")
	commit(t, p, p.ValveOf("2/in/1"), "piece new", "A-2")
	// Springs of the type that the role carries are offered first.
	commit(t, p, intakeSpring, "new", "single")
	commit(t, p, p.ValveOf("2/in/1"), "piece", "")
	commit(t, p, p.ValveOf("2/in/1"), "piece new", "Z-1")
	var offered []string
	for _, o := range field(t, p, here, "piece").Options {
		offered = append(offered, o.Label)
	}
	if want := []string{p.bench.Say("parts.no-piece"), "Z-1", "A-1", "A-2"}; !slices.Equal(offered, want) {
		t.Errorf("offered are %q, want %q", offered, want)
	}
}

func hasField(p *Presenter, at Place, name string) bool {
	return slices.ContainsFunc(p.Detail(at).Groups, func(g Group) bool {
		return slices.ContainsFunc(g.Fields, func(f Field) bool { return f.Name == name })
	})
}

func option(t *testing.T, p *Presenter, at Place, value string) Option {
	t.Helper()
	options := field(t, p, at, "piece").Options
	i := slices.IndexFunc(options, func(o Option) bool { return o.Value == value })
	if i < 0 {
		t.Fatalf("%q is not offered: %v", value, options)
	}
	return options[i]
}

// saidOf is what the page says beside a valve that differs.
func saidOf(t *testing.T, p *Presenter, at Place) string {
	t.Helper()
	for _, l := range p.Differing() {
		if l.To == at {
			return l.More
		}
	}
	t.Errorf("%v is not said to differ", at.At)
	return ""
}
