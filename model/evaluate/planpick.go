package evaluate

import (
	"slices"

	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// loose is a shim that lies in the head now.
type loose struct {
	shim  record.Shim
	valve int
	used  bool
}

// pick says which shims go where: those that lie under a valve stay there where they can, then those that come out of
// the head are used, then those of the shelf. What comes out and is not used goes to the shelf.
func (p *Planning) pick(all *Planned) {
	var head []loose
	for i, at := range p.at {
		for _, s := range p.fitted(at).Stack {
			head = append(head, loose{shim: s, valve: i})
		}
	}
	stacks := make([][]record.Shim, len(p.at))
	need := make([][]int, len(p.at)) // of each size, still to be found
	for i, row := range all.Plan.Rows {
		need[i] = slices.Clone(row.Stack.Use)
	}
	take := func(i int, own bool) {
		for size := range need[i] {
			for k := range head {
				l := &head[k]
				if need[i][size] == 0 {
					break
				}
				if l.used || l.shim.Under != record.UnderLocator || l.shim.Thickness.Length() != p.sizes[size].thick || own != (l.valve == i) {
					continue
				}
				l.used = true
				need[i][size]--
				stacks[i] = append(stacks[i], l.shim)
			}
		}
	}
	for i := range p.at {
		take(i, true)
	}
	for i := range p.at {
		take(i, false)
	}
	by := map[string]int{} // of each kind on the shelf
	for i := range p.at {
		for size, n := range need[i] {
			for range n {
				stacks[i] = append(stacks[i], p.fromShelf(size, by))
			}
		}
		slices.SortStableFunc(stacks[i], func(a, b record.Shim) int { return int(b.Thickness.Length() - a.Thickness.Length()) })
	}
	var back []record.Shim
	for _, l := range head {
		if !l.used {
			back = append(back, l.shim)
			p.toShelf(l.shim, by)
		}
	}
	p.rows(all, stacks)
	p.moves(all, by)
	p.lines(all, back)
}

// fromShelf takes a shim of a size from the shelf, of a kind that was counted where it is there.
func (p *Planning) fromShelf(size int, by map[string]int) record.Shim {
	s := &p.sizes[size]
	for _, counted := range []bool{true, false} {
		for _, kind := range s.kinds {
			if kind.Counted == counted && (!counted || kind.Count+by[kind.ID] > 0) {
				by[kind.ID]--
				return kind.Shim()
			}
		}
	}
	return s.worst // no shelf is kept: one is bought
}

// toShelf puts a shim to those of its kind, where there is such a kind.
func (p *Planning) toShelf(shim record.Shim, by map[string]int) {
	if shim.Under != record.UnderLocator {
		at := slices.IndexFunc(p.outer, func(k ShelfShim) bool { return k.Thick().Length() == shim.Thickness.Length() })
		if at >= 0 {
			by[p.outer[at].ID]++
		}
		return
	}
	for _, s := range p.sizes {
		if s.thick != shim.Thickness.Length() {
			continue
		}
		like := func(k ShelfShim) bool { return k.Gauge == shim.Gauge }
		at := slices.IndexFunc(s.kinds, like)
		if at < 0 && len(s.kinds) > 0 {
			at = 0
		}
		if at >= 0 {
			by[s.kinds[at].ID]++
		}
	}
}

// rows are the valves as they will be.
func (p *Planning) rows(all *Planned, stacks [][]record.Shim) {
	for i, row := range all.Plan.Rows {
		at := p.at[i]
		was := p.fitted(at)
		was.At = at.Position
		is, spring := was, p.springs[row.Spring]
		is.Stack, is.NoShim = stacks[i], ""
		if !is.StackSaid() {
			is.NoShim = "none"
		}
		one := PlannedValve{At: at.Position, head: at.head, Label: p.Problem.Valves[i].Name, Role: at.Role, Shims: stacks[i]}
		if spring.piece != nil {
			is.Spring, one.Spring = spring.piece.Tag, spring.piece.Tag
		}
		switch on := p.Problem.Springs[row.Spring].On; {
		case on == plan.Nowhere:
			one.From = say.New("plan.from-shelf")
		case on != i:
			one.From = say.New("plan.from-valve", p.Problem.Valves[on].Name)
		}
		one.Same = is.Spring == was.Spring && (is.NoShim == was.NoShim || is.NoShim == "") && sameStack(was.Stack, stacks[i])
		if !one.Same {
			all.Edits = append(all.Edits, PlanEdit{p.heads[at.head].rec.Setup.ID, is})
		}
		all.Rows = append(all.Rows, one)
	}
}

// sameStack reports whether the same shims lie there, in whatever order.
func sameStack(a, b []record.Shim) bool {
	if len(a) != len(b) {
		return false
	}
	left := slices.Clone(b)
	for _, s := range a {
		at := slices.Index(left, s)
		if at < 0 {
			return false
		}
		left = slices.Delete(left, at, at+1)
	}
	return true
}

// moves are those of the kinds that were counted.
func (p *Planning) moves(all *Planned, by map[string]int) {
	move := func(kinds []ShelfShim) {
		for _, kind := range kinds {
			if n := by[kind.ID]; n != 0 && kind.Counted {
				all.Moves = append(all.Moves, record.MoveShims(kind.ID, n))
			}
		}
	}
	for _, s := range p.sizes {
		move(s.kinds)
	}
	move(p.outer)
}

// lines say what to do in bench order: what to fetch, what goes on each valve, what is left over.
func (p *Planning) lines(all *Planned, back []record.Shim) {
	byThick := func(of map[unit.Length]int, key string) {
		var parts []say.Line
		for _, s := range p.sizes {
			if n := of[s.thick]; n > 0 {
				parts = append(parts, say.New("plan.pick.of", n, s.thick))
			}
		}
		if len(parts) > 0 {
			all.Pick = append(all.Pick, say.New(key, parts))
		}
	}
	// Of each size, what the head takes more than lies in it.
	fetch, left := map[unit.Length]int{}, map[unit.Length]int{}
	for _, r := range all.Rows {
		for _, s := range r.Shims {
			fetch[s.Thickness.Length()]++
		}
	}
	for _, at := range p.at {
		for _, s := range p.fitted(at).Stack {
			if s.Under == record.UnderLocator {
				fetch[s.Thickness.Length()]--
			}
		}
	}
	var springs []say.Line
	for _, r := range all.Rows {
		if r.From.Key == "plan.from-shelf" {
			springs = append(springs, say.New("plan.name", r.Spring))
		}
	}
	if len(springs) > 0 {
		all.Pick = append(all.Pick, say.New("plan.pick.springs", springs))
	}
	byThick(fetch, "plan.pick.fetch")
	for _, r := range all.Rows {
		all.Pick = append(all.Pick, r.line())
	}
	outer := 0
	for _, s := range back {
		if s.Under == record.UnderLocator {
			left[s.Thickness.Length()]++
		} else {
			outer++
		}
	}
	byThick(left, "plan.pick.left")
	if outer > 0 {
		all.Pick = append(all.Pick, say.New("plan.pick.outer", outer))
	}
}

// line says what goes on a valve.
func (r *PlannedValve) line() say.Line {
	shims := r.shimsLine()
	switch {
	case r.Same:
		return say.New("plan.pick.same", r.Label, shims)
	case r.Spring == "":
		return say.New("plan.pick.shims", r.Label, shims)
	case r.From.Zero():
		return say.New("plan.pick.stays", r.Label, r.Spring, shims)
	}
	return say.New("plan.pick.spring", r.Label, r.Spring, r.From, shims)
}
