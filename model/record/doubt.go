package record

import (
	"regexp"
	"strings"
	"time"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Doubt refuses a noun that says of gauges, springs, sizes or rules what cannot be, before it is kept. Now is
// the moment it is kept at; without it nothing is held against the calendar. It returns nil or a *say.Error
// with code Invalid.
//
// What is only not enough (one point of a load curve, two weights on a tester) passes: people enter one after
// the other. What takes a correction to see, such as a bind height above a point, is doubted by
// evaluate.DoubtPart.
func Doubt(n Noun, now Stamp) error {
	var err *say.Error
	switch n := n.(type) {
	case Gauge:
		err = doubtGauge(n, now)
	case Spring:
		err = doubtSpring(n)
	case SpringPiece:
		err = doubtPiece(n)
	case Retainer:
		err = doubtRetainer(n)
	case Locks:
		err = sized(sizeOf(n.Name, "stem", n.Stem))
	case Locator:
		err = doubtLocator(n)
	case Seal:
		err = sized(sizeOf(n.Name, "outside", n.Outside), sizeOf(n.Name, "height", n.Height))
	case Setup:
		err = doubtSetup(n)
	case ShopRules:
		err = doubtRules(n.Rules())
	case Package:
		err = doubtPackage(n)
	case Reading:
		err = doubtReading(n)
	case Study:
		err = doubtStudy(n)
	case StockShim:
		err = doubtStockShim(n)
	case Run:
		err = doubtRun(n, now)
	case SpringCheck:
		err = doubtSpringCheck(n, now)
	case UsualDay:
		err = doubtUsualDay(n)
	case Tagged:
		err = doubtTagged(n, now)
	case Trust:
		err = doubtTrust(n)
	}
	if err != nil {
		return err // a nil *say.Error would be an error that is not nil
	}
	return nil
}

func doubtGauge(g Gauge, now Stamp) *say.Error {
	name := say.New("expr.one", g.Name)
	if err := doubtScale(name, g.Step, g.Calibration, g.Repeat, now); err != nil {
		return err
	}
	l := g.LoadScale
	switch {
	case l == nil:
		return nil
	case g.Kind != SpringTester:
		return invalid("record.no-loads", name).About("loadScale")
	}
	if err := doubtScale(name, l.Step, l.Calibration, l.Repeat, now); err != nil {
		return err.About("loadScale")
	}
	if l.Weights != nil {
		if err := doubtWeights(name, *l.Weights, now); err != nil {
			return err.About("loadScale")
		}
	}
	return nil
}

// doubtScale looks at what is known of one scale of a gauge.
func doubtScale(name say.Line, step *unit.Quantity, c *Calibration, r *Repeat, now Stamp) *say.Error {
	if step != nil && step.Value <= 0 {
		return invalid("record.step", name, written(*step)).About("step")
	}
	if c != nil {
		if err := doubtCalibration(name, *c, now); err != nil {
			return err.About("calibration")
		}
	}
	if r != nil {
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
		if err := doubtDay(name, d); err != nil {
			return err
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

func doubtDay(name say.Line, d Date) *say.Error {
	if _, ok := d.day(); !ok && d != "" {
		return invalid("record.day", name, string(d))
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
