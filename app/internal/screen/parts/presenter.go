// Package parts is the leaf of a head that says what sits on its valves: the parts of each role, the
// settings of the gauges they were measured with, and the valves that differ.
package parts

import (
	"context"
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter is the page without a window. Every text that a person commits is one action of the set-up's
// history, or stays in its field with the reason why it is not kept.
type Presenter struct {
	bench  *task.Bench
	shelf  task.Shelf
	drafts task.Drafts
	made   string // the gauge that was made last
}

// NewPresenter returns the presenter of a set-up. Load fetches what the book has to choose from.
func NewPresenter(bench *task.Bench) *Presenter { return &Presenter{bench: bench} }

// Load fetches the book's parts and gauges.
func (p *Presenter) Load(ctx context.Context) (err error) {
	p.shelf, err = p.bench.Shelf(ctx)
	return err
}

// Place is what is open beside the page. The zero Place is nothing.
type Place struct {
	What Kind
	Role record.Role     // of a slot
	Slot Slot            // of a slot or a part
	ID   string          // of a part or gauge
	Coil int             // of a spring, from 1
	At   record.Position // of a valve
}

// Kind says what a place is.
type Kind string

// The kinds of places.
const (
	AtSlot  Kind = "slot"  // what a role carries in one place of its package
	AtPart  Kind = "part"  // a part that no role carries, but single valves do
	AtCoil  Kind = "coil"  // how the bind height of one coil was read
	AtGauge Kind = "gauge" // a gauge, or a new one where ID is empty
	AtValve Kind = "valve" // one valve of the head
)

// Slot is one place of a package.
type Slot string

// The slots, in the order they are said.
const (
	Spring   Slot = "spring"
	Retainer Slot = "retainer"
	Locks    Slot = "locks"
	Locator  Slot = "locator"
	Seal     Slot = "seal"
	Valve    Slot = "valve"
)

// Slots lists the slots.
func Slots() []Slot { return []Slot{Spring, Retainer, Locks, Locator, Seal, Valve} }

// Field is one thing that can be said, as it stands now.
type Field struct {
	Name    string
	Label   string
	Value   string // what the book has, or what was typed and is not in it
	Book    string // what the book has
	Unit    string
	Options []Option // of a choice
	List    bool     // of many answers, of which only the one that holds is seen at first
	Long    bool     // a sentence rather than a word or a number
	Beside  bool     // stands beside the field before it
	Refused string   // why the value is not kept
}

// Option is one answer of a choice; More says what is known of it.
type Option struct{ Value, Label, More string }

// Group is fields that belong together, with what is said of them.
type Group struct {
	Title  string
	Notes  []string
	Fields []Field
	Links  []Link
}

// Link leads to another place, or to a field of it, or to another leaf.
type Link struct {
	Text  string
	More  string // in smaller weight, behind or below
	To    Place
	Field string
	Leaf  string
}

// Detail is everything that can be said of a place.
type Detail struct {
	Title   string
	Groups  []Group
	Actions []Action
	Part    record.Noun // the part that is changed here, nil where it is none
}

// Action is something that is done with one key press.
type Action struct{ Name, Label string }

// spec is a field with what writes it.
type spec struct {
	Field
	put func(text string) ([]record.Noun, error)
	// remove, in place of put, takes something away.
	remove func(text string) record.Noun
}

// part of a detail before it is shown.
type section struct {
	title string
	notes []string
	specs []spec
	links []Link
}

func (p *Presenter) sections(at Place) []section {
	switch at.What {
	case AtSlot:
		return p.slotSections(at)
	case AtPart:
		return p.partSections(p.part(at.Slot, at.ID), "")
	case AtCoil:
		return p.coilSections(at)
	case AtGauge:
		return p.gaugeSections(at)
	case AtValve:
		return p.valveSections(at)
	}
	return nil
}

// Detail returns what can be said of a place.
func (p *Presenter) Detail(at Place) Detail {
	d := Detail{Title: p.title(at), Actions: p.actions(at)}
	switch at.What {
	case AtSlot:
		pack := p.bench.Record().PackageOf(at.Role)
		d.Part = p.part(at.Slot, *fitted(&pack, at.Slot))
	case AtPart:
		d.Part = p.part(at.Slot, at.ID)
	case AtCoil:
		d.Part = p.part(Spring, at.ID)
	case AtGauge:
		if g, ok := p.gauge(at.ID); ok {
			d.Part = g
		}
	case AtValve:
		if n, ok := p.pieceOf(p.bench.Record().ValveAt(at.At).Spring); ok {
			d.Part = n
		}
	}
	for _, s := range p.sections(at) {
		g := Group{Title: s.title, Notes: s.notes, Links: s.links}
		for _, one := range s.specs {
			g.Fields = append(g.Fields, p.shown(at, one.Field))
		}
		d.Groups = append(d.Groups, g)
	}
	return d
}

// key of a field's draft: the field of a part is the same from wherever it is reached.
func (p *Presenter) key(at Place, name string) string {
	switch {
	case at.What == AtSlot && name != "fitted" && name != newPart && !isLeast(name):
		pack := p.bench.Record().PackageOf(at.Role)
		return string(at.Slot) + " " + *fitted(&pack, at.Slot) + " " + name
	case at.What == AtPart:
		return string(at.Slot) + " " + at.ID + " " + name
	}
	return string(at.What) + " " + string(at.Role) + string(at.Slot) + " " + at.ID + " " + at.At.String() + " " +
		string(rune('0'+at.Coil)) + " " + name
}

// shown puts what was typed and not kept in the place of what the book has.
func (p *Presenter) shown(at Place, f Field) Field {
	f.Book = f.Value
	if d, ok := p.drafts.At(p.key(at, f.Name)); ok {
		f.Value, f.Refused = d.Text, p.bench.Words().Line(d.Line())
	}
	return f
}

// Commit keeps what was typed into a field, as one action. What the field shows already writes nothing,
// also where it is shown in another unit than it was read in. On an error the field keeps the text.
func (p *Presenter) Commit(ctx context.Context, at Place, name, text string) error {
	for _, s := range p.sections(at) {
		i := slices.IndexFunc(s.specs, func(f spec) bool { return f.Name == name })
		if i < 0 {
			continue
		}
		f, key := s.specs[i], p.key(at, name)
		if text == f.Value {
			p.drafts.Drop(key)
			return nil
		}
		return p.drafts.Settle(key, text, p.put(ctx, f, text))
	}
	return say.Fail(say.NotFound, "needs.no-field", name)
}

func (p *Presenter) put(ctx context.Context, f spec, text string) error {
	if f.remove != nil {
		if gone := f.remove(text); gone != nil {
			return p.bench.Remove(ctx, gone)
		}
	}
	nouns, err := f.put(text)
	if err != nil {
		return err
	}
	return p.keep(ctx, nouns...)
}

// keep keeps nouns, and takes the shelf anew: what was made now can be chosen from now on.
func (p *Presenter) keep(ctx context.Context, nouns ...record.Noun) error {
	if err := p.bench.Fit(ctx, nouns...); err != nil {
		return err
	}
	return p.Load(ctx)
}
