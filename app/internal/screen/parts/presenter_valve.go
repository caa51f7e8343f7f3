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
	for _, at := range p.bench.Record().Head.Positions() {
		if more := p.differs(at); more != "" {
			all = append(all, Link{Text: p.bench.Record().Head.Label(at), More: more, To: Place{What: AtValve, At: at}})
		}
	}
	return all
}

func (p *Presenter) differs(at record.Position) string {
	v := p.bench.Record().ValveAt(at)
	var all []string
	if v.Spring != "" {
		all = append(all, p.tagged(v.Spring))
	}
	for _, slot := range Slots() {
		if slot == Spring {
			continue
		}
		if n := p.part(slot, *differing(&v, slot)); n != nil {
			all = append(all, p.bench.Say("parts.other", p.slotName(slot), nameOf(n)))
		}
	}
	for _, w := range p.bench.Record().Setup.SeatWork {
		if w.At == at {
			all = append(all, p.bench.Say("parts.cut", w.Depth))
		}
	}
	for _, d := range p.bench.Record().Setup.Deviations {
		if d.At == at && !p.bench.Outgrown(d) {
			all = append(all, p.bench.Say("parts.accepted", d.Reason))
		}
	}
	if v.Note != "" {
		all = append(all, v.Note)
	}
	return strings.Join(all, "; ")
}

// Valves lists every valve of the head, to choose one from, with the tag of the single spring on it.
func (p *Presenter) Valves() []Option {
	var all []Option
	for _, at := range p.bench.Record().Head.Positions() {
		all = append(all, Option{
			Value: at.String(), Label: p.bench.Record().Head.Label(at), More: p.bench.Record().ValveAt(at).Spring,
		})
	}
	return all
}

// ValveOf is the place of a valve that Valves listed.
func (p *Presenter) ValveOf(value string) Place {
	for _, at := range p.bench.Record().Head.Positions() {
		if at.String() == value {
			return Place{What: AtValve, At: at}
		}
	}
	return Place{}
}

// Findings lists what is not within and nobody accepted, the worst of each valve first.
func (p *Presenter) Findings() []Link {
	var all []Link
	ev := p.bench.Evaluation()
	seen := map[string]bool{} // as at its valve, several of a kind are accepted as one
	for v, f := range ev.Listed() {
		key := p.bench.Words().Line(f.Whose(v)) + " " + f.Key
		if f.Accepted == nil && toAccept(f) && !seen[key] {
			seen[key] = true
			all = append(all, Link{Text: p.bench.Words().Line(f.Line), To: Place{What: AtValve, At: v.At}, Field: "accept." + f.Key})
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
		if toAccept(f) && !seen[f.Key] {
			seen[f.Key] = true
			all = append(all, f)
		}
	}
	return all
}

// toAccept reports whether there is anything in a finding to accept.
func toAccept(f evaluate.Finding) bool {
	return f.Verdict != evaluate.Within && f.Verdict != evaluate.WithinUpTo && f.Verdict != evaluate.Missing
}

// valveSections is the single spring of a valve, what else differs on it, what was cut there, and what is
// accepted.
func (p *Presenter) valveSections(at Place) []section {
	v := p.bench.Record().ValveAt(at.At)
	role := say.New("role." + string(at.At.Role))
	s := section{title: p.bench.Say("parts.on-valve"), notes: []string{p.bench.Say("parts.on-valve-how", role)}}
	pack := p.bench.Record().PackageOf(at.At.Role)
	for _, slot := range Slots() {
		if slot == Spring {
			continue
		}
		as := p.bench.Say("parts.as-nothing", role)
		if n := p.part(slot, *fitted(&pack, slot)); n != nil {
			as = p.bench.Say("parts.as-role", role, nameOf(n))
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
	all := []section{p.pieceSection(v), s, p.seat(at.At)}
	if a := p.accept(at.At); len(a.specs) > 0 {
		all = append(all, a)
	}
	return all
}

// seat is what was cut from one seat, each cut with who and when, and room for another.
func (p *Presenter) seat(at record.Position) section {
	s := section{title: p.bench.Say("parts.seat"), notes: []string{p.bench.Say("parts.seat-how")}}
	for _, w := range p.bench.Record().Setup.SeatWork {
		if w.At != at {
			continue
		}
		s.specs = append(s.specs, spec{
			Field: Field{Name: "cut." + w.ID, Label: p.bench.Say("parts.cut-by", w.By, w.When.Day()), Value: p.bench.Size(&w.Depth), Unit: p.bench.LengthUnit()},
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
		Field: Field{Name: "cut", Label: p.bench.Say("parts.cut-new"), Unit: p.bench.LengthUnit()},
		put: func(text string) ([]record.Noun, error) {
			w, err := p.bench.SeatCut(at, text)
			return []record.Noun{w}, err
		},
	})
	return s
}

// accept is the findings of a valve that are not within, each with the reason why it may stay.
func (p *Presenter) accept(at record.Position) section {
	s := section{title: p.bench.Say("parts.accept"), notes: []string{p.bench.Say("parts.accept-how")}}
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
