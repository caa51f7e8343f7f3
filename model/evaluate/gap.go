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
	b.staleFinding(v, record.SealGap, seal.changed, seal.Mark == Predicted)
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
		v.SealOpen = b.gap(v, gapSpec{"seal", v.Seal, under, b.setup.Rules.SealLeast.Length(), say.New("limit.seal")})
	}

	room := b.predict(b.take(v.At, record.Room, 0), v.At, measure.Move.Gap)
	v.Room = room.Figure
	b.staleFinding(v, record.Room, room.changed, room.Mark == Predicted)
	if !room.Known && f.pack.Nearest != "" {
		v.need(Need{Kind: record.Room, What: "need.room", Name: f.pack.Nearest})
	}
	nearest := say.New("limit.room", say.New("expr.one", f.pack.Nearest))
	if f.pack.Nearest == "" {
		nearest = say.New("limit.retainer")
	}
	v.RoomOpen = b.gap(v, gapSpec{"room", v.Room, 0, b.setup.Rules.RetainerLeast.Length(), nearest})
}

// gapSpec is one gap that closes as the valve opens.
type gapSpec struct {
	key    string // of the finding and of its words
	closed Figure
	under  unit.Length // shims that lift its lower side
	least  unit.Length
	by     say.Line // what sets the lift limit
}

// gap opens a gap to full lift, judges it, and keeps the lift limit it sets.
func (b *bench) gap(v *Valve, g gapSpec) Figure {
	if !g.closed.Known {
		return Figure{}
	}
	limit := measure.LiftLimit(g.closed.Value-g.under, g.least, b.guard())
	v.limitLift(known(limit, Computed, func() say.Line {
		return is(name("lift-limit"), minus(g.closed.Value, g.under, g.least), limit)
	}), g.by)
	if !v.Lift.Known {
		v.judgeUpTo(g.key, limit, g.by)
		return Figure{}
	}
	open := measure.GapOpen(g.closed.Value, g.under, v.Lift.Value)
	f := known(open, Computed, func() say.Line {
		return is(name(g.key+"-open"), minus(g.closed.Value, g.under, v.Lift.Value), open)
	}).after(g.closed)
	if v.Lift.Mark == Estimate {
		f.Mark = Estimate
	}
	this, other := unit.Beside{This: open, Other: g.least}, unit.Beside{This: g.least, Other: open}
	switch {
	case open < g.least:
		v.add(Finding{Key: g.key, Verdict: Short,
			Line:  say.New("finding."+g.key+".short", v.Label, this, other, g.by),
			Short: say.New("short."+g.key, this, other)})
	case !v.liftMeasured():
		v.judgeUpTo(g.key, limit, g.by)
	default:
		v.add(Finding{Key: g.key, Verdict: Within,
			Line:  say.New("finding."+g.key+".within", v.Label, this, other, g.by),
			Short: say.New("short."+g.key+".within", this, other)})
	}
	return f
}
