package evaluate

import (
	"cmp"
	"math"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// TestLines say what a test of a spring comes to, from the tallest height down: what was taken off each height, the
// load with the tester's weights taken off it, and the rate between one and the next. The record is asked for its
// gauges alone.
func TestLines(rec *record.Record, l *record.Loads) []say.Line {
	if l == nil {
		return nil
	}
	b := layOut(rec)
	points := b.testPoints(l, compressing, false)
	order := make([]int, len(points))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(points[j].Height, points[i].Height) })
	lines := make([]say.Line, len(order))
	for n, i := range order {
		height := say.New("expr.one", l.Points[i].Height)
		for _, t := range l.Correction {
			if t.Zero != record.Zeroed {
				height = Lessen(height, record.BindReading, t)
			}
		}
		if height.Key != "expr.one" {
			height = say.New("test.off", points[i].Height, height)
		}
		load := say.New("expr.one", points[i].Load)
		if shown := unit.Load(l.Points[i].Load.Value); shown != points[i].Load {
			load = say.New("test.off", points[i].Load, shown)
		}
		lines[n] = say.New("test.point", height, load)
		if n > 0 {
			if k, ok := between(points[order[n-1]], points[i]); ok {
				lines[n] = say.New("test.point-rate", height, load, k)
			}
		}
	}
	return lines
}

// Tested is one point of a test, without what stood in the tester and what its weights take off.
type Tested struct {
	Height unit.Length
	Load   unit.Load
}

// TestedPoints are the points of a test of a spring while it was pressed together, from the tallest height down. The record is
// asked for its gauges alone.
func TestedPoints(rec *record.Record, l *record.Loads) (all []Tested) {
	if l == nil {
		return nil
	}
	for _, p := range layOut(rec).testPoints(l, compressing, false) {
		all = append(all, Tested{p.Height, p.Load})
	}
	slices.SortStableFunc(all, func(a, b Tested) int { return cmp.Compare(b.Height, a.Height) })
	return all
}

// between is the rate from one point to a lower one; false where they stand at one height.
func between(tall, low curve.Point) (unit.Rate, bool) {
	if tall.Height == low.Height {
		return 0, false
	}
	return unit.Rate(math.RoundToEven(float64(low.Load-tall.Load) / float64(tall.Height-low.Height) * tenthsOfNm)), true
}
