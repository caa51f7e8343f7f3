package parts

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Differing lists the valves that carry something else than their role, were cut, or have an accepted
// finding or a note.
func (p *Presenter) Differing() []Link {
	var all []Link
	for _, at := range p.record().Head.Positions() {
		if more := p.differs(at); more != "" {
			all = append(all, Link{Text: p.record().Head.Label(at), More: more, To: Place{What: AtValve, At: at}})
		}
	}
	return all
}

func (p *Presenter) differs(at record.Position) string {
	v := p.record().ValveAt(at)
	var all []string
	if v.Spring != "" {
		all = append(all, p.say("parts.piece", v.Spring))
	}
	for _, slot := range Slots() {
		if slot == Spring {
			continue
		}
		if n := p.part(slot, *differing(&v, slot)); n != nil {
			all = append(all, p.say("parts.other", p.slotName(slot), nameOf(n)))
		}
	}
	for _, w := range p.record().Setup.SeatWork {
		if w.At == at {
			all = append(all, p.say("parts.cut", w.Depth))
		}
	}
	for _, d := range p.record().Setup.Deviations {
		if d.At == at {
			all = append(all, p.say("parts.accepted", d.Reason))
		}
	}
	if v.Note != "" {
		all = append(all, v.Note)
	}
	return strings.Join(all, "; ")
}

// Valves lists every valve of the head, to choose one from.
func (p *Presenter) Valves() []Option {
	var all []Option
	for _, at := range p.record().Head.Positions() {
		all = append(all, Option{Value: at.String(), Label: p.record().Head.Label(at)})
	}
	return all
}

// ValveOf is the place of a valve that Valves listed.
func (p *Presenter) ValveOf(value string) Place {
	for _, at := range p.record().Head.Positions() {
		if at.String() == value {
			return Place{What: AtValve, At: at}
		}
	}
	return Place{}
}

// Findings lists what is not within and nobody accepted, the worst of each valve first.
func (p *Presenter) Findings() []Link {
	var all []Link
	for _, v := range p.bench.Evaluation().Valves {
		for _, f := range acceptable(v) {
			if f.Accepted == nil {
				all = append(all, Link{Text: p.bench.Words().Line(f.Line), To: Place{What: AtValve, At: v.At}, Field: "accept." + f.Key})
			}
		}
	}
	return all
}

// acceptable are the findings of a valve that somebody may accept, one of a kind: what is not measured
// or only open is nothing to accept.
func acceptable(v evaluate.Valve) []evaluate.Finding {
	var all []evaluate.Finding
	seen := map[string]bool{}
	for _, f := range v.Findings {
		switch f.Verdict {
		case evaluate.Within, evaluate.WithinUpTo, evaluate.Missing:
			continue
		}
		if !seen[f.Key] {
			seen[f.Key] = true
			all = append(all, f)
		}
	}
	return all
}

// valveSections is what differs on one valve, what was cut there, and what is accepted.
func (p *Presenter) valveSections(at Place) []section {
	v := p.record().ValveAt(at.At)
	role := say.New("role." + string(at.At.Role))
	s := section{title: p.say("parts.on-valve"), notes: []string{p.say("parts.on-valve-how", role)}}
	s.specs = append(s.specs, spec{
		Field: Field{Name: "piece", Label: p.say("parts.piece-tag"), Value: v.Spring},
		put:   func(text string) ([]record.Noun, error) { return p.piece(v, strings.TrimSpace(text)) },
	})
	pack := p.record().PackageOf(at.At.Role)
	for _, slot := range Slots() {
		if slot == Spring {
			continue
		}
		as := p.say("parts.as-nothing", role)
		if n := p.part(slot, *fitted(&pack, slot)); n != nil {
			as = p.say("parts.as-role", role, nameOf(n))
		}
		f := p.choice(string(slot), "parts.slot."+string(slot), *differing(&v, slot), p.options(slot, as), func(id string) record.Noun {
			next := v
			*differing(&next, slot) = id
			return next
		})
		f.List = true
		s.specs = append(s.specs, f)
	}
	s.specs = append(s.specs, p.word("note", "parts.note", v.Note, func(t string) record.Noun { v.Note = t; return v }))
	all := []section{s, p.seat(at.At)}
	if a := p.accept(at.At); len(a.specs) > 0 {
		all = append(all, a)
	}
	return all
}

// piece puts a single spring on a valve by its tag; one that the book does not have is made, of the
// role's type. One spring cannot be on two valves.
func (p *Presenter) piece(v record.Valve, tag string) ([]record.Noun, error) {
	next := v
	next.Spring = tag
	if tag == "" {
		return []record.Noun{next}, nil
	}
	for _, other := range p.record().Setup.Valves {
		if other.Spring == tag && other.At != v.At {
			return nil, say.Fail(say.Conflict, "parts.piece-elsewhere", tag, p.record().Head.Label(other.At))
		}
	}
	for _, n := range merge(p.record().Parts.Pieces, p.shelf.Parts.Pieces) {
		if n.Key() == tag {
			return []record.Noun{next}, nil
		}
	}
	pack := p.record().PackageOf(v.At.Role)
	if pack.Spring == "" {
		return nil, say.Fail(say.Invalid, "parts.piece-type", tag, say.New("role."+string(v.At.Role)))
	}
	return []record.Noun{record.SpringPiece{Tag: tag, Spring: pack.Spring}, next}, nil
}

// seat is what was cut from one seat, each cut with who and when, and room for another.
func (p *Presenter) seat(at record.Position) section {
	s := section{title: p.say("parts.seat"), notes: []string{p.say("parts.seat-how")}}
	for _, w := range p.record().Setup.SeatWork {
		if w.At != at {
			continue
		}
		s.specs = append(s.specs, spec{
			Field: Field{Name: "cut." + w.ID, Label: p.say("parts.cut-by", w.By, w.When.Day()), Value: p.size(&w.Depth), Unit: p.lengthUnit()},
			put: func(text string) ([]record.Noun, error) {
				q, err := p.bench.ReadCut(text)
				w.Depth = q
				return []record.Noun{w}, err
			},
			remove: func(text string) record.Noun {
				if strings.TrimSpace(text) == "" {
					return w
				}
				return nil
			},
		})
	}
	s.specs = append(s.specs, spec{
		Field: Field{Name: "cut", Label: p.say("parts.cut-new"), Unit: p.lengthUnit()},
		put: func(text string) ([]record.Noun, error) {
			w, err := p.bench.SeatCut(at, text)
			return []record.Noun{w}, err
		},
	})
	return s
}

// accept is the findings of a valve that are not within, each with the reason why it may stay.
func (p *Presenter) accept(at record.Position) section {
	s := section{title: p.say("parts.accept"), notes: []string{p.say("parts.accept-how")}}
	for _, v := range p.bench.Evaluation().Valves {
		if v.At != at {
			continue
		}
		for _, f := range acceptable(v) {
			field := Field{Name: "accept." + f.Key, Label: p.bench.Words().Line(f.Line), Long: true}
			old := f.Accepted
			if old != nil {
				field.Value = old.Reason
			}
			s.specs = append(s.specs, spec{
				Field: field,
				put: func(text string) ([]record.Noun, error) {
					d, err := p.bench.Accepting(at, f.Key, text)
					if old != nil {
						d.ID = old.ID
					}
					return []record.Noun{d}, err
				},
				remove: func(text string) record.Noun {
					if old != nil && strings.TrimSpace(text) == "" {
						return *old
					}
					return nil
				},
			})
		}
	}
	return s
}
