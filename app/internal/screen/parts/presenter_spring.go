package parts

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// springSections is a spring type: its own sizes, then its coils from the outside.
func (p *Presenter) springSections(n record.Spring, role record.Role) []section {
	all := p.named(n.Name, []spec{
		p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
		p.rate(n),
		beside(p.length("rated", "parts.rated", unit.Plain, n.RatedLift, func(q *unit.Quantity) record.Noun { n.RatedLift = q; return n })),
		p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
	})
	figures := task.TypeBinds(n)
	for i := range n.Coils {
		all = append(all, p.coil(n, role, i, figures[i]))
	}
	return all
}

func (p *Presenter) rate(n record.Spring) spec {
	f := Field{Name: "rate", Label: p.bench.Say("parts.rate"), Unit: string(p.bench.RateUnit())}
	if n.Rate != nil {
		f.Value, f.Unit = evaluate.StyleOf(p.bench.Record().Setup.Units).QuantityIn(*n.Rate), ""
	}
	return spec{Field: f, put: func(text string) ([]record.Noun, error) {
		q, err := p.bench.ReadRate(text)
		if err != nil {
			return nil, err
		}
		n.Rate = q
		return []record.Noun{n}, nil
	}}
}

// coil is one coil of a spring, with its bind height and, where a role carries it, its least margin.
func (p *Presenter) coil(n record.Spring, role record.Role, i int, f evaluate.Figure) section {
	c := n.Coils[i]
	s := section{
		title: p.bench.Say("parts.coil-title", i+1, task.CoilLine(c.Name)),
		specs: []spec{p.coilName(n, i), beside(p.bind(n, i))},
	}
	if role != "" {
		s.specs = append(s.specs, p.least(role, i+1)...)
	}
	more := p.bench.Say("parts.no-bind")
	if c.Bind != nil {
		more = p.worked(*c.Bind, f)
	}
	s.links = []Link{{Text: more, More: p.bench.Say("parts.how-read"), To: Place{What: AtCoil, ID: n.ID, Coil: i + 1}}}
	return s
}

func (p *Presenter) coilName(n record.Spring, i int) spec {
	return spec{
		Field: Field{Name: coilField(i+1, "name"), Label: p.bench.Say("parts.coil-name"), Value: n.Coils[i].Name},
		put: func(text string) ([]record.Noun, error) {
			if text = strings.TrimSpace(text); text == "" {
				return nil, say.Fail(say.Invalid, "parts.no-name")
			}
			n.Coils = slices.Clone(n.Coils)
			n.Coils[i].Name = text
			return []record.Noun{n}, nil
		},
	}
}

func coilField(coil int, what string) string {
	return strings.Join([]string{"coil", strconv.Itoa(coil), what}, " ")
}

// isLeast reports whether a field is of the role and not of the spring it carries.
func isLeast(name string) bool { return strings.Contains(name, " least") }

// bind is the bind height of a coil as the scale says it. A first reading counts as measured here, by
// whoever typed it; how it was read is said at the coil itself.
func (p *Presenter) bind(n record.Spring, i int) spec {
	f := Field{Name: coilField(i+1, "bind"), Label: p.bench.Say("parts.bind-read"), Unit: p.bench.LengthUnit()}
	if b := n.Coils[i].Bind; b != nil {
		f.Value = p.bench.Size(&b.Reading)
	}
	return spec{Field: f, put: func(text string) ([]record.Noun, error) {
		q, err := p.bench.ReadBind(text)
		if err != nil {
			return nil, err
		}
		n.Coils = slices.Clone(n.Coils)
		if q == nil {
			n.Coils[i].Bind = nil
			return []record.Noun{n}, nil
		}
		b := record.Bind{Source: record.Measured}
		if old := n.Coils[i].Bind; old != nil {
			b = *old
		}
		b.Reading = *q
		n.Coils[i].Bind = p.bench.SignBind(b)
		return []record.Noun{n}, nil
	}}
}

// least is the least margin of a coil on the valves of a role.
func (p *Presenter) least(role record.Role, coil int) []spec {
	pack := p.bench.Record().PackageOf(role)
	l, said := task.LeastOf(pack, coil)
	value := ""
	if said {
		value = p.bench.Size(&l.Margin)
	}
	return []spec{{
		Field: Field{Name: coilField(coil, "least"), Label: p.bench.Say("parts.least"), Value: value, Unit: p.bench.LengthUnit()},
		put: func(text string) ([]record.Noun, error) {
			next, err := p.bench.ReadLeast(pack, coil, text)
			return []record.Noun{next}, err
		},
	}, {
		Field: Field{Name: coilField(coil, "least from"), Label: p.bench.Say("needs.from"), Value: l.From, Long: true},
		put: func(text string) ([]record.Noun, error) {
			next, err := task.LeastFrom(pack, coil, text)
			return []record.Noun{next}, err
		},
	}}
}

// worked writes what a bind height comes to: 1.060 ⟵ 1.155 − .095.
func (p *Presenter) worked(b record.Bind, f evaluate.Figure) string {
	expr, zeroed := say.New("expr.one", b.Reading), []say.Line(nil)
	for _, t := range b.Correction {
		if t.Zero == record.Zeroed {
			zeroed = append(zeroed, say.New("stack."+string(t.Part)))
			continue
		}
		expr = evaluate.Lessen(expr, record.BindReading, t)
	}
	line := say.New("parts.bind-plain", f.Value)
	if expr.Key != "expr.one" {
		line = say.New("parts.bind-from", f.Value, expr)
	}
	if len(zeroed) > 0 {
		line = say.New("parts.bind-zeroed", line, zeroed)
	}
	return p.bench.Say("parts.bind-source", line, say.New("source."+string(b.Source)))
}

// actions are what one key press does at a place.
func (p *Presenter) actions(at Place) []Action {
	var all []Action
	if at.What == AtSlot {
		pack := p.bench.Record().PackageOf(at.Role)
		id := *fitted(&pack, at.Slot)
		if n, ok := p.part(at.Slot, id).(record.Spring); ok {
			if len(n.Coils) < task.MostCoils {
				all = append(all, Action{"coil", p.bench.Say("parts.add-coil")})
			}
			if len(n.Coils) > 1 {
				all = append(all, Action{"less", p.bench.Say("parts.less-coil")})
			}
		}
		if id != "" && len(p.Roles()) > 1 && at.Slot != Valve && !p.sameAlready(at) {
			all = append(all, Action{"same", p.bench.Say("parts.same-slot")})
		}
	}
	return all
}

func (p *Presenter) sameAlready(at Place) bool {
	pack := p.bench.Record().PackageOf(at.Role)
	for _, role := range p.Roles() {
		other := p.bench.Record().PackageOf(role)
		if *fitted(&other, at.Slot) != *fitted(&pack, at.Slot) {
			return false
		}
	}
	return true
}

// Act does an action of a place.
func (p *Presenter) Act(ctx context.Context, at Place, name string) error {
	if name == "same" {
		return p.SameSlot(ctx, at)
	}
	pack := p.bench.Record().PackageOf(at.Role)
	n, ok := p.part(Spring, pack.Spring).(record.Spring)
	if !ok {
		return nil
	}
	n.Coils = slices.Clone(n.Coils)
	switch {
	case name == "coil" && len(n.Coils) < task.MostCoils:
		n.Coils = append(n.Coils, record.Coil{Name: "inner"})
	case name == "less" && len(n.Coils) > 1:
		n.Coils = n.Coils[:len(n.Coils)-1]
	}
	return p.keep(ctx, n)
}
