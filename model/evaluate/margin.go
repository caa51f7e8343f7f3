package evaluate

import (
	"keeperbook/model/measure"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// margins gives each coil its margin and finds the governing one, the least over its own least margin.
func (b *bench) margins(v *Valve) {
	several := len(v.Coils) > 1
	for i := range v.Coils {
		c := &v.Coils[i]
		if !c.Height.Known || !v.Lift.Known {
			continue
		}
		open := c.Height.Value - v.Lift.Value
		c.Open = known(open, Computed, func() say.Line {
			return is(ofCoil("open", c, several), minus(c.Height.Value, v.Lift.Value), open)
		})
		if !c.Bind.Known {
			continue
		}
		m := measure.Margin(c.Height.Value, v.Lift.Value, c.Bind.Value)
		c.Margin = known(m, Computed, func() say.Line {
			return is(ofCoil("margin", c, several), minus(c.Height.Value, v.Lift.Value, c.Bind.Value), m)
		})
		if v.Lift.Mark == Estimate || c.Bind.Mark == Estimate {
			c.Margin.Mark = Estimate
		}
		if c.Least.Known {
			s := m - c.Least.Value
			c.Slack = known(s, Computed, func() say.Line { return is(ofCoil("slack", c, several), minus(m, c.Least.Value), s) })
		}
	}
	b.govern(v, several)
}

// govern names the governing coil and lifts its figures to the valve. Without a lift the coils are
// told apart by their room above bind, which a lift takes from all of them alike.
func (b *bench) govern(v *Valve, several bool) {
	var at []int
	var room, least []unit.Length
	for i := range v.Coils {
		c := &v.Coils[i]
		if c.Height.Known && c.Bind.Known && c.Least.Known {
			at = append(at, i)
			room = append(room, c.Height.Value-c.Bind.Value)
			least = append(least, c.Least.Value)
		}
	}
	g := measure.Governing(room, least)
	if g < 0 {
		return
	}
	v.Governing = at[g]
	c := &v.Coils[v.Governing]
	v.Open, v.Bind, v.Margin, v.Least = c.Open, c.Bind, c.Margin, c.Least
	limit := measure.LiftLimit(room[g], least[g], b.guard())
	v.limitLift(known(limit, Computed, func() say.Line {
		return is(name("lift-limit"), minus(c.Height.Value, c.Bind.Value, c.Least.Value), limit)
	}), say.New("limit.bind", coilName(c.Name)))
	if several {
		v.Margin = v.Margin.also(func() say.Line { return say.New("work.governs", coilName(c.Name)) })
	}
}

// limitLift keeps the least of the lift limits and what sets it.
func (v *Valve) limitLift(limit Figure, by say.Line) {
	if !v.UpTo.Known || limit.Value < v.UpTo.Value {
		v.UpTo, v.UpToBy = limit, by
	}
}

// guard is what a decision keeps back from a limit for the uncertainty of the numbers: nought under
// plain comparison, the one rule that a record of this format can name.
func (b *bench) guard() unit.Length { return 0 }
