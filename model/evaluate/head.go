package evaluate

import (
	"slices"

	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// sumUp draws the head together: its worst verdict, its tightest valve, what comes next, and what is
// said of the head as a whole.
func (b *bench) sumUp(ev *Evaluation) {
	ev.Verdict = Within
	limit := -1
	for i := range ev.Valves {
		v := &ev.Valves[i]
		ev.Verdict = min(ev.Verdict, v.Verdict)
		if len(v.Missing) > 0 {
			ev.Missing++
		}
		// A margin on an estimate is counted only where it is bad news: it proves nothing good.
		if s := v.slack(); s.Known && (v.Margin.Mark != Estimate || s.Value < 0) {
			ev.Measured++
			if ev.Tightest < 0 || v.slack().Value < ev.Valves[ev.Tightest].slack().Value {
				ev.Tightest = i
			}
		}
		if v.UpTo.Known && (limit < 0 || v.UpTo.Value < ev.Valves[limit].UpTo.Value) {
			limit = i
		}
	}
	ev.Summary = summary(ev, limit)
	ev.Next = next(ev.Valves)
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		b.spread(ev, role)
		b.seatSpread(ev, role)
		b.boost(ev, role)
		b.openWaits(ev, role)
	}
	b.grooveNotes(ev)
	b.lidBias(ev)
}

// slack of the governing coil, unknown without one.
func (v *Valve) slack() Figure {
	if v.Governing < 0 {
		return Figure{}
	}
	return v.Coils[v.Governing].Slack
}

// found is the verdict of a finding of a valve; Within where there is none.
func (v *Valve) found(key string) Verdict {
	for i := range v.Findings {
		if v.Findings[i].Key == key && !v.Findings[i].Note {
			return v.Findings[i].Verdict
		}
	}
	return Within
}

func summary(ev *Evaluation, limit int) say.Line {
	missing := say.Line{}
	if ev.Missing > 0 {
		missing = say.New("summary.missing", ev.Missing)
	}
	switch {
	case ev.Tightest >= 0:
		v := &ev.Valves[ev.Tightest]
		how, slack := say.New("summary.over", v.slack().Value), v.slack().Value
		switch found := v.found("bind"); {
		case v.Margin.Value <= 0, found == Binds:
			how = say.New("summary.binds")
		case found == Unproven && slack < 0:
			how = say.New("summary.unproven-short", -slack)
		case found == Unproven:
			how = say.New("summary.unproven", slack)
		case slack < 0:
			how = say.New("summary.short", -slack)
		}
		return say.New("summary.tightest", ev.Measured, v.Label, how, missing)
	case limit >= 0:
		v := &ev.Valves[limit]
		return say.New("summary.limit", v.Label, v.UpTo.Value, v.UpToBy, missing)
	}
	return say.New("summary.nothing", len(ev.Valves))
}

// next is the first thing missing, column after column in bench order, so that one setting of a gauge
// serves the whole head.
func next(valves []Valve) *Need {
	var best *Need
	for i := range valves {
		for j := range valves[i].Missing {
			n := &valves[i].Missing[j]
			if best == nil || slices.Index(needOrder, n.What) < slices.Index(needOrder, best.What) {
				best = n
			}
		}
	}
	return best
}

// spread notes a role whose installed heights lie further apart than the shop's rule.
func (b *bench) spread(ev *Evaluation, role record.Role) {
	low, high := -1, -1
	for i := range ev.Valves {
		if v := &ev.Valves[i]; v.Role == role && v.Height.Known {
			if low < 0 || v.Height.Value < ev.Valves[low].Height.Value {
				low = i
			}
			if high < 0 || v.Height.Value > ev.Valves[high].Height.Value {
				high = i
			}
		}
	}
	if low < 0 {
		return
	}
	rule := b.setup.Rules.SetHeights.Length()
	apart := ev.Valves[high].Height.Value - ev.Valves[low].Height.Value
	if apart > 2*rule {
		ev.Findings = append(ev.Findings, Finding{Key: "set-heights", Verdict: Over, Note: true,
			Line: say.New("finding.set-heights", roleName(role), ev.Valves[low].Label, ev.Valves[low].Height.Value,
				ev.Valves[high].Label, ev.Valves[high].Height.Value, apart, rule),
			Short: say.New("short.set-heights", apart)})
	}
}

// boost notes what pressure on the valve heads takes off the seat load.
func (b *bench) boost(ev *Evaluation, role record.Role) {
	p := b.setup.Needs.Boost
	valve := b.parts[b.packages[role].Valve]
	if p == nil || p.Value == 0 || valve == nil || valve.Head == nil {
		return
	}
	loss := measure.BoostLoss(unit.Pressure(p.Value), valve.Head.Length())
	ev.Notes = append(ev.Notes, say.New("note.boost", withUnit(*p), loss, b.loadUnit(), *valve.Head, roleName(role)))
}

// lidBias notes what a lid that was left in would do to a load, for every spring and gauge that the
// set-up reads through one.
func (b *bench) lidBias(ev *Evaluation) {
	for i := range b.rec.Gauges {
		g := &b.rec.Gauges[i]
		for _, t := range g.Setting {
			if t.Part != record.Lid || t.Zero != record.NotZeroed {
				continue
			}
			for _, s := range b.rec.Parts.Springs {
				if s.Rate != nil {
					load := measure.Bias(unit.Rate(s.Rate.Value), t.Amount.Length())
					ev.Notes = append(ev.Notes, say.New("note.lid", g.Name, t.Amount, s.Name, load, b.loadUnit()))
				}
			}
		}
	}
}

func (b *bench) loadUnit() string { return string(b.setup.Units.Load) }

func withUnit(q unit.Quantity) string { return q.Read + " " + string(q.Unit) }

func roleName(r record.Role) say.Line { return say.New("role." + string(r)) }
