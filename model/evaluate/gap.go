package evaluate

import (
	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// gaps fills what the retainer keeps from the seal and from whatever else it comes closest to, closed
// and at full lift.
func (b *bench) gaps(v *Valve, f *fitted) {
	seal := b.predict(b.take(v.At, record.SealGap, 0), v.At, measure.Move.Gap)
	v.Seal = seal.Figure
	b.apartFinding(v, seal.apart)
	b.staleTaken(v, record.SealGap, seal)
	if !seal.Known && f.seal != nil {
		v.need(Need{Kind: record.SealGap, What: "need.seal"})
	}
	// A seal that is one piece with the locator rises with the shims under it.
	under, stackKnown := unit.Length(0), true
	if f.seal != nil && f.seal.Sits == record.OnLocator {
		_, under = stackHeights(f.Stack)
		stackKnown = v.StackSaid
	}
	if stackKnown {
		v.SealOpen = b.gap(v, gapSpec{"seal", v.Seal, under, b.setup.Rules.SealLeast.Length(), say.New("limit.seal"), f})
	}

	room := b.predict(b.take(v.At, record.Room, 0), v.At, measure.Move.Gap)
	v.Room = room.Figure
	b.apartFinding(v, room.apart)
	b.staleTaken(v, record.Room, room)
	if !room.Known && f.pack.Nearest != "" {
		v.need(Need{Kind: record.Room, What: "need.room", Name: f.pack.Nearest})
	}
	nearest := say.New("limit.room", say.New("expr.one", f.pack.Nearest))
	if f.pack.Nearest == "" {
		nearest = say.New("limit.retainer")
	}
	v.RoomOpen = b.gap(v, gapSpec{"room", v.Room, 0, b.setup.Rules.RetainerLeast.Length(), nearest, f})
}

// gapSpec is one gap that closes as the valve opens.
type gapSpec struct {
	key    string // of the finding and of its words
	closed Figure
	under  unit.Length // shims that lift its lower side
	least  unit.Length
	by     say.Line // what sets the lift limit
	fitted *fitted
}

// room is the gap with the valve closed, over the shims.
func (b *bench) gapRoom(g gapSpec) Figure {
	f := Figure{Known: true, Value: g.closed.Value - g.under, Mark: g.closed.Mark, Stale: g.closed.Stale}
	sum, ok := g.closed.sum()
	switch {
	case !ok:
		return f
	case g.under != 0:
		sum = g.fitted.shimTerms(less(sum, nil), -1, underLocator)
	}
	return f.on(b, sum)
}

// gap opens a gap to full lift, judges it, and keeps the lift limit it sets.
func (b *bench) gap(v *Valve, g gapSpec) Figure {
	if !g.closed.Known {
		return Figure{}
	}
	room := b.gapRoom(g)
	limit := b.limit(room, g.least, g.closed.Value, g.under)
	v.limitLift(limit, g.by)
	if !v.Lift.Known {
		v.judgeUpTo(g.key, limit, g.by)
		return Figure{}
	}
	open := measure.GapOpen(g.closed.Value, g.under, v.Lift.Value)
	f := known(open, Computed, func() say.Line {
		return is(name(g.key+"-open"), minus(g.closed.Value, g.under, v.Lift.Value), open)
	}).after(g.closed)
	lift, measured := v.Lift.sum()
	if v.Lift.Mark == Estimate {
		f.Mark = Estimate
	} else if sum, ok := room.sum(); ok && measured {
		f = f.on(b, less(sum, lift))
	}
	b.judgeGap(v, g, f, limit)
	return f
}

// judgeGap holds a gap at full lift against the least it must keep.
func (b *bench) judgeGap(v *Valve, g gapSpec, f, limit Figure) {
	h := b.hold(f, g.least)
	this, other := h.printed(f, g.least), unit.Beside{This: g.least, Other: f.Value}
	switch {
	case h.verdict == Short:
		v.add(Finding{Key: g.key, Verdict: Short,
			Line:  say.New("finding."+g.key+".short", v.Label, this, other, g.by),
			Short: say.New("short."+g.key, unit.Beside{This: f.Value, Other: g.least}, other)}.by(g.least - f.Value))
	case !v.liftMeasured():
		v.judgeUpTo(g.key, limit, g.by)
	case h.verdict == Unproven:
		v.add(Finding{Key: g.key, Verdict: Unproven,
			Line:  h.ending(say.New("finding."+g.key+".unproven", v.Label, this, other, g.by), f, g.least),
			Short: say.New("short."+g.key+".within", this, other)}.by(g.least - f.Value))
	default:
		v.add(Finding{Key: g.key, Verdict: Within,
			Line:  say.New("finding."+g.key+".within", v.Label, this, other, g.by),
			Short: say.New("short."+g.key+".within", this, other)})
	}
}
