package search

import (
	"math"
	"slices"

	"keeperbook/model/plan/internal/proof"
)

// window says of a group that is to be even in itself where its least and its greatest value lie. A
// case of a search without targets has one for each group; splitting them makes the columns fewer.
type window struct{ low, high span }

type span struct{ least, most int64 }

func (s span) has(x int64) bool { return x >= s.least && x <= s.most }

// far is beyond every value; two of them still add up.
const far = math.MaxInt64 / 8

// wide are windows that leave everything open.
func (r *tree) wide() []window {
	box := make([]window, r.t.Groups)
	for g := range box {
		box[g] = window{span{-far, far}, span{-far, far}}
	}
	return box
}

// tighten drops the columns outside the windows and draws the windows in, until nothing changes: the
// least value of a group is no more than the most that any of its valves can have, its greatest no less
// than the least. It reports whether anything can be in the case. Entries and windows are changed in place.
func (r *tree) tighten(entries []entry, box []window) ([]entry, bool) {
	each := make([]span, r.t.Valves)
	for {
		for i := range each {
			each[i] = span{math.MaxInt64, math.MinInt64}
		}
		kept := entries[:0]
		for _, e := range entries {
			if g := r.t.Group[e.valve]; g >= 0 && (e.value < box[g].low.least || e.value > box[g].high.most) {
				continue
			}
			kept = append(kept, e)
			s := &each[e.valve]
			s.least, s.most = min(s.least, e.value), max(s.most, e.value)
		}
		entries = kept
		if slices.Contains(each, span{math.MaxInt64, math.MinInt64}) {
			return entries, false
		}
		before := slices.Clone(box)
		for g := range box {
			r.draw(&box[g], g, each)
		}
		r.snap(entries, box)
		for _, w := range box {
			if w.low.least > w.low.most || w.high.least > w.high.most {
				return entries, false
			}
		}
		if slices.Equal(before, box) {
			return entries, true
		}
	}
}

// draw draws one window in round what its valves can have.
func (r *tree) draw(w *window, g int, each []span) {
	for i, s := range each {
		if r.t.Group[i] == g {
			w.low.most, w.high.least = min(w.low.most, s.most), max(w.high.least, s.least)
		}
	}
	if r.claim.Limit < far/r.t.Step {
		room := r.claim.Limit * r.t.Step
		w.high.most, w.low.least = min(w.high.most, w.low.most+room), max(w.low.least, w.high.least-room)
	}
}

// snap draws the windows in to values that there are.
func (r *tree) snap(entries []entry, box []window) {
	to := make([]window, len(box))
	for g := range to {
		to[g] = window{span{far, -far}, span{far, -far}}
	}
	for _, e := range entries {
		g := r.t.Group[e.valve]
		if g < 0 {
			continue
		}
		if box[g].low.has(e.value) {
			to[g].low.least, to[g].low.most = min(to[g].low.least, e.value), max(to[g].low.most, e.value)
		}
		if box[g].high.has(e.value) {
			to[g].high.least, to[g].high.most = min(to[g].high.least, e.value), max(to[g].high.most, e.value)
		}
	}
	copy(box, to)
}

// spreads is what the spreads of all groups come to at least, in steps.
func (r *tree) spreads(box []window) (sum int64) {
	for _, w := range box {
		sum += r.spread(w)
	}
	return sum
}

func (r *tree) spread(w window) int64 { return r.t.Steps(max(0, w.high.least-w.low.most)) }

// chooseWindow splits a group that spreads farther in the assignments under the bound than the case
// allows for.
func (r *tree) chooseWindow(entries []entry, box []window, p *pricing) (split, bool) {
	excess := make([]float64, len(box))
	p.master.weights(func(at int, weight float64) {
		for g, spread := range r.t.Score(p.samples[at].columns).Spread {
			allowed := r.spread(box[g])
			if r.claim.Weights.Dev == 0 {
				allowed = r.claim.Limit
			}
			excess[g] += float64(weight * float64(max(0, spread-allowed)))
		}
	})
	g := -1
	for i, x := range excess {
		if x > 0 && (g < 0 || x > excess[g]) {
			g = i
		}
	}
	if g < 0 {
		return split{}, false
	}
	var low, high []int64
	for _, e := range entries {
		if r.t.Group[e.valve] != g {
			continue
		}
		if box[g].low.has(e.value) {
			low = append(low, e.value)
		}
		if box[g].high.has(e.value) {
			high = append(high, e.value)
		}
	}
	low, high = distinct(low), distinct(high)
	kind, values := proof.Lowest, low
	if len(high) > len(low) {
		kind, values = proof.Highest, high
	}
	if len(values) < 2 {
		return split{}, false
	}
	at := (len(values) - 1) / 2
	return split{kind: kind, at: g, value: values[at]}, true
}

func distinct(all []int64) []int64 {
	slices.Sort(all)
	return slices.Compact(all)
}
