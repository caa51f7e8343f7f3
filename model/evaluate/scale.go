package evaluate

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring"
	"keeperbook/model/unit"
)

// scale is how well a spring tester shows loads. Its instrument counts millinewtons.
type scale struct {
	*instrument
	weighed *spring.Tester // made of dead weights; nil where none were put on it
	from    string         // the day from which on they hold; "" for all loads
}

// scaleOf returns the load scale of a gauge, or of a tester that nobody named.
func (b *bench) scaleOf(id string) *scale {
	g := b.gauges[id]
	if g == nil {
		id = ""
	}
	s := b.doubt.scales[id]
	if s == nil {
		s = b.describeScale(g)
		b.doubt.scales[id], b.doubt.gauges[s.gauge] = s, s.instrument
	}
	return s
}

// describeScale puts together what is known of a load scale, as describe does of a gauge.
func (b *bench) describeScale(g *record.Gauge) *scale {
	s := &scale{instrument: newInstrument(g, record.SpringTester)}
	if g != nil && g.LoadScale != nil {
		l := g.LoadScale
		s.known(l.Step, l.Calibration, l.Repeat, unit.OfLoad)
		s.weigh(l.Weights)
	}
	if usual := b.setup.Rules.AssumedLoad; usual != nil {
		b.doubt.assume(s.instrument, record.Assumed{Kind: record.SpringTester, S: usual.S, Step: usual.Step})
	}
	return s
}

func (s *scale) weigh(w *record.Weights) {
	if w != nil {
		// Weights that make no curve are refused when they are entered; they take nothing off.
		s.weighed, _ = Weighed(w)
		s.from = string(w.Date)
	}
}

// Weighed returns the calibration that dead weights give a load scale. It refuses what [spring.Calibrate] does: too
// few of them, or all of one size.
func Weighed(w *record.Weights) (*spring.Tester, error) {
	points := make([]spring.Weighing, len(w.Points))
	for i, p := range w.Points {
		points[i] = spring.Weighing{Applied: applied(p.Applied, number(w.Gravity)), Shown: unit.Load(p.Shown.Value)}
	}
	make := spring.Calibrate
	if w.Degree != 0 {
		make = func(points []spring.Weighing) (spring.Tester, error) { return spring.CalibrateAs(w.Degree, points) }
	}
	t, err := make(points)
	if err != nil {
		return nil, err
	}
	return &t, nil
}

// standardGravity is that which a pound and a kilogram of force are defined with, in m/s² (NIST SP 811, B.8).
const standardGravity = 9.80665

// applied is the load that a weight puts on where gravity is g in m/s², nought where nobody said it. A weight
// that is entered by its mass, or as the load that it would be under standard gravity, is less or more there.
func applied(q unit.Quantity, g float64) unit.Load {
	if g == 0 {
		g = standardGravity
	}
	if q.Unit.Dimension() == unit.OfMass {
		const microgramsAKilogram = 1e9
		return unit.Load(math.RoundToEven(float64(q.Value) / microgramsAKilogram * g * 1000))
	}
	return unit.Load(math.RoundToEven(float64(q.Value) * g / standardGravity))
}

// loadOf returns the load behind what a tester showed on a day, and what it counts as.
func (s *scale) loadOf(name say.Line, shown unit.Load, day say.Day) (unit.Load, budget.Input) {
	if s.calibrated(day) {
		if c, err := s.weighed.Correct(shown, 1); err == nil {
			return c.Load, budget.Input{Name: name, Estimate: c.Doubt}
		}
	}
	return shown, budget.Input{Name: name, Gauge: s.gauge, Pool: s.pool, N: 1}
}

// meanOf is what the mean of repeats counts as that a tester showed of one load, in millinewtons, with its weights'
// curve taken off or without. The step counts once, and so does what nobody knows of the weights' curve.
func (s *scale) meanOf(shown []unit.Length, weighed bool) *budget.Input {
	n := len(shown)
	if weighed {
		var total int64
		for _, l := range shown {
			total += int64(l)
		}
		if c, err := s.weighed.Correct(unit.Load(roundedMean(total, int64(n))), n); err == nil {
			return &budget.Input{Name: kindNames[record.SeatLoad], Estimate: c.Doubt}
		}
	}
	x := &budget.Input{Name: kindNames[record.SeatLoad], Gauge: s.gauge, Pool: s.pool, N: n}
	if n > 1 {
		x.Own = budget.ScatterOf(shown...)
	}
	return x
}

// calibrated reports whether loads that were read on a day have the weights' curve taken off.
func (s *scale) calibrated(day say.Day) bool {
	return s.weighed != nil && (s.from == "" || day == "" || string(day) >= s.from)
}
