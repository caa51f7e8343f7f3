package plan

import (
	"reflect"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// words says what cannot be kept together.
func (c *conflict) words() []say.Line {
	lines := c.limitLines()
	if l := c.springsShort(); !l.Zero() {
		lines = slices.Insert(lines, 0, l)
	}
	for k, scarce := range c.scarce {
		if scarce {
			lines = append(lines, say.New("plan.limit.stock", c.p.Shims[k].Thick, c.p.Shims[k].Count))
		}
	}
	key := "plan.reason"
	switch {
	case c.unknown:
		key = "plan.reason-loose"
	case len(lines) == 1:
		key = "plan.reason-one"
	}
	shims := say.New("plan.shims", c.p.Most.Shims)
	if c.p.Most.Shims == 1 {
		shims = say.New("plan.one-shim")
	}
	return slices.Insert(lines, 0, say.New(key, shims))
}

// saying is what is said of one valve, or of several in the same words.
type saying struct {
	key    string
	rest   []any // the arguments behind the names
	valves []say.Line
}

// gather adds a valve to the saying with these words, or a saying of its own.
func gather(all []saying, valve, key string, rest ...any) []saying {
	name := say.New("plan.name", valve)
	for i := range all {
		if all[i].key == key && reflect.DeepEqual(all[i].rest, rest) {
			all[i].valves = append(all[i].valves, name)
			return all
		}
	}
	return append(all, saying{key, rest, []say.Line{name}})
}

func (s saying) line() say.Line { return say.New(s.key, append([]any{s.valves}, s.rest...)...) }

// limitLines says which limits of which valves count.
func (c *conflict) limitLines() (lines []say.Line) {
	var all []saying
	for i, fitted := range c.fitted {
		if !fitted {
			continue
		}
		name, before := c.p.Valves[i].Name, len(all)
		some := false
		for at := len(limits) - 1; at >= 0; at-- {
			if c.kept(i, limits[at]) {
				all, some = c.limit(all, i, limits[at]), true
			}
		}
		switch {
		case some || len(all) > before:
		case !c.any(i):
			all = gather(all, name, "plan.limit.none")
		case slices.Contains(c.scarce, true):
			all = gather(all, name, "plan.limit.fitted")
		}
	}
	for _, s := range all {
		lines = append(lines, s.line())
	}
	return lines
}

// kept reports whether a limit of a valve counts.
func (c *conflict) kept(valve int, l limit) bool { return c.gone[valve]&l == 0 }

// any reports whether there is any place for a spring on a valve at all.
func (c *conflict) any(valve int) bool {
	return slices.ContainsFunc(c.ways, func(w way) bool { return int(w.Valve) == valve })
}

// springsShort says that several valves have fewer springs between them than they are.
func (c *conflict) springsShort() say.Line {
	var valves, springs []say.Line
	for i, fitted := range c.fitted {
		if fitted {
			valves = append(valves, say.New("plan.name", c.p.Valves[i].Name))
		}
	}
	has := make([]bool, len(c.p.Springs))
	for _, w := range c.ways {
		if c.fitted[w.Valve] && w.broken&^c.gone[w.Valve] == 0 {
			has[w.Spring] = true
		}
	}
	for j, h := range has {
		if h {
			springs = append(springs, say.New("plan.name", c.p.Springs[j].Name))
		}
	}
	switch {
	case len(valves) < 2 || len(springs) >= len(valves) || c.fixed != nil:
		return say.Line{}
	case len(valves) == len(c.p.Valves) && len(springs) == len(c.p.Springs):
		return say.New("plan.limit.few-springs", len(valves), len(springs))
	}
	return say.New("plan.limit.springs", len(valves), valves, len(springs), springs)
}

// limit says one limit of a valve in numbers: what is asked for and, where that is out of reach by
// itself, the best there is.
func (c *conflict) limit(all []saying, i int, l limit) []saying {
	v := &c.p.Valves[i]
	if l == thickness {
		return gather(all, v.Name, "plan.limit.thickness", c.p.Most.Total)
	}
	at, f, ok := c.nearest(i, l)
	if !ok {
		return all
	}
	with := say.New("plan.with", c.p.Springs[at.Spring].Name, at.Drop)
	if at.Shims == 0 {
		with = say.New("plan.with-none", c.p.Springs[at.Spring].Name)
	}
	coil := f.Coil
	if coil.Zero() {
		coil = say.New("plan.coil")
	}
	slack, _ := c.p.slack(l, v, f)
	one := func(key, short string, asked say.Line, best any, before ...any) []saying {
		args := append(before, asked)
		if slack >= 0 {
			return gather(all, v.Name, key, args...)
		}
		return gather(all, v.Name, short, append(args, best, with)...)
	}
	switch l {
	case leastMargin:
		return one("plan.limit.margin", "plan.limit.margin-short", asked(f.Least, f.Guard, Unsure), unit.Beside{This: f.Margin, Other: f.Least + f.Guard}, coil)
	case mostMargin:
		return one("plan.limit.most-margin", "plan.limit.most-margin-over", asked(f.Most.Value, f.Guard, Unsure),
			unit.Beside{This: f.Margin, Other: f.Most.Value - f.Guard}, coil)
	case leastSeat:
		return one("plan.limit.seat-least", "plan.limit.seat-least-short", asked(v.Seat.Least.Value, f.SeatGuard, UnsureLoad), f.Seat)
	case mostSeat:
		return one("plan.limit.seat-most", "plan.limit.seat-most-over", asked(v.Seat.Most.Value, f.SeatGuard, UnsureLoad), f.Seat)
	case leastOpen:
		return one("plan.limit.open-least", "plan.limit.open-least-short", asked(v.Open.Least.Value, f.OpenGuard, UnsureLoad), f.Open)
	}
	return one("plan.limit.open-most", "plan.limit.open-most-over", asked(v.Open.Most.Value, f.OpenGuard, UnsureLoad), max(f.Open, f.Greatest))
}

// asked is a limit with its guard, where there is one; from unsure on it means nothing.
func asked[T unit.Length | unit.Load](limit, guard, unsure T) say.Line {
	switch {
	case guard == 0:
		return say.New("plan.asked", limit)
	case guard >= unsure:
		return say.New("plan.asked-unsure", limit)
	}
	return say.New("plan.asked-guarded", limit, guard)
}

// nearest finds the place of a valve that keeps a limit best, all other limits left aside but the
// number and the thickness of shims.
func (c *conflict) nearest(i int, l limit) (best Place, fit Fit, found bool) {
	most := int64(0)
	for j := range c.p.Springs {
		if c.fixed != nil && c.fixed[i] != j {
			continue
		}
		for _, s := range c.stacks {
			if s.Total > c.p.Most.Total {
				continue
			}
			at := Place{i, j, s.Shims, s.Total}
			f := c.p.Fit(at)
			if f.None {
				continue
			}
			if slack, asked := c.p.slack(l, &c.p.Valves[i], f); asked && (!found || slack > most) {
				best, fit, found, most = at, f, true, slack
			}
		}
	}
	return best, fit, found
}
