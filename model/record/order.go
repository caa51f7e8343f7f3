package record

import (
	"cmp"
	"slices"
)

// order compares what stands in the lists of a set-up, so that a record comes in one order however its readings were taken.
type order struct{ places map[Position]int }

func (h *Head) order() order {
	o := order{map[Position]int{}}
	for i, p := range h.Positions() {
		o.places[p] = i
	}
	return o
}

// Arrange brings the lists of a set-up into the order of its head: valves from the front, readings by valve, kind in bench order,
// coil and count. What the head does not have, since somebody changed its valves, comes last.
func (s *Setup) Arrange(h *Head) {
	o := h.order()
	s.Packages = sorted(s.Packages, o.packages)
	s.Valves = sorted(s.Valves, o.valves)
	s.Readings = sorted(s.Readings, o.readings)
	s.Shared = sorted(s.Shared, o.shared)
	s.SeatWork = sorted(s.SeatWork, o.seatWork)
	s.Deviations = sorted(s.Deviations, o.deviations)
	s.Checks = sorted(s.Checks, byKey[Check])
}

// sorted leaves the list that it is given as it is, for others may read it.
func sorted[T any](list []T, compare func(a, b T) int) []T {
	list = slices.Clone(list)
	slices.SortStableFunc(list, compare)
	return list
}

func (o order) packages(a, b Package) int { return o.roles(a.Role, b.Role) }

func (o order) valves(a, b Valve) int { return o.at(a.At, b.At) }

func (o order) readings(a, b Reading) int {
	return cmp.Or(o.at(a.At, b.At), o.kinds(a.Kind, b.Kind), cmp.Compare(a.Coil, b.Coil), cmp.Compare(a.N, b.N))
}

func (o order) shared(a, b Shared) int {
	return cmp.Or(o.kinds(a.Kind, b.Kind), o.roles(a.Role, b.Role))
}

func (o order) seatWork(a, b SeatWork) int {
	return cmp.Or(o.at(a.At, b.At), cmp.Compare(a.When, b.When), cmp.Compare(a.ID, b.ID))
}

func (o order) deviations(a, b Deviation) int {
	return cmp.Or(o.at(a.At, b.At), cmp.Compare(a.Finding, b.Finding), cmp.Compare(a.ID, b.ID))
}

func (o order) at(a, b Position) int {
	if a == b {
		return 0
	}
	return cmp.Or(cmp.Compare(o.place(a), o.place(b)), cmp.Compare(a.String(), b.String()))
}

func (o order) place(p Position) int {
	if i, ok := o.places[p]; ok {
		return i
	}
	return len(o.places)
}

func (order) kinds(a, b Kind) int {
	return cmp.Or(cmp.Compare(rank(Kinds, a), rank(Kinds, b)), cmp.Compare(a, b))
}

var roles = []Role{Intake, Exhaust}

func (order) roles(a, b Role) int {
	return cmp.Or(cmp.Compare(rank(roles, a), rank(roles, b)), cmp.Compare(a, b))
}

// rank returns where something stands in a list, its length where it does not.
func rank[T comparable](list []T, of T) int {
	if i := slices.Index(list, of); i >= 0 {
		return i
	}
	return len(list)
}

func byKey[T Noun](a, b T) int { return cmp.Compare(a.Key(), b.Key()) }
