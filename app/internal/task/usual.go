package task

import (
	"context"

	"keeperbook/model/record"
)

// UsualGauge returns the gauge that readings of a kind were taken on last in the book, false where none is
// known. It is what is taken up next where nobody says otherwise. The book is asked once, for that is what
// was so before this bench was opened. Of shims there is none: one that nobody speaks of is as it was sold.
func (b *Bench) UsualGauge(ctx context.Context, kind record.Kind) (record.Gauge, bool) {
	if b.usual == nil {
		b.usual = b.lastGauges(ctx)
	}
	g, ok := b.usual[kind]
	for _, now := range b.rec.Gauges {
		if ok && now.ID == g.ID {
			g = now // its setting may have been changed since
		}
	}
	return g, ok
}

// lastGauges looks up what was used last. Where the book cannot be read just now nothing was.
func (b *Bench) lastGauges(ctx context.Context) map[record.Kind]record.Gauge {
	usual := map[record.Kind]record.Gauge{}
	last, err := b.desk.Book.LastGauges(ctx)
	if err != nil {
		return usual
	}
	gauges, err := b.desk.Book.Gauges(ctx)
	if err != nil {
		return usual
	}
	for kind, id := range last {
		for _, g := range gauges {
			if g.ID == id {
				usual[kind] = g
			}
		}
	}
	return usual
}
