package parts

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// coilSections is how the bind height of one coil was read.
func (p *Presenter) coilSections(at Place) []section {
	n, ok := p.part(Spring, at.ID).(record.Spring)
	if !ok || at.Coil < 1 || at.Coil > len(n.Coils) {
		return nil
	}
	i := at.Coil - 1
	read := p.bind(n, i)
	b := n.Coils[i].Bind
	if b == nil {
		return []section{{notes: []string{p.bench.Say("parts.read-first")}, specs: []spec{read}}}
	}
	with := func(change func(b *record.Bind)) []record.Noun {
		next := *b
		change(&next)
		n.Coils = slices.Clone(n.Coils)
		n.Coils[i].Bind = &next
		return []record.Noun{n}
	}
	worked := p.worked(*b, task.TypeBinds(n)[i])
	first := section{notes: []string{worked}, specs: []spec{
		read,
		p.choice("source", "parts.source", string(b.Source), []Option{
			{Value: string(record.Measured), Label: p.bench.Say("source.measured")}, {Value: string(record.Supplied), Label: p.bench.Say("source.supplied")},
			{Value: string(record.Estimated), Label: p.bench.Say("source.estimated")},
		}, func(t string) record.Noun {
			return with(func(b *record.Bind) { b.Source = record.Source(t) })[0]
		}),
		{
			Field: Field{Name: "gauge", Label: p.bench.Say("parts.read-on"), Value: b.Gauge, List: true, Options: p.gaugeOptions()},
			put: func(id string) ([]record.Noun, error) {
				// A reading on another gauge goes through what that gauge reads through.
				g, _ := p.gauge(id)
				return with(func(b *record.Bind) { b.Gauge, b.Correction = id, slices.Clone(g.Setting) }), nil
			},
		},
	}}
	through := p.through(b.Correction, func(next []record.Taken) record.Noun {
		return with(func(b *record.Bind) { b.Correction = next })[0]
	})
	back := Link{Text: p.bench.Say("parts.back", n.Name), To: Place{What: AtPart, Slot: Spring, ID: n.ID}}
	for _, role := range p.Roles() {
		if p.bench.Record().PackageOf(role).Spring == n.ID {
			back.To = Place{What: AtSlot, Role: role, Slot: Spring}
			break
		}
	}
	through.links = []Link{back}
	return []section{first, through}
}

func (p *Presenter) gaugeOptions() []Option {
	options := []Option{{Label: p.bench.Say("parts.no-gauge")}}
	for _, n := range merge(p.bench.Record().Gauges, p.shelf.Gauges) {
		options = append(options, Option{Value: n.Key(), Label: nameOf(n)})
	}
	return options
}

// through is what a reading goes through, part by part, each with whether the gauge was zeroed on it.
func (p *Presenter) through(setting []record.Taken, set func([]record.Taken) record.Noun) section {
	s := section{title: p.bench.Say("parts.through"), notes: []string{p.bench.Say("parts.sign-lid"), p.bench.Say("parts.sign-step"), p.bench.Say("parts.sign-zero")}}
	for _, part := range task.StackParts() {
		amount := Field{Name: string(part), Label: p.bench.Say("parts.stack." + string(part)), Unit: p.bench.LengthUnit()}
		zero := Field{Name: string(part) + " zero", Beside: true, Value: string(record.NotZeroed), Options: []Option{
			{Value: string(record.NotZeroed), Label: p.bench.Say("parts.not-zeroed")}, {Value: string(record.Zeroed), Label: p.bench.Say("parts.zeroed")},
		}}
		at := slices.IndexFunc(setting, func(t record.Taken) bool { return t.Part == part })
		if at >= 0 {
			amount.Value, zero.Value = p.bench.Size(&setting[at].Amount), string(setting[at].Zero)
		}
		s.specs = append(s.specs, spec{Field: amount, put: func(text string) ([]record.Noun, error) {
			next, err := p.bench.Through(setting, part, text)
			if err != nil {
				return nil, err
			}
			return []record.Noun{set(next)}, nil
		}})
		if at < 0 {
			continue // nothing to be zeroed on
		}
		s.specs = append(s.specs, spec{Field: zero, put: func(text string) ([]record.Noun, error) {
			next, err := task.SetZero(setting, part, record.Zeroing(text))
			if err != nil {
				return nil, err
			}
			return []record.Noun{set(next)}, nil
		}})
	}
	return s
}

// Gauges lists the gauges of the book with what each reads through.
func (p *Presenter) Gauges() []Link {
	var all []Link
	for _, n := range merge(p.bench.Record().Gauges, p.shelf.Gauges) {
		g := n.(record.Gauge)
		all = append(all, Link{Text: g.Name, More: p.setting(g), To: Place{What: AtGauge, ID: g.ID}})
	}
	return all
}

// setting says in one line what a gauge is and what it reads through: "fixture, LY-027, lid −.095".
func (p *Presenter) setting(g record.Gauge) string {
	all := []string{p.bench.Say("gauge." + string(g.Kind))}
	if g.Number != "" {
		all = append(all, g.Number)
	}
	for _, t := range g.Setting {
		name := say.New("stack." + string(t.Part))
		amount, off := evaluate.Term(record.BindReading, t)
		switch {
		case t.Zero == record.Zeroed:
			all = append(all, p.bench.Say("parts.through-zeroed", name, t.Amount))
		case off:
			all = append(all, p.bench.Say("parts.through-taken", name, amount))
		default:
			all = append(all, p.bench.Say("parts.through-added", name, amount))
		}
	}
	return strings.Join(all, ", ")
}

// gaugeKinds are the kinds of gauges of the job.
func (p *Presenter) gaugeKinds() []Option {
	var options []Option
	for _, k := range task.GaugeKinds() {
		options = append(options, Option{Value: string(k), Label: p.bench.Say("gauge." + string(k))})
	}
	return options
}

// Made is the place of the gauge that was made last.
func (p *Presenter) Made() Place { return Place{What: AtGauge, ID: p.made} }

// gaugeSections is one gauge; without an identifier, a new one that begins with its name.
func (p *Presenter) gaugeSections(at Place) []section {
	g, ok := p.gauge(at.ID)
	if !ok {
		return []section{{notes: []string{p.bench.Say("parts.gauge-first")}, specs: []spec{{
			Field: Field{Name: newPart, Label: p.bench.Say("parts.name"), Long: true},
			put: func(text string) ([]record.Noun, error) {
				name := strings.TrimSpace(text)
				if name == "" {
					return nil, say.Fail(say.Invalid, "parts.no-name")
				}
				p.made = task.NewID()
				return []record.Noun{record.Gauge{ID: p.made, Name: name, Kind: record.HeightGauge}}, nil
			},
		}}}}
	}
	kind := p.choice("kind", "parts.gauge-kind", string(g.Kind), p.gaugeKinds(), func(t string) record.Noun { g.Kind = record.GaugeKind(t); return g })
	kind.List = true
	first := section{specs: []spec{
		p.word("name", "parts.name", g.Name, func(t string) record.Noun { g.Name = t; return g }),
		kind,
		p.word("number", "parts.gauge-number", g.Number, func(t string) record.Noun { g.Number = t; return g }),
		p.word("note", "parts.note", g.Note, func(t string) record.Noun { g.Note = t; return g }),
	}}
	through := p.through(g.Setting, func(next []record.Taken) record.Noun { g.Setting = next; return g })
	through.notes = append(through.notes, p.bench.Say("parts.setting-kept"))
	return []section{first, through}
}
