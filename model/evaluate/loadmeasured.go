package evaluate

import (
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// onHead is a seat load that was read on the assembled head, at one height.
type onHead struct {
	load   Load
	height unit.Length // at which it was taken, where one is said; else it was taken at the installed height
	said   bool
	apart  bool       // taken at another height, and nothing carries it to the installed one
	sum    budget.Sum // what the load rests on, and at what the height does
	at     budget.Sum
}

// seatMeasured takes the loads that were read on the head, each with its tester's calibration taken off, and
// their mean where they were taken at one height. Those that were taken at another height than the last do not
// count with it.
func (b *bench) seatMeasured(v *Valve) {
	// As with a bind, what was read on another single spring is no load of the one that is on it now.
	tag := b.valves[v.At].Spring
	readings := slices.DeleteFunc(slices.Clone(b.readings[place{v.At, record.SeatLoad, 0}]), func(r *record.Reading) bool { return r.Piece != tag })
	if len(readings) == 0 {
		return
	}
	readings, changed := b.holding(readings, record.SeatLoad, v.At)
	last := readings[len(readings)-1]
	readings = slices.DeleteFunc(slices.Clone(readings), func(r *record.Reading) bool { return !sameHeight(r, last) })
	b.loadsApart(v, readings)
	l := Load{Known: true, Stale: len(changed) > 0}
	var total int64
	for _, r := range readings {
		shown := unit.Load(r.Quantity.Value)
		load, _ := b.scaleOf(r.Gauge).loadOf(kindNames[record.SeatLoad], shown, r.When.Day())
		total += int64(load)
		l = l.also(func() say.Line {
			if load == shown {
				return say.New("work.plain", KindName(record.SeatLoad), r.Quantity)
			}
			return say.New("work.corrected", KindName(record.SeatLoad), load, say.New("expr.one", r.Quantity))
		})
	}
	n := len(readings)
	l.Value = unit.Load(roundedMean(total, int64(n)))
	if n > 1 {
		value := l.Value
		l = l.also(func() say.Line { return say.New("work.mean", KindName(record.SeatLoad), n, value) })
	}
	b.staleFinding(v, record.SeatLoad, changed, false)
	m := onHead{load: l, sum: b.seatSum(readings)}
	if last.Height != nil {
		m.height, m.said, m.at = corrected(record.BindReading, *last.Height, last.Correction), true, b.takenAt(last)
	}
	v.onHead, v.SeatMeasured = m, l.onDemand(b, func() budget.Sum { return m.sum })
}

// seatSum writes the mean of loads on its inputs, one for each tester and side of the day its weights hold from,
// as readingsSum does: repeats average what scatters, and neither the step nor the calibration.
func (b *bench) seatSum(readings []*record.Reading) budget.Sum {
	type side struct {
		scale   *scale
		weighed bool
	}
	var order []side
	loads := map[side][]unit.Length{}
	for _, r := range readings {
		s := b.scaleOf(r.Gauge)
		on := side{s, s.calibrated(r.When.Day())}
		if loads[on] == nil {
			order = append(order, on)
		}
		loads[on] = append(loads[on], unit.Length(r.Quantity.Value))
	}
	var sum budget.Sum
	for _, on := range order {
		sum = append(sum, budget.Term{C: float64(len(loads[on])) / float64(len(readings)), X: on.scale.meanOf(loads[on], on.weighed)})
	}
	return sum
}

// takenAt writes the height that a load was taken at on its inputs. Repeats at one height are on one reading of it.
func (b *bench) takenAt(r *record.Reading) budget.Sum {
	on := b.instrument(first(r.Heights, r.Gauge), record.SpringTester)
	sum := budget.Sum{{C: 1, X: &budget.Input{Name: say.New("load.height", *r.Height), Gauge: on.gauge, Pool: on.pool, N: 1}}}
	for _, p := range r.Correction {
		sum = b.partTerm(sum, -1, p, source{first(r.Heights, r.Gauge), record.BindReading, b.endsAt(r.At, r.Over)})
	}
	return sum
}

func sameHeight(a, b *record.Reading) bool {
	if a.Height == nil || b.Height == nil {
		return a.Height == nil && b.Height == nil
	}
	return corrected(record.BindReading, *a.Height, a.Correction) == corrected(record.BindReading, *b.Height, b.Correction)
}

// roundedMean rounds once, half to even.
func roundedMean(total, n int64) int64 {
	quo, rem := total/n, total%n
	if 2*rem > n || 2*rem == n && quo%2 != 0 {
		quo++
	}
	return quo
}

// ends are the loads at two heights on the stroke that a seat load is told by.
func (c *springCurve) ends(here, there unit.Length) (h, t curve.Value, err error) {
	if c.up == nil {
		return h, t, &say.Error{Code: say.NotFound, Line: c.why}
	}
	if h, err = c.back.At(here); err != nil {
		return h, t, err
	}
	t, err = c.back.At(there)
	return h, t, err
}

// moveMeasured carries a load that was taken at a height that is said to the installed one by the curve:
// F + Fc(H) − Fc(h). A valve that sank is not a weak spring. Where both are the same number they were still read
// twice, and the load is no surer than both readings. What cannot be carried over stays as it was read, and
// is no load at the installed height.
func (b *bench) moveMeasured(v *Valve, under coilTerms, c *springCurve) {
	m := &v.onHead
	if !m.load.Known || !m.said || !v.Height.Known {
		m.apart = m.load.Known && m.said
		return
	}
	off := m.height != v.Height.Value
	here, there, err := c.ends(v.Height.Value, m.height)
	if err != nil {
		// Without a curve nobody knows what a height that is not quite the one read does to a load.
		m.apart, v.SeatMeasured = off, m.load
		if off {
			v.SeatMeasured = m.load.also(func() say.Line { return say.New("load.elsewhere", m.height, v.Height.Value) })
			v.loadWhy = say.New("load.not-carried", m.height, v.Height.Value, line(err))
		}
		return
	}
	l, moved := m.load, m.load.Value+here.Load-there.Load
	if off {
		l = l.also(func() say.Line {
			return say.New("work.load.moved", name("seat-load"), m.load.Value, m.height, moved, v.Height.Value)
		})
		l.Value, l.Mark, l.Beyond = moved, Computed, here.Beyond || there.Beyond
	}
	if c.estimate {
		if off {
			l.Mark = Estimate
		}
		v.SeatMeasured = l
		return
	}
	height, ok := v.Height.sum()
	v.SeatMeasured = l.onDemand(b, func() budget.Sum {
		if !ok {
			return nil
		}
		to, err := c.back.Terms(v.Height.Value, under.heights(height)...)
		from, err2 := c.back.Terms(m.height, under.heights(m.at)...)
		if err != nil || err2 != nil {
			return nil
		}
		return append(less(to, from), m.sum...)
	})
}
