package record_test

import (
	"errors"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

const noon record.Stamp = "2026-03-02T12:00:00Z"

func of(t testing.TB, read string) unit.Quantity {
	t.Helper()
	q, err := unit.Of(read, unit.In)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func some(t testing.TB, read string) *unit.Quantity {
	q := of(t, read)
	return &q
}

// sound is a gauge of which everything is known and nothing is wrong.
func sound(t testing.TB) record.Gauge {
	return record.Gauge{
		ID: "g", Name: "height gauge 1", Kind: record.HeightGauge, Step: some(t, "0.001"),
		Calibration: &record.Calibration{U: of(t, "0.0010"), K: "2", Date: "2025-09-15", Due: "2026-09-15"},
		Repeat:      &record.Repeat{S: of(t, "0.0008"), Freedom: "24", People: 3},
	}
}

func TestDoubt(t *testing.T) {
	gauge := func(change func(*record.Gauge)) record.Noun {
		g := sound(t)
		change(&g)
		return g
	}
	calibrated := func(change func(*record.Calibration)) record.Noun {
		return gauge(func(g *record.Gauge) { change(g.Calibration) })
	}
	rules := func(change func(*record.Rules)) record.Noun {
		r := record.DefaultRules(unit.In)
		change(&r)
		return record.Setup{ID: "s", Rules: r}
	}
	lot := func(l record.Lot) *record.Bind { return &record.Bind{Lot: &l} }
	study := func(s record.Study) record.Noun { s.What = "base height of 3 in"; return s }

	tests := []struct {
		name  string
		noun  record.Noun
		says  string // the sentence, or its part that matters; "" where nothing is wrong
		field string
	}{
		{"a sound gauge", sound(t), "", ""},
		{"a gauge of which nothing is known", record.Gauge{ID: "g"}, "", ""},
		{"step of nought", gauge(func(g *record.Gauge) { g.Step = some(t, "0.000") }), "The step of height gauge 1 is 0.000 in; a gauge has a step above nought.", "step"},
		{"step below nought", gauge(func(g *record.Gauge) { g.Step = some(t, "-0.001") }), "is -0.001 in", "step"},
		{"uncertainty of nought", calibrated(func(c *record.Calibration) { c.U = of(t, "0") }), "", ""},
		{"uncertainty below nought", calibrated(func(c *record.Calibration) { c.U = of(t, "-0.0010") }), "an uncertainty of -0.0010 in, which is never below nought", "calibration"},
		{"coverage factor of nought", calibrated(func(c *record.Calibration) { c.K = "0" }), `The coverage factor of height gauge 1 is "0"`, "calibration"},
		{"coverage factor below nought", calibrated(func(c *record.Calibration) { c.K = "-2" }), `is "-2"`, "calibration"},
		{"coverage factor that is a word", calibrated(func(c *record.Calibration) { c.K = "two" }), `is "two"`, "calibration"},
		{"coverage factor with a comma", calibrated(func(c *record.Calibration) { c.K = "2,1" }), `is "2,1"`, "calibration"},
		{"coverage factor that is no number", calibrated(func(c *record.Calibration) { c.K = "Inf" }), `is "Inf"`, "calibration"},
		{"coverage factor without its nought", calibrated(func(c *record.Calibration) { c.K = ".95" }), `is ".95"`, "calibration"},
		{"coverage factor of many decimals", calibrated(func(c *record.Calibration) { c.K = "1.95996" }), `is "1.95996"`, "calibration"},
		{"coverage factor left out", calibrated(func(c *record.Calibration) { c.K = "" }), `is ""`, "calibration"},
		{"odd coverage factor", calibrated(func(c *record.Calibration) { c.K = "2.65" }), "", ""},
		{"no days", calibrated(func(c *record.Calibration) { c.Date, c.Due = "", "" }), "", ""},
		{"a day in another order", calibrated(func(c *record.Calibration) { c.Date = "15.09.2025" }), `names the day "15.09.2025"`, "calibration"},
		{"a day that is not in the calendar", calibrated(func(c *record.Calibration) { c.Due = "2026-02-29" }), `names the day "2026-02-29"`, "calibration"},
		{"calibrated today", calibrated(func(c *record.Calibration) { c.Date = "2026-03-02" }), "", ""},
		{"calibrated today, where the day is ahead of UTC", calibrated(func(c *record.Calibration) { c.Date = "2026-03-03" }), "", ""},
		{"calibrated in the future", calibrated(func(c *record.Calibration) { c.Date = "2026-03-04" }), "dated 2026-03-04, which is still to come", "calibration"},
		{"past due", calibrated(func(c *record.Calibration) { c.Due = "2026-02-10" }), "", ""},
		{"due on its day", calibrated(func(c *record.Calibration) { c.Due = "2025-09-15" }), "falls due on 2025-09-15, which is not after the day it was done, 2025-09-15", "calibration"},
		{"due before its day", calibrated(func(c *record.Calibration) { c.Due = "2025-09-14" }), "falls due on 2025-09-14", "calibration"},
		{"due without a day", calibrated(func(c *record.Calibration) { c.Date = "" }), "", ""},
		{"scatter of nought", gauge(func(g *record.Gauge) { g.Repeat.S = of(t, "0") }), "", ""},
		{"scatter below nought", gauge(func(g *record.Gauge) { g.Repeat.S = of(t, "-0.0008") }), "said to scatter by -0.0008 in", "repeat"},
		{"no degrees of freedom", gauge(func(g *record.Gauge) { g.Repeat.Freedom = "0" }), `has "0" degrees of freedom`, "repeat"},
		{"a fraction of a degree of freedom", gauge(func(g *record.Gauge) { g.Repeat.Freedom = "17.6" }), "", ""},
		{"fewer people than none", gauge(func(g *record.Gauge) { g.Repeat.People = -1 }), "-1 people", "repeat"},

		{"a lot", record.Spring{Name: "nest 12", Coils: []record.Coil{{}, {Bind: lot(record.Lot{Count: 2, Spread: of(t, "0.001")})}}}, "", ""},
		{"a lot of one", record.Spring{Name: "nest 12", Coils: []record.Coil{{}, {Bind: lot(record.Lot{Count: 1})}}}, "The bind height of nest 12 is said to come from 1 springs", "lot"},
		{"a spread below nought", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Bind: lot(record.Lot{Count: 3, Spread: of(t, "-0.001")})}}, "said to differ by -0.001 in", "lot"},
		{"a spring that is a lot", record.SpringPiece{Tag: "bag 7", Binds: []record.PieceBind{{Coil: 1, Bind: *lot(record.Lot{Count: 3})}}}, "Spring bag 7 is a single spring", "lot"},
		{"a spring", record.SpringPiece{Tag: "bag 7", Binds: []record.PieceBind{{Coil: 1}}}, "", ""},

		{"the usual rules in inches", rules(func(*record.Rules) {}), "", ""},
		{"the usual rules in millimetres", record.Setup{Rules: record.DefaultRules(unit.Mm)}, "", ""},
		{"no rules yet", record.Setup{}, "", ""},
		{"95 %", rules(func(r *record.Rules) { r.Decision = record.Guarded95 }), "", ""},
		{"an unknown decision", rules(func(r *record.Rules) { r.Decision = "sure" }), `The rules decide by "sure"`, "decision"},
		{"assumed twice", rules(func(r *record.Rules) { r.Assumed = append(r.Assumed, r.Assumed[0]) }), "say twice how well a height gauge", "assumed"},
		{"an assumed step of nought", rules(func(r *record.Rules) { r.Assumed[1].Step = of(t, "0") }), "The step of caliper is 0 in", "assumed"},
		{"an assumed scatter below nought", rules(func(r *record.Rules) { r.Assumed[2].S = of(t, "-1") }), "Readings on micrometer are said to scatter by -1 in", "assumed"},
		{"shims of no tolerance", rules(func(r *record.Rules) { r.ShimTolerance = some(t, "0") }), "", ""},
		{"a tolerance below nought", rules(func(r *record.Rules) { r.ShimTolerance = some(t, "-0.002") }), "within -0.002 in of its size", "shimTolerance"},

		{"a study that begins", study(record.Study{Unit: unit.In}), "", ""},
		{"a study of loads", study(record.Study{Unit: unit.Lbf}), `The study of base height of 3 in is in "lbf"`, "unit"},
		{"a reading struck with a reason", study(record.Study{Unit: unit.Mm, Readings: []record.StudyReading{{}, {Struck: &record.Strike{Reason: "slipped"}}}}), "", ""},
		{"a reading struck without one", study(record.Study{Unit: unit.Mm, Readings: []record.StudyReading{{}, {Struck: &record.Strike{By: "AB"}}}}), "Reading 2 of the study of base height of 3 in was struck without a reason", "readings"},

		{"another noun", record.Seal{}, "", ""},
		{"nothing", nil, "", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := record.Doubt(test.noun, noon)
			if test.says == "" {
				if err != nil {
					t.Fatal(err)
				}
				return
			}
			var e *say.Error
			if !errors.As(err, &e) {
				t.Fatalf("%v, want %s", err, test.says)
			}
			if e.Code != say.Invalid || e.Field != test.field || !strings.Contains(err.Error(), test.says) {
				t.Errorf("%s at %q: %s, want at %q: %s", e.Code, e.Field, err, test.field, test.says)
			}
		})
	}
}

// Without a clock nothing is still to come: a document means the same on every day.
func TestDoubtWithoutAClock(t *testing.T) {
	g := sound(t)
	g.Calibration.Date, g.Calibration.Due = "2999-01-01", ""
	if err := record.Doubt(g, ""); err != nil {
		t.Error(err)
	}
	if err := record.Doubt(g, noon); err == nil {
		t.Error("a calibration that is to come was taken")
	}
}
