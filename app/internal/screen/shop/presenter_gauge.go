package shop

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// gauge is a gauge: what it is, how finely and how well it reads, and the setting that it reads under.
func (p *Presenter) gauge(g record.Gauge) []Section {
	all := []Section{{Fields: []Field{
		p.named("name", "shop.name", g.Name, func(t string) record.Noun { g.Name = t; return g }),
		choice(p, "kind", "shop.gauge-kind", g.Kind, task.GaugeKinds(), "gauge.",
			func(t record.GaugeKind) record.Noun { g.Kind = t; return g }),
		p.word("number", "shop.gauge-number", g.Number, func(t string) record.Noun { g.Number = t; return g }),
		beside(p.word("note", "shop.note", g.Note, func(t string) record.Noun { g.Note = t; return g })),
	}}, p.certificate(g), p.repeats(g), p.standing(g)}
	if g.Kind == record.SpringTester {
		all = append(all, p.scale(g))
	}
	return all
}

// certificate is what stands on the certificate of a gauge, and whether it still holds.
func (p *Presenter) certificate(g record.Gauge) Section {
	t := p.certified(g)
	s := Section{Title: p.say("shop.certificate"), Notes: []string{p.holds(g, t)}}
	with := func(change func(*task.Certificate)) (record.Noun, error) {
		change(&t)
		next, err := p.counter.WithCertificate(g, t)
		if err != nil {
			return g, err
		}
		p.waiting[g.ID] = t
		return next, nil
	}
	word := func(name, label, value string, set func(*task.Certificate, string)) Field {
		return Field{Name: name, Label: p.say(label), Value: value, put: func(text string) (record.Noun, error) {
			return with(func(t *task.Certificate) { set(t, strings.TrimSpace(text)) })
		}}
	}
	u := Field{Name: "u", Label: p.say("shop.expanded")}
	u.Value, u.Unit = p.shown(t.U, p.counter.GaugeUnit(g))
	u.put = func(text string) (record.Noun, error) {
		q, err := p.counter.ReadOf(g, text)
		if err != nil {
			return g, err
		}
		return with(func(t *task.Certificate) { t.U = q })
	}
	s.Fields = []Field{
		u,
		beside(word("k", "shop.factor", task.Number(t.K), func(t *task.Certificate, text string) { t.K = record.FactorOf(text) })),
		word("date", "shop.calibrated", p.day(t.Date), func(t *task.Certificate, text string) { t.Date = record.DateOf(text) }),
		beside(word("due", "shop.due", p.day(t.Due), func(t *task.Certificate, text string) { t.Due = record.DateOf(text) })),
		word("certificate", "shop.certificate-number", t.Number, func(t *task.Certificate, text string) { t.Number = text }),
		beside(word("by", "shop.calibrated-by", t.By, func(t *task.Certificate, text string) { t.By = text })),
	}
	return s
}

// holds says whether a certificate holds, or what is missing of it.
func (p *Presenter) holds(g record.Gauge, t task.Certificate) string {
	switch {
	case g.PastDue(p.counter.Today()):
		return p.say("shop.past-due-sure", g.Calibration.Due)
	case g.Calibration != nil:
		return p.say("shop.certificate-holds")
	case t == task.Certificate{}:
		return p.say("shop.certificate-none")
	case t.U == nil:
		return p.say("shop.certificate-waits", p.say("shop.expanded"))
	}
	return p.say("shop.certificate-waits", p.say("shop.factor"))
}

// certified is what the book has of a gauge's calibration, or what was typed of one and waits.
func (p *Presenter) certified(g record.Gauge) task.Certificate {
	if g.Calibration != nil {
		return task.CertificateOf(g)
	}
	return p.waiting[g.ID]
}

// Waiting are the texts of certificates that wait for U or its factor, and so are not in the book.
func (p *Presenter) Waiting() []string {
	var all []string
	for _, g := range p.counter.Gauges() {
		if g.Calibration != nil {
			continue
		}
		t := p.waiting[g.ID]
		if t.U != nil {
			all = append(all, t.U.Typed)
		}
		for _, text := range []string{t.K, p.day(t.Date), p.day(t.Due), t.Number, t.By} {
			if text != "" {
				all = append(all, text)
			}
		}
	}
	return all
}

