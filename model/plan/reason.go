package plan

import (
	"slices"

	"keeperbook/model/plan/internal/search"
	"keeperbook/model/plan/internal/table"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Reason says why nothing fits: limits that cannot be kept together. It is found by a deletion filter,
// after Chinneck and Dravnieks, ORSA J. Comput. 3 (1991) 157: valves, limits and stocks are given up one
// at a time, and whatever changes nothing stays away.
type Reason struct {
	Lines []say.Line
	// Irreducible: give any one of them up and the rest can be kept. False where a search was ended
	// before that was known.
	Irreducible bool
	Free        []say.Line // what would make it fit, each by itself
}

// conflict is a part of a question: the valves that are to be fitted, the limits given up, the sizes
// of which there are only so many.
type conflict struct {
	*question
	options Options
	nodes   *int
	until   int

	fitted  []bool
	gone    []limit // of each valve
	scarce  []bool  // of each size
	stock   []int   // of each size
	extra   int     // one more spring like this one, −1 for none
	unknown bool    // a search came to no end
}

// reason takes the question apart. It may use as many nodes again as the search before.
func (p *Problem) reason(o Options, nodes *int) *Reason {
	c := p.conflict(o, nodes)
	c.reduce()
	return &Reason{Lines: c.words(), Irreducible: !c.unknown, Free: c.free(p.conflict(o, nodes))}
}

func (p *Problem) conflict(o Options, nodes *int) *conflict {
	c := &conflict{options: o, nodes: nodes, until: *nodes + o.Nodes, extra: Nowhere}
	// Stacks of any thickness and with any number in stock, so that both can be given up.
	sizes, thickest := slices.Clone(p.Shims), unit.Length(0)
	for i := range sizes {
		c.stock = append(c.stock, sizes[i].Count)
		sizes[i].Count = p.Most.Shims
		thickest = max(thickest, sizes[i].Thick)
	}
	c.question = p.ask(Stacks(sizes, Most{p.Most.Shims, thickest * unit.Length(p.Most.Shims)}))
	c.fitted, c.gone, c.scarce = make([]bool, len(p.Valves)), make([]limit, len(p.Valves)), make([]bool, len(sizes))
	for i := range c.fitted {
		c.fitted[i] = true
	}
	for i := range c.scarce {
		c.scarce[i] = true
	}
	return c
}

// reduce gives up what is not needed for nothing to fit: all stocks at once, valves, limits, the
// stocks that are left.
func (c *conflict) reduce() {
	if c.without(func() { clear(c.scarce) }, func() { c.all(c.scarce) }) {
		c.narrow()
	}
	for i := len(c.fitted) - 1; i >= 0; i-- {
		if c.fitted[i] {
			c.without(func() { c.fitted[i] = false }, func() { c.fitted[i] = true })
		}
	}
	for i := range c.gone {
		for _, l := range limits {
			if c.fitted[i] {
				c.without(func() { c.gone[i] |= l }, func() { c.gone[i] &^= l })
			}
		}
	}
	for k := range c.scarce {
		if c.scarce[k] {
			c.without(func() { c.scarce[k] = false }, func() { c.scarce[k] = true })
		}
	}
}

func (c *conflict) all(set []bool) {
	for i := range set {
		set[i] = true
	}
}

// without gives something up for good where still nothing fits, and reports that. What is not known
// stays.
func (c *conflict) without(do, undo func()) bool {
	do()
	fits, known := c.fits()
	if known && !fits {
		return true
	}
	c.unknown = c.unknown || !known
	undo()
	return false
}

// fits reports whether what is left can be kept, and whether that is known.
func (c *conflict) fits() (fits, known bool) {
	plan, why := c.search()
	return plan != nil, plan != nil || why
}

// share is which part of the nodes one question may use.
const share = 20

func (c *conflict) search() (plan []int32, none bool) {
	t := c.part()
	o, before := c.options.search(), *c.nodes
	if told := o.Progress; told != nil {
		o.Progress = func(p search.Progress) {
			p.Nodes += before
			told(p)
		}
	}
	o.Nodes = min(c.options.Nodes/share, c.until-before)
	s := search.New(t, o)
	plan, why, claim := s.Within(search.Unlimited, o.Nodes)
	*c.nodes += s.Nodes()
	return plan, plan == nil && holds(t, claim, why)
}

// part is the table of what is left. Nothing in it is to be even, it is only to fit.
func (c *conflict) part() *table.Table {
	whole := c.table(func(valve int) limit { return c.gone[valve] })
	number, n := make([]int32, whole.Valves), int32(0)
	for i, fitted := range c.fitted {
		number[i] = n
		if fitted {
			n++
		}
	}
	t := &table.Table{Valves: int(n), Springs: whole.Springs, Use: whole.Use, Step: 1, Home: whole.Home}
	t.Group = make([]int, t.Valves)
	for i := range t.Group {
		t.Group[i] = -1
	}
	for k, count := range c.stock {
		if !c.scarce[k] {
			count = len(c.fitted) * c.p.Most.Shims
		}
		t.Stock = append(t.Stock, int64(count))
	}
	for _, column := range whole.Columns {
		if !c.fitted[column.Valve] {
			continue
		}
		column.Valve, column.Dev = number[column.Valve], 0
		t.Columns = append(t.Columns, column)
		if int(column.Spring) == c.extra {
			column.Spring = int32(t.Springs)
			t.Columns = append(t.Columns, column)
		}
	}
	if c.extra >= 0 {
		t.Springs++
		t.Home = append(slices.Clone(t.Home), Nowhere)
	}
	return t
}

// narrow drops the valves that have nothing to do with it, where springs alone are short: those that a
// matching leaves out of account.
func (c *conflict) narrow() {
	t := c.part()
	_, why, _ := search.New(t, search.Options{Nodes: 1}).Within(search.Unlimited, 1)
	if why == nil || why.Bound == nil {
		return
	}
	before, number := slices.Clone(c.fitted), 0
	for i, fitted := range before {
		if fitted {
			c.fitted[i] = why.Bound.Rows[number] > 0
			number++
		}
	}
	if fits, known := c.fits(); fits || !known {
		c.fitted = before
	}
}
