package search

import (
	"math"

	"keeperbook/model/plan/internal/proof"
)

// split is how a case is divided in two.
type split struct {
	kind      proof.Split
	at, size  int   // the valve and the place of the size in tree.sizes, or the group
	value     int64 // up to here, or more
	moreFirst bool
}

// child is one half of a case.
func (r *tree) child(entries []entry, box []window, s split, more bool) branch {
	b := branch{box: append([]window(nil), box...), entries: make([]entry, 0, len(entries))}
	for _, e := range entries {
		if s.kind == proof.Uses && int(e.valve) == s.at && (r.use[e.stack][s.size] > s.value) != more {
			continue
		}
		b.entries = append(b.entries, e)
	}
	switch {
	case s.kind == proof.Lowest && more:
		b.box[s.at].low.least = s.value + 1
	case s.kind == proof.Lowest:
		b.box[s.at].low.most = s.value
	case s.kind == proof.Highest && more:
		b.box[s.at].high.least = s.value + 1
	case s.kind == proof.Highest:
		b.box[s.at].high.most = s.value
	}
	return b
}

// choose finds where to split: by the values of a group whose spread the bound does not see yet, else
// by the shims that the assignments under the bound agree on least.
func (r *tree) choose(entries []entry, box []window, p *pricing) (split, bool) {
	if s, ok := r.chooseWindow(entries, box, p); ok {
		return s, true
	}
	v := newVotes(r.t.Valves, len(r.sizes))
	p.master.weights(func(at int, weight float64) {
		for i, id := range p.samples[at].columns {
			v.note(i, r.use[r.t.Columns[id].Stack], weight)
		}
		v.sum += weight
	})
	if s, ok := v.split(p.master); ok {
		return s, true
	}
	// They agree, and still the case is open. Any two columns that differ will do.
	v = newVotes(r.t.Valves, len(r.sizes))
	for _, e := range entries {
		v.note(int(e.valve), r.use[e.stack], 0)
	}
	for cell := range v.least {
		if v.least[cell] < v.most[cell] {
			return split{kind: proof.Uses, at: cell / v.sizes, size: cell % v.sizes, value: v.least[cell]}, true
		}
	}
	return split{}, false
}

// votes are how many shims of each size assignments put under each valve's spring.
type votes struct {
	sizes       int
	sum         float64   // of the weights
	mean        []float64 // times sum
	least, most []int64
}

func newVotes(valves, sizes int) *votes {
	n := valves * sizes
	v := &votes{sizes: sizes, mean: make([]float64, n), least: make([]int64, n), most: make([]int64, n)}
	for cell := range v.least {
		v.least[cell], v.most[cell] = math.MaxInt64, math.MinInt64
	}
	return v
}

func (v *votes) note(valve int, use []int64, weight float64) {
	for size, u := range use {
		cell := valve*v.sizes + size
		v.mean[cell] += float64(weight * float64(u))
		v.least[cell], v.most[cell] = min(v.least[cell], u), max(v.most[cell], u)
	}
}

// split takes the number of shims that is farthest from whole, counted by the price of the size.
func (v *votes) split(m *master) (split, bool) {
	best, at := -1.0, -1
	for cell := range v.mean {
		if v.least[cell] >= v.most[cell] {
			continue
		}
		x := v.mean[cell] / v.sum
		f := x - math.Floor(x)
		if weight := min(f, 1-f) * (1e-6 + max(0, -m.dual[cell%v.sizes])); weight > best {
			best, at = weight, cell
		}
	}
	if at < 0 {
		return split{}, false
	}
	x := v.mean[at] / v.sum
	value := max(min(int64(math.Floor(x)), v.most[at]-1), v.least[at])
	return split{kind: proof.Uses, at: at / v.sizes, size: at % v.sizes, value: value, moreFirst: x-float64(value) > .5}, true
}
