package life

import (
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/wear"
)

// cyclesOf returns the valve cycles of a run; false where what they come from was not written down.
func cyclesOf(r record.Run) (float64, bool) {
	n := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return 0 // absent, and so are the cycles
		}
		return x
	}
	var run wear.Run
	switch r.Kind {
	case record.Passes, record.Laps:
		run = wear.Timed{Count: n(r.Count), Seconds: n(r.Seconds), Mean: n(r.Mean)}
	case record.Hours:
		run = wear.Hours{Hours: n(r.Count), Mean: n(r.Mean)}
	case record.Miles, record.Kilometres:
		run = wear.Road{Distance: n(r.Count), PerHour: n(r.Speed), Mean: n(r.Mean)}
	case record.Pulls:
		run = wear.Pulls{Count: n(r.Count), From: n(r.From), To: n(r.To), Rate: n(r.Rate)}
	default:
		return 0, false
	}
	cycles, err := run.Cycles()
	return cycles, err == nil
}

// Ran is what a head did in all.
type Ran struct {
	Totals                     []Total
	Cycles                     float64 // valve cycles of the runs that have them: idle, warm-up and staging are in none
	Uncounted                  int     // runs that have none
	Runs                       int
	Starts, Burnouts, OverRevs int
}

// Counted writes the valve cycles as a whole number.
func (r Ran) Counted() string { return strconv.FormatFloat(r.Cycles, 'f', 0, 64) }

// Total is how much was run in one kind, with the valve cycles of one of it; nought where they are not known.
type Total struct {
	Kind  record.RunKind
	Count float64
	Each  float64
}

// ranOf adds runs up.
func ranOf(runs []record.Run) Ran {
	var all Ran
	counted := map[record.RunKind]struct{ count, cycles, of float64 }{}
	for _, r := range runs {
		all.Runs++
		all.Starts, all.Burnouts, all.OverRevs = all.Starts+r.Starts, all.Burnouts+r.Burnouts, all.OverRevs+r.OverRevs
		t := counted[r.Kind]
		count, _ := strconv.ParseFloat(r.Count, 64)
		t.count += count
		if cycles, ok := cyclesOf(r); ok {
			all.Cycles, t.cycles, t.of = all.Cycles+cycles, t.cycles+cycles, t.of+count
		} else {
			all.Uncounted++
		}
		counted[r.Kind] = t
	}
	for _, kind := range record.RunKinds {
		if t, ok := counted[kind]; ok {
			total := Total{Kind: kind, Count: t.count}
			if t.of > 0 {
				total.Each = t.cycles / t.of
			}
			all.Totals = append(all.Totals, total)
		}
	}
	return all
}

// own is the kind in which most cycles were run; false where none has cycles.
func (r Ran) own() (own Total, ok bool) {
	for _, t := range r.Totals {
		if t.Count*t.Each > own.Count*own.Each {
			own = t
		}
	}
	return own, own.Each > 0
}

// before reports whether a run comes before a check. Springs are checked after the runs of a day, but for new ones.
func before(r record.Run, c record.SpringCheck) bool {
	return r.Day < c.Day || r.Day == c.Day && c.Service != record.CheckedNew
}

// reached is how far a head had run at a check, and how many of its runs have no cycles.
type reached struct {
	cycles float64
	blind  int
}

// ranBefore returns how far the head had run at each check. Both are in the order of days.
func ranBefore(runs []record.Run, checks []record.SpringCheck) []reached {
	all := make([]reached, len(checks))
	var now reached
	next := 0
	for i, c := range checks {
		for ; next < len(runs) && before(runs[next], c); next++ {
			if cycles, ok := cyclesOf(runs[next]); ok {
				now.cycles += cycles
			} else {
				now.blind++
			}
		}
		all[i] = now
	}
	return all
}
