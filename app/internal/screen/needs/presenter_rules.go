package needs

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// moreRules are those of the set-up's rules that are loads, shares and lists, and the clearances that it asks for. A
// set-up of an earlier version does not have them all.
func (p *Presenter) moreRules() []Rule {
	s := p.bench.Record().Setup
	var rules []Rule
	value := func(key record.RuleKey) string {
		text, behind := task.RuleTyped(s.Rules, s.Units.Length, key)
		if text == "" {
			return ""
		}
		text = strings.TrimSpace(text + " " + behind)
		if usual := task.UsualRule(s.Units.Length, key); usual != "" && usual != text {
			return p.bench.Say("needs.rule.own", text, usual)
		}
		return text
	}
	add := func(name, value string) {
		if value != "" {
			rules = append(rules, Rule{name, value})
		}
	}
	for _, key := range slices.Concat([]record.RuleKey{record.RuleSeatLoads}, record.ShareRules(), record.ListRules()) {
		add(p.bench.Say("shop.rule."+string(key)), value(key))
	}
	for _, name := range record.FitNames() {
		pair := say.New("shop.fit." + name)
		for _, side := range []record.Side{record.LeastRoom, record.MostRoom} {
			if q := s.Rules.Of(record.FitRule(name, side)); !q.Zero() {
				add(p.bench.Say("shop.fit-"+string(side), pair), p.bench.Say("needs.rule.least", q, string(s.Units.Length)))
			}
		}
	}
	if s.Rules.AssumedLoad != nil && slices.Contains(p.gaugeKinds(), record.SpringTester) {
		add(p.bench.Say("needs.rule.load-scale"), p.bench.Say("needs.rule.scatter", value(record.RuleLoadScatter), value(record.RuleLoadStep)))
	}
	return rules
}
