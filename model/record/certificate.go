package record

import (
	"strings"
	"time"

	"keeperbook/model/say"
)

// PastDue reports whether a gauge is due for calibration on a day, "2026-03-02": what it measures from then
// on is marked. On the day that it falls due it is still good. A gauge without a day to be due on is never
// past due, and nothing is on a day that is not known.
func (g *Gauge) PastDue(day string) bool {
	c := g.Calibration
	return c != nil && c.Due != "" && day != "" && day > string(c.Due)
}

// DateOf returns a day as records write it, of a text that has year, month and day in this order: 2026-3-2,
// 2026/03/02, 20260302, or that is written as the chosen language writes days. Any other text comes back as it is, for [Doubt] to refuse.
func DateOf(text string) Date {
	text = say.Chosen().ReadDay(text)
	for _, form := range []string{"2006-1-2", "2006/1/2", "2006.1.2", "20060102"} {
		if t, err := time.Parse(form, text); err == nil {
			return Date(t.Format(time.DateOnly))
		}
	}
	return Date(text)
}

// FactorOf returns a coverage factor as records write it, of a text that may have a comma and lack the nought
// before it. Any other text comes back as it is, for [Doubt] to refuse.
func FactorOf(text string) string {
	text = strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	if strings.HasPrefix(text, ".") {
		text = "0" + text
	}
	return strings.TrimSuffix(text, ".")
}
