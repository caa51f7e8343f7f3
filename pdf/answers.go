package pdf

import (
	"strings"

	"keeperbook/model/record"
)

// rules sets the shop's rules that the numbers were held against.
func (f *flow) rules(s Sheet) {
	f.heading(f.say("sheet.rules"))
	f.para(body, 0, f.say("sheet.rules-source"))
	f.skip(2)
	rules := s.Record.Setup.Rules
	sizes := make([]string, len(rules.Sizes))
	for i, q := range rules.Sizes {
		sizes[i] = f.say("figure.length", q)
	}
	f.facts(3, body, f.filled([]fact{
		{"sheet.rule-agree", f.length("sheet.rule-within", &rules.Agree)},
		{"sheet.rule-seal", f.length("figure.length", &rules.SealLeast)},
		{"sheet.rule-retainer", f.length("figure.length", &rules.RetainerLeast)},
		{"sheet.rule-set", f.length("sheet.rule-plus-minus", &rules.SetHeights)},
		{"sheet.rule-rated", f.length("figure.length", &rules.RatedOver)},
		{"sheet.rule-sizes", strings.Join(sizes, "  ")},
	}))
	f.list(150, f.filled([]fact{
		{"sheet.rule-decision", f.say("decision." + string(rules.Decision))},
		{"sheet.rule-sold", f.length("sheet.rule-plus-minus", rules.ShimTolerance)},
		{"sheet.rule-assumed", f.assumed(rules.Assumed)},
	}))
}

// assumed says what is taken for granted of kinds of gauges.
func (f *flow) assumed(all []record.Assumed) string {
	texts := make([]string, len(all))
	for i, a := range all {
		texts[i] = f.say("sheet.assumed-one", f.say("gauge."+string(a.Kind)), a.S, a.Step)
	}
	return strings.Join(texts, "; ")
}

// needs sets what is known of the engine's use, and the questions still open.
func (f *flow) needs(r *record.Record) {
	n := r.Setup.Needs
	boost := ""
	if n.Boost != nil {
		boost = f.say("sheet.rate", n.Boost.Read, string(n.Boost.Unit))
	}
	all := []fact{
		{"needs.use", n.Use}, {"needs.run-length", n.RunLength}, {"needs.held", n.Held}, {"needs.reached", n.Reached},
		{"needs.over-rev", n.OverRev}, {"needs.boost", boost}, {"needs.lifter", n.Lifter}, {"needs.lifter-says", n.LifterSays},
		{"needs.cam-says", n.CamSays}, {"needs.oil", n.Oil}, {"needs.parts", n.Parts}, {"needs.targets", n.Targets},
		{"needs.recheck", n.Recheck},
	}
	f.heading(f.say("sheet.needs"))
	var open []string
	for _, one := range all {
		if strings.TrimSpace(one.value) == "" {
			open = append(open, f.say(one.name))
		}
	}
	f.facts(3, body, f.filled(all))
	if len(open) > 0 {
		f.para(strong, 0, f.say("sheet.needs-open", strings.Join(open, "; ")))
	}
}

// checks sets what else this shop looked at and, in its own part, what it did not.
func (f *flow) checks(s Sheet) {
	r := s.Record
	var here, not []record.Check
	for _, c := range r.Setup.Checks {
		if c.Done == record.DoneHere {
			here = append(here, c)
		} else {
			not = append(not, c)
		}
	}
	if len(here) > 0 {
		f.heading(f.say("sheet.checked"))
		for _, c := range here {
			f.item("✓", joined(c.What, c.Who, c.Note))
		}
	}
	f.heading(f.say("sheet.not-checked"))
	for _, c := range not {
		who := c.Who
		if who == "" {
			who = f.say("sheet.nobody-named")
		}
		f.item("☐", joined(c.What, who, c.Note))
	}
	for _, l := range s.Evaluation.Unlooked {
		f.item("☐", f.words.Line(l))
	}
	key := "sheet.not-checked-rest"
	if len(r.Setup.Checks) == 0 {
		key = "sheet.not-checked-all"
	}
	f.para(body, 0, f.say(key))
}
