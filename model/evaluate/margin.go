package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/measure"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// margins gives each coil its margin and finds the governing one, the least over its own least margin.
func (b *bench) margins(v *Valve) {
	several := len(v.Coils) > 1
	for i := range v.Coils {
		c := &v.Coils[i]
		if c.Height.Known && c.Bind.Known {
			c.room = b.roomOf(c)
		}
		if !c.Height.Known || !v.Lift.Known {
			continue
		}
		open := c.Height.Value - v.Lift.Value
		c.Open = known(open, Computed, func() say.Line {
			return is(ofCoil("open", c, several), minus(c.Height.Value, v.Lift.Value), open)
		})
		lift, measured := v.Lift.sum()
		if height, ok := c.Height.sum(); ok && measured {
			c.Open = c.Open.onDemand(b, func() budget.Sum { return less(height, lift) })
		}
		if !c.Bind.Known {
			continue
		}
		m := measure.Margin(c.Height.Value, v.Lift.Value, c.Bind.Value)
		c.Margin = known(m, Computed, func() say.Line {
			return is(ofCoil("margin", c, several), minus(c.Height.Value, v.Lift.Value, c.Bind.Value), m)
		})
		if v.Lift.Mark == Estimate || c.Bind.Mark == Estimate {
			c.Margin.Mark = Estimate
		} else if room, ok := c.room.sum(); ok && measured {
			c.Margin = c.Margin.on(b, less(room, lift))
			if b.doubt.rule != budget.Plain {
				c.Margin = c.Margin.work()
			}
		}
		if c.Least.Known {
			s := m - c.Least.Value
			c.Slack = known(s, Computed, func() say.Line { return is(ofCoil("slack", c, several), minus(m, c.Least.Value), s) }).like(c.Margin)
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
	v.bindLimit, v.bindBy = b.limitByBind(v, at)
	v.limitLift(v.bindLimit, v.bindBy)
	if several {
		v.Margin = v.Margin.also(func() say.Line { return say.New("work.governs", coilName(c.Name)) })
	}
}

// roomOf is what a coil has to bind with the valve closed.
func (b *bench) roomOf(c *Coil) Figure {
	f := Figure{Known: true, Value: c.Height.Value - c.Bind.Value, Mark: Computed}
	if c.Bind.Mark == Estimate {
		f.Mark = Estimate
		return f
	}
	height, ok := c.Height.sum()
	bind, proven := c.Bind.sum()
	if !ok || !proven {
		return f
	}
	return f.on(b, less(height, bind))
}

// limitByBind is the lift limit that coil bind sets, and what sets it: the least over the coils, for each
// is known to another uncertainty. Of equals the governing coil is named.
func (b *bench) limitByBind(v *Valve, coils []int) (limit Figure, by say.Line) {
	for _, at := range coils {
		c := &v.Coils[at]
		one := b.limit(c.room, c.Least.Value, c.Height.Value, c.Bind.Value)
		if !limit.Known || one.Value < limit.Value || one.Value == limit.Value && at == v.Governing {
			limit, by = one, say.New("limit.bind", coilName(c.Name))
		}
	}
	return limit, by
}

// limit is the most lift that a room takes but for the least of it that must be left, and for what is
// kept back: the uncertainty of the room, which has no lift in it. The terms are what the room comes from.
func (b *bench) limit(room Figure, least unit.Length, from unit.Length, off ...any) Figure {
	g := b.guardOf(room)
	exact := measure.LiftLimit(room.Value, least, g.W)
	limit := exact
	if g.W > 0 {
		limit = b.promise(exact)
	}
	f := known(limit, Computed, func() say.Line {
		expr := minus(from, append(off, least)...)
		if g.W == 0 {
			return is(name("lift-limit"), expr, limit)
		}
		return say.New("work.down", name("lift-limit"), say.New("expr.minus", expr, g.W), exact, limit)
	}).like(room)
	if room.Mark == Estimate || g.err != nil || g.Repeat {
		f.Mark = Estimate
	}
	return f
}

// promise rounds a lift down to a thousandth of an inch or a hundredth of a millimetre, so that no more is
// promised on paper than was found.
func (b *bench) promise(lift unit.Length) unit.Length {
	step := unit.Thou
	if b.setup.Units.Length == unit.Mm {
		step = unit.MM / 100
	}
	down := lift / step * step
	if down > lift {
		down -= step
	}
	return down
}

// limitLift keeps the least of the lift limits and what sets it.
func (v *Valve) limitLift(limit Figure, by say.Line) {
	if !v.UpTo.Known || limit.Value < v.UpTo.Value {
		v.UpTo, v.UpToBy = limit, by
	}
}
