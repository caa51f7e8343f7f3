package task

import (
	"context"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// Shelf is what the book has to choose from.
type Shelf struct {
	Parts  record.Parts
	Gauges []record.Gauge
}

// Shelf returns all parts and gauges of the book.
func (b *Bench) Shelf(ctx context.Context) (Shelf, error) {
	parts, err := b.desk.Book.Parts(ctx)
	if err != nil {
		return Shelf{}, err
	}
	gauges, err := b.desk.Book.Gauges(ctx)
	return Shelf{Parts: parts, Gauges: gauges}, err
}

// Fit keeps nouns as Keep does, and then takes the record from the book again: a set-up that names
// another part has to hold that part, and hold the one before no more.
func (b *Bench) Fit(ctx context.Context, nouns ...record.Noun) error {
	edits := make([]record.Edit, len(nouns))
	for i, n := range nouns {
		edits[i] = record.Put(b.scope(n), n)
	}
	if err := b.act(ctx, edits); err != nil {
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

// Use is a set-up that names a part.
type Use struct {
	Head  string // tag
	Setup string // identifier
	Kind  record.SetupKind
	Begun record.Stamp
}

// UsedIn returns the set-ups of the whole book in which a part or gauge stands, so that whoever changes
// it knows what else changes. It reads every set-up of the book, and touches nothing of the bench: it may
// run beside other work.
func (b *Bench) UsedIn(ctx context.Context, part record.Noun) ([]Use, error) {
	book := b.desk.Book
	heads, err := b.desk.Heads(ctx, "")
	if err != nil {
		return nil, err
	}
	var uses []Use
	for _, h := range heads {
		setups, err := book.Setups(ctx, h.Head)
		if err != nil {
			return nil, err
		}
		for _, s := range setups {
			rec, err := book.Record(ctx, s.ID)
			if err != nil {
				return nil, err
			}
			if holds(rec, part) {
				uses = append(uses, Use{h.Tag, s.ID, s.Kind, s.Begun})
			}
		}
	}
	return uses, nil
}

// holds reports whether a record has the part. A record holds what its set-up names, and no more.
func holds(rec *record.Record, part record.Noun) bool {
	p := rec.Parts
	switch n := part.(type) {
	case record.Spring:
		return has(p.Springs, n)
	case record.SpringPiece:
		return has(p.Pieces, n)
	case record.Retainer:
		return has(p.Retainers, n)
	case record.Locks:
		return has(p.Locks, n)
	case record.Locator:
		return has(p.Locators, n)
	case record.Seal:
		return has(p.Seals, n)
	case record.ValvePart:
		return has(p.Valves, n)
	case record.Gauge:
		return has(rec.Gauges, n)
	}
	return false
}

func has[T record.Noun](all []T, n T) bool {
	for _, one := range all {
		if one.Key() == n.Key() {
			return true
		}
	}
	return false
}

// TypeBinds works the bind heights of a spring type out of what its scale said, coil by coil, as a
// valve would have them that carries it.
func TypeBinds(s record.Spring) []evaluate.Figure {
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	ev := evaluate.Evaluate(&record.Record{
		Head:  record.Head{Cylinders: []string{at.Cylinder}, Intakes: 1, Order: []record.Position{at}},
		Setup: record.Setup{Packages: []record.Package{{Role: at.Role, Spring: s.ID}}},
		// Without its assembly every coil stands for itself.
		Parts: record.Parts{Springs: []record.Spring{{ID: s.ID, Name: s.Name, Coils: s.Coils}}},
	})
	figures := make([]evaluate.Figure, len(s.Coils))
	for i, c := range ev.Valves[0].Coils {
		figures[i] = c.Bind
	}
	return figures
}
