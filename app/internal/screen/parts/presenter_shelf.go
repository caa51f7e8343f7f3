package parts

import (
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// fitted is where a package names the part of a slot.
func fitted(pack *record.Package, slot Slot) *string {
	switch slot {
	case Spring:
		return &pack.Spring
	case Retainer:
		return &pack.Retainer
	case Locks:
		return &pack.Locks
	case Locator:
		return &pack.Locator
	case Seal:
		return &pack.Seal
	}
	return &pack.Valve
}

// differing is where a valve names the part that it has in the place of its role's.
func differing(v *record.Valve, slot Slot) *string {
	switch slot {
	case Retainer:
		return &v.Retainer
	case Locks:
		return &v.Locks
	case Locator:
		return &v.Locator
	case Seal:
		return &v.Seal
	}
	return &v.Valve
}

// all parts of a slot, those of the record before those of the book: the record's are as they are now.
func (p *Presenter) all(slot Slot) []record.Noun {
	mine, book := p.bench.Record().Parts, p.shelf.Parts
	switch slot {
	case Spring:
		return merge(mine.Springs, book.Springs)
	case Retainer:
		return merge(mine.Retainers, book.Retainers)
	case Locks:
		return merge(mine.Locks, book.Locks)
	case Locator:
		return merge(mine.Locators, book.Locators)
	case Seal:
		return merge(mine.Seals, book.Seals)
	}
	return merge(mine.Valves, book.Valves)
}

func merge[T record.Noun](mine, book []T) []record.Noun {
	var all []record.Noun
	seen := map[string]bool{}
	for _, list := range [][]T{mine, book} {
		for _, one := range list {
			if !seen[one.Key()] {
				seen[one.Key()] = true
				all = append(all, one)
			}
		}
	}
	return all
}

// part finds a part, nil where there is none.
func (p *Presenter) part(slot Slot, id string) record.Noun {
	for _, one := range p.all(slot) {
		if one.Key() == id {
			return one
		}
	}
	return nil
}

func (p *Presenter) gauge(id string) (record.Gauge, bool) {
	for _, one := range merge(p.bench.Record().Gauges, p.shelf.Gauges) {
		if one.Key() == id {
			return one.(record.Gauge), true
		}
	}
	return record.Gauge{}, false
}

// nameOf is what the shop calls a part.
func nameOf(n record.Noun) string {
	switch n := n.(type) {
	case record.Spring:
		return n.Name
	case record.Retainer:
		return n.Name
	case record.Locks:
		return n.Name
	case record.Locator:
		return n.Name
	case record.Seal:
		return n.Name
	case record.ValvePart:
		return n.Name
	case record.Gauge:
		return n.Name
	}
	return ""
}

// made is a new part of a slot, of which only the name is known.
func made(slot Slot, name string) record.Noun {
	id := task.NewID()
	switch slot {
	case Spring:
		return record.Spring{ID: id, Name: name, Coils: []record.Coil{{Name: "outer"}}}
	case Retainer:
		return record.Retainer{ID: id, Name: name}
	case Locks:
		return record.Locks{ID: id, Name: name}
	case Locator:
		return record.Locator{ID: id, Name: name}
	case Seal:
		return record.Seal{ID: id, Name: name, Sits: record.OnGuide}
	}
	return record.ValvePart{ID: id, Name: name}
}

// sizes says in one line what is known of a part.
func (p *Presenter) sizes(n record.Noun) string {
	var all []string
	add := func(key, value string) {
		if value != "" {
			all = append(all, p.bench.Say(key, value))
		}
	}
	switch n := n.(type) {
	case record.Spring:
		for i, f := range task.TypeBinds(n) {
			bind := p.bench.Say("parts.no-bind")
			if f.Known {
				bind = p.bench.Say("parts.size", f.Value)
			}
			add("parts.size", p.bench.Say("parts.coil-bind", evaluate.CoilShort(n.Coils[i].Name), bind))
		}
	case record.Retainer:
		add("parts.size", n.Material)
		add("sheet.lid", p.bench.Size(n.Lid))
		add("parts.steps-of", p.steps(n.Steps))
	case record.Locks:
		if n.Angle != "" {
			add("sheet.angle", n.Angle)
		}
		add("sheet.offset", p.signed(n.Offset))
		if n.Groove != "" {
			add("parts.size", p.bench.Say("groove."+string(n.Groove)))
		}
	case record.Locator:
		add("sheet.floor", p.bench.Size(n.Floor))
		add("parts.steps-of", p.steps(n.Steps))
	case record.Seal:
		add("parts.size", p.bench.Say("seal.on-"+string(n.Sits)))
	case record.ValvePart:
		add("sheet.head-width", p.bench.Size(n.Head))
		add("sheet.stem", p.bench.Size(n.Stem))
		add("sheet.valve-length", p.bench.Size(n.Length))
		add("parts.size", n.Material)
	}
	return strings.Join(all, " · ")
}

// steps shows steps as they are typed, each from the land before it.
func (p *Presenter) steps(steps []unit.Quantity) string {
	return p.bench.StepsTyped(steps)
}

// signed shows an offset with its sign, so that +.050 is not taken for a thickness.
func (p *Presenter) signed(q *unit.Quantity) string {
	text := p.bench.Size(q)
	if q != nil && q.Value > 0 {
		return "+" + text
	}
	return text
}
