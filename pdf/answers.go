package pdf

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// rules sets the shop's rules that the numbers were held against.
func (f *flow) rules(s Sheet) {
	f.heading(f.say("sheet.rules"))
	f.para(body, 0, f.say("sheet.rules-source"))
	f.skip(2)
	rules := s.Record.Setup.Rules
	f.facts(3, body, f.filled([]fact{
		{"sheet.rule-agree", f.length("sheet.rule-within", &rules.Agree)},
		{"sheet.rule-seal", f.length("figure.length", &rules.SealLeast)},
		{"sheet.rule-retainer", f.length("figure.length", &rules.RetainerLeast)},
		{"sheet.rule-set", f.length("sheet.rule-plus-minus", &rules.SetHeights)},
		{"sheet.rule-rated", f.length("figure.length", &rules.RatedOver)},
		{"sheet.rule-sizes", f.quantities(rules.Sizes)},
		{"sheet.rule-seat-loads", f.spread(rules.SeatLoads)},
		{"sheet.rule-lost", f.lost(rules.LoadLost)},
	}))
	f.list(150, f.filled([]fact{
		{"sheet.rule-decision", f.say("decision." + string(rules.Decision))},
		{"sheet.rule-sold", f.length("sheet.rule-plus-minus", rules.ShimTolerance)},
		{"sheet.rule-assumed", f.assumed(rules)},
		{"sheet.rule-met", f.met(rules)},
		{"sheet.rule-fits", f.clearances(rules.Fits)},
	}))
}

// spread says how far seat loads of a role may lie from their mean.
func (f *flow) spread(w *record.Within) string {
	if w == nil {
		return ""
	}
	return f.say("sheet.rule-spread", f.say("sheet.rate", say.Number(w.Load.Read), string(w.Load.Unit)), say.Number(w.Percent))
}

// lost says from what loss of load a spring is watched and replaced.
func (f *flow) lost(l *record.Lost) string {
	if l == nil {
		return ""
	}
	return f.say("sheet.rule-lost-from", say.Number(l.Watch), say.Number(l.Replace))
}

func (f *flow) quantities(all []unit.Quantity) string {
	texts := make([]string, len(all))
	for i, q := range all {
		texts[i] = f.say("figure.length", q)
	}
	return strings.Join(texts, "  ")
}

// met says which angles and offsets of locks, and which guide bosses, this shop meets: others are asked about.
func (f *flow) met(r record.Rules) string {
	var texts []string
	if len(r.LockAngles) > 0 {
		angles := make([]string, len(r.LockAngles))
		for i, a := range r.LockAngles {
			angles[i] = f.words.Number(say.Number(a))
		}
		texts = append(texts, f.say("sheet.met-angles", strings.Join(angles, "  ")))
	}
	if len(r.LockOffsets) > 0 {
		texts = append(texts, f.say("sheet.met-offsets", f.quantities(r.LockOffsets)))
	}
	if len(r.Bosses) > 0 {
		texts = append(texts, f.say("sheet.met-bosses", f.quantities(r.Bosses)))
	}
	return strings.Join(texts, "; ")
}

// clearances says what room the shop asks for between parts.
func (f *flow) clearances(fits *record.Fits) string {
	if fits == nil {
		return ""
	}
	rules := record.Rules{Fits: fits}
	var texts []string
	for _, name := range record.FitNames() {
		least, most := rules.Of(record.FitRule(name, record.LeastRoom)), rules.Of(record.FitRule(name, record.MostRoom))
		pair := f.say("shop.fit." + name)
		switch none := (unit.Quantity{}); {
		case least != none && most != none:
			texts = append(texts, f.say("sheet.fit-both", pair, least, most))
		case least != none:
			texts = append(texts, f.say("sheet.fit-least", pair, least))
		case most != none:
			texts = append(texts, f.say("sheet.fit-most", pair, most))
		}
	}
	return strings.Join(texts, "; ")
}

// assumed says what is taken for granted of kinds of gauges, and of the load scale of a tester.
func (f *flow) assumed(r record.Rules) string {
	texts := make([]string, len(r.Assumed))
	for i, a := range r.Assumed {
		texts[i] = f.say("sheet.assumed-one", f.say("gauge."+string(a.Kind)), a.S, a.Step)
	}
	if a := r.AssumedLoad; a != nil {
		texts = append(texts, f.say("sheet.assumed-load", f.say("sheet.rate", say.Number(a.S.Read), string(a.S.Unit)), f.say("sheet.rate", say.Number(a.Step.Read), string(a.Step.Unit))))
	}
	return strings.Join(texts, "; ")
}

// needs sets what is known of the engine's use, and the questions still open.
func (f *flow) needs(r *record.Record) {
	n := r.Setup.Needs
	boost := ""
	if n.Boost != nil {
		boost = f.say("sheet.rate", say.Number(n.Boost.Read), string(n.Boost.Unit))
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
