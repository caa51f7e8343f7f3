package pdf

import (
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// partsLeast is the height from which the parts are worth beginning on a page, in points.
const partsLeast = 130.0

// parts sets what every valve of a role carries, the springs with their state, and what differs.
func (f *flow) parts(r *record.Record) {
	f.need(partsLeast)
	f.heading(f.say("sheet.parts"))
	if len(r.Setup.Packages) == 0 {
		f.para(body, 0, f.say("sheet.parts-none"))
	} else {
		f.packages(r)
	}
	f.springs(r)
	f.differing(r)
}

// packages sets one column a role.
func (f *flow) packages(r *record.Record) {
	g := grid{titles: []string{""}, shares: []float64{0.16}}
	kinds := []struct {
		key string
		of  func(p record.Package) string
	}{
		{"sheet.spring", func(p record.Package) string { return f.springType(r, p.Spring) }},
		{"sheet.retainer", func(p record.Package) string { return f.retainer(r, p.Retainer) }},
		{"sheet.locks", func(p record.Package) string { return f.locks(r, p.Locks) }},
		{"sheet.locator", func(p record.Package) string { return f.locator(r, p.Locator) }},
		{"sheet.seal", func(p record.Package) string { return f.seal(r, p.Seal) }},
		{"sheet.valve-part", func(p record.Package) string { return f.valvePart(r, p.Valve) }},
		{"sheet.least", f.leasts},
		{"sheet.card", f.card},
		{"sheet.lash", f.lash},
		{"sheet.nearest", func(p record.Package) string { return p.Nearest }},
	}
	for _, p := range r.Setup.Packages {
		g.titles = append(g.titles, f.say("role."+string(p.Role)))
		g.shares = append(g.shares, 0.84/float64(len(r.Setup.Packages)))
	}
	for _, k := range kinds {
		row, said := []string{f.say(k.key)}, false
		for _, p := range r.Setup.Packages {
			text := k.of(p)
			said = said || text != ""
			if text == "" {
				text = f.say("sheet.unsaid")
			}
			row = append(row, text)
		}
		// A card, a lash and a nearest part are said of some engines only.
		if said || !slices.Contains([]string{"sheet.card", "sheet.lash", "sheet.nearest"}, k.key) {
			g.rows = append(g.rows, row)
		}
	}
	f.grid(g)
}

// part finds one of the record's parts; without it the identifier stands for it.
func part[T record.Noun](all []T, id string) (T, bool) {
	for _, one := range all {
		if one.Key() == id {
			return one, true
		}
	}
	var none T
	return none, false
}

// joined joins the parts of a description that say something.
func joined(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return strings.TrimSpace(s) == "" }), "; ")
}

func (f *flow) length(key string, q *unit.Quantity) string {
	if q == nil {
		return ""
	}
	return f.say(key, *q)
}

func (f *flow) steps(key string, steps []unit.Quantity) string {
	if len(steps) == 0 {
		return ""
	}
	texts := make([]string, len(steps))
	for i, q := range steps {
		texts[i] = f.say("figure.length", q)
	}
	return f.say(key, strings.Join(texts, ", "))
}

func (f *flow) retainer(r *record.Record, id string) string {
	t, ok := part(r.Parts.Retainers, id)
	if !ok {
		return id
	}
	return joined(t.Name, t.Material, f.length("sheet.lid", t.Lid), f.steps("sheet.steps-down", t.Steps), t.Note)
}

func (f *flow) locks(r *record.Record, id string) string {
	t, ok := part(r.Parts.Locks, id)
	if !ok {
		return id
	}
	angle, groove := "", ""
	if t.Angle != "" {
		angle = f.say("sheet.angle", say.Number(t.Angle))
	}
	if t.Groove != "" {
		groove = f.say("groove." + string(t.Groove))
	}
	return joined(t.Name, f.length("sheet.offset", t.Offset), angle, groove, t.Note)
}

func (f *flow) locator(r *record.Record, id string) string {
	t, ok := part(r.Parts.Locators, id)
	if !ok {
		return id
	}
	return joined(t.Name, f.length("sheet.floor", t.Floor), f.steps("sheet.steps-up", t.Steps), t.Note)
}

func (f *flow) seal(r *record.Record, id string) string {
	t, ok := part(r.Parts.Seals, id)
	if !ok {
		return id
	}
	return joined(t.Name, f.say(sits(t.Sits)), t.Note)
}

