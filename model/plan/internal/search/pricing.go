package search

import (
	"math"
	"slices"

	"keeperbook/model/plan/internal/assign"
	"keeperbook/model/plan/internal/proof"
)

// pricing finds the prices of shims that bound a case best.
type pricing struct {
	*tree
	spread  int64 // what the spreads of the case come to at least, in steps
	master  *master
	samples []*sample
	prices  []float64
	best    *proof.Bound
	value   int64 // what the best bound comes to, scaled
	none    bool  // the best bound says that there is nothing
}

// sample is an assignment that was met: the cut it makes and the columns it is made of.
type sample struct {
	cut
	columns []int32
}

const (
	mostRounds = 100 // of prices in one case; it is split then
	// A case that these prices cannot close is split once the bound is as near to the best one as
	// this part of what is missing.
	nearly = .02
)

// inherited starts with the assignments of the case that this one was split off, as far as they are
// still in it.
func (r *tree) inherited(b branch) *pricing {
	p := &pricing{tree: r, master: newMaster(len(r.sizes), r.unit), prices: slices.Clone(b.prices), value: math.MinInt64}
	for _, e := range b.entries {
		r.alive[e.id] = true
	}
	gone := func(id int32) bool { return !r.alive[id] }
	for _, x := range b.samples {
		if !slices.ContainsFunc(x.columns, gone) {
			p.add(x)
		}
	}
	for _, e := range b.entries {
		r.alive[e.id] = false
	}
	return p
}

func (p *pricing) add(x *sample) {
	p.samples = append(p.samples, x)
	p.master.cuts = append(p.master.cuts, x.cut)
}

// shut reports whether the best bound closes the case.
func (p *pricing) shut() bool { return p.none || p.best != nil && p.value > p.target(p.spread) }

// lower is the least that a plan of the case costs.
func (p *pricing) lower() int64 {
	if p.best == nil {
		return math.MinInt64
	}
	q := p.value / p.scale
	if p.value%p.scale > 0 {
		q++
	}
	return q + p.extra(p.spread)
}

// bound goes from prices to an assignment, from the assignment to better prices, and on, until the
// case is closed or prices cannot close it.
func (p *pricing) bound(entries []entry) {
	if len(p.samples) > 0 {
		p.theta()
	}
	scaled := make([]int64, len(p.sizes))
	for range mostRounds {
		for k, x := range p.prices {
			scaled[k] = int64(min(math.Round(x*float64(p.scale)), dear))
		}
		value, ok := p.price(entries, scaled)
		p.tick()
		if !ok {
			p.none, p.best = true, p.duals(0, make([]int64, len(p.sizes)))
			return
		}
		if value > p.value {
			p.value, p.best = value, p.duals(p.scale, scaled)
		}
		x := p.sample(entries)
		if x.enough() {
			p.offer(x.columns)
		}
		if p.shut() || p.done() || slices.ContainsFunc(p.samples, x.same) {
			return
		}
		p.add(x)
		top, got := float64(p.target(p.spread))/float64(p.scale), float64(p.value)/float64(p.scale)
		if theta := p.theta(); theta <= top && theta-got < nearly*(top-got) {
			return
		}
	}
}

// theta writes the prices that the assignments so far ask for, and returns what no prices exceed.
func (p *pricing) theta() float64 {
	p.master.z = float64(p.claim.Below - p.extra(p.spread))
	return p.master.z + p.master.solve(p.prices)
}

// price finds the cheapest assignment under prices of shims, and what it comes to less the price of the
// stock.
func (r *tree) price(entries []entry, prices []int64) (int64, bool) {
	for stack, use := range r.use {
		sum := int64(0)
		for k, u := range use {
			sum += prices[k] * u
		}
		r.shim[stack] = sum
	}
	for i := range r.matrix {
		r.matrix[i] = assign.None
	}
	m := int32(r.t.Springs)
	for at := range entries {
		e := &entries[at]
		cell := e.valve*m + e.spring
		if x := r.scale*e.cost + r.shim[e.stack]; x < r.matrix[cell] {
			r.matrix[cell], r.pick[cell] = x, int32(at)
		}
	}
	value, ok := r.lap.Solve(r.t.Valves, r.t.Springs, r.matrix)
	for k, p := range prices {
		value -= p * r.stock[k]
	}
	return value, ok
}

// sample is the assignment that price found last.
func (r *tree) sample(entries []entry) *sample {
	x := &sample{cut: cut{over: make([]float64, len(r.sizes))}, columns: make([]int32, r.t.Valves)}
	for k, s := range r.stock {
		x.over[k] = -float64(s)
	}
	total := int64(0)
	for i, j := range r.lap.Column {
		e := &entries[r.pick[i*r.t.Springs+j]]
		x.columns[i] = e.id
		total += e.cost
		for k, u := range r.use[e.stack] {
			x.over[k] += float64(u)
		}
	}
	x.cost = float64(total)
	return x
}

func (x *sample) enough() bool {
	return !slices.ContainsFunc(x.over, func(o float64) bool { return o > 0 })
}

func (x *sample) same(y *sample) bool { return slices.Equal(x.columns, y.columns) }

// duals writes down what price found last.
func (r *tree) duals(scale int64, prices []int64) *proof.Bound {
	b := &proof.Bound{Scale: scale, Prices: make([]int64, len(r.t.Stock)), Rows: slices.Clone(r.lap.U), Springs: slices.Clone(r.lap.V)}
	for k, size := range r.sizes {
		b.Prices[size] = prices[k]
	}
	return b
}

// fix leaves out the columns that no better plan has: one more of them and the bound exceeds the target.
func (p *pricing) fix(entries []entry) []entry {
	left, target := make([]entry, 0, len(entries)), p.target(p.spread)
	for _, e := range entries {
		rest := p.scale*e.cost - p.best.Rows[e.valve] - p.best.Springs[e.spring]
		for k, size := range p.sizes {
			rest += p.best.Prices[size] * p.use[e.stack][k]
		}
		if p.value+rest <= target {
			left = append(left, e)
		}
	}
	return left
}