// repeats is how finely a gauge reads and how far its readings scatter.
func (p *Presenter) repeats(g record.Gauge) Section {
	note := p.scatter(g)
	read := func(text string) (*unit.Quantity, error) { return p.counter.ReadOf(g, text) }
	if a, ok := p.counter.Assumed(g); ok && g.Step == nil {
		note += " " + p.say("shop.step-assumed", say.Number(a.Step.String()))
	}
	return Section{Title: p.say("shop.reads"), Notes: []string{note}, Deed: p.say("shop.study"), Fields: []Field{
		p.quantity("step", "shop.step", g.Step, p.counter.GaugeUnit(g), read,
			func(q *unit.Quantity) record.Noun { g.Step = q; return g }),
	}}
}

// scatter says how far readings on a gauge scatter, and how that is known.
func (p *Presenter) scatter(g record.Gauge) string {
	r := g.Repeat
	a, ok := p.counter.Assumed(g)
	switch {
	case r != nil && r.People > 0:
		return p.say("shop.scatter-of", say.Number(r.S.String()), say.Number(r.Freedom), p.studied(r.Study), r.People)
	case r != nil:
		return p.say("study.counts", say.Number(r.S.String()), say.Number(r.Freedom), p.studied(r.Study))
	case ok:
		return p.say("study.counts-assumed", say.Number(a.S.String()), say.New("gauge."+string(g.Kind)), budget.AssumedNu)
	}
	return p.say("study.counts-nothing")
}

// day writes a day as a field shows it and reads it again.
func (p *Presenter) day(d record.Date) string { return p.counter.Words().Day(d.Shown()) }

// studied says when the study of a gauge was made.
func (p *Presenter) studied(id string) say.Line {
	if day, ok := p.counter.Studied(id); ok {
		return say.New("study.from", day)
	}
	return say.New("study.from-elsewhere")
}

// summary says in one line what has to be known of a gauge before it is taken up.
func (p *Presenter) summary(g record.Gauge) string {
	var all []say.Line
	if g.PastDue(p.counter.Today()) {
		all = append(all, say.New("shop.past-due", g.Calibration.Due))
	}
	all = append(all, say.New("gauge."+string(g.Kind)))
	if g.Number != "" {
		all = append(all, say.New("expr.one", g.Number))
	}
	switch c := g.Calibration; {
	case c == nil:
		all = append(all, say.New("shop.uncertified"))
	case !g.PastDue(p.counter.Today()) && c.Due != "":
		all = append(all, say.New("shop.due-on", c.Due))
	}
	if len(g.Setting) > 0 {
		all = append(all, say.New("expr.one", p.setting(g.Setting)))
	}
	return p.say("expr.one", all)
}

// pastDue says at the top of the page which gauges are past due; "" where none is.
func (p *Presenter) pastDue() string {
	var late []say.Line
	for _, g := range p.counter.Gauges() {
		if g.PastDue(p.counter.Today()) {
			late = append(late, say.New("shop.past-due-of", g.Name, g.Calibration.Due))
		}
	}
	if len(late) == 0 {
		return ""
	}
	return p.say("shop.past-due-all", late)
}

// standing is what everything read on the gauge goes through, part by part.
func (p *Presenter) standing(g record.Gauge) Section {
	s := Section{Title: p.say("shop.setting"), Notes: []string{p.say("shop.setting-kept"), p.say("shop.signs"), p.say("shop.sign-zero")}}
	alone := false // the field before has the line to itself, and room beside it
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
		// What is in no stack takes little room.
		f.Beside = at < 0 && alone
		alone = at < 0 && !f.Beside
		s.Fields = append(s.Fields, f)
		if at < 0 || part == record.ZeroOffset {
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
		alone = false
	}
	return s
}
