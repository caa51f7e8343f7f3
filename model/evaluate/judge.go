package evaluate

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func (v *Valve) add(f Finding) { v.Findings = append(v.Findings, f) }

func (v *Valve) need(n Need) {
	n.At = v.At
	v.Missing = append(v.Missing, n)
}

// judgeBind holds the margin of every coil against its least margin, and names the coil that is worst off.
func (b *bench) judgeBind(v *Valve, f *fitted) {
	if v.Governing < 0 {
		return
	}
	if !v.Margin.Known {
		b.judgeClosed(v)
		return
	}
	c, h := b.worstCoil(v)
	m, least, coil := c.Margin, c.Least.Value, coilName(c.Name)
	this, other := h.printed(m, least), unit.Beside{This: least, Other: m.Value}
	plain := unit.Beside{This: m.Value, Other: least}
	line := func(key string) say.Line { return say.New(key, v.Label, coil, this, other) }
	switch {
	case h.verdict == Binds:
		key := "finding.bind.binds"
		if m.Value > 0 {
			key = "finding.bind.may"
		}
		v.add(Finding{Key: "bind", Verdict: Binds, Line: say.New(key, v.Label, coil, this), Short: say.New("short.bind.binds", this, coil)})
	case h.verdict == Short:
		v.add(Finding{Key: "bind", Verdict: Short, Line: line("finding.bind.short"), Short: say.New("short.bind", plain, other, coil)})
	case !v.liftMeasured():
		v.judgeUpTo("bind", v.bindLimit, v.bindBy)
	case h.why == estimated:
		v.add(Finding{Key: "bind", Verdict: Unproven, Line: h.ending(line("finding.bind.unproven"), m, least),
			Short: say.New("short.bind.unproven", plain, other, coil)})
	case h.verdict == Unproven:
		v.add(Finding{Key: "bind", Verdict: Unproven, Line: h.ending(line("finding.bind.unproven"), m, least),
			Short: say.New("short.bind.within", this, other, coil)})
	default:
		v.add(Finding{Key: "bind", Verdict: Within, Line: line("finding.bind.within"), Short: say.New("short.bind.within", this, other, coil)})
	}
	b.judgeMost(v, f)
}

// judgeClosed says of a valve without a lift whether there is any room for one.
func (b *bench) judgeClosed(v *Valve) {
	worst := &v.Coils[v.Governing]
	for i := range v.Coils {
		if c := &v.Coils[i]; c.room.Known && c.room.Value <= 0 && worst.room.Value > 0 {
			worst = c
		}
	}
	coil, room := coilName(worst.Name), worst.room.Value
	switch {
	case room <= 0:
		v.add(Finding{Key: "bind", Verdict: Binds, Line: say.New("finding.bind.solid-closed", v.Label, coil),
			Short: say.New("short.bind.solid-closed", coil)})
	case room < worst.Least.Value:
		v.add(Finding{Key: "bind", Verdict: Short,
			Line:  say.New("finding.bind.no-lift", v.Label, coil, room, worst.Least.Value),
			Short: say.New("short.bind", room, worst.Least.Value, coil)})
	default:
		v.judgeUpTo("bind", v.bindLimit, v.bindBy)
	}
}

// worstCoil holds every coil against its least margin and returns the one that is worst off, the governing
// one of equals.
func (b *bench) worstCoil(v *Valve) (*Coil, held) {
	worst := &v.Coils[v.Governing]
	h := b.holdCoil(worst)
	for i := range v.Coils {
		c := &v.Coils[i]
		if i == v.Governing || !c.Slack.Known {
			continue
		}
		one := b.holdCoil(c)
		nearer := one.verdict == Unproven && c.Slack.Value-one.guard.W < worst.Slack.Value-h.guard.W
		if one.verdict < h.verdict || one.verdict == h.verdict && nearer {
			worst, h = c, one
		}
	}
	return worst, h
}

func (b *bench) holdCoil(c *Coil) held {
	h := b.hold(c.Margin, c.Least.Value)
	if b.binds(c.Margin, h.guard) {
		h.verdict = Binds
	}
	return h
}

// judgeMost notes that the governing coil keeps more than was asked for, and that nothing can be between
// least and most where they are nearer to each other than what is kept back at both.
func (b *bench) judgeMost(v *Valve, f *fitted) {
	most := f.pack.Most
	if most == nil {
		return
	}
	m, coil, top := v.Margin, coilName(v.Coils[v.Governing].Name), most.Length()
	if m.Value > top {
		this := unit.Beside{This: m.Value, Other: top}
		v.add(Finding{Key: "most", Verdict: Over, Note: true,
			Line:  say.New("finding.most", v.Label, coil, this, unit.Beside{This: top, Other: m.Value}),
			Short: say.New("short.most", this)})
	}
	g := b.guardOf(m)
	if least := v.Least.Value; g.W > 0 && g.Narrow(least, top) {
		v.add(Finding{Key: "window", Verdict: Unproven, Note: true,
			Line:  say.New("finding.window", v.Label, coil, least, top, unit.Up(2*g.W), m.Decides()),
			Short: say.New("short.window", least, top)})
	}
}

