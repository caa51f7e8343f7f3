package parts

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// partSections is what can be said of a part. Role is the role that carries it, "" where none does.
func (p *Presenter) partSections(n record.Noun, role record.Role) []section {
	switch n := n.(type) {
	case record.Spring:
		return p.springSections(n, role)
	case record.Retainer:
		return p.named(n.Name, append([]spec{
			p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
			p.word("material", "parts.material", n.Material, func(t string) record.Noun { n.Material = t; return n }),
			p.length("lid", "parts.lid", unit.Plain, n.Lid, func(q *unit.Quantity) record.Noun { n.Lid = q; return n }),
			beside(p.stepped("steps", "parts.steps-down", unit.Plain, n.Steps, func(q []unit.Quantity) record.Noun { n.Steps = q; return n })),
			p.length("outside", "parts.outside", unit.Plain, n.Outside, func(q *unit.Quantity) record.Noun { n.Outside = q; return n }),
			beside(p.length("stem", "parts.for-stem", unit.Plain, n.Stem, func(q *unit.Quantity) record.Noun { n.Stem = q; return n })),
			p.word("angle", "parts.angle", n.Angle, func(t string) record.Noun { n.Angle = t; return n }),
			beside(p.groove(n.Groove, func(g record.Groove) record.Noun { n.Groove = g; return n })),
			p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
		}, p.registers(n.Registers, func(r []record.Register) record.Noun { n.Registers = r; return n })...), p.bench.Say("parts.steps-how"))
	case record.Locks:
		offset := p.length("offset", "parts.offset", unit.Signed, n.Offset, func(q *unit.Quantity) record.Noun { n.Offset = q; return n })
		offset.Value = p.signed(n.Offset)
		return p.named(n.Name, []spec{
			p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
			offset,
			beside(p.word("angle", "parts.angle", n.Angle, func(t string) record.Noun { n.Angle = t; return n })),
			p.groove(n.Groove, func(g record.Groove) record.Noun { n.Groove = g; return n }),
			beside(p.length("stem", "parts.for-stem", unit.Plain, n.Stem, func(q *unit.Quantity) record.Noun { n.Stem = q; return n })),
			p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
		}, p.bench.Say("parts.offset-how"))
	case record.Locator:
		return p.named(n.Name, append([]spec{
			p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
			p.length("floor", "parts.floor", unit.Plain, n.Floor, func(q *unit.Quantity) record.Noun { n.Floor = q; return n }),
			beside(p.stepped("steps", "parts.steps-up", unit.Signed, n.Steps, func(q []unit.Quantity) record.Noun { n.Steps = q; return n })),
			p.length("bore", "parts.bore", unit.Plain, n.Bore, func(q *unit.Quantity) record.Noun { n.Bore = q; return n }),
			beside(p.length("outside", "parts.outside", unit.Plain, n.Outside, func(q *unit.Quantity) record.Noun { n.Outside = q; return n })),
			p.length("cup", "parts.cup", unit.Plain, n.Cup, func(q *unit.Quantity) record.Noun { n.Cup = q; return n }),
			p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
		}, p.registers(n.Registers, func(r []record.Register) record.Noun { n.Registers = r; return n })...), p.bench.Say("parts.recess-how"))
	case record.Seal:
		return p.named(n.Name, []spec{
			p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
			p.choice("sits", "parts.sits", string(n.Sits), []Option{
				{Value: string(record.OnGuide), Label: p.bench.Say("seal.on-guide")}, {Value: string(record.OnLocator), Label: p.bench.Say("seal.on-locator")},
			}, func(t string) record.Noun { n.Sits = record.SealSeat(t); return n }),
			p.length("outside", "parts.outside", unit.Plain, n.Outside, func(q *unit.Quantity) record.Noun { n.Outside = q; return n }),
			beside(p.length("height", "parts.seal-height", unit.Plain, n.Height, func(q *unit.Quantity) record.Noun { n.Height = q; return n })),
			p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
		}, p.bench.Say("parts.sits-how"))
	case record.ValvePart:
		return p.named(n.Name, []spec{
			p.word("name", "parts.name", n.Name, func(t string) record.Noun { n.Name = t; return n }),
			p.length("head", "parts.head", unit.Plain, n.Head, func(q *unit.Quantity) record.Noun { n.Head = q; return n }),
			beside(p.length("stem", "parts.stem", unit.Plain, n.Stem, func(q *unit.Quantity) record.Noun { n.Stem = q; return n })),
			p.length("length", "parts.length", unit.Plain, n.Length, func(q *unit.Quantity) record.Noun { n.Length = q; return n }),
			beside(p.word("mass", "parts.mass", n.Mass, func(t string) record.Noun { n.Mass = t; return n })),
			p.word("angle", "parts.angle", n.Angle, func(t string) record.Noun { n.Angle = t; return n }),
			beside(p.groove(n.Groove, func(g record.Groove) record.Noun { n.Groove = g; return n })),
			p.word("material", "parts.material", n.Material, func(t string) record.Noun { n.Material = t; return n }),
			p.word("note", "parts.note", n.Note, func(t string) record.Noun { n.Note = t; return n }),
		})
	}
	return nil
}

// beside puts a field into the line of the one before it.
func beside(f spec) spec {
	f.Beside, f.Long = true, false
	return f
}

func (p *Presenter) named(name string, specs []spec, notes ...string) []section {
	return []section{{title: name, notes: notes, specs: specs}}
}

// word is a field of words. A part without a name could not be chosen, so its name is never taken away.
func (p *Presenter) word(name, label, have string, set func(string) record.Noun) spec {
	return spec{
		Field: Field{Name: name, Label: p.bench.Say(label), Value: have, Long: true},
		put: func(text string) ([]record.Noun, error) {
			text = strings.TrimSpace(text)
			if name == "name" && text == "" {
				return nil, say.Fail(say.Invalid, "parts.no-name")
			}
			return []record.Noun{set(text)}, nil
		},
	}
}

func (p *Presenter) length(name, label string, kind unit.Kind, have *unit.Quantity, set func(*unit.Quantity) record.Noun) spec {
	return spec{
		Field: Field{Name: name, Label: p.bench.Say(label), Value: p.bench.Size(have), Unit: p.bench.LengthUnit()},
		put: func(text string) ([]record.Noun, error) {
			q, err := p.bench.ReadSize(kind, text)
			if err != nil {
				return nil, err
			}
			return []record.Noun{set(q)}, nil
		},
	}
}

func (p *Presenter) stepped(name, label string, kind unit.Kind, have []unit.Quantity, set func([]unit.Quantity) record.Noun) spec {
	return spec{
		Field: Field{Name: name, Label: p.bench.Say(label), Value: p.steps(have), Unit: p.bench.LengthUnit()},
		put: func(text string) ([]record.Noun, error) {
			steps, err := p.bench.ReadSteps(kind, text)
			if err != nil {
				return nil, err
			}
			return []record.Noun{set(steps)}, nil
		},
	}
}

func (p *Presenter) choice(name, label, have string, options []Option, set func(string) record.Noun) spec {
	return spec{
		Field: Field{Name: name, Label: p.bench.Say(label), Value: have, Options: options},
		put:   func(text string) ([]record.Noun, error) { return []record.Noun{set(text)}, nil },
	}
}