func (f *flow) valvePart(r *record.Record, id string) string {
	t, ok := part(r.Parts.Valves, id)
	if !ok {
		return id
	}
	mass := ""
	if t.Mass != "" {
		mass = f.say("sheet.mass", t.Mass)
	}
	return joined(t.Name, t.Material, f.length("sheet.head-width", t.Head), f.length("sheet.stem", t.Stem),
		f.length("sheet.valve-length", t.Length), mass, t.Note)
}

func (f *flow) leasts(p record.Package) string {
	var all []string
	for _, l := range p.Least {
		all = append(all, f.say("sheet.least-of", l.Coil, l.Margin, l.From))
	}
	if p.Most != nil {
		all = append(all, f.say("sheet.most", *p.Most))
	}
	return joined(all...)
}

func (f *flow) card(p record.Package) string {
	if p.Card == nil {
		return ""
	}
	return joined(f.say("sheet.card-of", p.Card.Lobe, say.Number(p.Card.Ratio), p.Card.Lash, f.say("lash."+string(p.Card.At))), p.Card.From)
}

func (f *flow) lash(p record.Package) string {
	if p.Lash == nil {
		return ""
	}
	return f.say("sheet.lash-of", p.Lash.Target, f.say("lash."+string(p.Lash.At)))
}

// springType describes a type with its coils, outermost first.
func (f *flow) springType(r *record.Record, id string) string {
	t, ok := part(r.Parts.Springs, id)
	if !ok {
		return id
	}
	var coils []string
	for _, c := range t.Coils {
		coils = append(coils, f.words.Line(evaluate.CoilShort(c.Name)))
	}
	rate := ""
	if t.Rate != nil {
		rate = f.say("sheet.rate", say.Number(t.Rate.Read), string(t.Rate.Unit))
	}
	return joined(t.Name, strings.Join(coils, ", "), rate, f.length("sheet.rated-lift", t.RatedLift), t.Note)
}

// springs sets the single springs fitted: tag, batch and condition, and where each is.
func (f *flow) springs(r *record.Record) {
	g := grid{shares: []float64{0.16, 0.16, 0.18, 0.2, 0.3}}
	for _, key := range []string{"tag", "valve", "batch", "condition", "note"} {
		g.titles = append(g.titles, f.say("sheet.piece-"+key))
	}
	for _, p := range r.Parts.Pieces {
		var on []string
		for _, v := range r.Setup.Valves {
			if v.Spring == p.Tag {
				on = append(on, r.Head.Label(v.At))
			}
		}
		condition := f.say("sheet.unsaid")
		if p.Condition != "" {
			condition = f.say("condition." + string(p.Condition))
		}
		g.rows = append(g.rows, []string{p.Tag, strings.Join(on, ", "), p.Batch, condition, p.Note})
	}
	f.skip(4)
	if len(g.rows) == 0 {
		f.para(body, 0, f.say("sheet.pieces-none"))
		return
	}
	f.grid(g)
}

// differing sets the valves that carry another part than their role's package, or a note.
func (f *flow) differing(r *record.Record) {
	var all []fact
	for _, v := range r.Setup.Valves {
		text := joined(
			f.other("sheet.other-retainer", v.Retainer, func(id string) string { return f.retainer(r, id) }),
			f.other("sheet.other-locks", v.Locks, func(id string) string { return f.locks(r, id) }),
			f.other("sheet.other-locator", v.Locator, func(id string) string { return f.locator(r, id) }),
			f.other("sheet.other-seal", v.Seal, func(id string) string { return f.seal(r, id) }),
			f.other("sheet.other-valve", v.Valve, func(id string) string { return f.valvePart(r, id) }),
			f.shimNotes(v), v.Note,
		)
		if text != "" {
			all = append(all, fact{r.Head.Label(v.At), text})
		}
	}
	if len(all) == 0 {
		return
	}
	f.skip(4)
	f.para(strong, 0, f.say("sheet.differing"))
	f.list(66, all)
}

func (f *flow) other(key, id string, describe func(string) string) string {
	if id == "" {
		return ""
	}
	return f.say(key, describe(id))
}

// shimNotes says what is noted of single shims: hardened, serrated.
func (f *flow) shimNotes(v record.Valve) string {
	var all []string
	for _, s := range v.Stack {
		if s.Note != "" {
			all = append(all, f.say("sheet.shim-note", s.Thickness, s.Note))
		}
	}
	return joined(all...)
}

// sits is the key of what a seal stands on.
func sits(on record.SealSeat) string {
	if on == "" {
		return "seal.unsaid"
	}
	return "seal.on-" + string(on)
}
