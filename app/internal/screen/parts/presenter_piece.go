package parts

import (
	"cmp"
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// pieces are the single springs of the book, those of the record before them.
func (p *Presenter) pieces() []record.SpringPiece {
	var all []record.SpringPiece
	for _, n := range merge(p.bench.Record().Parts.Pieces, p.shelf.Parts.Pieces) {
		all = append(all, n.(record.SpringPiece))
	}
	return all
}

// pieceOf is the single spring with a tag, false where the book has none.
func (p *Presenter) pieceOf(tag string) (record.SpringPiece, bool) {
	all := p.pieces()
	at := slices.IndexFunc(all, func(n record.SpringPiece) bool { return n.Tag == tag })
	if at < 0 {
		return record.SpringPiece{}, false
	}
	return all[at], true
}

// state says how a single spring goes on: "run in, batch B-12"; "" while nobody said it.
func (p *Presenter) state(n record.SpringPiece) string {
	var all []string
	if n.Condition != "" {
		all = append(all, p.bench.Say("condition."+string(n.Condition)))
	}
	if n.Batch != "" {
		all = append(all, p.bench.Say("parts.of-batch", n.Batch))
	}
	return strings.Join(all, ", ")
}

// tagged says which single spring sits on a valve, and how it is: "spring B-12 1 (run in, batch B-12)".
func (p *Presenter) tagged(tag string) string {
	n, _ := p.pieceOf(tag)
	if state := p.state(n); state != "" {
		return p.bench.Say("parts.piece-state", tag, state)
	}
	return p.bench.Say("parts.piece", tag)
}

// sitsOn is the valve of this set-up that has a single spring, beside one of them.
func (p *Presenter) sitsOn(tag string, beside record.Position) (record.Position, bool) {
	for _, v := range p.bench.Record().Setup.Valves {
		if v.Spring == tag && v.At != beside {
			return v.At, true
		}
	}
	return record.Position{}, false
}

// pieceSection is the single spring of a valve: its tag, chosen or made, and how the spring is.
func (p *Presenter) pieceSection(v record.Valve) section {
	put := func(text string) ([]record.Noun, error) { return p.fit(v, strings.TrimSpace(text)) }
	s := section{title: p.bench.Say("parts.on-it"), notes: []string{p.bench.Say("parts.on-it-how")}, specs: []spec{
		{
			Field: Field{Name: "piece", Label: p.bench.Say("parts.piece-tag"), Value: v.Spring, List: true, Options: p.pieceOptions(v)},
			put:   put,
		},
		{Field: Field{Name: "piece new", Label: p.bench.Say("parts.piece-new")}, put: put},
	}}
	n, ok := p.pieceOf(v.Spring)
	if !ok {
		return s
	}
	conditions := []Option{{Label: p.bench.Say("needs.unsaid")}}
	for _, c := range task.Conditions() {
		conditions = append(conditions, Option{Value: string(c), Label: p.bench.Say("condition." + string(c))})
	}
	s.specs = append(s.specs,
		p.choice("condition", "parts.condition", string(n.Condition), conditions, func(t string) record.Noun { n.Condition = record.Condition(t); return n }),
		p.word("batch", "parts.batch", n.Batch, func(t string) record.Noun { n.Batch = t; return n }),
	)
	return s
}

// pieceOptions are the single springs to choose from, those of the type that the role carries first, each
// with its type, how it is, and the valve that it sits on already.
func (p *Presenter) pieceOptions(v record.Valve) []Option {
	usual := p.bench.Record().PackageOf(v.At.Role).Spring
	all := p.pieces()
	slices.SortStableFunc(all, func(a, b record.SpringPiece) int {
		return cmp.Compare(other(a.Spring, usual), other(b.Spring, usual))
	})
	options := []Option{{Label: p.bench.Say("parts.no-piece")}}
	for _, n := range all {
		options = append(options, Option{Value: n.Tag, Label: n.Tag, More: p.known(n, v.At)})
	}
	return options
}

// known says in one line what is known of a single spring, beside a valve that it may be chosen for.
func (p *Presenter) known(n record.SpringPiece, beside record.Position) string {
	all := []string{nameOf(p.part(Spring, n.Spring)), p.state(n), ""}
	if at, sits := p.sitsOn(n.Tag, beside); sits {
		all[2] = p.bench.Say("parts.sits-on", p.bench.Record().Head.Label(at))
	}
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), ", ")
}

// other is 1 for another type of spring than the usual one, else 0.
func other(spring, usual string) int {
	if spring == usual {
		return 0
	}
	return 1
}

// fit puts a single spring on a valve by its tag; one that the book does not have is made, of the role's
// type. One spring cannot be on two valves.
func (p *Presenter) fit(v record.Valve, tag string) ([]record.Noun, error) {
	next := v
	next.Spring = tag
	if tag == "" {
		return []record.Noun{next}, nil
	}
	if at, sits := p.sitsOn(tag, v.At); sits {
		return nil, say.Fail(say.Conflict, "parts.piece-elsewhere", tag, p.bench.Record().Head.Label(at))
	}
	if _, ok := p.pieceOf(tag); ok {
		return []record.Noun{next}, nil
	}
	pack := p.bench.Record().PackageOf(v.At.Role)
	if pack.Spring == "" {
		return nil, say.Fail(say.Invalid, "parts.piece-type", tag, say.New("role."+string(v.At.Role)))
	}
	return []record.Noun{record.SpringPiece{Tag: tag, Spring: pack.Spring}, next}, nil
}
