package record

import "slices"

// Put puts a noun of the set-up in its place in the record, in the place of the one with the same key.
// Nouns that belong to the book, not to a set-up, go to the record's parts and gauges; a [Study] is in no
// record. It is how a
// record in memory follows the book without being loaded again: what is new goes where the book has it.
func (r *Record) Put(n Noun) {
	s := &r.Setup
	switch n := n.(type) {
	case Shop:
		r.Shop = n
	case Owner:
		r.Owner = &n
	case Engine:
		r.Engine = n
	case Head:
		r.Head = n
		s.Arrange(&n)
	case Setup:
		n.Packages, n.Valves, n.Readings, n.Shared = s.Packages, s.Valves, s.Readings, s.Shared
		n.SeatWork, n.Deviations, n.Checks = s.SeatWork, s.Deviations, s.Checks
		*s = n
	case Package:
		put(&s.Packages, n, r.Head.order().packages)
	case Valve:
		put(&s.Valves, n, r.Head.order().valves)
	case Reading:
		put(&s.Readings, n, r.Head.order().readings)
	case Shared:
		put(&s.Shared, n, r.Head.order().shared)
	case SeatWork:
		put(&s.SeatWork, n, r.Head.order().seatWork)
	case Deviation:
		put(&s.Deviations, n, r.Head.order().deviations)
	case Check:
		put(&s.Checks, n, byKey)
	case Spring:
		put(&r.Parts.Springs, n, byKey)
	case SpringPiece:
		put(&r.Parts.Pieces, n, byKey)
	case Retainer:
		put(&r.Parts.Retainers, n, byKey)
	case Locks:
		put(&r.Parts.Locks, n, byKey)
	case Locator:
		put(&r.Parts.Locators, n, byKey)
	case Seal:
		put(&r.Parts.Seals, n, byKey)
	case ValvePart:
		put(&r.Parts.Valves, n, byKey)
	case Gauge:
		put(&r.Gauges, n, byKey)
	}
}

// put makes a list of its own where something moves in it: a trial shares the lists of the record that it was made of.
func put[T Noun](all *[]T, n T, compare func(a, b T) int) {
	key := n.Key()
	at := slices.IndexFunc(*all, func(o T) bool { return o.Key() == key })
	if at >= 0 {
		old := (*all)[at]
		(*all)[at] = n
		if compare(old, n) != 0 {
			*all = sorted(*all, compare)
		}
		return
	}
	at = slices.IndexFunc(*all, func(o T) bool { return compare(o, n) > 0 })
	if at < 0 {
		*all = append(*all, n)
		return
	}
	*all = slices.Insert(slices.Clip(*all), at, n)
}

// ValveAt returns what is fitted at a position, an empty Valve there where nothing was said yet.
func (r *Record) ValveAt(at Position) Valve {
	for _, v := range r.Setup.Valves {
		if v.At == at {
			return v
		}
	}
	return Valve{At: at}
}

// ReadingsAt returns the readings of one kind at one place, struck ones too, in order of N.
func (r *Record) ReadingsAt(at Position, kind Kind, coil int) []Reading {
	var found []Reading
	for _, o := range r.Setup.Readings {
		if o.At == at && o.Kind == kind && o.Coil == coil {
			found = append(found, o)
		}
	}
	slices.SortFunc(found, func(a, b Reading) int { return a.N - b.N })
	return found
}

// PackageOf returns what the valves of a role carry, an empty Package where nothing was said yet.
func (r *Record) PackageOf(role Role) Package {
	for _, p := range r.Setup.Packages {
		if p.Role == role {
			return p
		}
	}
	return Package{Role: role}
}
