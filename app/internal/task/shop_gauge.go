package task

import (
	"cmp"
	"context"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// NewGauge is a gauge that reads at the spring itself.
func (c *Counter) NewGauge(name string) (record.Gauge, error) {
	name, err := c.name(name)
	return record.Gauge{ID: NewID(), Name: name, Kind: record.HeightGauge}, err
}

// Through returns a gauge's setting in which one part of the stack is this thick; nothing typed takes it
// out.
func (c *Counter) Through(setting []record.Taken, part record.PartOfStack, text string) ([]record.Taken, error) {
	return c.bench.Through(setting, part, text)
}

// GaugeKinds are the kinds of gauges of the job.
func GaugeKinds() []record.GaugeKind {
	return record.GaugeKinds
}

// gaugeUnit is the unit that a gauge shows, that of the shop where it is not known.
func gaugeUnit(g record.Gauge, shop unit.Symbol) unit.Symbol {
	if g.Step != nil {
		return g.Step.Unit
	}
	return shop
}

// GaugeUnit is the unit of a number of a gauge that has none behind it.
func (c *Counter) GaugeUnit(g record.Gauge) unit.Symbol { return gaugeUnit(g, c.Units().Length) }

// Assumed returns what a set-up that is begun now in the gauge's unit assumes of one of its kind of which
// nobody found out more; false where the rules say nothing of it.
func (c *Counter) Assumed(g record.Gauge) (record.Assumed, bool) {
	return assumed(c.Rules(c.GaugeUnit(g)), g.Kind)
}

// ReadOf reads a length of a gauge. Nothing typed is none.
func (c *Counter) ReadOf(g record.Gauge, text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(sizeColumn(c.GaugeUnit(g)), text)
}

func assumed(rules record.ShopRules, kind record.GaugeKind) (record.Assumed, bool) {
	for _, a := range rules.Rules().Assumed {
		if a.Kind == kind {
			return a, true
		}
	}
	return record.Assumed{}, false
}

// Today is the day by the clock of the desk.
func (c *Counter) Today() string { return string(c.bench.desk.now().Day()) }

// Studied says on which day a study was begun; false where it is not in the book.
func (c *Counter) Studied(id string) (day say.Day, ok bool) {
	day, ok = c.studied[id]
	return day, ok
}

// studied are the days of the studies in the book, by identifier.
func (d *Desk) studied(ctx context.Context) (map[string]say.Day, error) {
	all, err := d.Book.Studies(ctx)
	if err != nil {
		return nil, err
	}
	days := map[string]say.Day{}
	for _, s := range all {
		days[s.ID] = begun(s).Day()
	}
	return days, nil
}

// withoutStudies takes the studies of a gauge away. A gauge and its study name each other, so the gauge lets
// go first.
func (c *Counter) withoutStudies(ctx context.Context, g record.Gauge) ([]record.Edit, error) {
	all, err := c.bench.desk.Book.Studies(ctx)
	if err != nil {
		return nil, err
	}
	g.Repeat = nil
	edits := []record.Edit{record.Put("", g)}
	for _, s := range all {
		if s.Gauge == g.ID {
			edits = append(edits, record.Remove("", s))
		}
	}
	return edits, nil
}

// Certificate is what was said so far of a gauge's calibration. Only with U and its factor it is one.
type Certificate struct {
	U         *unit.Quantity
	K         string
	Date, Due record.Date
	Number    string
	By        string
}

// CertificateOf is what the book has of a gauge's calibration.
func CertificateOf(g record.Gauge) Certificate {
	c := g.Calibration
	if c == nil {
		return Certificate{}
	}
	return Certificate{&c.U, c.K, c.Date, c.Due, c.Certificate, c.By}
}

// WithCertificate returns a gauge with a calibration. As long as U or its factor is not known the gauge has
// none; neither can be left out of a calibration that says more (say.Conflict). What cannot be is refused as
// [record.Doubt] does, also as long as something is missing.
func (c *Counter) WithCertificate(g record.Gauge, t Certificate) (record.Gauge, error) {
	next := g
	full := record.Calibration{K: t.K, Date: t.Date, Due: t.Due, Certificate: t.Number, By: t.By}
	waits := t.U == nil || t.K == ""
	if waits {
		// Whatever is missing, what is there can be looked at.
		full.U, full.K = unit.Worked(0, c.Units().Length, 0), cmp.Or(t.K, "2")
	}
	if t.U != nil {
		full.U = *t.U
	}
	next.Calibration = &full
	if err := record.Doubt(next, c.bench.desk.now()); err != nil {
		return g, err
	}
	if !waits {
		return next, nil
	}
	if rest := t; g.Calibration != nil {
		rest.U, rest.K = nil, ""
		if rest != (Certificate{}) {
			return g, say.Fail(say.Conflict, "shop.certificate-needs")
		}
	}
	next.Calibration = nil
	return next, nil
}

// Conditions are the states of a spring when it goes on.
func Conditions() []record.Condition {
	return []record.Condition{record.New, record.RunIn, record.HeatCycled, record.Used}
}

// Sources say how a number came to be known.
func Sources() []record.Source {
	return []record.Source{record.Measured, record.Supplied, record.Estimated}
}
