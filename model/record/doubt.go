package record

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Doubt refuses a noun that says of gauges, lots or rules what cannot be, before it is kept. Now is the
// moment it is kept at; without it nothing is held against the calendar. It returns nil or a *say.Error
// with code Invalid.
func Doubt(n Noun, now Stamp) error {
	var err *say.Error
	switch n := n.(type) {
	case Gauge:
		err = doubtGauge(n, now)
	case Spring:
		err = doubtSpring(n)
	case SpringPiece:
		err = doubtPiece(n)
	case Setup:
		err = doubtRules(n.Rules)
	case ShopRules:
		err = doubtRules(n.Rules())
	case Study:
		err = doubtStudy(n)
	}
	if err != nil {
		return err // a nil *say.Error would be an error that is not nil
	}
	return nil
}

func doubtGauge(g Gauge, now Stamp) *say.Error {
	name := say.New("expr.one", g.Name)
	if g.Step != nil && g.Step.Value <= 0 {
		return invalid("record.step", name, written(*g.Step)).About("step")
	}
	if c := g.Calibration; c != nil {
		if err := doubtCalibration(name, *c, now); err != nil {
			return err.About("calibration")
		}
	}
	if r := g.Repeat; r != nil {
		switch {
		case r.S.Value < 0:
			return invalid("record.scatter", name, written(r.S)).About("repeat")
		case !positive(r.Freedom):
			return invalid("record.freedom", name, r.Freedom).About("repeat")
		case r.People < 0:
			return invalid("record.people", name, r.People).About("repeat")
		}
	}
	return nil
}

func doubtCalibration(name say.Line, c Calibration, now Stamp) *say.Error {
	for _, d := range []Date{c.Date, c.Due} {
		if _, ok := d.day(); !ok && d != "" {
			return invalid("record.day", name, string(d))
		}
	}
	switch {
	case c.U.Value < 0:
		return invalid("record.expanded", name, written(c.U))
	case !positive(c.K):
		return invalid("record.coverage", name, c.K)
	case toCome(c.Date, now):
		return invalid("record.to-come", name, string(c.Date))
	// Days compare as texts. One that falls due on the day it was done would never have been good.
	case c.Due != "" && c.Due <= c.Date:
		return invalid("record.due", name, string(c.Due), string(c.Date))
	}
	return nil
}

// toCome reports whether a day is not reached yet anywhere. Moments are kept in UTC, and a certificate
// has the day of the place it was written at: there it may be tomorrow already.
func toCome(d Date, now Stamp) bool {
	day, ok := d.day()
	today, known := Date(now.Day()).day()
	return ok && known && day.After(today.AddDate(0, 0, 1))
}

func (d Date) day() (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, string(d))
	return t, err == nil
}

func doubtSpring(s Spring) *say.Error {
	for _, c := range s.Coils {
		if c.Bind != nil {
			if err := doubtLot(s.Name, c.Bind.Lot); err != nil {
				return err
			}
		}
	}
	if s.Assembly != nil {
		return doubtLot(s.Name, s.Assembly.Bind.Lot)
	}
	return nil
}

func doubtLot(spring string, l *Lot) *say.Error {
	switch {
	case l == nil:
	case l.Count < 2:
		return invalid("record.lot-count", spring, l.Count).About("lot")
	case l.Spread.Value < 0:
		return invalid("record.lot-spread", spring, written(l.Spread)).About("lot")
	}
	return nil
}

func doubtPiece(p SpringPiece) *say.Error {
	for _, b := range p.Binds {
		if b.Bind.Lot != nil {
			return invalid("record.lot-piece", p.Tag).About("lot")
		}
	}
	return nil
}

func doubtRules(r Rules) *say.Error {
	// Rules that nobody filled in yet decide nothing.
	if r.Decision != "" && !slices.Contains(Decisions, r.Decision) {
		return invalid("record.decision", string(r.Decision)).About("decision")
	}
	seen := map[GaugeKind]bool{}
	for _, a := range r.Assumed {
		name := say.New("gauge." + string(a.Kind))
		switch {
		case seen[a.Kind]:
			return invalid("record.assumed-twice", name).About("assumed")
		case a.Step.Value <= 0:
			return invalid("record.step", name, written(a.Step)).About("assumed")
		case a.S.Value < 0:
			return invalid("record.scatter", name, written(a.S)).About("assumed")
		}
		seen[a.Kind] = true
	}
	if t := r.ShimTolerance; t != nil && t.Value < 0 {
		return invalid("record.tolerance", written(*t)).About("shimTolerance")
	}
	return nil
}

func doubtStudy(s Study) *say.Error {
	if s.Unit.Dimension() != unit.OfLength {
		return invalid("record.study-unit", s.What, string(s.Unit)).About("unit")
	}
	for i, r := range s.Readings {
		if r.Struck != nil && r.Struck.Reason == "" {
			return invalid("record.study-strike", i+1, s.What).About("readings")
		}
	}
	return nil
}

// plain is a number as records have it: the same text in every book, and never so long that another
// program would round it.
var plain = regexp.MustCompile(`^(0|[1-9][0-9]{0,5})(\.[0-9]{1,4})?$`)

// positive reports whether a text is a plain decimal above nought.
func positive(text string) bool {
	return plain.MatchString(text) && strings.Trim(text, "0.") != ""
}

func written(q unit.Quantity) string { return q.Read + " " + string(q.Unit) }

func invalid(key string, args ...any) *say.Error { return say.Fail(say.Invalid, key, args...) }
