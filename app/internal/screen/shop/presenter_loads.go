package shop

import (
	"fmt"
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Graph is the load curve of the spring that is open; false where there is none.
func (p *Presenter) Graph() (evaluate.LoadGraph, bool) { return p.counter.Graph(p.Chosen()) }

// Residuals is what the weights of the tester that is open leave; false where there is nothing to draw.
func (p *Presenter) Residuals() (evaluate.WeightGraph, bool) {
	if g, ok := p.noun().(record.Gauge); ok && g.Kind == record.SpringTester {
		return p.counter.WeightGraph(g)
	}
	return evaluate.WeightGraph{}, false
}

// tested adds to a coil what a spring tester said of it: heights and loads as the scales say them, the tester, and
// what they come to. Unknown is the key of what an empty test means.
func (p *Presenter) tested(s *Section, n int, l *record.Loads, unknown string, set func(*record.Loads) record.Noun) {
	name := fmt.Sprintf("loads %d", n)
	units := p.counter.Units()
	loads := Field{Name: name, Label: p.say("shop.loads"), Value: p.counter.LoadsTyped(l), Unit: string(units.Length) + ", " + string(units.Load)}
	loads.put = func(t string) (record.Noun, error) {
		next, err := p.counter.ReadLoads(l, t)
		if err != nil {
			return nil, err
		}
		return set(next), nil
	}
	s.Fields = append(s.Fields, loads)
	if l == nil {
		s.Notes = append(s.Notes, p.say(unknown))
		return
	}
	on := p.readOn(name+" gauge", l.Gauge, func(id string) record.Noun { return set(p.counter.TestedOn(*l, id)) })
	on.Options = slices.DeleteFunc(on.Options, func(o Option) bool {
		return o.Value != "" && o.Value != l.Gauge && !slices.ContainsFunc(p.counter.Gauges(), func(g record.Gauge) bool {
			return g.ID == o.Value && g.Kind == record.SpringTester
		})
	})
	s.Fields = append(s.Fields, on,
		choice(p, name+" source", "shop.source", l.Source, task.Sources(), "source.",
			func(t record.Source) record.Noun { return set(p.counter.LoadsFrom(*l, t)) }),
	)
	for _, line := range p.counter.TestLines(l) {
		s.Notes = append(s.Notes, p.counter.Words().Line(line))
	}
}

// sizes adds the sizes of a coil of a type that fits are looked at by.
func (p *Presenter) sizes(s *Section, of record.Spring, i int) {
	size := func(name string, q *unit.Quantity, put func(*record.Coil, *unit.Quantity)) Field {
		return p.quantity(fmt.Sprintf("%s %d", name, i+1), "shop."+name, q, p.counter.Units().Length, p.counter.ReadSize,
			func(q *unit.Quantity) record.Noun {
				of.Coils = slices.Clone(of.Coils)
				put(&of.Coils[i], q)
				return of
			})
	}
	c := of.Coils[i]
	s.Fields = append(s.Fields,
		size("outside", c.Outside, func(c *record.Coil, q *unit.Quantity) { c.Outside = q }),
		beside(size("inside", c.Inside, func(c *record.Coil, q *unit.Quantity) { c.Inside = q })),
	)
}

// scale is how a spring tester shows loads, and what dead weights say of that.
func (p *Presenter) scale(g record.Gauge) Section {
	units := p.counter.Units()
	s := Section{Title: p.say("shop.load-scale"), Notes: []string{p.say("shop.weights-none")}}
	step := Field{Name: "load step", Label: p.say("shop.load-step")}
	step.Value, step.Unit = p.shown(nil, units.Load)
	if l := g.LoadScale; l != nil {
		step.Value, step.Unit = p.shown(l.Step, units.Load)
	}
	step.put = func(t string) (record.Noun, error) { return asNoun(p.counter.ReadLoadStep(g, t)) }
	weights := Field{Name: "weights", Label: p.say("shop.weights"), Value: p.counter.WeightsTyped(g), Unit: string(units.Load)}
	weights.put = func(t string) (record.Noun, error) { return asNoun(p.counter.ReadWeights(g, t)) }
	s.Fields = []Field{step, weights}
	if weights.Value == "" {
		return s
	}
	s.Notes = []string{p.say("shop.weights-from")}
	for _, line := range p.counter.WeightLines(g) {
		s.Notes = append(s.Notes, p.counter.Words().Line(line))
	}
	s.Fields = append(s.Fields, p.word("weights date", "shop.weights-date", p.day(g.LoadScale.Weights.Date),
		func(t string) record.Noun { return p.counter.WeightsOn(g, t) }))
	return s
}

func asNoun(g record.Gauge, err error) (record.Noun, error) { return g, err }
