package shop

import (
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// gauge is a gauge: what it is, and the setting that it reads under.
func (p *Presenter) gauge(g record.Gauge) []Section {
	return []Section{{Fields: []Field{
		p.named("name", "shop.name", g.Name, func(t string) record.Noun { g.Name = t; return g }),
		choice(p, "kind", "shop.gauge-kind", g.Kind, task.GaugeKinds(), "gauge.",
			func(t record.GaugeKind) record.Noun { g.Kind = t; return g }),
		p.word("number", "shop.gauge-number", g.Number, func(t string) record.Noun { g.Number = t; return g }),
		beside(p.word("note", "shop.note", g.Note, func(t string) record.Noun { g.Note = t; return g })),
	}}, p.standing(g)}
}

// standing is what everything read on the gauge goes through, part by part.
func (p *Presenter) standing(g record.Gauge) Section {
	s := Section{Title: p.say("shop.setting"), Notes: []string{p.say("shop.setting-kept"), p.say("shop.signs"), p.say("shop.sign-zero")}}
	for _, part := range task.StackParts() {
		at := slices.IndexFunc(g.Setting, func(t record.Taken) bool { return t.Part == part })
		var amount *unit.Quantity
		if at >= 0 {
			amount = &g.Setting[at].Amount
		}
		f := Field{Name: string(part), Label: p.say("stack." + string(part))}
		f.Value, f.Unit = p.shown(amount, p.counter.Units().Length)
		f.put = func(t string) (record.Noun, error) {
			next, err := p.counter.Through(g.Setting, part, t)
			g.Setting = next
			return g, err
		}
		s.Fields = append(s.Fields, f)
		if at < 0 {
			continue // nothing to be zeroed on
		}
		zero := choice(p, string(part)+" zero", "shop.zero", g.Setting[at].Zero,
			[]record.Zeroing{record.NotZeroed, record.Zeroed}, "zero.", nil)
		zero.put = func(t string) (record.Noun, error) {
			next, err := task.SetZero(g.Setting, part, record.Zeroing(t))
			g.Setting = next
			return g, err
		}
		s.Fields = append(s.Fields, beside(zero))
	}
	return s
}
