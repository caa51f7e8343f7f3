package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// onHead is a seat load that was read on the assembled head, at one height.
type onHead struct {
	load   Load
	height unit.Length // at which it was taken; the installed height where none is said
	said   bool        // a height was
	sum    budget.Sum
}

// seatMeasured takes the loads that were read on the head, each with its tester's calibration taken off, and
// their mean where they were taken at one height. Those that were taken at another height than the last do not
// count with it.
func (b *bench) seatMeasured(v *Valve, f *fitted) {
	readings := b.readings[place{v.At, record.SeatLoad, 0}]
	if len(readings) == 0 {
		return
	}
	readings, changed := b.holding(readings, record.SeatLoad, v.At)
	last := readings[len(readings)-1]
	var total int64
	var n int64
	var sum budget.Sum
	l := Load{Known: true, Stale: len(changed) > 0}
	for _, r := range readings {
		if !sameHeight(r, last) {
			continue
		}
		scale := b.scaleOf(r.Gauge)
		shown := unit.Load(r.Quantity.Value)
		load, x := scale.loadOf(kindNames[record.SeatLoad], shown, r.When.Day())
		total += int64(load)
		n++
		sum = append(sum, budget.Term{C: 1, X: x})
		l = l.also(func() say.Line {
			if load == shown {
				return say.New("work.plain", kindName(record.SeatLoad), r.Quantity)
			}
			return say.New("work.corrected", kindName(record.SeatLoad), load, say.New("expr.one", r.Quantity))
		})
	}
	l.Value = unit.Load(roundedMean(total, n))
	if n > 1 {
		value := l.Value
		l = l.also(func() say.Line { return say.New("work.mean", kindName(record.SeatLoad), int(n), value) })
	}
	for i := range sum {
		sum[i].C = 1 / float64(n)
	}
	b.staleFinding(v, record.SeatLoad, changed, false)
	v.onHead = onHead{load: l, sum: sum}
	if last.Height != nil {
		v.onHead.height, v.onHead.said = corrected(record.BindReading, *last.Height, last.Correction), true
	}
	v.SeatMeasured = l.onDemand(b, func() budget.Sum { return sum })
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

// moveMeasured carries a load that was taken at another height than the installed one there, by the curve:
// F + Fc(H) − Fc(h). A valve that sank is not a weak spring.
func (b *bench) moveMeasured(v *Valve, c *springCurve) {
	m := v.onHead
	if !m.load.Known || !m.said || m.height == v.Height.Value {
		return
	}
	here, err := c.back.At(v.Height.Value)
	there, err2 := c.back.At(m.height)
	if err != nil || err2 != nil {
		v.SeatMeasured = Load{}
		return
	}
	moved := m.load.Value + here.Load - there.Load
	l := m.load.also(func() say.Line {
		return say.New("work.load.moved", name("seat-load"), m.load.Value, m.height, moved, v.Height.Value)
	})
	l.Value, l.Mark, l.Beyond = moved, Computed, here.Beyond || there.Beyond
	if c.estimate {
		l.Mark = Estimate
		v.SeatMeasured = l
		return
	}
	height, ok := v.Height.sum()
	k := float64(here.Rate) / tenthsOfNm
	v.SeatMeasured = l.onDemand(b, func() budget.Sum {
		if !ok {
			return nil
		}
		sum := append(budget.Sum{}, m.sum...)
		for _, t := range height {
			sum = append(sum, budget.Term{C: -k * t.C, X: t.X})
		}
		return sum
	})
}
