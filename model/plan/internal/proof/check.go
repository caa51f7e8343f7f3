package proof

import (
	"errors"
	"fmt"
	"math"

	"keeperbook/model/plan/internal/table"
)

// Check goes through a proof, case by case, in whole numbers only, and returns what is wrong with it.
func Check(t *table.Table, c Claim, n *Node) error {
	k := checker{t: t, claim: c}
	start := state{edges: make([]edges, t.Groups)}
	for g := range start.edges {
		start.edges[g] = edges{-huge, huge, -huge, huge}
	}
	for _, column := range t.Columns {
		if column.Dev <= c.Limit {
			w := way{Column: column, cost: t.Cost(column, c.Weights)}
			k.dearest = max(k.dearest, w.cost)
			start.ways = append(start.ways, w)
		}
	}
	if c.Below > huge || c.Below < -huge || k.dearest > huge/int64(max(1, t.Valves)) {
		return errLarge
	}
	return k.check(start, n)
}

// huge is what numbers of a proof stay under; a few of them still add up.
const huge = math.MaxInt64 / 8

var errLarge = errors.New("proof: numbers too large to be added up")

type checker struct {
	t       *table.Table
	claim   Claim
	dearest int64
}

// way is a column with its cost.
type way struct {
	table.Column
	cost int64
}

// edges are where the least and the greatest value of a group lie: low from a to b, high from c to d.
type edges struct{ a, b, c, d int64 }

// state is a case: what may still be in it. Both slices are its own.
type state struct {
	ways  []way
	edges []edges
}

func (k *checker) check(s state, n *Node) error {
	if n == nil {
		return errors.New("proof: a case is missing")
	}
	s, empty := k.narrow(s)
	if empty {
		return nil
	}
	b := n.Bound
	if b == nil {
		return errors.New("proof: a case has no bound")
	}
	value, err := k.value(b)
	if err != nil {
		return err
	}
	target, fits := k.target(s, b)
	if !fits {
		return errLarge
	}
	kept := s.ways[:0]
	for _, w := range s.ways {
		rest := b.Scale*w.cost - b.Rows[w.Valve] - b.Springs[w.Spring]
		for size, u := range k.t.Use[w.Stack] {
			rest += b.Prices[size] * u
		}
		if rest < 0 {
			return fmt.Errorf("proof: valve %d with spring %d over stack %d costs less than its duals", w.Valve, w.Spring, w.Stack)
		}
		// Nothing better has this way in it: with it the bound exceeds the target.
		if value+rest <= target {
			kept = append(kept, w)
		}
	}
	if value > target {
		return nil
	}
	s.ways = kept
	if s, empty = k.narrow(s); empty {
		return nil
	}
	if target, fits = k.target(s, b); !fits {
		return errLarge
	}
	if value > target {
		return nil
	}
	return k.halves(s, n)
}

// target is what a bound must exceed to close a case, with what the spreads of its groups cost.
func (k *checker) target(s state, b *Bound) (int64, bool) {
	spread := int64(0)
	for _, e := range s.edges {
		spread += k.t.Steps(max(0, e.c-e.b))
	}
	extra, fits := times(max(spread, k.claim.Least), k.claim.Weights.Dev)
	target, also := times(b.Scale, k.claim.Below-1-extra)
	return target, fits && also
}

// value is what a bound comes to, after a look at its numbers: none so large that sums overflow,
// nothing paid for having a shim or leaving a spring.
func (k *checker) value(b *Bound) (int64, error) {
	if len(b.Prices) != len(k.t.Stock) || len(b.Rows) != k.t.Valves || len(b.Springs) != k.t.Springs || b.Scale < 0 {
		return 0, errors.New("proof: a bound is of another table")
	}
	if _, fits := times(b.Scale, max(1, k.dearest)); !fits {
		return 0, errLarge
	}
	sum, total := int64(0), int64(0)
	add := func(x, count int64) bool {
		y, fits := times(x, count)
		sum += y
		if y < 0 {
			y = -y
		}
		total += y
		return fits && total < huge
	}
	for size, p := range b.Prices {
		if p < 0 {
			return 0, errors.New("proof: a shim has a price below nought")
		}
		most := int64(0)
		for _, use := range k.t.Use {
			most = max(most, use[size])
		}
		if _, fits := times(p, most*int64(len(b.Prices))); !fits || !add(p, -k.t.Stock[size]) {
			return 0, errLarge
		}
	}
	for _, u := range b.Rows {
		if !add(u, 1) {
			return 0, errLarge
		}
	}
	for _, v := range b.Springs {
		if v > 0 {
			return 0, errors.New("proof: a spring must be used")
		}
		if !add(v, 1) {
			return 0, errLarge
		}
	}
	return sum, nil
}

// times multiplies, and reports whether the product is small enough.
func times(x, y int64) (int64, bool) {
	if x == 0 || y == 0 {
		return 0, true
	}
	p := x * y
	return p, p/y == x && p > -huge && p < huge
}

// halves goes into both halves of a case.
func (k *checker) halves(s state, n *Node) error {
	if n.Split == Again {
		return k.check(s, n.Less)
	}
	less, more := s.part(), s.part()
	switch n.Split {
	case Uses:
		if n.Size < 0 || n.Size >= len(k.t.Stock) {
			return errors.New("proof: a case is split by a shim that there is none of")
		}
		for _, w := range s.ways {
			switch {
			case int(w.Valve) != n.At:
				less.ways, more.ways = append(less.ways, w), append(more.ways, w)
			case k.t.Use[w.Stack][n.Size] <= n.Value:
				less.ways = append(less.ways, w)
			default:
				more.ways = append(more.ways, w)
			}
		}
	case Lowest, Highest:
		if n.At < 0 || n.At >= k.t.Groups {
			return errors.New("proof: a case is split by a group that there is none of")
		}
		less.ways, more.ways = append(less.ways, s.ways...), append(more.ways, s.ways...)
		if n.Split == Lowest {
			less.edges[n.At].b = min(less.edges[n.At].b, n.Value)
			more.edges[n.At].a = max(more.edges[n.At].a, n.Value+1)
		} else {
			less.edges[n.At].d = min(less.edges[n.At].d, n.Value)
			more.edges[n.At].c = max(more.edges[n.At].c, n.Value+1)
		}
	default:
		return errors.New("proof: a case is neither closed nor split")
	}
	if err := k.check(less, n.Less); err != nil {
		return err
	}
	return k.check(more, n.More)
}

// part is the case without its ways.
func (s state) part() state { return state{edges: append([]edges(nil), s.edges...)} }
