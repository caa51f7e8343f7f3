package shop

import (
	"fmt"
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// wound is how the coil i of a type is wound, and what that comes to.
func (p *Presenter) wound(of record.Spring, i int) Section {
	c := of.Coils[i]
	f := woundFields{p: p, coil: i + 1, set: func(next record.Coil) record.Noun {
		of.Coils = slices.Clone(of.Coils)
		of.Coils[i] = next
		return of
	}, c: c}
	s := Section{Title: p.say("wound.title", task.CoilLine(c.Name))}
	s.Fields = append(s.Fields, f.shape()...)
	s.Fields = append(s.Fields, f.wire()...)
	s.Fields = append(s.Fields, f.turns()...)
	lines := p.counter.WoundLines(c)
	if len(lines) == 0 {
		s.Notes = []string{p.say("wound.none")}
	}
	for _, line := range lines {
		s.Notes = append(s.Notes, p.counter.Words().Line(line))
	}
	return s
}

// woundFields makes the fields of one coil.
type woundFields struct {
	p    *Presenter
	coil int // 1 is the outermost
	c    record.Coil
	set  func(record.Coil) record.Noun
}

func (f woundFields) name(name string) string { return fmt.Sprintf("%s %d", name, f.coil) }

// length is a field of a length.
func (f woundFields) length(name, label string, q *unit.Quantity, put func(*record.Coil, *unit.Quantity)) Field {
	return f.p.quantity(f.name(name), label, q, f.p.counter.Units().Length, f.p.counter.ReadSize, f.change(put))
}

func (f woundFields) change(put func(*record.Coil, *unit.Quantity)) func(*unit.Quantity) record.Noun {
	return func(q *unit.Quantity) record.Noun {
		next := f.c
		put(&next, q)
		return f.set(next)
	}
}

// onWire changes the wire in the coil.
func onWire[T any](put func(*record.Wire, T)) func(*record.Coil, T) {
	return func(c *record.Coil, v T) { *c = task.WithWire(*c, func(w *record.Wire) { put(w, v) }) }
}

// pick is a choice that may be left unsaid.
func pick[T ~string](f woundFields, name, label string, value T, all []T, prefix string, put func(*record.Coil, T)) Field {
	field := choice(f.p, f.name(name), label, value, all, prefix, func(t T) record.Noun {
		next := f.c
		put(&next, t)
		return f.set(next)
	})
	field.Options = slices.Insert(field.Options, 0, Option{"", f.p.say("wound.unsaid")})
	return field
}

// count is a number of turns.
func (f woundFields) count(name, label, value string, put func(*record.Coil, string)) Field {
	return f.p.word(f.name(name), label, value, func(t string) record.Noun {
		next := f.c
		put(&next, task.Turns(t))
		return f.set(next)
	})
}

// shape asks what the coil does and what it looks like from the side.
func (f woundFields) shape() []Field {
	c := f.c
	all := []Field{
		pick(f, "acts", "wound.acts-as", c.Acts, []record.Acts{record.Carries, record.Damps}, "wound.acts.",
			func(c *record.Coil, a record.Acts) { c.Acts = a }),
		beside(pick(f, "form", "wound.form-is", c.Form, record.Forms, "wound.form.", func(c *record.Coil, form record.Form) { c.Form = form })),
	}
	// What a cylinder does not have stays in sight while somebody said it.
	if cone := c.Form == record.Conical || c.Form == record.Beehive; cone || c.Small != nil {
		all = append(all, f.length("small", "wound.small", c.Small, func(c *record.Coil, q *unit.Quantity) { c.Small = q }))
	}
	if c.Form == record.Beehive || c.Conical != "" {
		all = append(all, beside(f.count("conical", "wound.conical", c.Conical, func(c *record.Coil, t string) { c.Conical = t })))
	}
	return all
}

// wire asks what it is wound of.
func (f woundFields) wire() []Field {
	w := f.c.Wire
	if w == nil {
		w = &record.Wire{}
	}
	round := w.Section == "" || w.Section == record.Round
	diameter := "wound.diameter"
	if !round {
		diameter = "wound.axial"
	}
	all := []Field{
		pick(f, "section", "wound.section-is", w.Section, record.Sections, "wound.section.",
			onWire(func(w *record.Wire, s record.Section) { w.Section = s })),
		beside(f.length("wire", diameter, w.Diameter, onWire(func(w *record.Wire, q *unit.Quantity) { w.Diameter = q }))),
	}
	if !round || w.Radial != nil {
		all = append(all, beside(f.length("radial", "wound.radial", w.Radial, onWire(func(w *record.Wire, q *unit.Quantity) { w.Radial = q }))))
	}
	counter := f.p.counter
	return append(all,
		pick(f, "steel", "wound.material", w.Material, task.Steels(), "spring.steel.", onWire(func(w *record.Wire, m string) { w.Material = m })),
		beside(pick(f, "surface", "wound.surface-is", w.Surface, record.Surfaces, "wound.surface.",
			onWire(func(w *record.Wire, s record.Surface) { w.Surface = s }))),
		f.p.quantity(f.name("modulus"), "wound.modulus-is", w.G, counter.ModulusUnit(), counter.ReadModulus,
			f.change(onWire(func(w *record.Wire, q *unit.Quantity) { w.G = q }))),
		beside(f.p.word(f.name("modulus from"), "wound.modulus-from", w.GFrom, func(t string) record.Noun {
			return f.set(task.WithWire(f.c, func(w *record.Wire) { w.GFrom = t }))
		})),
	)
}

// turns asks how often it goes around, and how it stands.
func (f woundFields) turns() []Field {
	c := f.c
	return []Field{
		f.count("active", "wound.active", task.Number(c.Active), func(c *record.Coil, t string) { c.Active = t }),
		beside(f.count("total", "wound.total", task.Number(c.Total), func(c *record.Coil, t string) { c.Total = t })),
		pick(f, "ends", "wound.ends-are", c.Ends, record.EndsKinds, "wound.ends.", func(c *record.Coil, e record.Ends) { c.Ends = e }),
		f.length("free", "wound.free", c.Free, func(c *record.Coil, q *unit.Quantity) { c.Free = q }),
		beside(f.p.quantity(f.name("mass"), "wound.mass", c.Mass, unit.Gram, f.p.counter.ReadMass,
			f.change(func(c *record.Coil, q *unit.Quantity) { c.Mass = q }))),
	}
}
