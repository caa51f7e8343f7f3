package evaluate

import (
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// about is what a budget says of an input beside its numbers.
type about struct {
	from     string // label of the valve that it was taken from for the whole role
	spread   bool   // what the valves of the role differ by is known and counted
	differ   bool   // it is what valves of the role differ by
	supplied bool   // nobody here measured it
	typeOnly bool   // found on some spring of the type, and nobody said how far springs differ
	sold     bool   // shims that nobody measured
}

// note keeps what a budget says of an input beside its numbers.
func (b *bench) note(x *budget.Input, a about) {
	if a != (about{}) && !b.trying {
		b.doubt.about[x] = a
	}
}

// kindNames are the names of what readings are of, made once: thousands of inputs carry them.
var kindNames = func() map[record.Kind]say.Line {
	all := map[record.Kind]say.Line{}
	for _, k := range record.Kinds {
		all[k] = KindName(k)
	}
	return all
}()

// readingsSum writes the mean of readings on its inputs: one for each gauge they were read on, and the
// parts that were taken off. Every part of a reading counts as often as the reading does in the mean.
func (b *bench) readingsSum(readings []*record.Reading, at record.Position) budget.Sum {
	kind, n := readings[0].Kind, float64(len(readings))
	sum := make(budget.Sum, 0, 1+len(readings[0].Correction))
	for i, r := range readings {
		on := b.instrument(r.Gauge, usualGauge[kind])
		if !b.readBefore(readings[:i], on) {
			sum = append(sum, b.onGauge(readings[i:], on, n))
		}
		for _, p := range r.Correction {
			c := -1 / n
			if reversed(kind, p.Part) {
				c = -c
			}
			sum = b.partTerm(sum, c, p, source{r.Gauge, kind, b.endsAt(at, r.Over)})
		}
	}
	return sum
}

// readBefore reports whether one of the readings was taken on a gauge: its term has been made with that one.
func (b *bench) readBefore(readings []*record.Reading, on *instrument) bool {
	for _, r := range readings {
		if b.instrument(r.Gauge, usualGauge[r.Kind]) == on {
			return true
		}
	}
	return false
}

// onGauge is the term of those readings that were read on one gauge, of n altogether. Their own repeats
// join what is known of the gauge; the step counts once, for the mean of readings that all rounded the
// same way is no finer than one of them.
func (b *bench) onGauge(readings []*record.Reading, on *instrument, n float64) budget.Term {
	kind := readings[0].Kind
	x := &budget.Input{Name: kindNames[kind], Gauge: on.gauge, Pool: on.pool, N: 1}
	if len(readings) > 1 {
		values := b.valuesOn(readings, on)
		x.N, x.Own = len(values), budget.ScatterOf(values...)
	}
	return budget.Term{C: float64(x.N) / n, X: x}
}

// valuesOn are the corrected readings that were taken on one gauge.
func (b *bench) valuesOn(readings []*record.Reading, on *instrument) []unit.Length {
	values := make([]unit.Length, 0, len(readings))
	for _, r := range readings {
		if b.instrument(r.Gauge, usualGauge[r.Kind]) == on {
			values = append(values, corrected(r.Kind, r.Quantity, r.Correction))
		}
	}
	return values
}

// endsAt are the parts at both ends of a spring when it was read, those that are fitted now where
// nobody wrote it down.
func (b *bench) endsAt(at record.Position, over *record.Over) fittedEnds {
	if over == nil || over.Retainer == "" && over.Locator == "" {
		now := b.overNow(at)
		over = &now
	}
	return fittedEnds{b.retainer[over.Retainer], b.locators[over.Locator]}
}

// fittedEnds are the parts that a spring stands between.
type fittedEnds struct {
	retainer *record.Retainer
	locator  *record.Locator
}

// source is where a part of a stack was met: in a reading of a kind on a gauge, between two ends.
type source struct {
	gauge string
	kind  record.Kind
	ends  fittedEnds
}

// partKey tells parts of stacks apart. A part is the same where it belongs to the same retainer or
// locator, or to the setting of the same gauge, is of the same thickness, and was measured by the
// same gauge. Anything else gets no credit for cancelling.
type partKey struct {
	part  record.PartOfStack
	value int64
	by    string // id of what measured it
	owner string // id of the retainer, locator or gauge
	kind  record.Kind
}

// partTerm adds what is known of a part in a reading. A part the gauge was zeroed on is in no reading, and
// one of no thickness was not measured.
func (b *bench) partTerm(sum budget.Sum, c float64, p record.Taken, s source) budget.Sum {
	if p.Zero == record.Zeroed || p.Amount.Value == 0 {
		return sum
	}
	key := partKey{part: p.Part, value: p.Amount.Value, by: p.Gauge, owner: s.gauge}
	switch r, l := s.ends.retainer, s.ends.locator; {
	case p.Part == record.Lid && r != nil && r.Lid != nil && r.Lid.Value == key.value && sameGauge(p.Gauge, r.Gauge),
		p.Part == record.RetainerStep && r != nil && hasStep(r.Steps, key.value) && sameGauge(p.Gauge, r.Gauge):
		key.owner, key.by = r.ID, r.Gauge
	case p.Part == record.Floor && l != nil && l.Floor != nil && l.Floor.Value == key.value && sameGauge(p.Gauge, l.Gauge),
		p.Part == record.LocatorStep && l != nil && hasStep(l.Steps, key.value) && sameGauge(p.Gauge, l.Gauge):
		key.owner, key.by = l.ID, l.Gauge
	case p.Part == record.ZeroOffset:
		// It was read on the very gauge, where nobody says otherwise.
		key.by = first(p.Gauge, s.gauge)
		if key.by == "" {
			key.kind = s.kind
		}
	case s.gauge == "":
		// On a gauge that nobody named it may be another one each time.
		key.kind = s.kind
	}
	return append(sum, budget.Term{C: c, X: b.part(key, s.kind)})
}

// sameGauge reports whether a part in a setting can be the one that was measured for the shelf: by the
// same gauge, or nobody said by which.
func sameGauge(setting, shelf string) bool { return setting == "" || setting == shelf }

// part returns the input of a part of a stack. Parts are measured with a caliper where nobody said
// with what.
func (b *bench) part(key partKey, kind record.Kind) *budget.Input {
	x := b.doubt.parts[key]
	if x == nil {
		usual := record.Caliper
		if key.part == record.ZeroOffset {
			usual = usualGauge[kind]
		}
		on := b.instrument(key.by, usual)
		x = &budget.Input{Name: say.New("stack." + string(key.part)), Gauge: on.gauge, Pool: on.pool, N: 1}
		b.doubt.parts[key] = x
	}
	return x
}

// lidTerm and stepTerms add what is known of a retainer's lid and of the steps under a coil.
func (b *bench) lidTerm(sum budget.Sum, c float64, r *record.Retainer) budget.Sum {
	key := partKey{part: record.Lid, value: r.Lid.Value, by: r.Gauge, owner: r.ID}
	return append(sum, budget.Term{C: c, X: b.part(key, "")})
}

func (b *bench) stepTerms(sum budget.Sum, c float64, f *fitted, coil int) budget.Sum {
	if r := f.retainer; r != nil {
		if s, ok := stepOf(r.Steps, coil); ok && s != 0 {
			key := partKey{part: record.RetainerStep, value: int64(s), by: r.Gauge, owner: r.ID}
			sum = append(sum, budget.Term{C: c, X: b.part(key, "")})
		}
	}
	if l := f.locator; l != nil {
		if s, ok := stepOf(l.Steps, coil); ok && s != 0 {
			key := partKey{part: record.LocatorStep, value: int64(s), by: l.Gauge, owner: l.ID}
			sum = append(sum, budget.Term{C: c, X: b.part(key, "")})
		}
	}
	return sum
}

func hasStep(steps []unit.Quantity, value int64) bool {
	return slices.ContainsFunc(steps, func(s unit.Quantity) bool { return s.Value == value })
}
