package evaluate

import (
	"strconv"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// instrument is how well one gauge reads: as its study and its certificate have it, or as the rules of
// the set-up assume of its kind.
type instrument struct {
	gauge          *budget.Gauge
	pool           *budget.Pool  // nil where nobody knows or assumes a scatter
	of             *record.Gauge // nil where nobody said which gauge it was
	kind           record.GaugeKind
	paper          *record.Calibration // its certificate; nil where there is none
	step, scatter  unit.Quantity       // as they were read, no quantity where they are not known
	stepAssumed    bool
	scatterAssumed bool
}

// certified reports whether a certificate says how far the gauge is off.
func (i *instrument) certified() bool { return i.gauge.Certificate.K > 0 }

// usualGauge is what a reading of a kind is taken with where nobody said which gauge it was (common
// practice, no published source).
var usualGauge = map[record.Kind]record.GaugeKind{
	record.SeatDepth: record.DepthGauge, record.RetainerDepth: record.DepthGauge, record.BaseHeight: record.HeightGauge,
	record.SealGap: record.Caliper, record.Room: record.Caliper, record.CheckHeight: record.HeightGauge,
	record.LiftChecking: record.DialIndicator, record.LiftRunning: record.DialIndicator, record.BindReading: record.Fixture,
	record.Tip: record.DepthGauge, record.LashFound: record.FeelerGauge, record.LashLeft: record.FeelerGauge,
	record.LashShim: record.Micrometer,
}

type instrumentKey struct {
	id   string // "" where nobody said it
	kind record.GaugeKind
}

type poolKey struct {
	kind record.GaugeKind
	of   unit.Dimension
}

// ledger keeps what readings and parts count as when it is worked out how sure a number is, so that
// whatever enters a number twice is one and the same.
type ledger struct {
	unit        unit.Symbol
	rule        budget.Rule
	assumed     map[record.GaugeKind]record.Assumed
	pools       map[poolKey]*budget.Pool // what is assumed of a kind is one estimate
	instruments map[instrumentKey]*instrument
	gauges      map[*budget.Gauge]*instrument
	parts       map[partKey]*budget.Input
	binds       map[bindKey]budget.Sum
	spreads     map[sharedKey]budget.Lot
	about       map[*budget.Input]about
	scales      map[string]*scale // of spring testers, by id of the gauge
	curves      map[curveKey]*springCurve
	sold        *budget.Input // the shims that nobody measured, taken to be of one batch
}

func newLedger(s *record.Setup) ledger {
	r := &s.Rules
	l := ledger{
		unit:        s.Units.Length,
		rule:        ruleOf(r.Decision),
		assumed:     make(map[record.GaugeKind]record.Assumed, len(r.Assumed)),
		pools:       map[poolKey]*budget.Pool{},
		instruments: map[instrumentKey]*instrument{},
		gauges:      map[*budget.Gauge]*instrument{},
		parts:       map[partKey]*budget.Input{},
		binds:       map[bindKey]budget.Sum{},
		spreads:     map[sharedKey]budget.Lot{},
		about:       map[*budget.Input]about{},
		scales:      map[string]*scale{},
		curves:      map[curveKey]*springCurve{},
	}
	for _, a := range r.Assumed {
		l.assumed[a.Kind] = a
	}
	return l
}

// ruleOf is the rule that a set-up decides by. One that says none is decided by the stricter.
func ruleOf(d record.Decision) budget.Rule {
	switch d {
	case record.Plain:
		return budget.Plain
	case record.Guarded95:
		return budget.Guarded95
	}
	return budget.Guarded
}

// instrument returns the gauge with this id, or one of a kind that nobody named.
func (b *bench) instrument(id string, usual record.GaugeKind) *instrument {
	g := b.gauges[id]
	key := instrumentKey{kind: usual}
	if g != nil {
		key = instrumentKey{id, g.Kind}
	}
	i := b.doubt.instruments[key]
	if i == nil {
		i = b.doubt.describe(g, key.kind)
		b.doubt.instruments[key], b.doubt.gauges[i.gauge] = i, i
	}
	return i
}

// describe puts together what is known of a gauge. What is neither known nor assumed stays nought, and
// budget then refuses with a sentence that names the gauge.
func (l *ledger) describe(g *record.Gauge, kind record.GaugeKind) *instrument {
	i := newInstrument(g, kind)
	if g != nil {
		i.known(g.Step, g.Calibration, g.Repeat, unit.OfLength)
	}
	if usual, ok := l.assumed[kind]; ok {
		l.assume(i, usual)
	}
	return i
}

// newInstrument is a gauge, or one of a kind that nobody named, of which nothing is known yet.
func newInstrument(g *record.Gauge, kind record.GaugeKind) *instrument {
	name := say.New("sure.gauge-unsaid", gaugeName(kind))
	if g != nil {
		name = say.New("expr.one", g.Name)
	}
	return &instrument{of: g, kind: kind, gauge: &budget.Gauge{Name: name}}
}

// assume puts what the rules take for granted in the place of what nobody found out of one scale of a gauge.
func (l *ledger) assume(i *instrument, usual record.Assumed) {
	if i.gauge.Step == 0 {
		i.gauge.Step, i.step, i.stepAssumed = float64(usual.Step.Value), usual.Step, true
	}
	if i.pool == nil {
		i.pool, i.scatter, i.scatterAssumed = l.pool(usual), usual.S, true
	}
}

// known takes over what is said of one scale of a gauge. A number that is not of the scale's dimension says nothing.
func (i *instrument) known(step *unit.Quantity, c *record.Calibration, r *record.Repeat, of unit.Dimension) {
	value := func(q unit.Quantity) float64 {
		if q.Unit.Dimension() != of {
			return 0
		}
		return float64(q.Value)
	}
	if c != nil {
		i.paper = c
		if k := number(c.K); k > 0 && c.U.Unit.Dimension() == of {
			i.gauge.Certificate = budget.Certificate{U: value(c.U), K: k}
		}
	}
	if step != nil && value(*step) > 0 {
		i.gauge.Step, i.step = value(*step), *step
	}
	if r != nil && r.S.Unit.Dimension() == of {
		if nu := number(r.Freedom); nu > 0 {
			i.pool, i.scatter = &budget.Pool{S: value(r.S), Nu: nu}, r.S
		}
	}
}

// pool is what is assumed of a kind of gauge: one guess, however many gauges of the kind there are. A spring tester
// has two, of its heights and of its loads.
func (l *ledger) pool(a record.Assumed) *budget.Pool {
	key := poolKey{a.Kind, a.S.Unit.Dimension()}
	p := l.pools[key]
	if p == nil {
		assumed := budget.Assumed(float64(a.S.Value))
		p = &assumed
		l.pools[key] = p
	}
	return p
}

// own shows a property of a gauge in the unit that it was read in, which is said where it is not the one of
// the set-up.
func (l *ledger) own(q unit.Quantity) any {
	if q.Unit == l.unit {
		return q
	}
	return say.Number(q.String())
}

// lengthOf returns a quantity in the unit of a length; false where there is none or it is a load.
func lengthOf(q *unit.Quantity) (float64, bool) {
	if q == nil || q.Unit.Dimension() != unit.OfLength {
		return 0, false
	}
	return float64(q.Length()), true
}

// number reads a decimal of the record, nought where it is none.
func number(text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0
	}
	return x
}

func gaugeName(k record.GaugeKind) say.Line { return say.New("gauge." + string(k)) }