// judgeUpTo says how far a valve may be lifted where nobody measured its lift.
func (v *Valve) judgeUpTo(key string, limit Figure, by say.Line) {
	add := func(verdict Verdict, line string) Finding {
		return Finding{Key: key, Verdict: verdict, Line: say.New(line, v.Label, limit.Value, by, v.Lift.Value),
			Short: say.New("short.up-to", limit.Value, by)}
	}
	switch {
	case limit.Value <= 0:
		v.add(Finding{Key: key, Verdict: Short, Line: say.New("finding.no-lift", v.Label, by), Short: say.New("short.no-lift", by)})
		return
	case limit.Mark == Estimate:
		v.add(Finding{Key: key, Verdict: Unproven, Line: say.New("finding.up-to-unproven", v.Label, limit.Value, by),
			Short: say.New("short.up-to", limit.Value, by)})
		return
	case v.Lift.Known && v.Lift.Value > limit.Value:
		v.add(add(Unproven, "finding.up-to-over"))
		return
	}
	f := Finding{Key: key, Verdict: WithinUpTo, Line: say.New("finding.up-to", v.Label, limit.Value, by),
		Short: say.New("short.up-to", limit.Value, by)}
	if v.Lift.Known {
		f = add(WithinUpTo, "finding.up-to-estimate")
	}
	// Of several limits only the least says anything: it is the one that the builder must keep.
	at := slices.IndexFunc(v.Findings, func(f Finding) bool { return f.Verdict == WithinUpTo })
	switch {
	case at < 0:
		v.upTo = limit.Value
		v.add(f)
	case limit.Value < v.upTo:
		v.upTo, v.Findings[at] = limit.Value, f
	}
}

// judgeRatedLift holds the lift against the spring's own rated lift, which is asked for over the
// shop's rule.
func (b *bench) judgeRatedLift(v *Valve, f *fitted) {
	if !v.Lift.Known || f.spring == nil {
		return
	}
	lift, rule := v.Lift.Value, b.setup.Rules.RatedOver.Length()
	rated := f.spring.RatedLift
	if rated == nil {
		if lift > rule {
			v.add(Finding{Key: "rated-lift", Verdict: Unproven,
				Line: say.New("finding.rated-lift.unsaid", v.Label, lift, rule), Short: say.New("short.rated-lift.unsaid", lift)})
		}
		return
	}
	// Held from the other side: what is not more than a limit is not less than it with both signs turned.
	turned := v.Lift
	turned.Value = -lift
	this, other := unit.Beside{This: lift, Other: rated.Length()}, unit.Beside{This: rated.Length(), Other: lift}
	switch h := b.hold(turned, -rated.Length()); {
	case h.verdict == Short:
		v.add(Finding{Key: "rated-lift", Verdict: Over,
			Line: say.New("finding.rated-lift.over", v.Label, this, other), Short: say.New("short.rated-lift", this, other)})
	case h.why == tooNear:
		u := upward(h.guard.budget.Expanded)
		v.add(Finding{Key: "rated-lift", Verdict: Unproven,
			Line:  say.New("finding.rated-lift.near", v.Label, this, unit.Up(u), other, v.Lift.Decides()),
			Short: say.New("short.rated-lift.near", this, other)})
	}
}

// staleFinding says that something under a reading changed after it was taken.
func (b *bench) staleFinding(v *Valve, kind record.Kind, changed []string, predicted bool) {
	if len(changed) == 0 {
		return
	}
	what := make([]say.Line, len(changed))
	for i, key := range changed {
		what[i] = say.New(key)
	}
	key := "finding.stale"
	if predicted {
		key = "finding.stale.predicted"
	}
	v.add(Finding{Key: "stale", Verdict: Stale, Line: say.New(key, v.Label, kindName(kind), what),
		Short: say.New("short.stale", kindName(kind), what)})
}

// bench order of what can be missing.
var needOrder = []string{
	"need.spring", "need.base", "need.seat-depth", "need.retainer-depth", "need.lid", "need.seal", "need.room",
	"need.shims", "need.bind", "need.assembly", "need.retainer-step", "need.locator-step", "need.least",
}

// findingOrder is the order in which findings of the same verdict are named.
var findingOrder = []string{"bind", "seal", "room", "rated-lift", "check", "repeats", "stale", "missing", "most", "window"}

// conclude sorts what was found, worst first and otherwise in the order they are named, and takes
// the worst for the valve's verdict.
func (b *bench) conclude(v *Valve) {
	slices.SortStableFunc(v.Missing, func(a, b Need) int {
		return slices.Index(needOrder, a.What) - slices.Index(needOrder, b.What)
	})
	v.Missing = slices.CompactFunc(v.Missing, func(a, b Need) bool { return a == b })
	if len(v.Missing) > 0 {
		what := make([]say.Line, len(v.Missing))
		for i, n := range v.Missing {
			what[i] = n.Line()
		}
		v.add(Finding{Key: "missing", Verdict: Missing, Line: say.New("finding.missing", v.Label, what),
			Short: say.New("short.missing", what)})
	}
	slices.SortStableFunc(v.Findings, func(x, y Finding) int {
		if x.Note != y.Note {
			return map[bool]int{false: -1, true: 1}[x.Note]
		}
		if x.Verdict != y.Verdict {
			return int(x.Verdict) - int(y.Verdict)
		}
		return slices.Index(findingOrder, x.Key) - slices.Index(findingOrder, y.Key)
	})
	v.Verdict = Missing
	if len(v.Findings) > 0 && !v.Findings[0].Note {
		v.Verdict = v.Findings[0].Verdict
	}
	for i := range v.Findings {
		for j, d := range b.setup.Deviations {
			if d.At == v.At && d.Finding == v.Findings[i].Key {
				v.Findings[i].Accepted = &b.setup.Deviations[j]
			}
		}
	}
}

// Line names what is missing: "base height", "bind of the inner coil".
func (n Need) Line() say.Line {
	switch {
	case n.What == "need.room":
		return say.New(n.What, say.New("expr.one", n.Name))
	case n.Coil > 0:
		return say.New(n.What, coilName(n.Name))
	}
	return say.New(n.What)
}
