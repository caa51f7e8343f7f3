package record_test

import (
	"testing"

	"keeperbook/model/record"
)

func TestPastDue(t *testing.T) {
	due := func(day record.Date) *record.Gauge {
		return &record.Gauge{Calibration: &record.Calibration{K: "2", Due: day}}
	}
	for _, c := range []struct {
		gauge *record.Gauge
		day   string
		want  bool
	}{
		{due("2026-03-01"), "2026-02-28", false},
		{due("2026-03-01"), "2026-03-01", false},
		{due("2026-03-01"), "2026-03-02", true},
		{due("2026-03-01"), "", false},
		{due(""), "2026-03-02", false},
		{&record.Gauge{}, "2026-03-02", false},
	} {
		if got := c.gauge.PastDue(c.day); got != c.want {
			t.Errorf("%+v on %s: %v", c.gauge.Calibration, c.day, got)
		}
	}
}

// What is no day, or no factor, comes back as it was typed and is refused by its own sentence.
func TestCertificateTexts(t *testing.T) {
	for text, want := range map[string]record.Date{
		"2026-03-02": "2026-03-02", " 2026-3-2 ": "2026-03-02", "2026/3/2": "2026-03-02", "2026.03.02": "2026-03-02",
		"20260302": "2026-03-02", "": "", "02.03.2026": "02.03.2026", "2026-02-29": "2026-02-29", "soon": "soon",
	} {
		if got := record.DateOf(text); got != want {
			t.Errorf("%q is the day %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"2": "2", " 2,05 ": "2.05", ".95": "0.95", "2.": "2", "": "", "two": "two", "1,000,0": "1.000,0",
	} {
		if got := record.FactorOf(text); got != want {
			t.Errorf("%q is the factor %q, want %q", text, got, want)
		}
	}
}
