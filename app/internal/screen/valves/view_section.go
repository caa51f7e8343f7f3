package valves

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// drawSection draws the stack of a valve, and with the cursor in a column of loads the curve of its spring.
func (v *View) drawSection(valve evaluate.Valve) {
	words := v.p.Words()
	if g, ok := valve.LoadGraph(); ok && v.p.OnLoads() {
		v.section.Set(figure.NewLoadCurve(g, words), words.Line(say.New("valves.curve", valve.Label, g.Of)))
		return
	}
	v.section.Set(figure.NewSection(valve, figure.PartsOf(v.bench.Record(), valve.At), words),
		words.Line(say.New("valves.section", valve.Label, valve.Word())))
}
