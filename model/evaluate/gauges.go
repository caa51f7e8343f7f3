package evaluate

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Gauge is a gauge as it counts in a set-up.
type Gauge struct {
	Of             *record.Gauge
	Step           unit.Quantity // no quantity where it is neither known nor assumed
	StepAssumed    bool
	Scatter        unit.Quantity // standard deviation of one reading, the same
	Freedom        say.Number    // its degrees of freedom
	ScatterAssumed bool
	PastDue        bool   // it was read in this set-up after the day that it was due for calibration on
	Loads          *Gauge // the load scale of a tester, in the same way; nil where nothing is known of it
}

// listGauges describes the gauges of the record in their order.
func (b *bench) listGauges(late map[lateScale]*lateness) []Gauge {
	all := make([]Gauge, len(b.rec.Gauges))
	for i := range b.rec.Gauges {
		g := &b.rec.Gauges[i]
		all[i] = gaugeOf(g, b.instrument(g.ID, g.Kind), late[lateScale{g.ID, false}] != nil)
		if g.LoadScale != nil {
			loads := gaugeOf(g, b.scaleOf(g.ID).instrument, late[lateScale{g.ID, true}] != nil)
			all[i].Loads = &loads
		}
	}
	return all
}

func gaugeOf(g *record.Gauge, on *instrument, late bool) Gauge {
	as := Gauge{Of: g, Step: on.step, StepAssumed: on.stepAssumed, Scatter: on.scatter, ScatterAssumed: on.scatterAssumed, PastDue: late}
	if on.pool != nil {
		as.Freedom = Degrees(on.pool.Nu)
	}
	return as
}

// lateScale is a scale of a gauge: a spring tester has one for heights and one for loads, each with its own certificate.
type lateScale struct {
	id    string
	loads bool
}

func (b *bench) paperOf(of lateScale) *record.Calibration {
	switch g := b.gauges[of.id]; {
	case g == nil:
		return nil
	case !of.loads:
		return g.Calibration
	case g.LoadScale != nil:
		return g.LoadScale.Calibration
	}
	return nil
}

// lateness is what was read on a gauge after it was due.
type lateness struct {
	last   say.Day
	what   []say.Line
	kinds  map[record.Kind]bool
	valves []string // labels, in the order of the readings
	seen   map[record.Position]bool
}

// late finds the readings that were taken on a gauge after the day it was due for calibration on.
func (b *bench) late() map[lateScale]*lateness {
	found := map[lateScale]*lateness{}
	add := func(of lateScale, when record.Stamp, kind record.Kind) *lateness {
		c, day := b.paperOf(of), when.Day()
		if c == nil || c.Due == "" || day == "" || string(day) <= string(c.Due) {
			return nil
		}
		l := found[of]
		if l == nil {
			l = &lateness{kinds: map[record.Kind]bool{}, seen: map[record.Position]bool{}}
			found[of] = l
		}
		l.last = max(l.last, day)
		l.of(kind)
		return l
	}
	for i := range b.setup.Readings {
		r := &b.setup.Readings[i]
		if r.Struck != nil {
			continue
		}
		add(lateScale{r.Gauge, r.Kind == record.SeatLoad}, r.When, r.Kind).at(b.head, r.At)
		if r.Kind == record.SeatLoad && r.Height != nil {
			add(lateScale{first(r.Heights, r.Gauge), false}, r.When, r.Kind).at(b.head, r.At)
		}
	}
	for _, bind := range b.partBinds() {
		add(lateScale{bind.Gauge, false}, bind.At, record.BindReading)
	}
	for _, l := range b.partLoads() {
		add(lateScale{l.Gauge, true}, l.At, springLoads)
		add(lateScale{first(l.Heights, l.Gauge), false}, l.At, springLoads)
	}
	return found
}

// springLoads stands where readings on a head have their kind.
const springLoads record.Kind = "spring-loads"

func (l *lateness) at(head *record.Head, at record.Position) {
	if l != nil && !l.seen[at] {
		l.seen[at] = true
		l.valves = append(l.valves, head.Label(at))
	}
}

func (l *lateness) of(kind record.Kind) {
	if !l.kinds[kind] {
		l.kinds[kind] = true
		l.what = append(l.what, say.New("kind."+string(kind)))
	}
}

// partBinds are the binds of the spring types and single springs of the record.
func (b *bench) partBinds() []*record.Bind {
	var all []*record.Bind
	for i := range b.rec.Parts.Springs {
		s := &b.rec.Parts.Springs[i]
		for j := range s.Coils {
			if s.Coils[j].Bind != nil {
				all = append(all, s.Coils[j].Bind)
			}
		}
		if s.Assembly != nil && s.Assembly.Bind != nil {
			all = append(all, s.Assembly.Bind)
		}
	}
	for i := range b.rec.Parts.Pieces {
		p := &b.rec.Parts.Pieces[i]
		for j := range p.Binds {
			all = append(all, &p.Binds[j].Bind)
		}
	}
	return all
}

// partLoads are the tests of the spring types and single springs of the record.
func (b *bench) partLoads() []*record.Loads {
	var all []*record.Loads
	for i := range b.rec.Parts.Springs {
		s := &b.rec.Parts.Springs[i]
		for j := range s.Coils {
			if s.Coils[j].Loads != nil {
				all = append(all, s.Coils[j].Loads)
			}
		}
		if s.Assembly != nil && s.Assembly.Loads != nil {
			all = append(all, s.Assembly.Loads)
		}
	}
	for i := range b.rec.Parts.Pieces {
		p := &b.rec.Parts.Pieces[i]
		for j := range p.Loads {
			all = append(all, &p.Loads[j].Loads)
		}
	}
	return all
}

// mostNamed is how many valves a sentence names before it counts them.
const mostNamed = 6

// pastDue notes every scale of a gauge that was read after it was due, with what it measured.
func (b *bench) pastDue(ev *Evaluation, late map[lateScale]*lateness) {
	for i := range b.rec.Gauges {
		g := &b.rec.Gauges[i]
		b.pastDueOf(ev, say.New("expr.one", g.Name), g.Calibration, late[lateScale{g.ID, false}])
		if g.LoadScale != nil {
			b.pastDueOf(ev, say.New("gauge.loads-of", g.Name), g.LoadScale.Calibration, late[lateScale{g.ID, true}])
		}
	}
}

func (b *bench) pastDueOf(ev *Evaluation, name say.Line, c *record.Calibration, l *lateness) {
	if l == nil {
		return
	}
	where := say.Line{}
	switch n := len(l.valves); {
	case n > mostNamed:
		where = say.New("finding.past-due.valves", n)
	case n > 0:
		names := make([]say.Line, n)
		for j, v := range l.valves {
			names[j] = say.New("expr.one", v)
		}
		where = say.New("finding.past-due.of", names)
	}
	ev.Findings = append(ev.Findings, Finding{Key: "past-due", Verdict: Unproven, Note: true,
		Line:  say.New("finding.past-due", name, c.Due, l.last, l.what, where),
		Short: say.New("short.past-due", name)})
}
