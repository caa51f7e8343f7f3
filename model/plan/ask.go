package plan

import (
	"keeperbook/model/plan/internal/table"
	"keeperbook/model/unit"
)

// question is a problem with every place worked out, limits kept or not.
type question struct {
	p      *Problem
	stacks []Stack
	fixed  []int // of each valve the spring that stays on it; nil where springs are chosen
	ways   []way
}

// way is a place with the limits that it breaks.
type way struct {
	table.Column
	broken limit
}

// ask works out every place over these stacks.
func (p *Problem) ask(stacks []Stack) *question {
	q := &question{p: p, stacks: stacks}
	if p.Mode != Both {
		q.fixed = p.home()
	}
	for i := range p.Valves {
		q.ways = append(q.ways, q.valve(i, 0)...)
	}
	return q
}

// valve works out the places of one valve, with locks of an offset. Stacks of equal number and
// thickness are asked for once.
func (q *question) valve(i int, offset unit.Length) (all []way) {
	type depth struct {
		shims int
		total unit.Length
	}
	known := make(map[depth]int, len(q.stacks))
	var fits []Fit
	for j := range q.p.Springs {
		if q.fixed != nil && q.fixed[i] != j {
			continue
		}
		clear(known)
		fits = fits[:0]
		for k, s := range q.stacks {
			at := Place{i, j, s.Shims, s.Total - offset}
			d := depth{s.Shims, s.Total}
			f, asked := known[d]
			if !asked {
				f = len(fits)
				known[d], fits = f, append(fits, q.p.Fit(at))
			}
			if w, ok := q.way(at, k, fits[f]); ok {
				all = append(all, w)
			}
		}
	}
	return all
}

func (q *question) way(at Place, stack int, f Fit) (way, bool) {
	if f.None {
		return way{}, false
	}
	w := way{Column: table.Column{Valve: int32(at.Valve), Spring: int32(at.Spring), Stack: int32(stack), Value: q.p.value(at, f)}}
	w.broken = q.p.broken(at, f)
	if q.stacks[stack].Total > q.p.Most.Total {
		w.broken |= thickness
	}
	if target, aimed := q.p.target(at.Valve); aimed {
		w.Dev = steps(max(w.Value-target, target-w.Value), q.p.step())
	}
	return w, true
}

// steps counts a difference in steps, rounded up.
func steps(difference, step int64) int64 { return (difference + step - 1) / step }

// table returns the question with the limits that are given up left aside.
func (q *question) table(gone func(valve int) limit) *table.Table {
	p := q.p
	t := &table.Table{Valves: len(p.Valves), Springs: len(p.Springs), Step: p.step()}
	t.Group, t.Groups = p.groups()
	for _, s := range q.stacks {
		use := make([]int64, len(s.Use))
		for size, n := range s.Use {
			use[size] = int64(n)
		}
		t.Use = append(t.Use, use)
	}
	for _, s := range p.Shims {
		t.Stock = append(t.Stock, int64(s.Count))
	}
	for _, s := range p.Springs {
		t.Home = append(t.Home, s.On)
	}
	for _, w := range q.ways {
		if w.broken&^gone(int(w.Valve)) == 0 {
			t.Columns = append(t.Columns, w.Column)
		}
	}
	return t
}

// nothing gives no limit up.
func nothing(int) limit { return 0 }
