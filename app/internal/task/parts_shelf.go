package task

import (
	"context"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
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
	nouns = b.withOutdated(nouns)
	edits := make([]record.Edit, len(nouns))
	for i, n := range nouns {
		edits[i] = record.Put(b.scope(n), n)
	}
	if err := b.act(ctx, edits); err != nil {
		b.notice = say.Line{} // nothing came of it
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

// Use is a set-up in which a part or gauge stands.
type Use = store.Use

// UsedIn returns the set-ups of the whole book in which a part or gauge stands, so that whoever changes
// it knows what else changes. It touches nothing of the bench: it may run beside other work.
func (b *Bench) UsedIn(ctx context.Context, part record.Noun) ([]Use, error) {
	return b.desk.Book.UsedIn(ctx, record.ItemOf("", part))
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
