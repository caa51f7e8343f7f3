package needs

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// answer is a field of the set-up's needs that holds words.
func (p *Presenter) answer(key string, at func(*record.Setup) *string) spec {
	s := p.bench.Record().Setup
	return spec{
		Field: Field{Name: key, Label: p.bench.Say(key), Value: *at(&s), Long: true},
		put: func(text string) ([]record.Noun, error) {
			*at(&s) = strings.TrimSpace(text)
			return []record.Noun{s}, nil
		},
	}
}

// use is what the engine is for and what it has seen.
func (p *Presenter) use() section {
	all := []spec{
		p.answer("needs.use", func(s *record.Setup) *string { return &s.Needs.Use }),
		p.answer("needs.run-length", func(s *record.Setup) *string { return &s.Needs.RunLength }),
		p.short("needs.held", false, func(s *record.Setup) *string { return &s.Needs.Held }),
		p.short("needs.reached", true, func(s *record.Setup) *string { return &s.Needs.Reached }),
		p.boost(),
		p.answer("needs.over-rev", func(s *record.Setup) *string { return &s.Needs.OverRev }),
	}
	return section{"use", p.bench.Say("needs.group.use"), "", all}
}

// short is an answer of a word or a number.
func (p *Presenter) short(key string, beside bool, at func(*record.Setup) *string) spec {
	f := p.answer(key, at)
	f.Long, f.Beside = false, beside
	return f
}

// boost is read with its unit; "none" answers the question too.
func (p *Presenter) boost() spec {
	s := p.bench.Record().Setup
	f := Field{Name: "needs.boost", Label: p.bench.Say("needs.boost-in", string(p.bench.BoostUnit())), Beside: true}
	if b := s.Needs.Boost; b != nil {
		f.Value = evaluate.StyleOf(s.Units).QuantityIn(*b)
		if b.Value == 0 {
			f.Value = p.bench.Say("needs.boost-none")
		}
	}
	return spec{Field: f, put: func(text string) (_ []record.Noun, err error) {
		s.Needs.Boost, err = p.bench.ReadBoost(text)
		return []record.Noun{s}, err
	}}
}

// cam is what moves the valves, and the limits of its makers.
func (p *Presenter) cam() section {
	all := []spec{
		p.answer("needs.lifter", func(s *record.Setup) *string { return &s.Needs.Lifter }),
		p.answer("needs.lifter-says", func(s *record.Setup) *string { return &s.Needs.LifterSays }),
		p.allowed("needs.lifter-most", func(n *record.Needs) **unit.Quantity { return &n.LifterMost }),
		p.answer("needs.cam-says", func(s *record.Setup) *string { return &s.Needs.CamSays }),
		p.allowed("needs.cam-most", func(n *record.Needs) **unit.Quantity { return &n.CamMost }),
		p.answer("needs.oil", func(s *record.Setup) *string { return &s.Needs.Oil }),
	}
	return section{"cam", p.bench.Say("needs.group.cam"), "", all}
}

// deciding is who decides and who looks again.
func (p *Presenter) deciding() section {
	all := []spec{
		p.answer("needs.parts", func(s *record.Setup) *string { return &s.Needs.Parts }),
		p.answer("needs.targets", func(s *record.Setup) *string { return &s.Needs.Targets }),
		p.answer("needs.recheck", func(s *record.Setup) *string { return &s.Needs.Recheck }),
	}
	return section{"who", p.bench.Say("needs.group.who"), "", all}
}

