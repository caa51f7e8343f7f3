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
		r.shims(n.Stack)
	case record.Reading:
		r.add(record.GaugeItem, n.Gauge)
		r.add(record.GaugeItem, n.Heights)
		r.add(record.PieceItem, n.Piece)
		r.taken(n.Correction)
		if n.Over != nil {
			r.fitted(n.Over.Retainer, n.Over.Locks, n.Over.Locator, "", n.Over.Valve)
			r.shims(n.Over.Stack)
		}
	case record.SpringPiece:
		r.add(record.SpringItem, n.Spring)
		for _, b := range n.Binds {
			r.bind(b.Bind)
		}
		for _, l := range n.Loads {
			r.loads(&l.Loads)
			r.fitted(l.Retainer, "", l.Locator, "", "")
		}
	case record.Spring:
		for _, c := range n.Coils {
			if c.Bind != nil {
				r.bind(*c.Bind)
			}
			r.loads(c.Loads)
		}
		if a := n.Assembly; a != nil {
			if a.Bind != nil {
				r.bind(*a.Bind)
			}
			r.loads(a.Loads)
			r.fitted(a.Retainer, "", a.Locator, "", "")
		}
	case record.Retainer:
		r.add(record.GaugeItem, n.Gauge)
	case record.Locator:
		r.add(record.GaugeItem, n.Gauge)
	case record.Stock:
		r.add(n.Of, n.ID)
	case record.StockShim:
		r.add(record.GaugeItem, n.Gauge)
	case record.Study:
		r.add(record.GaugeItem, n.Gauge)
	case record.Gauge:
		// The study that it names may be in another shop's book and is not looked for.
		r.taken(n.Setting)
	}
}

func (r references) bind(b record.Bind) {
	r.add(record.GaugeItem, b.Gauge)
	r.taken(b.Correction)
}

// loads adds what the loads of a spring were taken with.
func (r references) loads(l *record.Loads) {
	if l != nil {
		r.add(record.GaugeItem, l.Gauge)
		r.add(record.GaugeItem, l.Heights)
		r.taken(l.Correction)
	}
}

// taken adds the gauges that the parts of a stack were measured with, shims those of shims.
func (r references) taken(all []record.Taken) {
	for _, t := range all {
		r.add(record.GaugeItem, t.Gauge)
	}
}

func (r references) shims(all []record.Shim) {
	for _, s := range all {
		r.add(record.GaugeItem, s.Gauge)
	}
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
