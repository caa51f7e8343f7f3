// Package proof says why there is no better plan, in a form that can be looked through, and looks
// through it. It shares no code with the search.
package proof

import "keeperbook/model/plan/internal/table"

// Claim says that no plan does both: stay within Limit steps of deviation and spread everywhere, and
// cost less than Below.
type Claim struct {
	Limit   int64
	Weights table.Weights
	Below   int64
	// All spreads together are at least so many steps, as another claim shows: where every valve is in a
	// group that is to be even in itself, one of them spreads as far as the worst.
	Least int64
}

// Node is one case. It is closed by its bound, or split in two.
type Node struct {
	Bound      *Bound
	Split      Split
	At, Size   int   // the valve and the size of shim, or the group
	Value      int64 // where it is split
	Less, More *Node
}

// Split says what a case is split by.
type Split int8

// The splits.
const (
	Whole   Split = iota // not split
	Again                // not split: Less bounds what was left of it once more
	Uses                 // the valve takes at most Value shims of the size, or more
	Lowest               // the least value in the group is at most Value, or more
	Highest              // the greatest value in the group is at most Value, or more
)

// Bound is a price for each size of shim and duals of the assignment under those prices. Every way of
// fitting a valve i with a spring j costs at least
//
//	Rows[i] + Springs[j] ≤ Scale · cost + Σ Prices · use
//
// and every plan therefore at least (Σ Rows + Σ Springs − Σ Prices · stock) / Scale. With a Scale of 0
// it says that there is none at all: more valves than springs, or than shims.
type Bound struct {
	Scale         int64
	Prices        []int64 // of every size, not below nought
	Rows, Springs []int64 // of springs not above nought: they may be left over
}
