// Package search finds the best plan of a table and writes down why there is no better one.
//
// First the least worst deviation or spread, by bisection: is there a plan that stays within so many
// steps? Springs alone, without shims, answer that in no time where the answer is no (a matching); else
// a [tree] does, with all costs nought. Then the least cost among the plans that stay within the worst
// that was found, by a tree again.
//
// A node limit ends the search, never a clock, so the same table gives the same plan everywhere.
package search

import (
	"math"
	"slices"

	"keeperbook/model/plan/internal/assign"
	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/table"
)

// Options limit a search.
type Options struct {
	Nodes    int            // assignments at most
	Cancel   func() bool    // asked at every one; may be nil
	Progress func(Progress) // told every now and then; may be nil
}

// Progress is how far a search has come.
type Progress struct {
	Nodes        int
	Found        bool  // there is a plan
	Worst, Bound int64 // its worst, in steps, and what no plan is under
}

// every is after how many nodes progress is told.
const every = 64

// Unlimited is a limit of deviation and spread that keeps nothing out.
const Unlimited = far

// Result is what a search found.
type Result struct {
	Plan    []int32 // of each valve, the number of its column; nil for none
	None    bool    // it is proved that there is none
	Score   table.Score
	Weights table.Weights
	Worst   int64 // no plan has a lesser worst
	Cost    int64 // no plan that is as good in its worst costs less
	// First says that nothing stays under Worst (or that there is no plan), Second that nothing costs
	// less than Cost. A claim without its tree was not shown.
	First, Second       proof.Claim
	FirstWhy, SecondWhy *proof.Node
	Nodes               int
	Cancelled           bool
}

// Search is one search.
type Search struct {
	t         *table.Table
	options   Options
	lap       assign.Cheapest
	progress  Progress
	cancelled bool
}

// New returns a search of a table.
func New(t *table.Table, o Options) *Search { return &Search{t: t, options: o} }

// tick counts a node.
func (s *Search) tick() {
	s.progress.Nodes++
	if s.options.Progress != nil && s.progress.Nodes%every == 0 {
		s.options.Progress(s.progress)
	}
	if s.options.Cancel != nil && s.options.Cancel() {
		s.cancelled = true
	}
}

func (s *Search) over(until int) bool { return s.cancelled || s.progress.Nodes >= until }

// Run searches.
func (s *Search) Run() Result {
	var r Result
	most := int64(0)
	for stack := range s.t.Use {
		most = max(most, s.t.Shims(int32(stack)))
	}
	r.Weights = s.t.Composite(most)
	r.Plan, r.FirstWhy, r.First = s.Within(Unlimited, s.options.Nodes)
	if r.Plan == nil {
		r.None = r.FirstWhy != nil
	} else {
		s.even(&r)
		s.spare(&r)
	}
	r.Nodes, r.Cancelled = s.progress.Nodes, s.cancelled
	return r
}

// Within looks for any plan that stays within a limit, until so many nodes were counted. Without a
// plan it returns why there is none, and neither where it came to no end.
func (s *Search) Within(limit int64, until int) ([]int32, *proof.Node, proof.Claim) {
	claim := proof.Claim{Limit: limit, Below: 1}
	r := s.newTree(claim, until)
	r.any = true
	why, _ := r.run()
	return r.plan, why, claim
}

// matched reports whether every valve can have a spring of its own within a limit, stock left aside.
func (s *Search) matched(limit int64) bool {
	may := make([][]int32, s.t.Valves)
	for _, c := range s.t.Columns {
		list := may[c.Valve]
		if c.Dev <= limit && (len(list) == 0 || list[len(list)-1] != c.Spring) {
			may[c.Valve] = append(list, c.Spring)
		}
	}
	_, size := assign.Match(s.t.Springs, may)
	return size == s.t.Valves
}

// even makes the worst as small as can be. It may use half of the nodes; the other half is for what
// the plan costs.
func (s *Search) even(r *Result) {
	b := bisection{Search: s, result: r, levels: levelsOf(s.t), until: s.options.Nodes / 2}
	b.found(r.Plan)
	for b.low < b.high {
		// The matching knows nothing of spreads: what has no target has no deviation either.
		mid := (b.low + b.high) / 2
		if s.matched(b.levels.at(mid)) {
			b.high = mid
		} else {
			b.low = mid + 1
		}
	}
	b.floor, b.high = b.low, b.levels.index(r.Score.Worst)
	if worst := b.levels.at(b.floor); worst > 0 {
		// Written down as a bound: one assignment that fails.
		_, r.FirstWhy, r.First = s.Within(worst-1, math.MaxInt)
	}
	b.run()
	r.Worst = b.levels.at(b.floor)
}

// spare makes the sum, then the shims, then the moves as few as can be without giving up the worst.
func (s *Search) spare(r *Result) {
	claim := proof.Claim{Limit: r.Score.Worst, Weights: r.Weights, Below: r.Score.Composite(r.Weights) + 1}
	if !slices.Contains(s.t.Group, -1) {
		claim.Least = r.Worst
	}
	tree := s.newTree(claim, s.options.Nodes)
	tree.offer(r.Plan)
	why, lower := tree.run()
	r.Plan, r.Score = tree.plan, s.t.Score(tree.plan)
	r.Second, r.SecondWhy, r.Cost = tree.claim, why, min(lower, tree.claim.Below)
}

// Nodes returns how many assignments were solved.
func (s *Search) Nodes() int { return s.progress.Nodes }
