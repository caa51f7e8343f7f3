package shop

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

// lengths are the units that set-ups are shown in, the shop's usual one first.
func (p *Presenter) lengths() []unit.Symbol {
	all := []unit.Symbol{unit.In, unit.Mm}
	if p.counter.Units().Length == unit.Mm {
		slices.Reverse(all)
	}
	return all
}

// rules are what a new set-up begins with, in inches and beside it in millimetres, and below them what is
// assumed of gauges. A rule that the shop did not set says where it comes from; one that it set can be
// given back.
func (p *Presenter) rules() []Section {
	all := []Section{{Title: p.say("shop.rules"), Notes: []string{p.say("shop.rules-source"), p.say("shop.rules-fixed")}}}
	for i, length := range p.lengths() {
		decision := p.counter.Rules(length).Rules().Decision
		s := Section{
			Title: p.say("shop.rules-in." + string(length)), Beside: i > 0,
			Notes: []string{p.say("decision." + string(decision))}, Fields: []Field{p.decision(length)},
		}
		for _, key := range record.RuleKeys() {
			s.Fields = append(s.Fields, p.rule(length, key, p.say("shop.rule."+string(key)), "shop.rule-usual", "shop.rule-own"))
		}
		for _, key := range slices.Concat([]record.RuleKey{record.RuleSeatLoads}, record.ShareRules(), record.ListRules()) {
			s.Fields = append(s.Fields, p.rule(length, key, p.say("shop.rule."+string(key)), "shop.rule-usual", "shop.rule-own"))
		}
		all = append(all, s)
	}
	for i, length := range p.lengths() {
		s := p.fits(length)
		s.Beside = i > 0
		all = append(all, s)
	}
	for i, length := range p.lengths() {
		s := p.inService(length)
		s.Beside = i > 0
		all = append(all, s)
	}
	for _, length := range p.lengths() {
		s := Section{Title: p.say("shop.assumed-in." + string(length)), Notes: []string{p.say("shop.assumed-what")}}
		for _, kind := range task.GaugeKinds() {
			gauge := say.New("gauge." + string(kind))
			s.Fields = append(s.Fields,
				p.rule(length, record.ScatterOf(kind), p.say("shop.assumed-scatter", gauge), "shop.assumed-usual", "shop.assumed-own"),
				beside(p.rule(length, record.StepOf(kind), p.say("shop.assumed-step"), "shop.assumed-usual", "shop.assumed-own")))
		}
		s.Fields = append(s.Fields,
			p.rule(length, record.RuleLoadScatter, p.say("shop.rule.load-scatter"), "shop.assumed-usual", "shop.assumed-own"),
			beside(p.rule(length, record.RuleLoadStep, p.say("shop.assumed-step"), "shop.assumed-usual", "shop.assumed-own")))
		all = append(all, s)
	}
	return all
}

// decision is how a number is held against its limit.
func (p *Presenter) decision(length unit.Symbol) Field {
	s := p.counter.Rules(length)
	return choice(p, string(length)+" decision", "sheet.decision", s.Rules().Decision, record.Decisions, "shop.decision.",
		func(d record.Decision) record.Noun { s.Decision = d; return s })
}

// fits are the clearances that the shop asks for of parts that go into one another. Nothing has to be said of any.
func (p *Presenter) fits(length unit.Symbol) Section {
	s := Section{Title: p.say("shop.fits-in." + string(length)), Notes: []string{p.say("shop.fits-what")}}
	rules := p.counter.Rules(length).Rules()
	for _, name := range record.FitNames() {
		pair := p.say("shop.fit." + name)
		for _, side := range []record.Side{record.LeastRoom, record.MostRoom} {
			key := record.FitRule(name, side)
			f := Field{Name: string(length) + " " + string(key), Label: p.say("shop.fit-"+string(side), pair), Beside: side == record.MostRoom}
			f.Value, f.Unit = task.RuleTyped(rules, length, key)
			f.put = func(text string) (record.Noun, error) { return p.counter.WithRule(length, key, text) }
			s.Fields = append(s.Fields, f)
		}
	}
	return s
}

// inService is what the shop asks of springs in service besides. Nothing has to be said of it.
func (p *Presenter) inService(length unit.Symbol) Section {
	s := Section{Title: p.say("shop.service-in." + string(length)), Notes: []string{p.say("shop.service-what")}}
	f := Field{Name: string(length) + " " + string(record.RuleLash), Label: p.say("shop.rule.lash-moved"), Unit: string(length)}
	if q := p.counter.Rules(length).LashMoved(); q != nil {
		f.Value, f.Unit = p.shown(q, length)
	}
	f.put = func(text string) (record.Noun, error) { return p.counter.WithRule(length, record.RuleLash, text) }
	s.Fields = []Field{f}
	return s
}

