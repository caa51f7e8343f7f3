package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// heights fills base height, shims, installed height, check height and the height in force.
func (b *bench) heights(v *Valve, f *fitted) {
	base := b.base(v.At, f)
	v.Base = base.Figure
	b.apartFinding(v, base.apart)
	b.staleTaken(v, record.BaseHeight, base)

	v.Stack = f.Stack
	v.StackSaid = f.Valve.StackSaid()
	all, _ := stackHeights(f.Stack)
	if v.StackSaid {
		v.Shims = known(all, "", func() say.Line {
			if len(f.Stack) > 1 {
				return is(name("shims"), stackLine(f.Stack), all)
			}
			return say.New("work.plain", name("shims"), stackLine(f.Stack))
		}).onDemand(b, func() budget.Sum { return f.shimTerms(budget.Sum{}, 1, anyShim) })
	}
	if base.Known && v.StackSaid {
		h := measure.CoilHeight(base.Value, all, 0, 0)
		v.Installed = known(h, Computed, func() say.Line {
			return is(name("installed"), minus(base.Value, stackTerms(f.Stack)...), h)
		})
		if sum, ok := base.sum(); ok {
			v.Installed = v.Installed.on(b, f.shimTerms(less(sum, nil), -1, anyShim))
		}
	}

	check := b.take(v.At, record.CheckHeight, 0)
	v.Check = check.Figure
	b.apartFinding(v, check.apart)
	b.staleTaken(v, record.CheckHeight, check)
	v.Height = v.Installed
	switch {
	case !check.Known || check.Stale:
	case !v.Installed.Known:
		v.Height = known(check.Value, "", func() say.Line { return say.New("work.check-alone", check.Value) }).like(check.Figure)
	default:
		b.holdCheck(v, check)
	}
}

// holdCheck lets the check height replace the computed one where the two agree within the rule.
func (b *bench) holdCheck(v *Valve, check taken) {
	rule := b.setup.Rules.Agree.Length()
	h := v.Installed.Value
	if measure.Agrees(check.Value, h, rule) {
		v.Height = known(check.Value, "", func() say.Line {
			return say.New("work.check-agrees", check.Value, h, rule)
		}).after(v.Installed).like(check.Figure)
		v.add(Finding{Key: "check", Verdict: Within,
			Line:  say.New("finding.check.within", v.Label, check.Value, h, rule),
			Short: say.New("short.check.within", check.Value, h)})
		return
	}
	v.add(Finding{Key: "check", Verdict: Disagrees,
		Line:  say.New("finding.check.disagrees", v.Label, unit.Beside{This: check.Value, Other: h}, unit.Beside{This: h, Other: check.Value}, distance(check.Value, h), rule),
		Short: say.New("short.check.disagrees", unit.Beside{This: check.Value, Other: h}, unit.Beside{This: h, Other: check.Value})}.
		by(distance(check.Value, h) - rule))
}

func distance(a, b unit.Length) unit.Length {
	if a < b {
		return b - a
	}
	return a - b
}

// base is the base height as measured, or by difference where no gauge fits.
func (b *bench) base(at record.Position, f *fitted) taken {
	if t := b.take(at, record.BaseHeight, 0); t.Known {
		return b.predict(t, at, measure.Move.Base)
	}
	seat, top := b.take(at, record.SeatDepth, 0), b.take(at, record.RetainerDepth, 0)
	if !seat.Known || !top.Known {
		return taken{}
	}
	// The lid is in the depth to the retainer's top already where the reading says so.
	lid, lidKnown := unit.Length(0), hasPart(top.last.Correction, record.Lid)
	if !lidKnown && f.retainer != nil && f.retainer.Lid != nil {
		lid, lidKnown = f.retainer.Lid.Length(), true
	}
	if !lidKnown {
		return taken{}
	}
	h := measure.BaseByDifference(seat.Value, top.Value, lid, 0)
	t := taken{
		Figure: known(h, Computed, func() say.Line {
			return is(name("base-by-difference"), minus(seat.Value, top.Value, lid), h)
		}).after(seat.Figure, top.Figure),
		changed: append(seat.changed, top.changed...), last: top.last, apart: append(seat.apart, top.apart...),
	}
	for _, part := range []taken{seat, top} {
		if len(part.changed) > 0 {
			t.from = first(t.from, part.from)
		}
	}
	t.Figure = t.on(b, b.differenceSum(seat, top, f, lid))
	t.Stale = len(t.changed) > 0
	return b.predict(t, at, measure.Move.Base)
}

// differenceSum writes a base height by difference on its inputs. A lid that the depth to the retainer's
// top was read through is in that depth already.
func (b *bench) differenceSum(seat, top taken, f *fitted, lid unit.Length) budget.Sum {
	down, _ := seat.sum()
	up, _ := top.sum()
	sum := less(down, up)
	if lid != 0 {
		sum = b.lidTerm(sum, -1, f.retainer)
	}
	return sum
}

func hasPart(parts []record.Taken, p record.PartOfStack) bool {
	for _, t := range parts {
		if t.Part == p {
			return true
		}
	}
	return false
}

// stackHeights returns what a stack takes from the outer coil and what it takes from an inner one.
func stackHeights(stack []record.Shim) (all, inner unit.Length) {
	for _, s := range stack {
		all += s.Thickness.Length()
		if s.Under == record.UnderLocator {
			inner += s.Thickness.Length()
		}
	}
	return all, inner
}

func stackTerms(stack []record.Shim) []any {
	terms := make([]any, len(stack))
	for i, s := range stack {
		terms[i] = s.Thickness
	}
	return terms
}

// stackLine writes a stack as it is typed: ".030 + .015", "none", ".030 under the outer coil only".
func stackLine(stack []record.Shim) say.Line {
	if len(stack) == 0 {
		return say.New("stack.none")
	}
	line := say.Line{}
	for _, s := range stack {
		one := say.New("expr.one", s.Thickness)
		if s.Under == record.UnderOuter {
			one = say.New("stack.outer-only", s.Thickness)
		}
		if line.Zero() {
			line = one
		} else {
			line = say.New("expr.plus", line, one)
		}
	}
	return line
}
