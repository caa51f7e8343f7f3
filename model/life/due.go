package life

import (
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Due is something that falls due.
type Due struct {
	Key  string      // the same for the same thing, whatever day it is
	Day  record.Date // on which it does; "" where it goes by runs, or is due already
	Over bool        // it is due
	What say.Line
}

// Due returns what falls due of a life on a day: springs to change or to watch, and the check that was promised, by its day or
// by runs.
func (l Life) Due(head, setup string, runs []record.Run, today record.Date) (all []Due) {
	for _, v := range l.Valves {
		if v.Verdict == Replace || v.Verdict == Watch {
			all = append(all, Due{Key: setup + "/" + v.At.String(), Over: v.Verdict == Replace, What: say.New("due."+string(v.Verdict), head, v.Label, v.Why[0])})
		}
	}
	last := l.Last
	if last == nil {
		return all
	}
	if last.NextDay != "" {
		all = append(all, Due{Key: last.ID + "/day", Day: last.NextDay, Over: last.NextDay <= today, What: say.New("due.check", head)})
	}
	if promised, err := strconv.ParseFloat(last.NextIn, 64); err == nil {
		done := 0.0
		for _, r := range runs {
			if r.Kind == last.NextOf && !before(r, *last) {
				n, _ := strconv.ParseFloat(r.Count, 64)
				done += n
			}
		}
		all = append(all, Due{
			Key: last.ID + "/runs", Over: done >= promised,
			What: say.New("due.runs", head, Number(done), last.NextIn, say.New("run."+string(last.NextOf))),
		})
	}
	return all
}

// GaugeDue returns when gauges are to be calibrated again.
func GaugeDue(gauges []record.Gauge, today record.Date) (all []Due) {
	for _, g := range gauges {
		for i, c := range []*record.Calibration{g.Calibration, loadsOf(g)} {
			if c != nil && c.Due != "" {
				what := say.New([]string{"due.gauge", "due.gauge-loads"}[i], g.Name)
				all = append(all, Due{Key: g.ID + "/" + strconv.Itoa(i), Day: c.Due, Over: c.Due <= today, What: what})
			}
		}
	}
	return all
}

func loadsOf(g record.Gauge) *record.Calibration {
	if g.LoadScale == nil {
		return nil
	}
	return g.LoadScale.Calibration
}
