package evaluate

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

type bindKey struct {
	bind              *record.Bind
	retainer, locator string
}

// bindSum writes a bind of a part of the shelf on its inputs. That of a type is the mean of a lot, and
// another spring of it is fitted: the lot's spread has the scatter of reading in it already, so that the
// gauge's own is not counted again. Every valve with the same ends shares one sum.
func (b *bench) bindSum(bind *record.Bind, f *fitted, ofType bool) budget.Sum {
	key := bindKey{bind, f.over.Retainer, f.over.Locator}
	if sum, ok := b.doubt.binds[key]; ok {
		return sum
	}
	on := b.instrument(bind.Gauge, record.Fixture)
	x := &budget.Input{Name: kindNames[record.BindReading], Gauge: on.gauge, Pool: on.pool, N: 1}
	b.note(x, about{supplied: bind.Source == record.Supplied, typeOnly: ofType && bind.Lot == nil})
	if l := bind.Lot; l != nil {
		s, _ := lengthOf(&l.Spread)
		x.Pool, x.Lot = nil, budget.Lot{S: s, Nu: float64(l.Count - 1), N: l.Count}
	}
	sum := budget.Sum{{C: 1, X: x}}
	for _, p := range bind.Correction {
		sum = b.partTerm(sum, -1, p, source{bind.Gauge, record.BindReading, fittedEnds{f.retainer, f.locator}})
	}
	b.doubt.binds[key] = sum
	return sum
}

// borrow marks the inputs of a reading that was taken on one valve for its whole role, and adds what the
// valves of the role differ by: √2 s, where s is the scatter of those that have a reading of their own.
// Where no two have, nobody knows, and the budget says that it is not in it.
func (b *bench) borrow(sum budget.Sum, shared sharedKey, from record.Position) budget.Sum {
	lot, known := b.doubt.spreads[shared]
	if !known {
		lot = b.spreadOf(shared)
		b.doubt.spreads[shared] = lot
	}
	for _, t := range sum {
		if t.X.Name.Key == kindNames[shared.kind].Key {
			b.note(t.X, about{from: b.head.Label(from), spread: lot.N > 0})
		}
	}
	if lot.N == 0 {
		return sum
	}
	x := &budget.Input{Name: kindNames[shared.kind], Lot: lot}
	b.note(x, about{differ: true})
	return append(sum, budget.Term{C: 1, X: x})
}

// spreadOf is the scatter of a kind of reading between the valves of a role that have one of their own;
// nothing where fewer than two have.
func (b *bench) spreadOf(shared sharedKey) budget.Lot {
	var values []unit.Length
	for _, at := range b.head.Positions() {
		if at.Role == shared.role && len(b.readings[place{at, shared.kind, 0}]) > 0 {
			values = append(values, b.take(at, shared.kind, 0).Value)
		}
	}
	own := budget.ScatterOf(values...)
	if own.Nu == 0 {
		return budget.Lot{}
	}
	return budget.Lot{S: math.Sqrt(own.Squares / own.Nu), Nu: own.Nu, N: 1}
}
