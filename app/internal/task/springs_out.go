package task

import (
	"context"
	"slices"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/store"
)

// SpringsOut returns the single springs of a book as a table, which [Desk.SpringsIn] reads, with parts and gauges by
// the names that the shop gave them. A name that two things have is no name; their identifiers stand there.
func SpringsOut(ctx context.Context, book *store.Book) ([]byte, error) {
	parts, err := book.Parts(ctx)
	if err != nil {
		return nil, err
	}
	gauges, err := book.Gauges(ctx)
	if err != nil {
		return nil, err
	}
	types := calls(parts.Springs, func(s record.Spring) (string, string) { return s.ID, s.Name })
	retainers := calls(parts.Retainers, func(r record.Retainer) (string, string) { return r.ID, r.Name })
	locators := calls(parts.Locators, func(l record.Locator) (string, string) { return l.ID, l.Name })
	scales := calls(gauges, func(g record.Gauge) (string, string) { return g.ID, g.Name })
	pieces := slices.Clone(parts.Pieces)
	for i := range pieces {
		p := &pieces[i]
		p.Spring = types(p.Spring)
		p.Binds, p.Loads = slices.Clone(p.Binds), slices.Clone(p.Loads)
		for j := range p.Binds {
			b := &p.Binds[j].Bind
			b.Gauge = scales(b.Gauge)
		}
		for j := range p.Loads {
			l := &p.Loads[j]
			l.Loads.Gauge, l.Loads.Heights = scales(l.Loads.Gauge), scales(l.Loads.Heights)
			l.Retainer, l.Locator = retainers(l.Retainer), locators(l.Locator)
		}
	}
	return exchange.WriteSprings(pieces), nil
}

// calls returns what a thing is called by its identifier.
func calls[T any](all []T, of func(T) (id, name string)) func(id string) string {
	return func(id string) string {
		called, times := id, 0
		for _, one := range all {
			known, name := of(one)
			if known == id {
				called = name
			}
		}
		for _, one := range all {
			if _, name := of(one); name == called {
				times++
			}
		}
		if times > 1 {
			return id
		}
		return called
	}
}
