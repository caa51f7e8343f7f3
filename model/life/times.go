package life

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Times is what became of a set-up day by day, for whoever draws it.
type Times struct {
	From, Until record.Date // the day it was begun, and the last day there is anything on
	Days        []RunDay    // in the order of days
	Checks      []record.Date
	Promised    record.Date // of the next check; "" where none is
}

// RunDay is what a head ran on one day.
type RunDay struct {
	Day    record.Date
	Cycles float64 // valve cycles; nought where nobody knows
	Over   bool    // it ran beyond the speed that it was set up for
}

// TimesOf returns the times of a set-up that was begun on a day. Runs and checks are in the order of days.
func TimesOf(begun record.Date, runs []record.Run, checks []record.SpringCheck) Times {
	t := Times{From: begun, Until: begun}
	for _, r := range runs {
		cycles, _ := cyclesOf(r)
		if n := len(t.Days); n > 0 && t.Days[n-1].Day == r.Day {
			t.Days[n-1].Cycles += cycles
			t.Days[n-1].Over = t.Days[n-1].Over || r.OverRevs > 0
		} else {
			t.Days = append(t.Days, RunDay{r.Day, cycles, r.OverRevs > 0})
		}
		t.Until = max(t.Until, r.Day)
	}
	for _, c := range checks {
		if !slices.Contains(t.Checks, c.Day) {
			t.Checks = append(t.Checks, c.Day)
		}
		t.Until = max(t.Until, c.Day)
		t.Promised = c.NextDay
	}
	if t.Promised != "" && t.Promised > t.Until {
		t.Until = t.Promised
	} else {
		t.Promised = "" // it was long ago
	}
	return t
}

// LashLog is how the lash of the valves went, check by check.
type LashLog struct {
	Days []record.Date // of the checks at which somebody looked at a lash
	Rows []LashRow     // of the valves of which any lash is known, in the order of the head
}

// LashRow is the lash of one valve. What nobody measured is nil.
type LashRow struct {
	Label string
	Built *unit.Length // as it was left at the build
	At    []LashAt     // in the order of the days
	Moved *unit.Length // found at the last check, less what was left before
}

// LashAt is a lash as it was found and as it was left.
type LashAt struct{ Found, Left *unit.Length }

// LashLogOf returns the log of a set-up. Checks are in the order of days.
func LashLogOf(ev evaluate.Evaluation, l Life, checks []record.SpringCheck) (log LashLog) {
	var looked []record.SpringCheck
	for _, c := range checks {
		if slices.ContainsFunc(c.Valves, func(v record.CheckedValve) bool { return v.Found != nil || v.Left != nil }) {
			looked, log.Days = append(looked, c), append(log.Days, c.Day)
		}
	}
	for i := range ev.Valves {
		e := &ev.Valves[i]
		row, any := LashRow{Label: e.Label}, false
		if e.LashLeft.Known {
			row.Built, any = &e.LashLeft.Value, true
		}
		for _, c := range looked {
			var at LashAt
			for _, v := range c.Valves {
				if v.At == e.At && v.Found != nil {
					n := v.Found.Length()
					at.Found, any = &n, true
				}
				if v.At == e.At && v.Left != nil {
					n := v.Left.Length()
					at.Left, any = &n, true
				}
			}
			row.At = append(row.At, at)
		}
		if i < len(l.Valves) {
			row.Moved = l.Valves[i].Lash
		}
		if any {
			log.Rows = append(log.Rows, row)
		}
	}
	return log
}
