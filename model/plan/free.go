package plan

import (
	"slices"
	"sort"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// free tries what a shop can do about a conflict: more shims, locks with an offset, a thicker stack, one
// more spring. Each is tried on the whole question, so that what is said to do does. Only where nothing
// does, it says what would clear this reason and leave another.
func (c *conflict) free(whole *conflict) []say.Line {
	does, clears := c.shimLines(whole), []say.Line(nil)
	do, only := c.lockSayings(whole)
	for _, s := range do {
		does = append(does, s.locks())
	}
	if total := whole.thicker(c); total > 0 {
		does = append(does, say.New("plan.free.thickness", total, c.p.Most.Total))
	}
	if j := whole.moreSprings(c); j >= 0 {
		does = append(does, say.New("plan.free.spring", c.p.Springs[j].Name))
	}
	if len(does) > 0 {
		return does
	}
	for _, l := range c.shimLines(c) {
		clears = append(clears, say.New("plan.free.part", l))
	}
	for _, s := range only {
		clears = append(clears, say.New("plan.free.part", s.locks()))
	}
	return clears
}

// shimLines says how many more shims of each scarce size make a question fit.
func (c *conflict) shimLines(in *conflict) (lines []say.Line) {
	for k, scarce := range c.scarce {
		if !scarce {
			continue
		}
		switch n := in.moreShims(k); n {
		case 0:
		case 1:
			lines = append(lines, say.New("plan.free.shim", c.p.Shims[k].Thick))
		default:
			lines = append(lines, say.New("plan.free.shims", n, c.p.Shims[k].Thick))
		}
	}
	return lines
}

// lockSayings says which locks on which of the valves make the whole question fit, and which only
// clear this conflict.
func (c *conflict) lockSayings(whole *conflict) (does, clears []saying) {
	for _, offset := range c.p.Locks {
		for i, fitted := range c.fitted {
			if !fitted || offset == 0 {
				continue
			}
			key, by := locksUp, offset
			if offset < 0 {
				key, by = locksDown, -offset
			}
			if whole.withLocks(i, offset) {
				does = gather(does, c.p.Valves[i].Name, key, by)
			} else if len(does) == 0 && c.withLocks(i, offset) {
				clears = gather(clears, c.p.Valves[i].Name, key, by)
			}
		}
	}
	return does, clears
}

const locksUp, locksDown = "plan.free.locks-up", "plan.free.locks-down"

// locks is the saying of locks; where they may go on any of several valves it says so.
func (s saying) locks() say.Line {
	if len(s.valves) > 1 {
		s.key = map[string]string{locksUp: "plan.free.locks-up-any", locksDown: "plan.free.locks-down-any"}[s.key]
	}
	return s.line()
}

// does reports whether it is known to fit.
func (c *conflict) does() bool {
	fits, known := c.fits()
	return fits && known
}

// moreShims returns how many more shims of a size make it fit, 0 where none do.
func (c *conflict) moreShims(size int) int {
	before := c.stock[size]
	defer func() { c.stock[size] = before }()
	enough := func(n int) bool {
		c.stock[size] = before + n
		return c.does()
	}
	most := len(c.fitted)*c.p.Most.Shims - before
	if most < 1 || !enough(most) {
		return 0
	}
	// More shims are never worse, so halving finds the fewest.
	return 1 + sort.Search(most-1, func(n int) bool { return enough(n + 1) })
}

// withLocks reports whether locks with an offset on a valve make it fit.
func (c *conflict) withLocks(valve int, offset unit.Length) bool {
	before := c.ways
	defer func() { c.ways = before }()
	first := slices.IndexFunc(before, func(w way) bool { return int(w.Valve) >= valve })
	if first < 0 {
		first = len(before)
	}
	last := first
	for last < len(before) && int(before[last].Valve) == valve {
		last++
	}
	c.ways = slices.Concat(before[:first], c.valve(valve, offset), before[last:])
	return c.does()
}

// thicker returns the least thickness of a stack that makes it fit, where the conflict is about that.
func (c *conflict) thicker(with *conflict) unit.Length {
	about := false
	for i, fitted := range with.fitted {
		about = about || fitted && with.kept(i, thickness)
	}
	if !about {
		return 0
	}
	var totals []unit.Length
	for _, s := range c.stacks {
		if s.Total > c.p.Most.Total {
			totals = append(totals, s.Total)
		}
	}
	slices.Sort(totals)
	totals = slices.Compact(totals)
	before := slices.Clone(c.ways)
	defer func() { c.ways = before }()
	enough := func(at int) bool {
		c.ways = slices.Clone(before)
		for i := range c.ways {
			if c.stacks[c.ways[i].Stack].Total <= totals[at] {
				c.ways[i].broken &^= thickness
			}
		}
		return c.does()
	}
	if len(totals) == 0 || !enough(len(totals)-1) {
		return 0
	}
	return totals[sort.Search(len(totals)-1, enough)]
}

// moreSprings returns the first spring of which one more makes it fit, where the conflict is about
// springs; −1 where none does.
func (c *conflict) moreSprings(with *conflict) int {
	if c.fixed != nil || with.springsShort().Zero() {
		return Nowhere
	}
	defer func() { c.extra = Nowhere }()
	for j := range c.p.Springs {
		if c.extra = j; c.does() {
			return j
		}
	}
	return Nowhere
}
