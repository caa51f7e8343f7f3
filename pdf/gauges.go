package pdf

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// gaugeWords words what is known of gauges on a sheet whose lengths are in one unit.
type gaugeWords struct {
	*flow
	length unit.Symbol
}

// gauges sets the gauges of the record with how well each of them reads, as it counts in the numbers.
func (f *flow) gauges(all []evaluate.Gauge, length unit.Symbol) {
	if len(all) == 0 {
		f.para(body, 0, f.say("sheet.gauges-none"))
		return
	}
	g := grid{shares: []float64{0.135, 0.13, 0.105, 0.265, 0.17, 0.195}}
	for _, key := range []string{"name", "kind", "step", "calibration", "scatter", "setting"} {
		g.titles = append(g.titles, f.say("sheet.gauge-"+key))
	}
	words := gaugeWords{f, length}
	for _, one := range all {
		of := one.Of
		g.rows = append(g.rows, []string{
			of.Name, joined(f.say("gauge."+string(of.Kind)), of.Number), words.step(one), words.calibration(of.Calibration, one.PastDue),
			words.scatter(one), joined(f.setting(of.Setting), of.Note),
		})
		if l := one.Loads; l != nil {
			g.rows = append(g.rows, []string{
				of.Name, f.say("sheet.gauge-loads"), words.step(*l), words.calibration(of.LoadScale.Calibration, l.PastDue),
				words.scatterOf(*l, of.LoadScale.Repeat), words.weights(of.LoadScale.Weights),
			})
		}
	}
	f.skip(4)
	f.grid(g)
}

// own is a property of a gauge in the unit that it was read in, which is said where the numbers of the
// sheet are in another.
func (f gaugeWords) own(q unit.Quantity) string {
	if q.Unit == f.length {
		return f.say("figure.length", q)
	}
	return f.words.Number(say.Number(q.String()))
}

func (f gaugeWords) step(g evaluate.Gauge) string {
	switch {
	case g.Step.Zero():
		return f.say("sheet.unsaid")
	case g.StepAssumed:
		return f.say("sheet.gauge-assumed", f.own(g.Step))
	}
	return f.own(g.Step)
}

// calibration words what a certificate says, with the days it holds for.
func (f gaugeWords) calibration(c *record.Calibration, late bool) string {
	if c == nil {
		return f.say("sheet.gauge-uncalibrated")
	}
	days, certificate, past := "", "", ""
	switch {
	case c.Date != "" && c.Due != "":
		days = f.say("sheet.gauge-done", c.Date, c.Due)
	case c.Due != "":
		days = f.say("sheet.gauge-due-only", c.Due)
	case c.Date != "":
		days = f.say("sheet.gauge-done-only", c.Date)
	}
	if c.Certificate != "" {
		certificate = f.say("sheet.gauge-certificate", c.Certificate)
	}
	if late {
		past = f.say("sheet.gauge-late")
	}
	return joined(f.say("sheet.gauge-u", f.own(c.U), say.Number(c.K)), days, past, certificate, c.By)
}

// weights says from when on dead weights tell what loads a tester shows too much or too little.
func (f gaugeWords) weights(w *record.Weights) string {
	switch {
	case w == nil:
		return ""
	case w.Date == "":
		return f.say("sheet.gauge-weights-undated")
	}
	return f.say("sheet.gauge-weights", w.Date)
}

func (f gaugeWords) scatter(g evaluate.Gauge) string { return f.scatterOf(g, g.Of.Repeat) }

func (f gaugeWords) scatterOf(g evaluate.Gauge, r *record.Repeat) string {
	if g.Scatter.Zero() {
		return f.say("sheet.unsaid")
	}
	from := f.say("sheet.gauge-studied")
	switch {
	case g.ScatterAssumed:
		from = f.say("sheet.gauge-scatter-assumed")
	case r != nil && r.People > 1:
		from = f.say("sheet.gauge-studied-by", r.People)
	}
	return f.say("sheet.gauge-repeat", f.own(g.Scatter), g.Freedom, from)
}
