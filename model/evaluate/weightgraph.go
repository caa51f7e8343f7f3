package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Residual is what the curve through dead weights leaves at one of them.
type Residual struct {
	Applied unit.Load // the weight's force
	Left    unit.Load // what is behind what was shown, less the weight's force
	U       unit.Load // ± of what is behind it; 0 where none can be told
}

// WeightGraph is what the curve through the dead weights of a tester leaves, for a drawing; in the order of the weights.
type WeightGraph struct {
	Units record.Units
	Bent  bool // the curve is a parabola, else a straight line
	All   []Residual
}

// WeightGraphOf works it out; false where the weights make no curve.
func WeightGraphOf(w *record.Weights, units record.Units) (WeightGraph, bool) {
	if w == nil {
		return WeightGraph{}, false
	}
	t, err := Weighed(w)
	if err != nil {
		return WeightGraph{}, false
	}
	g := WeightGraph{Units: units, Bent: t.Bent()}
	for _, p := range w.Points {
		c, err := t.Correct(unit.Load(p.Shown.Value), 1)
		if err != nil {
			continue
		}
		on := applied(p.Applied, number(w.Gravity))
		u := upward(budget.Of(c.Doubt.U, c.Doubt.Nu).Expanded)
		g.All = append(g.All, Residual{Applied: on, Left: c.Load - on, U: unit.Load(u)})
	}
	return g, len(g.All) > 0
}
