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
	Freedom        string        // its degrees of freedom
	ScatterAssumed bool
	PastDue        bool // it was read in this set-up after the day that it was due for calibration on
}

// listGauges describes the gauges of the record in their order.
func (b *bench) listGauges(late map[string]*lateness) []Gauge {
	all := make([]Gauge, len(b.rec.Gauges))
	for i := range b.rec.Gauges {
		g := &b.rec.Gauges[i]
		on := b.instrument(g.ID, g.Kind)
		all[i] = Gauge{
			Of: g, Step: on.step, StepAssumed: on.stepAssumed, Scatter: on.scatter, ScatterAssumed: on.scatterAssumed,
			PastDue: late[g.ID] != nil,
		}
		if on.pool != nil {
			all[i].Freedom = Degrees(on.pool.Nu)
		}
	}
	return all
}

// lateness is what was read on a gauge after it was due.
type lateness struct {
	last   string // day
	what   []say.Line
	kinds  map[record.Kind]bool
	valves []string // labels, in the order of the readings
	seen   map[record.Position]bool
}

// late finds the readings that were taken on a gauge after the day it was due for calibration on.
func (b *bench) late() map[string]*lateness {
	found := map[string]*lateness{}
	add := func(id string, when record.Stamp) *lateness {
		g, day := b.gauges[id], when.Day()
		if g == nil || g.Calibration == nil || g.Calibration.Due == "" || day == "" || day <= string(g.Calibration.Due) {
			return nil
		}
		l := found[id]
		if l == nil {
			l = &lateness{kinds: map[record.Kind]bool{}, seen: map[record.Position]bool{}}
			found[id] = l
		}
		l.last = max(l.last, day)
		return l
	}
	for i := range b.setup.Readings {
		r := &b.setup.Readings[i]
		if r.Struck != nil {
			continue
		}
		if l := add(r.Gauge, r.When); l != nil {
			l.of(r.Kind)
			if !l.seen[r.At] {
				l.seen[r.At] = true
				l.valves = append(l.valves, b.head.Label(r.At))
			}
		}
	}
	for _, bind := range b.partBinds() {
		if l := add(bind.Gauge, bind.At); l != nil {
			l.of(record.BindReading)
		}
	}
	return found
}

func (l *lateness) of(kind record.Kind) {
	if !l.kinds[kind] {
		l.kinds[kind] = true
		l.what = append(l.what, kindName(kind))
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

// mostNamed is how many valves a sentence names before it counts them.
const mostNamed = 6

// pastDue notes every gauge that was read after it was due, with what it measured.
func (b *bench) pastDue(ev *Evaluation, late map[string]*lateness) {
	for i := range b.rec.Gauges {
		g := &b.rec.Gauges[i]
		l := late[g.ID]
		if l == nil {
			continue
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
			Line:  say.New("finding.past-due", g.Name, string(g.Calibration.Due), l.last, l.what, where),
			Short: say.New("short.past-due", g.Name)})
	}
}
