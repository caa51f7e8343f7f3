package search

import (
	"math"
	"slices"

	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/table"
)

// tree looks for a plan that stays within a claim's limit and costs less than its Below, and shows
// that there is none. It is a branch and bound. The bound of a case is the cheapest assignment under
// prices of the shims that may run short: the stock is left aside, what is taken from it is paid for,
// and what the whole stock is worth comes off. Prices are never below nought, so no plan costs less.
type tree struct {
	*Search
	claim proof.Claim // Below falls with every better plan
	any   bool        // the first plan will do
	until int         // nodes at most
	plan  []int32     // the best so far

	sizes []int     // those that may run short
	stock []int64   // of them
	use   [][]int64 // of each stack, of them
	scale int64     // prices and duals count in 1/scale of a cost
	unit  float64   // the greatest cost of a column

	matrix []int64 // of each valve and spring, the cheapest column under the prices
	pick   []int32 // which entry that is
	shim   []int64 // price of each stack
	alive  []bool  // of every column of the table, see inherited
}

// entry is a column that is still in a case.
type entry struct {
	id                   int32
	valve, spring, stack int32
	cost, value          int64
}

// branch is a case to look into.
type branch struct {
	entries []entry // its own: they are changed in place
	box     []window
	samples []*sample // of the case it was split off
	prices  []float64
	lower   int64 // no plan in it costs less
}

// closed is the least cost left in a case that is closed.
const closed = math.MaxInt64

func (s *Search) newTree(claim proof.Claim, until int) *tree {
	t := s.t
	return &tree{
		Search: s, claim: claim, until: until,
		matrix: make([]int64, t.Valves*t.Springs), pick: make([]int32, t.Valves*t.Springs),
		shim: make([]int64, len(t.Use)), alive: make([]bool, len(t.Columns)),
	}
}

// run grows the whole tree. It returns the proof, nil where it came to no end, and the least that a
// plan could still cost.
func (r *tree) run() (*proof.Node, int64) {
	b := branch{box: r.wide(), entries: r.entries()}
	r.count(b.entries)
	b.prices = make([]float64, len(r.sizes))
	if r.claim.Weights == (table.Weights{}) {
		// Nothing costs anything. Start with all sizes dear, the scarce ones most.
		for k := range b.prices {
			b.prices[k] = 1 / float64(r.stock[k]+1)
		}
	}
	return r.grow(b)
}

// entries are the columns within the limit.
func (r *tree) entries() (all []entry) {
	for id, c := range r.t.Columns {
		if c.Dev <= r.claim.Limit {
			all = append(all, entry{int32(id), c.Valve, c.Spring, c.Stack, r.t.Cost(c, r.claim.Weights), c.Value})
		}
	}
	return all
}

// count finds the sizes that may run short and how finely prices may count.
func (r *tree) count(entries []entry) {
	t, dearest := r.t, int64(1)
	most := make([]int64, t.Valves*len(t.Stock)) // that a valve may take of a size
	for _, e := range entries {
		dearest = max(dearest, e.cost)
		for size, k := range t.Use[e.stack] {
			cell := int(e.valve)*len(t.Stock) + size
			most[cell] = max(most[cell], k)
		}
	}
	r.use = make([][]int64, len(t.Use))
	for size, stock := range t.Stock {
		need := int64(0)
		for i := range t.Valves {
			need += most[i*len(t.Stock)+size]
		}
		if need > stock {
			r.sizes, r.stock = append(r.sizes, size), append(r.stock, stock)
			for stack, use := range t.Use {
				r.use[stack] = append(r.use[stack], use[size])
			}
		}
	}
	r.scale, r.unit = finest, float64(dearest)
	for r.scale > 1 && dearest > roomy/r.scale {
		r.scale /= 2
	}
}

// Costs are scaled to at most roomy and prices to at most dear, so that a price may be a thousand
// times the greatest cost and 256 valves with a dozen shims each still add up in 64 bits.
const (
	finest = 1 << 20
	roomy  = 1 << 38
	dear   = 1 << 48
)

// target is what a bound must exceed to close a case whose spreads come to at least so many steps.
func (r *tree) target(spread int64) int64 { return r.scale * (r.claim.Below - 1 - r.extra(spread)) }

// extra is what spreads cost.
func (r *tree) extra(spread int64) int64 { return r.claim.Weights.Dev * max(spread, r.claim.Least) }

// done reports whether there is nothing left to look for.
func (r *tree) done() bool { return r.any && r.plan != nil || r.over(r.until) }

// grow looks into a case and returns its proof, nil where it came to no end, and the least that a plan
// in it could still cost.
func (r *tree) grow(b branch) (*proof.Node, int64) {
	if r.done() {
		return nil, b.lower
	}
	var some bool
	if b.entries, some = r.tighten(b.entries, b.box); !some {
		return &proof.Node{}, closed // plain to see, so it needs no bound
	}
	p := r.inherited(b)
	p.spread = r.spreads(b.box)
	if p.bound(b.entries); p.shut() {
		return &proof.Node{Bound: p.best}, closed
	}
	lower := max(b.lower, p.lower())
	if r.done() {
		return nil, lower
	}
	entries, fits := r.tighten(p.fix(b.entries), b.box)
	if p.spread = r.spreads(b.box); !fits || p.shut() {
		return &proof.Node{Bound: p.best}, closed
	}
	s, ok := r.choose(entries, b.box, p)
	if !ok {
		return r.again(b, p, entries, lower)
	}
	node := &proof.Node{Bound: p.best, Split: s.kind, At: s.at, Value: s.value}
	if s.kind == proof.Uses {
		node.Size = r.sizes[s.size]
	}
	left := int64(closed)
	for _, more := range []bool{s.moreFirst, !s.moreFirst} {
		if p.shut() { // since a better plan was found
			break
		}
		child := r.child(entries, b.box, s, more)
		child.samples, child.prices, child.lower = p.samples, p.prices, lower
		why, least := r.grow(child)
		left = min(left, least)
		if more {
			node.More = why
		} else {
			node.Less = why
		}
	}
	switch {
	case p.shut():
		return &proof.Node{Bound: p.best}, closed
	case node.Less == nil || node.More == nil:
		return nil, max(lower, left)
	}
	return node, closed
}

// again looks at a case once more after columns were left out, where there is nothing to split it by.
func (r *tree) again(b branch, p *pricing, entries []entry, lower int64) (*proof.Node, int64) {
	if len(entries) == len(b.entries) {
		return nil, lower
	}
	why, left := r.grow(branch{entries, b.box, p.samples, p.prices, lower})
	if why == nil {
		return nil, max(lower, left)
	}
	return &proof.Node{Bound: p.best, Split: proof.Again, Less: why}, left
}

// offer takes an assignment as the best plan where it is one.
func (r *tree) offer(columns []int32) {
	s := r.t.Score(columns)
	if !s.Enough() || s.Worst > r.claim.Limit {
		return
	}
	if cost := s.Composite(r.claim.Weights); cost < r.claim.Below {
		r.claim.Below, r.plan = cost, slices.Clone(columns)
	}
}
