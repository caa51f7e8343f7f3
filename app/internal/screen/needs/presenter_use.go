package needs

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// answer is a field of the set-up's needs that holds words.
func (p *Presenter) answer(key string, at func(*record.Setup) *string) spec {
	s := p.record().Setup
	return spec{
		Field: Field{Name: key, Label: p.say(key), Value: *at(&s), Long: true},
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
	return section{"use", p.say("needs.group.use"), "", all}
}

// short is an answer of a word or a number.
func (p *Presenter) short(key string, beside bool, at func(*record.Setup) *string) spec {
	f := p.answer(key, at)
	f.Long, f.Beside = false, beside
	return f
}

// boost is read with its unit; "none" answers the question too.
func (p *Presenter) boost() spec {
	s := p.record().Setup
	f := Field{Name: "needs.boost", Label: p.say("needs.boost-in", string(p.bench.BoostUnit())), Beside: true}
	if b := s.Needs.Boost; b != nil {
		f.Value = evaluate.StyleOf(s.Units).QuantityIn(*b)
		if b.Value == 0 {
			f.Value = p.say("needs.boost-none")
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
		p.answer("needs.cam-says", func(s *record.Setup) *string { return &s.Needs.CamSays }),
		p.answer("needs.oil", func(s *record.Setup) *string { return &s.Needs.Oil }),
	}
	return section{"cam", p.say("needs.group.cam"), "", all}
}

// deciding is who decides and who looks again.
func (p *Presenter) deciding() section {
	all := []spec{
		p.answer("needs.parts", func(s *record.Setup) *string { return &s.Needs.Parts }),
		p.answer("needs.targets", func(s *record.Setup) *string { return &s.Needs.Targets }),
		p.answer("needs.recheck", func(s *record.Setup) *string { return &s.Needs.Recheck }),
	}
	return section{"who", p.say("needs.group.who"), "", all}
}

// setup is what is written on the head and about the set-up.
func (p *Presenter) setup() section {
	head := func(key string, beside bool, at func(*record.Head) *string) spec {
		h := p.record().Head
		return spec{
			Field: Field{Name: key, Label: p.say(key), Value: *at(&h), Long: true, Beside: beside},
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
	return section{"setup", p.say("needs.group.setup"), "", all}
}

// Rule is one rule of the set-up, as it was fixed when it was begun.
type Rule struct{ Name, Value string }

// Rules returns the units and rules of the set-up, and the sentence that says what they are.
func (p *Presenter) Rules() (rules []Rule, source string) {
	s := p.record().Setup
	r := s.Rules
	sizes := make([]string, len(r.Sizes))
	for i := range r.Sizes {
		sizes[i] = p.size(&r.Sizes[i])
	}
	add := func(name, value string) { rules = append(rules, Rule{name, value}) }
	in := say.New("expr.one", string(s.Units.Length))
	add(p.say("needs.rule.units"), p.say("needs.rule.units-of", string(s.Units.Length), string(s.Units.Load)))
	add(p.say("needs.rule.agree"), p.say("needs.rule.within", r.Agree, in))
	add(p.say("needs.rule.seal"), p.say("needs.rule.least", r.SealLeast, in))
	add(p.say("needs.rule.retainer"), p.say("needs.rule.least", r.RetainerLeast, in))
	add(p.say("needs.rule.set"), p.say("needs.rule.plus-minus", r.SetHeights, in))
	add(p.say("needs.rule.rated"), p.say("needs.rule.least", r.RatedOver, in))
	add(p.say("needs.rule.sizes"), p.say("needs.rule.least", strings.Join(sizes, "  "), in))
	return rules, p.say("needs.rule.source")
}