// rule is a rule that common practice has a figure for. Usual and own are the keys of what is said of it, as long as the
// shop did not set it and when it did.
func (p *Presenter) rule(length unit.Symbol, key record.RuleKey, label, usual, own string) Field {
	s, back := p.counter.Rules(length), task.UsualRule(length, key)
	f := Field{Name: string(length) + " " + string(key), Label: label, Note: p.say(usual), Back: p.say("shop.rule-back", back)}
	f.Value, f.Unit = task.RuleTyped(s.Rules(), length, key)
	f.put = func(text string) (record.Noun, error) { return p.counter.WithRule(length, key, text) }
	if s.Own(key) {
		f.Note = p.say(own, back)
		f.back = func() (record.Noun, error) { return s.Without(key), nil }
	}
	return f
}

// Sizes of shims are lines of a list and no items of the book: these kinds, and a thickness for a key,
// only tell the lines apart.
const (
	sizesIn record.ItemKind = "sizes in"
	sizesMm record.ItemKind = "sizes mm"
)

// sized is the unit of a list of shims; false where the kind is of the book.
func sized(kind record.ItemKind) (unit.Symbol, bool) {
	switch kind {
	case sizesIn:
		return unit.In, true
	case sizesMm:
		return unit.Mm, true
	}
	return "", false
}

// shims are the sizes that the shop buys, a list for each unit.
func (p *Presenter) shims() []List {
	var all []List
	for _, length := range p.lengths() {
		s := p.counter.Rules(length)
		l := List{
			Kind: sizesIn, Title: p.say("shop.sizes." + string(length)), Note: p.say("shop.sizes-usual"),
		}
		if length == unit.Mm {
			l.Kind = sizesMm
		}
		if len(s.Sizes) > 0 {
			l.Note, l.Deed = p.say("shop.sizes-own", p.usualSizes(length)), p.say("shop.sizes-back")
		}
		for _, q := range s.Rules().Sizes {
			l.Lines = append(l.Lines, Line{Item: sizeItem(l.Kind, q), Text: sizeText(q, length)})
		}
		all = append(all, l)
	}
	return all
}

// adding is where a size is typed that is not on the list yet. A thickness may well come from a gauge, which
// a dialog would keep from its field.
func (p *Presenter) adding() Section {
	s := Section{Title: p.say("shop.size-add"), Notes: []string{p.say("shop.sizes-what")}}
	for i, length := range p.lengths() {
		s.Fields = append(s.Fields, Field{
			Name: string(length) + " size", Label: p.say("shop.rules-in." + string(length)), Unit: string(length), Beside: i > 0, Again: true,
			put: func(text string) (record.Noun, error) { return p.counter.WithSize(length, text) },
		})
	}
	return s
}

func sizeItem(kind record.ItemKind, q unit.Quantity) record.Item {
	return record.Item{Kind: kind, Key: strconv.FormatInt(q.Value, 10)}
}

// sizeText writes a thickness as it was read: ".030 in", and "0.75 mm" also among inches.
func sizeText(q unit.Quantity, length unit.Symbol) string {
	return record.PlainColumn(length).Understood(q)
}

func (p *Presenter) usualSizes(length unit.Symbol) string {
	var all []string
	for _, q := range record.DefaultRules(length).Sizes {
		all = append(all, evaluate.StyleOf(record.Units{Length: length}).QuantityIn(q))
	}
	return strings.Join(all, " ")
}

// size is the size of shim that is open, false where none is.
func (p *Presenter) size() (q unit.Quantity, length unit.Symbol, ok bool) {
	length, ok = sized(p.open.Kind)
	if !ok {
		return q, length, false
	}
	sizes := p.counter.Rules(length).Rules().Sizes
	at := slices.IndexFunc(sizes, func(q unit.Quantity) bool { return sizeItem(p.open.Kind, q) == p.open })
	if at < 0 {
		return q, length, false
	}
	return sizes[at], length, true
}

// BackSizes gives a list of shims back to common practice.
func (p *Presenter) BackSizes(ctx context.Context, kind record.ItemKind) error {
	length, ok := sized(kind)
	if !ok {
		return nil
	}
	rules := p.counter.Rules(length)
	rules.Sizes = nil
	if err := p.counter.Keep(ctx, rules); err != nil {
		return err
	}
	return p.Load(ctx)
}

// BackSure is the question before a list of shims is given back.
func (p *Presenter) BackSure(kind record.ItemKind) string {
	length, _ := sized(kind)
	return p.say("shop.sizes-back-sure", p.usualSizes(length))
}
