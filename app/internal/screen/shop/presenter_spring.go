package shop

import (
	"fmt"
	"slices"
	"strconv"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// binds says in one line what is known of the coils of a type: "outer coil 1.110, inner coil not known".
func (p *Presenter) binds(s record.Spring) string {
	figures := task.TypeBinds(s)
	lines := make([]say.Line, len(s.Coils))
	for i, c := range s.Coils {
		lines[i] = say.New("shop.coil-unknown", task.CoilLine(c.Name))
		if figures[i].Known {
			lines[i] = say.New("shop.coil-bind-of", task.CoilLine(c.Name), figures[i].Value)
		}
	}
	return p.say("expr.one", lines)
}

// spring is a type: its own numbers, then its coils from the outside.
func (p *Presenter) spring(s record.Spring) []Section {
	first := Section{Fields: []Field{
		p.named("name", "shop.name", s.Name, func(t string) record.Noun { s.Name = t; return s }),
		p.coilCount(s),
		p.quantity("rate", "shop.rate", s.Rate, p.counter.RateUnit(), p.counter.ReadRate,
			func(q *unit.Quantity) record.Noun { s.Rate = q; return s }),
		beside(p.quantity("rated", "shop.rated-lift", s.RatedLift, p.counter.Units().Length, p.counter.ReadSize,
			func(q *unit.Quantity) record.Noun { s.RatedLift = q; return s })),
		p.word("note", "shop.note", s.Note, func(t string) record.Noun { s.Note = t; return s }),
	}}
	all := []Section{first}
	figures := task.TypeBinds(s)
	for i := range s.Coils {
		set := func(b *record.Bind) record.Noun {
			s.Coils = slices.Clone(s.Coils)
			s.Coils[i].Bind = b
			return s
		}
		c := p.coil(i+1, s.Coils[i], figures[i], "shop.bind-unknown", set)
		name := p.named(c.Fields[0].Name+" name", "shop.coil-name", s.Coils[i].Name, func(t string) record.Noun {
			s.Coils = slices.Clone(s.Coils)
			s.Coils[i].Name = t
			return s
		})
		c.Fields[0].Beside = true
		c.Fields = append([]Field{name}, c.Fields...)
		p.tested(&c, i+1, s.Coils[i].Loads, "shop.loads-unknown", func(l *record.Loads) record.Noun {
			s.Coils = slices.Clone(s.Coils)
			s.Coils[i].Loads = l
			return s
		})
		p.sizes(&c, s, i)
		all = append(all, c)
	}
	if len(s.Coils) > 1 || s.Assembly != nil {
		all = append(all, p.asOne(s))
	}
	// What is read at the bench comes first; how the coils are wound is typed once, if ever.
	for i := range s.Coils {
		all = append(all, p.wound(s, i))
	}
	return all
}

func (p *Presenter) coilCount(s record.Spring) Field {
	f := Field{Name: "coils", Label: p.say("shop.coil-count"), Value: strconv.Itoa(len(s.Coils))}
	for n := 1; n <= task.MostCoils; n++ {
		f.Options = append(f.Options, Option{strconv.Itoa(n), strconv.Itoa(n)})
	}
	f.put = func(t string) (record.Noun, error) {
		return p.counter.WithCoils(s, slices.IndexFunc(f.Options, func(o Option) bool { return o.Value == t })+1)
	}
	return f
}

func (p *Presenter) quantity(name, label string, q *unit.Quantity, column unit.Symbol,
	read func(string) (*unit.Quantity, error), put func(*unit.Quantity) record.Noun) Field {
	f := Field{Name: name, Label: p.say(label)}
	f.Value, f.Unit = p.shown(q, column)
	f.put = func(t string) (record.Noun, error) {
		q, err := read(t)
		return put(q), err
	}
	return f
}

// coil is the bind height of one coil: what the scale said, on which gauge, and what it comes to.
// Unknown is the key of what an empty bind height means.
func (p *Presenter) coil(n int, c record.Coil, f evaluate.Figure, unknown string, set func(*record.Bind) record.Noun) Section {
	b, name := c.Bind, fmt.Sprintf("coil %d", n)
	s := Section{Title: p.say("shop.coil-title", n, task.CoilLine(c.Name))}
	bind := Field{Name: name, Label: p.say("shop.bind")}
	if b == nil {
		bind.Value, bind.Unit = p.shown(nil, p.counter.Units().Length)
	} else {
		bind.Value, bind.Unit = p.shown(&b.Reading, p.counter.Units().Length)
	}
	bind.put = func(t string) (record.Noun, error) {
		next, err := p.counter.ReadBind(b, t)
		return set(next), err
	}
	s.Fields = []Field{bind}
	if b == nil {
		s.Notes = []string{p.say(unknown)}
		return s
	}
	s.Fields = append(s.Fields,
		p.readOn(name+" gauge", b.Gauge, func(id string) record.Noun { return set(p.counter.ReadOn(*b, id)) }),
		choice(p, name+" source", "shop.source", b.Source, task.Sources(), "source.",
			func(t record.Source) record.Noun { return set(p.counter.From(*b, t)) }),
	)
	s.Notes = []string{p.say("shop.bind-is", f.Value, p.setting(b.Correction))}
	return s
}

// readOn is the gauge that a bind height was read on.
func (p *Presenter) readOn(name, gauge string, put func(id string) record.Noun) Field {
	f := Field{Name: name, Label: p.say("shop.read-on"), Value: gauge, Options: []Option{{"", p.say("shop.no-gauge")}}}
	for _, g := range p.counter.Gauges() {
		f.Options = append(f.Options, Option{g.ID, g.Name})
	}
	f.put = func(id string) (record.Noun, error) { return put(id), nil }
	return f
}

// piece is a single spring: what it is and how it is, then its coils.
func (p *Presenter) piece(n record.SpringPiece) []Section {
	kind := Field{Name: "type", Label: p.say("shop.type"), Value: n.Spring}
	for _, s := range p.counter.Parts().Springs {
		kind.Options = append(kind.Options, Option{s.ID, s.Name})
	}
	kind.put = func(id string) (record.Noun, error) {
		n.Spring = id
		return n, p.counter.Fits(n)
	}
	all := []Section{{Fields: []Field{
		kind,
		choice(p, "condition", "shop.condition", n.Condition, task.Conditions(), "condition.",
			func(t record.Condition) record.Noun { n.Condition = t; return n }),
		beside(p.word("batch", "shop.batch", n.Batch, func(t string) record.Noun { n.Batch = t; return n })),
		p.quantity("free", "springs.free", n.Free, p.counter.Units().Length, p.counter.ReadSize,
			func(q *unit.Quantity) record.Noun { n.Free = q; return n }),
		beside(p.word("note", "shop.note", n.Note, func(t string) record.Noun { n.Note = t; return n })),
	}}}
	s := p.counter.PieceType(n)
	figures := task.TypeBinds(s)
	for i, c := range s.Coils {
		one := p.coil(i+1, c, figures[i], "shop.bind-of-type", func(b *record.Bind) record.Noun {
			return task.WithBind(n, i+1, b)
		})
		p.tested(&one, i+1, task.PieceLoads(n, i+1), "shop.loads-of-type", func(l *record.Loads) record.Noun {
			return task.WithLoads(n, i+1, l)
		})
		all = append(all, one)
	}
	if len(s.Coils) > 1 || task.PieceLoads(n, 0) != nil {
		all = append(all, p.pieceAsOne(n))
	}
	return append(all, p.story(record.PieceItem, n.Tag))
}
