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

// judgeBind holds the governing coil's margin against its least margin.
func (b *bench) judgeBind(v *Valve, f *fitted) {
	if v.Governing < 0 {
		return
	}
	c := &v.Coils[v.Governing]
	coil := coilName(c.Name)
	room := c.Height.Value - c.Bind.Value
	if !v.Margin.Known {
		switch {
		case room <= 0:
			v.add(Finding{Key: "bind", Verdict: Binds, Line: say.New("finding.bind.solid-closed", v.Label, coil),
				Short: say.New("short.bind.solid-closed", coil)})
		case room < c.Least.Value:
			v.add(Finding{Key: "bind", Verdict: Short,
				Line:  say.New("finding.bind.no-lift", v.Label, coil, room, c.Least.Value),
				Short: say.New("short.bind", room, c.Least.Value, coil)})
		default:
			v.judgeUpTo("bind", room-c.Least.Value-b.guard(), say.New("limit.bind", coil))
		}
		return
	}
	m, least := v.Margin.Value, c.Least.Value
	this, other := unit.Beside{This: m, Other: least}, unit.Beside{This: least, Other: m}
	line := func(key string) say.Line { return say.New(key, v.Label, coil, this, other) }
	short := say.New("short.bind", this, other, coil)
	switch {
	case m <= 0:
		v.add(Finding{Key: "bind", Verdict: Binds, Line: line("finding.bind.binds"), Short: say.New("short.bind.binds", this, coil)})
	case m < least+b.guard():
		v.add(Finding{Key: "bind", Verdict: Short, Line: line("finding.bind.short"), Short: short})
	case !v.liftMeasured():
		v.judgeUpTo("bind", room-least-b.guard(), say.New("limit.bind", coil))
	case v.estimatedBind():
		v.add(Finding{Key: "bind", Verdict: Unproven, Line: line("finding.bind.unproven"), Short: say.New("short.bind.unproven", this, other, coil)})
	default:
		v.add(Finding{Key: "bind", Verdict: Within, Line: line("finding.bind.within"), Short: say.New("short.bind.within", this, other, coil)})
	}
	if most := f.pack.Most; most != nil && m > most.Length() {
		v.add(Finding{Key: "most", Verdict: Over, Note: true,
			Line:  say.New("finding.most", v.Label, coil, unit.Beside{This: m, Other: most.Length()}, unit.Beside{This: most.Length(), Other: m}),
			Short: say.New("short.most", this)})
	}
}

// estimatedBind reports whether the bind of any coil is an estimate: none of them may then be called
// within, since the one that is not known may be the one that governs.
func (v *Valve) estimatedBind() bool {
	return slices.ContainsFunc(v.Coils, func(c Coil) bool { return c.Bind.Known && !c.Proven })
}

// judgeUpTo says how far a valve may be lifted where nobody measured its lift.
func (v *Valve) judgeUpTo(key string, limit unit.Length, by say.Line) {
	if limit <= 0 {
		v.add(Finding{Key: key, Verdict: Short, Line: say.New("finding.no-lift", v.Label, by), Short: say.New("short.no-lift", by)})
		return
	}
	line := "finding.up-to"
	if v.Lift.Known {
		line = "finding.up-to-estimate"
	}
	f := Finding{Key: key, Verdict: WithinUpTo, Line: say.New(line, v.Label, limit, by, v.Lift.Value),
		Short: say.New("short.up-to", limit, by)}
	// Of several limits only the least says anything: it is the one that the builder must keep.
	at := slices.IndexFunc(v.Findings, func(f Finding) bool { return f.Verdict == WithinUpTo })
	switch {
	case at < 0:
		v.upTo = limit
		v.add(f)
	case limit < v.upTo:
		v.upTo, v.Findings[at] = limit, f
	}
}

// judgeRatedLift holds the lift against the spring's own rated lift, which is asked for over the
// shop's rule.
func (b *bench) judgeRatedLift(v *Valve, f *fitted) {
	if !v.Lift.Known || f.spring == nil {
		return
	}
	lift, rule := v.Lift.Value, b.setup.Rules.RatedOver.Length()
	switch rated := f.spring.RatedLift; {
	case rated != nil && lift > rated.Length():
		this, other := unit.Beside{This: lift, Other: rated.Length()}, unit.Beside{This: rated.Length(), Other: lift}
		v.add(Finding{Key: "rated-lift", Verdict: Over,
			Line: say.New("finding.rated-lift.over", v.Label, this, other), Short: say.New("short.rated-lift", this, other)})
	case rated == nil && lift > rule:
		v.add(Finding{Key: "rated-lift", Verdict: Unproven,
			Line: say.New("finding.rated-lift.unsaid", v.Label, lift, rule), Short: say.New("short.rated-lift.unsaid", lift)})
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
var findingOrder = []string{"bind", "seal", "room", "rated-lift", "check", "stale", "missing", "most"}

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
