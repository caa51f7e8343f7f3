package pdf

import (
	"gonum.org/v1/plot/vg"

	"keeperbook/model/evaluate"
	"keeperbook/pdf/figure"
)

// curveHigh is the height of a load curve in points: its numbers at nine points, and two fifths of the width.
const curveHigh = 200.0

// loadCurve draws the load of the governing valve's spring, where a tester or geometry tells it.
func (f *flow) loadCurve(v evaluate.Valve, s Sheet) {
	g, ok := v.LoadGraph()
	if !ok {
		return
	}
	f.need(curveHigh + 34)
	f.heading(f.say("sheet.curve", v.Label))
	size := vg.Point{X: vg.Length(f.width()), Y: curveHigh}
	figure.NewLoadCurve(g, s.Words).Draw(canvasAt(f.press, f.left, f.y+curveHigh), size, Look())
	f.y += curveHigh
}
