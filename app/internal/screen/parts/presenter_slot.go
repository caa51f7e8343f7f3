package parts

import (
	"context"
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Row is one slot of the package table, with what each role carries there.
type Row struct {
	Title string
	Cells []Cell // of the intakes, then of the exhausts; of the roles that the head has
}

// Cell is what a role carries in a slot.
type Cell struct {
	Name  string // "" where nothing was chosen
	Sizes string
	Place Place
}

// Roles returns the roles of the head's valves, intakes first.
func (p *Presenter) Roles() []record.Role {
	h := p.bench.Record().Head
	var roles []record.Role
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		if slices.ContainsFunc(h.Positions(), func(at record.Position) bool { return at.Role == role }) {
			roles = append(roles, role)
		}
	}
	return roles
}

// Package returns the table of what the roles carry.
func (p *Presenter) Package() []Row {
	var rows []Row
	for _, slot := range Slots() {
		row := Row{Title: p.slotName(slot)}
		for _, role := range p.Roles() {
			pack := p.bench.Record().PackageOf(role)
			c := Cell{Place: Place{What: AtSlot, Role: role, Slot: slot}}
			if n := p.part(slot, *fitted(&pack, slot)); n != nil {
				c.Name, c.Sizes = nameOf(n), p.sizes(n)
			}
			row.Cells = append(row.Cells, c)
		}
		rows = append(rows, row)
	}
	return rows
}

// Empty reports whether nothing at all was chosen yet.
func (p *Presenter) Empty() bool {
	for _, row := range p.Package() {
		for _, c := range row.Cells {
			if c.Name != "" {
				return false
			}
		}
	}
	return true
}

// Same gives the other role the parts of this one, all but the valve, as one action. What differs
// already is replaced; margins, card and lash stay as they are.
func (p *Presenter) Same(ctx context.Context, from record.Role) error {
	pack := p.bench.Record().PackageOf(from)
	var nouns []record.Noun
	for _, role := range p.Roles() {
		if role == from {
			continue
		}
		other := p.bench.Record().PackageOf(role)
		for _, slot := range Slots() {
			if slot != Valve {
				*fitted(&other, slot) = *fitted(&pack, slot)
			}
		}
		nouns = append(nouns, other)
	}
	return p.keep(ctx, nouns...)
}

// Differs reports whether the roles carry different parts, valves aside, so that Same has something to do.
func (p *Presenter) Differs(from record.Role) bool {
	for _, slot := range Slots() {
		if slot != Valve && !p.sameAlready(Place{What: AtSlot, Role: from, Slot: slot}) {
			return true
		}
	}
	return false
}

// SameSlot gives the other role the part of this one in one slot.
func (p *Presenter) SameSlot(ctx context.Context, at Place) error {
	pack := p.bench.Record().PackageOf(at.Role)
	var nouns []record.Noun
	for _, role := range p.Roles() {
		other := p.bench.Record().PackageOf(role)
		*fitted(&other, at.Slot) = *fitted(&pack, at.Slot)
		nouns = append(nouns, other)
	}
	return p.keep(ctx, nouns...)
}

// newPart is the field that a new part is named in.
const newPart = "new"

// slotSections is the choice of a part, and what can be said of the one chosen. Where the shop has no
// part of the sort yet there is nothing to choose from, and its first name is asked for.
func (p *Presenter) slotSections(at Place) []section {
	pack := p.bench.Record().PackageOf(at.Role)
	id := *fitted(&pack, at.Slot)
	var choose section
	label := p.bench.Say("parts.first", p.slotName(at.Slot))
	if options := p.options(at.Slot, p.bench.Say("parts.nothing")); len(options) > 1 {
		label = p.bench.Say("parts.new", p.slotName(at.Slot))
		choose.specs = append(choose.specs, spec{
			Field: Field{Name: "fitted", Label: p.bench.Say("parts.fitted"), Value: id, List: true, Options: options},
			put: func(text string) ([]record.Noun, error) {
				next := pack
				*fitted(&next, at.Slot) = text
				return []record.Noun{next}, nil
			},
		})
	}
	choose.specs = append(choose.specs, spec{
		Field: Field{Name: newPart, Label: label, Long: true},
		put: func(text string) ([]record.Noun, error) {
			name := strings.TrimSpace(text)
			if name == "" {
				return nil, say.Fail(say.Invalid, "parts.no-name")
			}
			n, next := made(at.Slot, name), pack
			*fitted(&next, at.Slot) = n.Key()
			return []record.Noun{n, next}, nil
		},
	})
	return append([]section{choose}, p.partSections(p.part(at.Slot, id), at.Role)...)
}

// options are the parts of a slot to choose from, with the answer that there is none first.
func (p *Presenter) options(slot Slot, none string) []Option {
	options := []Option{{Label: none}}
	for _, n := range p.all(slot) {
		options = append(options, Option{Value: n.Key(), Label: nameOf(n), More: p.sizes(n)})
	}
	return options
}

func (p *Presenter) slotName(slot Slot) string { return p.bench.Say("parts.slot." + string(slot)) }

func (p *Presenter) title(at Place) string {
	switch at.What {
	case AtSlot:
		return p.bench.Say("parts.title-slot", p.slotName(at.Slot), say.New("role."+string(at.Role)))
	case AtPart:
		return p.slotName(at.Slot)
	case AtCoil:
		if n, ok := p.part(Spring, at.ID).(record.Spring); ok && at.Coil <= len(n.Coils) {
			return p.bench.Say("parts.title-coil", task.CoilLine(n.Coils[at.Coil-1].Name), n.Name)
		}
	case AtGauge:
		if g, ok := p.gauge(at.ID); ok {
			return g.Name
		}
		return p.bench.Say("parts.title-gauge")
	case AtValve:
		return p.bench.Say("parts.title-valve", p.bench.Record().Head.Label(at.At))
	}
	return ""
}
