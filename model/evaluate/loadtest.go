package evaluate

import (
	"math"
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// stroke is which way a spring moves while it is read. They differ where something rubs on it.
type stroke int

const (
	compressing stroke = iota
	releasing          // what is left on the seat: the valve has just closed
)

// testPoints returns the points of a test on a stroke, corrected in height and load, each with what it counts as.
// On the releasing stroke there are none where a point was not read on it.
func (b *bench) testPoints(l *record.Loads, on stroke, ofType bool) []curve.Point {
	if on == releasing && slices.ContainsFunc(l.Points, func(p record.Point) bool { return p.Back == nil }) {
		return nil
	}
	scale, day := b.scaleOf(l.Gauge), l.At.Day()
	heights := b.instrument(first(l.Heights, l.Gauge), record.SpringTester)
	off := b.partsOff(l)
	points, inputs := make([]curve.Point, len(l.Points)), make([]budget.Input, 2*len(l.Points))
	for i, p := range l.Points {
		shown := p.Load
		if on == releasing {
			shown = *p.Back
		}
		name := say.New("load.at", p.Height)
		loaded, set := &inputs[2*i], &inputs[2*i+1]
		var load unit.Load
		load, *loaded = scale.loadOf(name, unit.Load(shown.Value), day)
		if lot := l.Lot; lot != nil {
			*loaded = budget.Input{Name: name, Gauge: scale.gauge, Lot: budget.Lot{S: float64(lot.Spread.Value), Nu: float64(lot.Count - 1), N: lot.Count}}
		}
		b.note(loaded, about{supplied: l.Source == record.Supplied, typeOnly: ofType && l.Lot == nil})
		*set = budget.Input{Name: say.New("load.height", p.Height), Gauge: heights.gauge, Pool: heights.pool, N: 1, Estimate: off}
		points[i] = curve.Point{
			Height: corrected(record.BindReading, p.Height, l.Correction), Load: load, Loaded: loaded, Set: set,
		}
	}
	return points
}

// partsOff is how sure the parts are, all together, that were taken off the heights of a test.
func (b *bench) partsOff(l *record.Loads) budget.Estimate {
	var sum budget.Sum
	for _, p := range l.Correction {
		sum = b.partTerm(sum, -1, p, source{gauge: first(l.Heights, l.Gauge), kind: record.BindReading})
	}
	if len(sum) == 0 {
		return budget.Estimate{}
	}
	// Where nobody knows, the budget of the load says so by its own part.
	u, err := sum.Budget()
	if err != nil || u.Std == 0 || math.IsNaN(u.Nu) {
		return budget.Estimate{}
	}
	return budget.Estimate{U: u.Std, Nu: u.Nu}
}

// testCurve is the curve of one coil that was tested alone; nil where its points make none.
func (b *bench) testCurve(l *record.Loads, bind *record.Bind, on stroke, ofType bool) *curve.Curve {
	if l == nil {
		return nil
	}
	c, err := curve.New(b.testPoints(l, on, ofType), solidAt(bind))
	if err != nil {
		return nil
	}
	return c
}

// solidAt is the corrected bind height of a part, nought where nobody measured one.
func solidAt(bind *record.Bind) unit.Length {
	if bind == nil || bind.Source == record.Estimated {
		return 0
	}
	return corrected(record.BindReading, bind.Reading, bind.Correction)
}
