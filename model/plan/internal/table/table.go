// Package table holds a plan's question in plain whole numbers: which spring over which shims may go
// on which valve, and what that costs. Search and proof both work on it and on nothing else.
package table

// Column is one way of fitting a valve: a spring over a stack of shims.
type Column struct {
	Valve, Spring, Stack int32
	Dev                  int64 // steps off the target, 0 where the valve has none
	Value                int64 // what is to be even where there is no target
}

// Table is everything that may be, limits kept.
type Table struct {
	Valves, Springs int
	Use             [][]int64 // of each stack, how many it takes of each size
	Stock           []int64   // of each size
	Home            []int     // of each spring, the valve that it is on, −1 for none
	Group           []int     // of each valve, the group that is to be even in itself, −1 where there is a target
	Groups          int
	Step            int64 // what spreads are counted in
	Columns         []Column
}

// Weights are what one step of deviation or spread, one shim and one moved spring cost.
type Weights struct{ Dev, Shim, Move int64 }

// Composite returns weights that put deviations before shims and shims before moves: most is the
// greatest number of shims in a stack, so that no saving further down ever makes up for one step.
func (t *Table) Composite(most int64) Weights {
	n := int64(t.Valves)
	return Weights{Dev: (n*most + 1) * (n + 1), Shim: n + 1, Move: 1}
}

// Shims returns how many shims a stack has.
func (t *Table) Shims(stack int32) (n int64) {
	for _, k := range t.Use[stack] {
		n += k
	}
	return n
}

// Moved returns 1 where the spring is not on this valve now, else 0.
func (t *Table) Moved(c Column) int64 {
	if t.Home[c.Spring] == int(c.Valve) {
		return 0
	}
	return 1
}

// Cost returns what a column costs.
func (t *Table) Cost(c Column, w Weights) int64 {
	return c.Dev*w.Dev + t.Shims(c.Stack)*w.Shim + t.Moved(c)*w.Move
}

// Steps returns a difference of values in steps, rounded up.
func (t *Table) Steps(difference int64) int64 { return (difference + t.Step - 1) / t.Step }

// Score is what a plan comes to.
type Score struct {
	Worst, Sum, Shims, Moves int64 // the first two in steps
	Spread                   []int64
	Left                     []int64 // of each size; below nought where the stock does not do
}

// Enough reports whether the stock does.
func (s Score) Enough() bool {
	for _, left := range s.Left {
		if left < 0 {
			return false
		}
	}
	return true
}

// Composite returns the sum under weights.
func (s Score) Composite(w Weights) int64 { return s.Sum*w.Dev + s.Shims*w.Shim + s.Moves*w.Move }

// Score adds up a plan: of each valve, the number of its column.
func (t *Table) Score(plan []int32) Score {
	s := Score{Left: append([]int64(nil), t.Stock...), Spread: make([]int64, t.Groups)}
	low, high := make([]int64, t.Groups), make([]int64, t.Groups)
	seen := make([]bool, t.Groups)
	for i, at := range plan {
		c := t.Columns[at]
		s.Worst, s.Sum = max(s.Worst, c.Dev), s.Sum+c.Dev
		s.Moves += t.Moved(c)
		for size, k := range t.Use[c.Stack] {
			s.Shims += k
			s.Left[size] -= k
		}
		if g := t.Group[i]; g >= 0 {
			if !seen[g] {
				low[g], high[g], seen[g] = c.Value, c.Value, true
			}
			low[g], high[g] = min(low[g], c.Value), max(high[g], c.Value)
		}
	}
	for g := range low {
		s.Spread[g] = t.Steps(high[g] - low[g])
		s.Worst, s.Sum = max(s.Worst, s.Spread[g]), s.Sum+s.Spread[g]
	}
	return s
}
