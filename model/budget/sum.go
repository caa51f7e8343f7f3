package budget

import (
	"math"
	"slices"

	"keeperbook/model/say"
)

// Sum is a length written on its inputs, M = Σ c x.
type Sum []Term

// Budget is how sure a length is: its standard uncertainty, the effective degrees of freedom
// (infinite where nothing in it was estimated from few values), and the expanded uncertainty
// U = t₀.₉₇₅,ν · u that stands behind the ±.
type Budget struct {
	Std      float64
	Nu       float64
	Expanded float64
}

// Of is the budget of a standard uncertainty and its degrees of freedom, both known already.
func Of(std, nu float64) Budget {
	return Budget{Std: std, Nu: nu, Expanded: Student(0.975, nu) * std}
}

// OneSided is t₀.₉₅,ν · u: what keeps a number on the right side of one limit in 95 of 100 cases.
func (b Budget) OneSided() float64 { return Student(0.95, b.Nu) * b.Std }

// onGauge collects what hangs on one gauge.
type onGauge struct {
	gauge      *Gauge
	plus, less float64 // sums of the positive and of the negative sensitivities
}

// factor2 is what one variance of the gauge counts with.
func (g *onGauge) factor2() float64 { return g.plus*g.plus + g.less*g.less }

// inPool collects the readings that share one estimate of scatter.
type inPool struct {
	pool   *Pool
	joined Pool    // with the readings' own repeats
	weight float64 // Σ c²/n
}

// ledger is a sum taken apart: each input once, by gauge and by pool.
type ledger struct {
	terms  []Term
	gauges []onGauge
	pools  []inPool
}

// usual is how many inputs a sum has room for before it asks for memory.
const usual = 16

// room is the memory of a ledger of usual size.
type room struct {
	terms  [usual]Term
	gauges [usual]onGauge
	pools  [usual]inPool
}

// open adds up the sensitivities of each input and sorts what is left by gauge and pool.
func (s Sum) open(r *room) (ledger, error) {
	l := ledger{r.terms[:0], r.gauges[:0], r.pools[:0]}
merging:
	for _, t := range s {
		for i := range l.terms {
			if l.terms[i].X == t.X {
				l.terms[i].C += t.C
				continue merging
			}
		}
		if err := t.X.Check(); err != nil {
			return l, err
		}
		l.terms = append(l.terms, t)
	}
	for _, t := range l.terms {
		if math.IsNaN(t.C) || math.IsInf(t.C, 0) {
			return l, say.Fail(say.Invalid, "budget.sensitivity", called(t.X.Name))
		}
		if t.C == 0 {
			continue
		}
		if t.X.Gauge != nil {
			l.gauges = hang(l.gauges, t)
		}
		if t.X.Pool != nil {
			l.pools = share(l.pools, t)
		}
	}
	return l, nil
}

// hang counts a term with its gauge. Plain functions on slices let the compiler keep a room on the stack.
func hang(gauges []onGauge, t Term) []onGauge {
	at := slices.IndexFunc(gauges, func(g onGauge) bool { return g.gauge == t.X.Gauge })
	if at < 0 {
		at = len(gauges)
		gauges = append(gauges, onGauge{gauge: t.X.Gauge})
	}
	if t.C > 0 {
		gauges[at].plus += t.C
	} else {
		gauges[at].less += t.C
	}
	return gauges
}

// share counts a term with its pool.
func share(pools []inPool, t Term) []inPool {
	at := slices.IndexFunc(pools, func(p inPool) bool { return p.pool == t.X.Pool })
	if at < 0 {
		at = len(pools)
		pools = append(pools, inPool{pool: t.X.Pool, joined: *t.X.Pool})
	}
	pools[at].weight += t.C * t.C / float64(t.X.N)
	pools[at].joined = pools[at].joined.Join(t.X.Own)
	return pools
}

// own is the estimate of scatter for one reading of an input: the pool it is in, own repeats joined, or
// else its own repeats alone.
func (l *ledger) own(x *Input) Pool {
	for i := range l.pools {
		if l.pools[i].pool == x.Pool {
			return l.pools[i].joined
		}
	}
	return Pool{}.Join(x.Own)
}

// Variances of one input that hang on nothing else, for a sensitivity of one.
func (g *Gauge) step2() float64      { return g.Step * g.Step / 12 } // half a step to either side
func (x *Input) tolerance2() float64 { return x.Tolerance * x.Tolerance / 3 }
func (x *Input) lot2() float64       { return x.Lot.S * x.Lot.S * (1 + 1/float64(x.Lot.N)) }
func (c Certificate) variance() float64 {
	if c.U == 0 {
		return 0
	}
	return c.U / c.K * (c.U / c.K)
}

// Budget adds up the variances, and the degrees of freedom after Welch and Satterthwaite
// (JCGM 100:2008, G.4.1). It refuses bad inputs with a sentence that names them.
func (s Sum) Budget() (Budget, error) {
	var r room
	l, err := s.open(&r)
	if err != nil {
		return Budget{}, err
	}
	var sure, doubt float64 // Σ of all variances; Σ V²/ν of those with few degrees of freedom
	add := func(v, nu float64) {
		sure += v
		if v > 0 {
			doubt += v / nu * v
		}
	}
	for _, t := range l.terms {
		if t.C == 0 {
			continue
		}
		x, c2 := t.X, t.C*t.C
		if x.Gauge != nil {
			sure += c2 * x.Gauge.step2()
		}
		sure += c2 * x.tolerance2()
		if x.Lot.N > 0 {
			add(c2*x.lot2(), x.Lot.Nu)
		}
		if x.read() && x.Pool == nil {
			own := l.own(x)
			add(c2*own.S*own.S/float64(x.N), own.Nu)
		}
		add(c2*x.Estimate.U*x.Estimate.U, x.Estimate.Nu)
	}
	for i := range l.pools {
		p := &l.pools[i]
		add(p.weight*p.joined.S*p.joined.S, p.joined.Nu)
	}
	for i := range l.gauges {
		g := &l.gauges[i]
		sure += g.factor2() * g.gauge.Certificate.variance()
		add(g.factor2()*g.gauge.People.S*g.gauge.People.S, g.gauge.People.Nu)
	}
	nu := math.Inf(1)
	if doubt > 0 {
		nu = sure / doubt * sure
	}
	b := Of(math.Sqrt(sure), nu)
	if !number(b.Expanded) || math.IsNaN(b.Nu) {
		return Budget{}, say.Fail(say.Invalid, "budget.large")
	}
	return b, nil
}