// setup is what is written on the head and about the set-up.
func (p *Presenter) setup() section {
	head := func(key string, beside bool, at func(*record.Head) *string) spec {
		h := p.bench.Record().Head
		return spec{
			Field: Field{Name: key, Label: p.bench.Say(key), Value: *at(&h), Long: true, Beside: beside},
			put: func(text string) ([]record.Noun, error) {
				*at(&h) = strings.TrimSpace(text)
				return []record.Noun{h}, nil
			},
		}
	}
	note := p.answer("needs.note", func(s *record.Setup) *string { return &s.Note })
	note.Many = true
	all := []spec{
		note,
		head("needs.casting", false, func(h *record.Head) *string { return &h.Casting }),
		head("needs.front", false, func(h *record.Head) *string { return &h.Front }),
		head("needs.work-order", true, func(h *record.Head) *string { return &h.WorkOrder }),
	}
	return section{"setup", p.bench.Say("needs.group.setup"), "", all}
}

// Rule is one rule of the set-up, as it was fixed when it was begun.
type Rule struct{ Name, Value string }

// Rules returns the units and rules of the set-up, and the sentence that says what they are. A rule that
// is not common practice says so, whoever set it.
func (p *Presenter) Rules() (rules []Rule, source string) {
	s := p.bench.Record().Setup
	in, usual := say.New("expr.one", string(s.Units.Length)), record.DefaultRules(s.Units.Length)
	add := func(name, value string) { rules = append(rules, Rule{name, value}) }
	value := func(form string, key record.RuleKey) string {
		q := s.Rules.Of(key)
		if u := usual.Of(key); u.Value != q.Value {
			return p.bench.Say("needs.rule.own", p.bench.Say(form, q, in), u)
		}
		return p.bench.Say(form, q, in)
	}
	rule := func(name, form string, key record.RuleKey) {
		if !s.Rules.Of(key).Zero() { // a set-up of an earlier version does not have them all
			add(p.bench.Say(name), value(form, key))
		}
	}
	add(p.bench.Say("needs.rule.units"), p.bench.Say("needs.rule.units-of", string(s.Units.Length), string(s.Units.Load)))
	add(p.bench.Say("sheet.decision"), p.bench.Say("shop.decision."+string(s.Rules.Decision)))
	rule("needs.rule.agree", "needs.rule.within", record.RuleAgree)
	rule("needs.rule.seal", "needs.rule.least", record.RuleSeal)
	rule("needs.rule.retainer", "needs.rule.least", record.RuleRetainer)
	rule("needs.rule.set", "needs.rule.plus-minus", record.RuleSet)
	rule("needs.rule.rated", "needs.rule.least", record.RuleRated)
	rule("needs.rule.shim", "needs.rule.plus-minus", record.RuleShim)
	sizes := p.bench.Say("needs.rule.least", p.sizes(s.Rules.Sizes), in)
	if !slices.EqualFunc(s.Rules.Sizes, usual.Sizes, func(a, b unit.Quantity) bool { return a.Value == b.Value }) {
		sizes = p.bench.Say("needs.rule.own", sizes, p.sizes(usual.Sizes))
	}
	add(p.bench.Say("needs.rule.sizes"), sizes)
	rules = append(rules, p.moreRules()...)
	for _, kind := range p.gaugeKinds() {
		if !s.Rules.Of(record.ScatterOf(kind)).Zero() {
			add(p.bench.Say("needs.rule.gauge", say.New("gauge."+string(kind))), p.bench.Say("needs.rule.scatter",
				value("needs.rule.least", record.ScatterOf(kind)), value("needs.rule.least", record.StepOf(kind))))
		}
	}
	return rules, p.bench.Say("needs.rule.source")
}

// gaugeKinds are the kinds of the gauges that the set-up's readings were taken on.
func (p *Presenter) gaugeKinds() []record.GaugeKind {
	var kinds []record.GaugeKind
	for _, kind := range task.GaugeKinds() {
		if slices.ContainsFunc(p.bench.Record().Gauges, func(g record.Gauge) bool { return g.Kind == kind }) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

func (p *Presenter) sizes(all []unit.Quantity) string {
	shown := make([]string, len(all))
	for i := range all {
		shown[i] = p.bench.Size(&all[i])
	}
	return strings.Join(shown, "  ")
}
