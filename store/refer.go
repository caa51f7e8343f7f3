package store

import (
	"cmp"
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

// of adds what one noun names.
func (r references) of(n record.Noun) {
	record.Referring(n, func(kind record.ItemKind, key *string) { r.add(kind, *key) })
}

// gather adds the parts and gauges that a record refers to, and those that they refer to in turn.
// One that is not in the book is passed over; Examine names it.
func gather(ctx context.Context, src source, r *record.Record) error {
	refs := references{}
	for _, n := range listed(&r.Setup) {
		refs.of(n)
	}
	// A piece names its spring, and a spring the parts it was measured with. All of them name gauges.
	for _, kind := range []record.ItemKind{
		record.PieceItem, record.SpringItem, record.RetainerItem, record.LocksItem, record.LocatorItem,
		record.SealItem, record.ValvePartItem,
	} {
		for _, key := range refs.keys(kind) {
			n, err := refs.follow(ctx, src, record.Item{Kind: kind, Key: key})
			if err != nil {
				return err
			}
			addPart(&r.Parts, n)
		}
	}
	// A gauge names those that the parts of its setting were measured with, until none names a new one.
	met := map[string]bool{}
	for more := true; more; {
		more = false
		for _, key := range refs.keys(record.GaugeItem) {
			if met[key] {
				continue
			}
			met[key], more = true, true
			n, err := refs.follow(ctx, src, record.Item{Kind: record.GaugeItem, Key: key})
			if err != nil {
				return err
			}
			if g, ok := n.(record.Gauge); ok {
				r.Gauges = append(r.Gauges, g)
			}
		}
	}
	slices.SortFunc(r.Gauges, func(a, b record.Gauge) int { return cmp.Compare(a.ID, b.ID) })
	return nil
}

// follow reads what is named and adds what that names in turn; nil where it is not in the book.
func (r references) follow(ctx context.Context, src source, item record.Item) (record.Noun, error) {
	body, err := get(ctx, src, item)
	if err != nil || body == nil {
		return nil, err
	}
	n, err := decode(item.Kind, bodyVersion, body)
	if err == nil {
		r.of(n)
	}
	return n, err
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
