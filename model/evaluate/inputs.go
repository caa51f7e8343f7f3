package evaluate

import (
	"math"
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

// kindNames are the names of what readings are of, made once: thousands of inputs carry them.
var kindNames = func() map[record.Kind]say.Line {
	all := map[record.Kind]say.Line{}
	for _, k := range record.Kinds {
		all[k] = kindName(k)
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

func (b *bench) readBefore(readings []*record.Reading, on *instrument) bool {
	for _, r := range readings {
		if b.instrument(r.Gauge, usualGauge[r.Kind]) == on {
			return true
		}
	}
	return false
}

// onGauge is the term of those readings that were read on one gauge, of n altogether.
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

// shimInput is what a shim counts as, and whether it takes room from inner coils too.
type shimInput struct {
	x     *budget.Input
	under record.Under
}

// shimInputs are the inputs of a stack: one for each shim that somebody measured, and one and the same
// for all that nobody did, since they may well be of one batch and off the same way.
func (b *bench) shimInputs(stack []record.Shim) []shimInput {
	if len(stack) == 0 {
		return nil
	}
	all := make([]shimInput, len(stack))
	for i := range stack {
		s := &stack[i]
		all[i].under = s.Under
		if b.gauges[s.Gauge] == nil {
			all[i].x = b.soldShim()
			continue
		}
		on := b.instrument(s.Gauge, record.Micrometer)
		all[i].x = &budget.Input{Name: say.New("sure.shim", s.Thickness), Gauge: on.gauge, Pool: on.pool, N: 1}
	}
	return all
}

func (b *bench) soldShim() *budget.Input {
	if b.doubt.sold == nil {
		t, _ := lengthOf(b.setup.Rules.ShimTolerance)
		b.doubt.sold = &budget.Input{Name: say.New("sure.sold"), Tolerance: t}
		b.doubt.about[b.doubt.sold] = about{sold: true}
	}
	return b.doubt.sold
}

// shimTerms adds the shims that a number grows or shrinks with: all of them, or those under the locator,
// or those under the outer coil only.
func (f *fitted) shimTerms(sum budget.Sum, c float64, counts func(record.Under) bool) budget.Sum {
	for _, s := range f.shims {
		if counts(s.under) {
			sum = append(sum, budget.Term{C: c, X: s.x})
		}
	}
	return sum
}

func anyShim(record.Under) bool          { return true }
func underLocator(u record.Under) bool   { return u == record.UnderLocator }
func underOuterOnly(u record.Under) bool { return u != record.UnderLocator }

type bindKey struct {
	bind              *record.Bind
	retainer, locator string
}

// bindSum writes a bind of a part of the shelf on its inputs. That of a type is the mean of a lot, and
// another spring of it is fitted.
func (b *bench) bindSum(bind *record.Bind, f *fitted, ofType bool) budget.Sum {
	key := bindKey{bind, f.over.Retainer, f.over.Locator}
	if sum, ok := b.doubt.binds[key]; ok {
		return sum
	}
	on := b.instrument(bind.Gauge, record.Fixture)
	x := &budget.Input{Name: kindNames[record.BindReading], Gauge: on.gauge, Pool: on.pool, N: 1}
	a := about{supplied: bind.Source == record.Supplied, typeOnly: ofType && bind.Lot == nil}
	if l := bind.Lot; l != nil {
		s, _ := lengthOf(&l.Spread)
		x.Pool, x.Lot = nil, budget.Lot{S: s, Nu: float64(l.Count - 1), N: l.Count}
	}
	if a != (about{}) {
		b.doubt.about[x] = a
	}
	sum := budget.Sum{{C: 1, X: x}}
	for _, p := range bind.Correction {
		sum = b.partTerm(sum, -1, p, source{bind.Gauge, record.BindReading, fittedEnds{f.retainer, f.locator}})
	}
	b.doubt.binds[key] = sum
	return sum
}

// borrow marks the inputs of a reading that was taken on one valve for its whole role, and adds what the
// valves of the role differ by: √2 s, where s is the scatter of those that have a reading of their own.
// Where no two have, nobody knows, and the budget says that it is not in it.
func (b *bench) borrow(sum budget.Sum, shared sharedKey, from record.Position) budget.Sum {
	lot, known := b.doubt.spreads[shared]
	if !known {
		lot = b.spreadOf(shared)
		b.doubt.spreads[shared] = lot
	}
	for _, t := range sum {
		if t.X.Name.Key == kindNames[shared.kind].Key {
			b.doubt.about[t.X] = about{from: b.head.Label(from), spread: lot.N > 0}
		}
	}
	if lot.N == 0 {
		return sum
	}
	x := &budget.Input{Name: kindNames[shared.kind], Lot: lot}
	b.doubt.about[x] = about{differ: true}
	return append(sum, budget.Term{C: 1, X: x})
}

// spreadOf is the scatter of a kind of reading between the valves of a role that have one of their own;
// nothing where fewer than two have.
func (b *bench) spreadOf(shared sharedKey) budget.Lot {
	var values []unit.Length
	for _, at := range b.head.Positions() {
		if at.Role == shared.role && len(b.readings[place{at, shared.kind, 0}]) > 0 {
			values = append(values, b.take(at, shared.kind, 0).Value)
		}
	}
	own := budget.ScatterOf(values...)
	if own.Nu == 0 {
		return budget.Lot{}
	}
	return budget.Lot{S: math.Sqrt(own.Squares / own.Nu), Nu: own.Nu, N: 1}
}

func hasStep(steps []unit.Quantity, value int64) bool {
	return slices.ContainsFunc(steps, func(s unit.Quantity) bool { return s.Value == value })
}
