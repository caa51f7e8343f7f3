package budget

import "math"

// Kind says where a part of an uncertainty comes from and how it is spread.
type Kind int

// The kinds, in the order in which an input's rows stand.
const (
	Cancels     Kind = iota // the input enters with both signs and drops out
	Repeats                 // normal, from repeats
	Lots                    // normal, from other pieces of the lot
	Step                    // rectangular, the step of the gauge
	Tolerance               // rectangular, within limits
	Estimated               // normal, from elsewhere
	Calibration             // normal, from the gauge's certificate
	Between                 // normal, between the people who use the gauge
)

// Row is one part of an uncertainty. Calibration and Between stand once for each gauge, with X nil
// and C the factor that the gauge counts with; all others stand once for an input.
type Row struct {
	X     *Input
	Gauge *Gauge // what the input was read on, nil where it was not read
	Kind  Kind
	C     float64 // sensitivity, with its sign
	Std   float64 // what it adds to the standard uncertainty
	Nu    float64 // its degrees of freedom, infinite where nothing was estimated
	Share float64 // of the variance of the whole: the shares of all rows add up to one
}

// Rows lists what a budget is made of: inputs in their order, gauges after them.
func (s Sum) Rows() ([]Row, error) {
	var r room
	l, err := s.open(&r)
	if err != nil {
		return nil, err
	}
	rows := make([]Row, 0, 2*len(l.terms)+len(l.gauges))
	for _, t := range l.terms {
		rows = l.rows(rows, t)
	}
	for i := range l.gauges {
		g := &l.gauges[i]
		c := math.Sqrt(g.factor2())
		if g.gauge.Certificate.K > 0 {
			rows = append(rows, Row{nil, g.gauge, Calibration, c, c * math.Sqrt(g.gauge.Certificate.variance()), math.Inf(1), 0})
		}
		if p := g.gauge.People; !p.none() {
			rows = append(rows, Row{nil, g.gauge, Between, c, c * p.S, p.Nu, 0})
		}
	}
	all := 0.0
	for _, row := range rows {
		all += row.Std * row.Std
	}
	for i := range rows {
		if all > 0 {
			rows[i].Share = rows[i].Std * rows[i].Std / all
		}
	}
	return rows, nil
}

// rows appends what one input adds.
func (l *ledger) rows(rows []Row, t Term) []Row {
	x, c := t.X, math.Abs(t.C)
	add := func(k Kind, std, nu float64) { rows = append(rows, Row{x, x.Gauge, k, t.C, c * std, nu, 0}) }
	if t.C == 0 {
		add(Cancels, 0, math.Inf(1))
		return rows
	}
	if x.read() {
		own := l.own(x)
		add(Repeats, own.S/math.Sqrt(float64(x.N)), own.Nu)
	}
	if x.Lot.N > 0 {
		add(Lots, math.Sqrt(x.lot2()), x.Lot.Nu)
	}
	if x.Gauge != nil {
		add(Step, math.Sqrt(x.Gauge.step2()), math.Inf(1))
	}
	if x.Tolerance > 0 {
		add(Tolerance, math.Sqrt(x.tolerance2()), math.Inf(1))
	}
	if x.Estimate.Nu > 0 {
		add(Estimated, x.Estimate.U, x.Estimate.Nu)
	}
	return rows
}

// Biggest returns the index of the row with the greatest share, the first of equals, and −1 for none.
func Biggest(rows []Row) int {
	at := -1
	for i := range rows {
		if at < 0 || rows[i].Share > rows[at].Share {
			at = i
		}
	}
	return at
}
