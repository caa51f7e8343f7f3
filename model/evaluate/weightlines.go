package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// WeightLines say what the weights on a tester come to: how the curve through them runs, and for each the load behind
// what was shown, with its ±, beside the weight that was on it. The difference is what the curve leaves.
func WeightLines(w *record.Weights) []say.Line {
	t, err := Weighed(w)
	if err != nil {
		return []say.Line{line(err)}
	}
	shape := say.New("weights.line")
	if t.Bent() {
		shape = say.New("weights.bent")
	}
	lines := []say.Line{shape}
	for _, p := range w.Points {
		c, err := t.Correct(unit.Load(p.Shown.Value), 1)
		if err != nil {
			continue
		}
		u := upward(budget.Of(c.Doubt.U, c.Doubt.Nu).Expanded)
		lines = append(lines, say.New("weights.point", p.Shown, c.Load, unit.UpLoad(u), applied(p.Applied, number(w.Gravity))))
	}
	return lines
}
