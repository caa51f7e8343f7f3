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
			Line: say.New("finding.rated-lift.over", v.Label, this, other), Short: say.New("short.rated-lift", this, other)}.by(lift - rated.Length()))
	case h.why == tooNear:
		u := upward(h.guard.budget.Expanded)
		v.add(Finding{Key: "rated-lift", Verdict: Unproven,
			Line:  say.New("finding.rated-lift.near", v.Label, this, unit.Up(u), other, v.Lift.Decides()),
			Short: say.New("short.rated-lift.near", this, other)}.by(lift - rated.Length()))
	}
}

// staleFinding says that something under a reading changed after it was taken.
func (b *bench) staleFinding(v *Valve, kind record.Kind, changed []string, predicted bool) {
	if len(changed) == 0 {
		return
	}
	key := "finding.stale"
	if predicted {
		key = "finding.stale.predicted"
	}
	what := changedNames(changed)
	v.add(Finding{Key: "stale", Verdict: Stale, Line: say.New(key, v.Label, KindName(kind), what),
		Short: say.New("short.stale", KindName(kind), what)})
}

// staleTaken is staleFinding of a figure. What was borrowed need not have changed: it was measured on another valve, over
// what is not the same on this one.
func (b *bench) staleTaken(v *Valve, kind record.Kind, t taken) {
	if t.from == "" {
		b.staleFinding(v, kind, t.changed, t.Mark == Predicted)
		return
	}
	if len(t.changed) == 0 {
		return
	}
	key := "finding.stale.borrowed"
	if t.Mark == Predicted {
		key = "finding.stale.borrowed.predicted"
	}
	what := changedNames(t.changed)
	v.add(Finding{Key: "stale", Verdict: Stale, Line: say.New(key, v.Label, KindName(kind), t.from, what),
		Short: say.New("short.stale.borrowed", KindName(kind), t.from, what)})
}

func changedNames(keys []string) []say.Line {
	names := make([]say.Line, len(keys))
	for i, key := range keys {
		names[i] = say.New(key)
	}
	return names
}

// bench order of what can be missing.
var needOrder = []string{
	"need.spring", "need.base", "need.seat-depth", "need.retainer-depth", "need.lid", "need.seal", "need.room",
	"need.shims", "need.bind", "need.assembly", "need.retainer-step", "need.locator-step", "need.least",
}

// findingOrder is the order in which findings of the same verdict are named.
var findingOrder = []string{
	"bind", "seat-load", "open-load", "lifter-load", "cam-load", "seal", "room",
	"fit-boss", "fit-pocket", "fit-cup", "fit-neighbour", "fit-locator", "fit-retainer", "fit-coils", "fit-seal", "fit-angle", "fit-stem",
	"fit-groove", "fit-titanium", "fit-aluminium", "fit-angle-unmet", "fit-offset-unmet", "fit-boss-unmet", "rated-lift", "check", "repeats", "stale", "missing",
	"most", "window",
}

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
			if d.At == v.At && d.Finding == v.Findings[i].Key && v.Findings[i].Covered(d, Words(b.setup.Units)) {
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
