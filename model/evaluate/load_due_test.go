package evaluate_test

import (
	"slices"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// A tester has a certificate for its heights and another for its loads. A load on the head that was taken at the
// installed height is read on the one scale, tests of springs on both. On the day it is due it still holds.
func TestLoadScalePastDue(t *testing.T) {
	for _, c := range []struct {
		name, heights, loads string // due
		want                 []string
	}{
		{"on the day", "2026-03-02", "2026-03-02", nil},
		{"loads", "2026-03-02", "2026-03-01", []string{
			"The load scale of the tester was due for calibration on 2026-03-01 and was read after that, last on 2026-03-02: seat load on the head, loads of springs (1 in).",
		}},
		{"heights", "2026-03-01", "2026-03-02", []string{
			"The tester was due for calibration on 2026-03-01 and was read after that, last on 2026-03-02: loads of springs.",
		}},
		{"both, with the height said", "2026-02-01", "2026-02-02", []string{
			"The tester was due for calibration on 2026-02-01 and was read after that, last on 2026-03-02: seat load on the head, loads of springs (1 in).",
			"The load scale of the tester was due for calibration on 2026-02-02 and was read after that, last on 2026-03-02: seat load on the head, loads of springs (1 in).",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := testerShop(t)
			g := &r.Gauges[indexOf(r, "T")]
			g.Calibration.Due, g.LoadScale.Calibration.Due = record.Date(c.heights), record.Date(c.loads)
			height := ""
			if len(c.want) > 1 {
				height = "2.000"
			}
			seatLoad(t, r, "300.0", height)
			lastOf(r, intake, record.SeatLoad, 0).When = "2026-03-02T10:00:00Z"
			r.Parts.Springs[0].Coils[0].Loads.At = "2026-03-02T08:00:00Z"
			ev := evaluate.Evaluate(r)
			var got []string
			for _, f := range ev.Findings {
				if f.Key == "past-due" {
					got = append(got, evaluate.Words(r.Setup.Units).Line(f.Line))
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q", got)
			}
			last := ev.Gauges[len(ev.Gauges)-1]
			if c.name != "on the day" && last.Loads.PastDue != strings.Contains(strings.Join(got, ""), "load scale") {
				t.Errorf("the load scale is past due: %t", last.Loads.PastDue)
			}
		})
	}
}

// Two seat loads of one head, read on a scale that scatters by .3 lbf, differ by less than 1.1 lbf in 99 of 100
// cases (3.64 s: upper 1 % point of the studentized range of two with many degrees of freedom, a table in
// Montgomery, Design and Analysis of Experiments; from memory).
func TestSeatLoadsApart(t *testing.T) {
	for _, c := range []struct {
		second string
		apart  bool
	}{{"301.0", false}, {"301.2", true}, {"298.8", true}} {
		r := testerShop(t)
		seatLoad(t, r, "300.0", "")
		seatLoad(t, r, c.second, "")
		v := first(r)
		if got := slices.ContainsFunc(v.Findings, func(f evaluate.Finding) bool { return f.Key == "repeats" }); got != c.apart {
			t.Errorf("300.0 and %s: apart %t", c.second, got)
		}
		if c.second == "301.2" {
			wantSaid(t, v, "1 in: readings of the seat load on the head lie 1.2 apart (300.0, 301.2), more than the tester scatters; measure it again.")
		}
	}
}
