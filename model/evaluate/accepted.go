package evaluate

import (
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// by makes a finding one that knows how far its number lies beyond its limit; less than nought lies within.
func (f Finding) by(beyond unit.Length) Finding {
	f.beyond = &beyond
	return f
}

// Found is what somebody accepts who accepts what is found of a kind at a valve now.
func (ev *Evaluation) Found(at record.Position, finding string, u record.Units) []record.Found {
	words := Words(u)
	var all []record.Found
	for i := range ev.Valves {
		if ev.Valves[i].At != at {
			continue
		}
		for _, f := range ev.Valves[i].Findings {
			if f.Key != finding {
				continue
			}
			was := record.Found{Verdict: f.Verdict.word(), Beyond: f.beyond, Line: words.Line(f.Line)}
			if f.beyond != nil && *f.beyond == 0 {
				was.Beyond = nil // a record has no 0 where a key may be absent
			}
			all = append(all, was)
		}
	}
	return all
}

func (v Verdict) word() string { return strings.TrimPrefix(v.String(), "verdict.") }

// Covered reports whether a finding is what was accepted, and no worse. Who accepted something before it was kept what it came to
// accepted it whatever it comes to.
func (f Finding) Covered(d record.Deviation, words say.Printer) bool {
	return len(d.Found) == 0 || slices.ContainsFunc(d.Found, func(was record.Found) bool { return f.noWorse(was, words) })
}

func (f Finding) noWorse(was record.Found, words say.Printer) bool {
	verdict := Binds
	for verdict < Within && verdict.word() != was.Verdict {
		verdict++
	}
	switch {
	case f.Verdict < verdict || verdict == Short && f.Verdict == Over:
		return false // too much is no better than too little
	case f.beyond != nil && was.Beyond != nil:
		return *f.beyond <= *was.Beyond
	}
	return words.Line(f.Line) == was.Line
}

// FindingOf returns the finding that somebody accepted, as it is now: the worst where there are several of a kind.
func (ev *Evaluation) FindingOf(d record.Deviation) (Finding, bool) {
	for i := range ev.Valves {
		if ev.Valves[i].At != d.At {
			continue
		}
		for _, f := range ev.Valves[i].Findings {
			if f.Key == d.Finding && f.Verdict != Within {
				return f, true
			}
		}
	}
	return Finding{}, false
}
