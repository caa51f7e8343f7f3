package shop

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
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

// rules are what a new set-up begins with, in inches and in millimetres. They are shown, not changed:
// a set-up fixes its own when it is begun.
func (p *Presenter) rules() []Section {
	units := []unit.Symbol{unit.In, unit.Mm}
	if p.counter.Units().Length == unit.Mm {
		slices.Reverse(units)
	}
	all := []Section{{Title: p.say("shop.rules"), Notes: []string{p.say("shop.rules-source"), p.say("shop.rules-fixed")}}}
	for _, u := range units {
		r := task.UsualRules(u)
		show := func(q unit.Quantity) string { return evaluate.StyleOf(record.Units{Length: u}).QuantityIn(q) }
		sizes := make([]string, len(r.Sizes))
		for i, q := range r.Sizes {
			sizes[i] = show(q)
		}
		all = append(all, Section{Title: p.say("shop.rules-in." + string(u)), Fields: []Field{
			{Label: p.say("sheet.rule-agree"), Value: p.say("sheet.rule-within", show(r.Agree))},
			{Label: p.say("sheet.rule-seal"), Value: show(r.SealLeast)},
			{Label: p.say("sheet.rule-retainer"), Value: show(r.RetainerLeast)},
			{Label: p.say("sheet.rule-set"), Value: p.say("sheet.rule-plus-minus", show(r.SetHeights))},
			{Label: p.say("sheet.rule-rated"), Value: show(r.RatedOver)},
			{Label: p.say("sheet.rule-sizes"), Value: strings.Join(sizes, "  ")},
		}})
	}
	return all
}
