package store

import (
	"context"
	"slices"

	"keeperbook/model/record"
)

// references collects the parts and gauges that nouns name.
type references map[record.Item]bool

func (r references) add(kind record.ItemKind, key string) {
	if key != "" {
		r[record.Item{Kind: kind, Key: key}] = true
	}
}

func (r references) fitted(retainer, locks, locator, seal, valve string) {
	r.add(record.RetainerItem, retainer)
	r.add(record.LocksItem, locks)
	r.add(record.LocatorItem, locator)
	r.add(record.SealItem, seal)
	r.add(record.ValvePartItem, valve)
}

// of adds what one noun names.
func (r references) of(n record.Noun) {
	switch n := n.(type) {
	case record.Package:
		r.add(record.SpringItem, n.Spring)
		r.fitted(n.Retainer, n.Locks, n.Locator, n.Seal, n.Valve)
	case record.Valve:
		r.add(record.PieceItem, n.Spring)
		r.fitted(n.Retainer, n.Locks, n.Locator, n.Seal, n.Valve)
	case record.Reading:
		r.add(record.GaugeItem, n.Gauge)
		r.add(record.PieceItem, n.Piece)
		if n.Over != nil {
			r.fitted(n.Over.Retainer, n.Over.Locks, n.Over.Locator, "", n.Over.Valve)
		}
	case record.SpringPiece:
		r.add(record.SpringItem, n.Spring)
		for _, b := range n.Binds {
			r.add(record.GaugeItem, b.Bind.Gauge)
		}
	case record.Spring:
		for _, c := range n.Coils {
			if c.Bind != nil {
				r.add(record.GaugeItem, c.Bind.Gauge)
			}
		}
		if a := n.Assembly; a != nil {
			r.add(record.GaugeItem, a.Bind.Gauge)
			r.fitted(a.Retainer, "", a.Locator, "", "")
		}
	}
}

// gather adds the parts and gauges that a record refers to, and those that they refer to in turn.
// One that is not in the book is passed over; Examine names it.
func gather(ctx context.Context, src source, r *record.Record) error {
	refs := references{}
	for _, n := range listed(&r.Setup) {
		refs.of(n)
	}
	// A piece names its spring, and a spring the parts it was measured with, which name no more.
	for _, kind := range []record.ItemKind{
		record.PieceItem, record.SpringItem, record.RetainerItem, record.LocksItem, record.LocatorItem,
		record.SealItem, record.ValvePartItem, record.GaugeItem,
	} {
		for _, key := range refs.keys(kind) {
			body, err := get(ctx, src, record.Item{Kind: kind, Key: key})
			if err != nil {
				return err
			}
			if body == nil {
				continue
			}
			n, err := decode(kind, bodyVersion, body)
			if err != nil {
				return err
			}
			refs.of(n)
			addPart(&r.Parts, n)
			if g, ok := n.(record.Gauge); ok {
				r.Gauges = append(r.Gauges, g)
			}
		}
	}
	return nil
}

// keys returns the identifiers of one kind, sorted.
func (r references) keys(kind record.ItemKind) []string {
	var keys []string
	for item := range r {
		if item.Kind == kind {
			keys = append(keys, item.Key)
		}
	}
	slices.Sort(keys)
	return keys
}
