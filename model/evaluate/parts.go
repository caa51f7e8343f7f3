package evaluate

import (
	"math"
	"strconv"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Part is one line of the budget of a figure: where a part of its uncertainty comes from.
type Part struct {
	What  say.Line // what was read: "base height"; "calibration"
	From  say.Line // what it was read on and how often; the gauge with its certificate
	How   say.Line // how it is spread: "normal, from repeats", "rectangular, step .0005"
	Times say.Line // how often it counts, with its sign: "+1", "−1", "0"
	U     say.Line // standard uncertainty that it adds; the zero Line where it is not known
	Share say.Line // of the variance of the whole, in %; the zero Line where it is not known
}

// Parts returns the budget of a figure line by line: inputs in their order, gauges after them, then what
// is not known and so is not in it. It is empty where nothing can be told.
func (f Figure) Parts() []Part {
	sum, ok := f.sum()
	if !ok {
		return nil
	}
	rows, err := sum.Rows()
	if err != nil {
		return nil
	}
	l := &f.rests.b.doubt
	parts := make([]Part, 0, len(rows))
	for _, r := range rows {
		parts = append(parts, l.part(r))
	}
	return append(parts, l.unknown(sum)...)
}

// part puts a row of a budget into words.
func (l *ledger) part(r budget.Row) Part {
	p := Part{
		What: l.what(r), From: l.from(r), How: l.how(r), Times: times(r.C),
		U: say.New("expr.one", unit.Fine(math.Round(r.Std))), Share: percent(r.Share),
	}
	if r.Kind == budget.Cancels {
		p.U, p.Share = say.Line{}, say.Line{}
	}
	return p
}

// what names an input, or says that it is a gauge's own error that counts.
func (l *ledger) what(r budget.Row) say.Line {
	switch r.Kind {
	case budget.Calibration:
		return say.New("sure.calibration")
	case budget.Between:
		return say.New("sure.people")
	}
	return r.X.Name
}

// from says what an input was read on and what is only assumed of that.
func (l *ledger) from(r budget.Row) say.Line {
	if r.X == nil {
		// Only a gauge with a certificate has a row of its calibration.
		if r.Kind != budget.Calibration {
			return r.Gauge.Name
		}
		c := l.gauges[r.Gauge].paper
		if c.Certificate == "" {
			return say.New("sure.certificate-none", r.Gauge.Name, l.own(c.U), say.Number(c.K))
		}
		return say.New("sure.certificate", r.Gauge.Name, l.own(c.U), say.Number(c.K), c.Certificate)
	}
	a := l.about[r.X]
	switch {
	case a.differ:
		return say.New("sure.differ", strconv.Itoa(int(math.Round(r.X.Lot.Nu))+1))
	case a.sold:
		return say.New("sure.as-sold")
	case r.Gauge == nil:
		return say.Line{}
	}
	line := r.Gauge.Name
	switch {
	case r.X.Lot.N > 0:
		line = say.New("sure.of-lot", line, r.X.Lot.N)
	case r.X.N > 1:
		line = say.New("sure.times", line, r.X.N)
	}
	if a.supplied {
		line = say.New("sure.supplied", line)
	}
	if a.from != "" {
		line = say.New("sure.borrowed", line, a.from)
	}
	return line
}

// how says how a part is spread.
func (l *ledger) how(r budget.Row) say.Line {
	switch r.Kind {
	case budget.Cancels:
		return say.New("sure.cancels")
	case budget.Repeats:
		if l.gauges[r.Gauge].scatterAssumed {
			return say.New("sure.repeats-assumed", Degrees(r.Nu))
		}
		return say.New("sure.repeats", Degrees(r.Nu))
	case budget.Lots:
		return say.New("sure.lot", Degrees(r.Nu))
	case budget.Step:
		i := l.gauges[r.Gauge]
		if i.stepAssumed {
			return say.New("sure.step-assumed", l.own(i.step))
		}
		return say.New("sure.step", l.own(i.step))
	case budget.Tolerance:
		return say.New("sure.tolerance", unit.Length(math.Round(r.X.Tolerance)))
	case budget.Between:
		return say.New("sure.between", Degrees(r.Nu))
	}
	return say.New("sure.normal")
}

// unknown lists what nobody knows of the inputs and gauges of a sum, each once.
func (l *ledger) unknown(sum budget.Sum) []Part {
	var parts []Part
	said := map[any]bool{}
	add := func(about any, p Part) {
		if !said[about] {
			said[about] = true
			parts = append(parts, p)
		}
	}
	for _, t := range sum {
		x, a := t.X, l.about[t.X]
		if i := l.gauges[x.Gauge]; i != nil && i.of != nil && !i.certified() {
			add(x.Gauge, Part{What: say.New("sure.calibration"), From: x.Gauge.Name, How: say.New("sure.no-calibration")})
		}
		if a.typeOnly {
			add(x, Part{What: say.New("sure.lot-of", x.Name), How: say.New("sure.no-lot")})
		}
		if a.from != "" && !a.spread {
			add(x, Part{What: say.New("sure.role-of", x.Name), How: say.New("sure.no-spread")})
		}
	}
	return parts
}

// times writes a sensitivity with its sign and at most two decimals.
func times(c float64) say.Line {
	text := say.Number(strconv.FormatFloat(math.Abs(math.Round(100*c)/100), 'f', -1, 64))
	switch {
	case c > 0:
		return say.New("sure.plus", text)
	case c < 0:
		return say.New("sure.minus", text)
	}
	return say.New("expr.one", text)
}

// percent rounds a share; what is there and rounds to nothing is said to be less than one.
func percent(share float64) say.Line {
	if p := int(math.Round(100 * share)); p > 0 || share == 0 {
		return say.New("sure.percent", p)
	}
	return say.New("sure.under-one")
}

// Degrees writes degrees of freedom, which need not be a whole number, with one decimal at most.
func Degrees(nu float64) say.Number {
	if math.IsInf(nu, 1) {
		return "∞"
	}
	return say.Number(strconv.FormatFloat(math.Round(10*nu)/10, 'f', -1, 64))
}

// tooFew names the input whose scatter is known from too few readings to say more.
func (f Figure) tooFew() say.Line {
	switch r, ok := f.fewest(); {
	case !ok:
		return say.Line{}
	case r.X == nil:
		return r.Gauge.Name
	default:
		return r.X.Name
	}
}

// tooFewKey is the key of the sentence that asks for more of it: other readings, or those of the very spring.
func (f Figure) tooFewKey() string {
	if r, ok := f.fewest(); ok && r.Kind == budget.Lots {
		return "unproven.repeat-lot"
	}
	return "unproven.repeat"
}

// fewest is the row of a budget that takes most of the degrees of freedom.
func (f Figure) fewest() (budget.Row, bool) {
	sum, _ := f.sum()
	rows, err := sum.Rows()
	if err != nil {
		return budget.Row{}, false
	}
	at, most := -1, 0.0
	for i, r := range rows {
		if takes := r.Std * r.Std / r.Nu * r.Std * r.Std; takes > most {
			at, most = i, takes
		}
	}
	if at < 0 {
		return budget.Row{}, false
	}
	return rows[at], true
}

// Decides says where most of the doubt in a figure comes from and what would help: words that end a
// sentence. It is the zero Line where nothing can be told.
func (f Figure) Decides() say.Line {
	sum, ok := f.sum()
	if !ok {
		return say.Line{}
	}
	rows, err := sum.Rows()
	at := budget.Biggest(rows)
	if err != nil || at < 0 || rows[at].Std == 0 {
		return say.Line{}
	}
	l, r := &f.rests.b.doubt, rows[at]
	share := percent(r.Share)
	switch r.Kind {
	case budget.Repeats:
		switch i := l.gauges[r.Gauge]; {
		case i.of == nil:
			return say.New("decides.gauge", r.X.Name, share)
		case i.scatterAssumed:
			return say.New("decides.study", r.X.Name, r.Gauge.Name, share)
		}
		return say.New("decides.repeats", r.X.Name, share)
	case budget.Lots:
		if l.about[r.X].differ {
			return say.New("decides.differ", r.X.Name, share)
		}
		return say.New("decides.lot", r.X.Name, share)
	case budget.Step:
		return say.New("decides.step", r.X.Name, share)
	case budget.Tolerance:
		return say.New("decides.tolerance", share)
	case budget.Between:
		return say.New("decides.between", r.Gauge.Name, share)
	}
	return say.New("decides.calibration", r.Gauge.Name, share)
}
