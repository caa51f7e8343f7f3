package search

import (
	"slices"

	"keeperbook/model/plan/internal/table"
)

// levels are what the worst can come to: the distinct deviations, or every number of steps where
// spreads count.
type levels struct{ list []int64 }

func levelsOf(t *table.Table) levels {
	if t.Groups > 0 {
		return levels{}
	}
	var l levels
	for _, c := range t.Columns {
		l.list = append(l.list, c.Dev)
	}
	slices.Sort(l.list)
	l.list = slices.Compact(l.list)
	return l
}

func (l levels) at(i int64) int64 {
	if l.list == nil {
		return i
	}
	return l.list[i]
}

func (l levels) index(worst int64) int64 {
	if l.list == nil {
		return worst
	}
	i, _ := slices.BinarySearch(l.list, worst)
	return int64(i)
}

// bisection narrows the worst down. No plan is under floor, there is one at high, and nothing more is
// tried under low.
type bisection struct {
	*Search
	result           *Result
	levels           levels
	floor, low, high int64
	until            int
}

func (b *bisection) found(plan []int32) {
	b.result.Plan, b.result.Score = plan, b.t.Score(plan)
	b.high = b.levels.index(b.result.Score.Worst)
	b.progress.Found, b.progress.Worst = true, b.result.Score.Worst
}

// least is how many nodes a level is given at least.
const least = 64

// run tries levels from below in growing steps, as the answer mostly lies near the floor, then halves.
func (b *bisection) run() {
	step := int64(1)
	for b.low < b.high && !b.over(b.until) {
		mid := min(b.low+step-1, (b.low+b.high)/2)
		step = min(4*step, far/4)
		b.try(mid, min(b.until, b.progress.Nodes+max(least, (b.until-b.progress.Nodes)/4)))
	}
	// What was given up for too many nodes is tried again with all that are left, from above.
	for b.floor < b.high && !b.over(b.until) {
		b.try(b.high-1, b.until)
	}
}

func (b *bisection) try(level int64, until int) {
	plan, why, claim := b.Within(b.levels.at(level), until)
	switch {
	case plan != nil:
		b.found(plan)
	case why != nil:
		b.floor = level + 1
		b.result.First, b.result.FirstWhy = claim, why
		b.progress.Bound = b.levels.at(b.floor)
		fallthrough
	default:
		b.low = level + 1
	}
}
