package life

import (
	"slices"
	"strconv"
	"strings"

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

// Due returns what falls due of a life on a day: springs to change or to watch, what a trend comes to, and the check that was
// promised, by its day or by runs, on the sheet of the set-up while none was made.
func (l Life) Due(head, setup string, runs []record.Run, today record.Date) (all []Due) {
	for _, v := range l.Valves {
		if v.Verdict == Replace || v.Verdict == Watch {
			all = append(all, Due{Key: setup + "/" + v.At.String(), Over: v.Verdict == Replace, What: say.New("due."+string(v.Verdict), head, v.Label, v.Why[0])})
		}
	}
	for _, v := range l.Valves {
		for _, why := range v.Why {
			if why.Key == "life.goes" {
				all = append(all, Due{Key: setup + "/" + v.At.String() + "/trend", What: say.New("due.trend", head, v.Label, why)})
			}
		}
	}
	last := l.Last
	if !l.rechecked {
		all = append(all, promisedBySheet(head, setup, l.recheck, runs)...)
	}
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

// promisedBySheet is the check that the sheet of a set-up asks for in words: "after 500 miles, by the owner". Where a number and a
// kind of run stand in them, what was run is held against them; else the words are all that is said.
func promisedBySheet(head, setup, words string, runs []record.Run) []Due {
	if strings.TrimSpace(words) == "" {
		return nil
	}
	fields := strings.FieldsFunc(strings.ToLower(words), func(r rune) bool { return r == ' ' || r == ';' || r == '(' || r == ')' })
	for i := range len(fields) - 1 {
		most, err := strconv.ParseFloat(counted(fields[i]), 64)
		kind := record.RunKind(strings.TrimRight(fields[i+1], ".,"))
		if err != nil || most <= 0 || !slices.Contains(record.RunKinds, kind) {
			continue
		}
		done := 0.0
		for _, r := range runs {
			if r.Kind == kind {
				n, _ := strconv.ParseFloat(r.Count, 64)
				done += n
			}
		}
		return []Due{{
			Key: setup + "/sheet", Over: done >= most,
			What: say.New("due.sheet-runs", head, words, Number(done), say.New("run."+string(kind))),
		}}
	}
	return []Due{{Key: setup + "/sheet", What: say.New("due.sheet", head, words)}}
}

// counted is a number as the words of a sheet have it, in whatever language, with a point: 1,500 are thousands and 2,5 is two and a
// half. "" for 1.500, which is as good for either.
func counted(text string) string {
	whole, part, comma := strings.Cut(text, ",")
	switch {
	case comma && len(part) != 3:
		return whole + "." + part
	case comma:
		return whole + part
	case len(text) > 4 && text[len(text)-4] == '.':
		return ""
	}
	return text
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
