package record

// PastDue reports whether a gauge is due for calibration on a day, "2026-03-02": what it measures from then
// on is marked. On the day that it falls due it is still good. A gauge without a day to be due on is never
// past due, and nothing is on a day that is not known.
func (g *Gauge) PastDue(day string) bool {
	c := g.Calibration
	return c != nil && c.Due != "" && day != "" && day > string(c.Due)
}
