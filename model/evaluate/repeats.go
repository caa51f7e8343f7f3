package evaluate

import (
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// apart is a thing whose repeats lie further apart than the scatter of their gauge explains in 99 of 100
// cases. It asks for another reading; nothing is dropped by itself.
type apart struct {
	kind   record.Kind
	coil   int
	values []unit.Length
	on     say.Line // the gauge
}

// repeatsApart looks through the readings of one thing, gauge by gauge.
func (b *bench) repeatsApart(readings []*record.Reading) []apart {
	if len(readings) < 2 {
		return nil
	}
	var found []apart
	for i, r := range readings {
		on := b.instrument(r.Gauge, usualGauge[r.Kind])
		if on.pool == nil || b.readBefore(readings[:i], on) {
			continue
		}
		values := b.valuesOn(readings[i:], on)
		if budget.Disagree(on.gauge.Step, *on.pool, values...) {
			found = append(found, apart{r.Kind, r.Coil, values, on.gauge.Name})
		}
	}
	return found
}

// apartFinding asks for another reading where repeats do not agree. Until somebody settles it nothing that
// rests on them is within, unless the set-up compares numbers as they stand.
func (b *bench) apartFinding(v *Valve, all []apart) {
	for _, a := range all {
		values := make([]say.Line, len(a.values))
		low, high := a.values[0], a.values[0]
		for i, x := range a.values {
			values[i] = say.New("expr.one", x)
			low, high = min(low, x), max(high, x)
		}
		v.add(Finding{Key: "repeats", Verdict: Unproven, Note: b.doubt.rule == budget.Plain,
			Line:  say.New("finding.repeats", v.Label, KindName(a.kind), values, high-low, a.on),
			Short: say.New("short.repeats", KindName(a.kind), high-low)})
	}
}

// loadsApart asks for another reading where seat loads that were read on one tester at one height do not agree. Each
// is as the tester showed it: what its weights take off is off all of them alike.
func (b *bench) loadsApart(v *Valve, readings []*record.Reading) {
	seen := map[*scale]bool{}
	for _, r := range readings {
		s := b.scaleOf(r.Gauge)
		if s.pool == nil || seen[s] {
			continue
		}
		seen[s] = true
		var shown []unit.Load
		for _, other := range readings {
			if b.scaleOf(other.Gauge) == s {
				shown = append(shown, unit.Load(other.Quantity.Value))
			}
		}
		if !budget.Disagree(s.gauge.Step, *s.pool, shown...) {
			continue
		}
		values := make([]say.Line, len(shown))
		for i, x := range shown {
			values[i] = say.New("expr.one", x)
		}
		apart, what := slices.Max(shown)-slices.Min(shown), KindName(record.SeatLoad)
		v.add(Finding{Key: "repeats", Verdict: Unproven, Note: b.doubt.rule == budget.Plain,
			Line:  say.New("finding.repeats", v.Label, what, values, apart, s.gauge.Name),
			Short: say.New("short.repeats", what, apart)})
	}
}
