package life

import (
	"strings"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ValveWords is the life of the spring at one valve in words.
type ValveWords struct {
	Label, Verdict, Lost, Loads, Why string
	Last                             string // day of the last load that is compared
	Quiet                            bool   // nothing is to be done
}

// InWords puts the life of every spring into words, in a printer that shows loads in a unit; none before the first check.
func (l Life) InWords(words say.Printer, loads unit.Symbol) (rows []ValveWords) {
	if l.Checks == 0 {
		return nil
	}
	for _, v := range l.Valves {
		row := ValveWords{Label: v.Label, Quiet: v.Verdict == Keep || v.Verdict == Unknown}
		if v.Verdict != Unknown {
			row.Verdict = words.Line(say.New("life.verdict-" + string(v.Verdict)))
		}
		switch {
		case v.Lost == nil:
		case v.Lost.U == 0:
			row.Lost = words.Line(say.New("life.share-bare", Percent(v.Lost.Share)))
		default:
			row.Lost = words.Line(say.New("life.share", Percent(v.Lost.Share), Percent(v.Lost.U)))
		}
		if v.Base >= 0 {
			row.Last = words.Day(v.Points[v.Now].Day.Shown())
			row.Loads = words.Line(say.New("life.loads", v.Points[v.Base].Load, v.Points[v.Now].Load)) + " " + string(loads)
		}
		var why []string
		for _, line := range v.Why {
			// What was lost has a column of its own.
			if line.Key != "life.lost" && line.Key != "life.lost-bare" {
				why = append(why, words.Line(line))
			}
		}
		if len(why) == 0 && !v.NoTrend.Zero() {
			why = append(why, words.Line(v.NoTrend))
		}
		row.Why = strings.Join(why, "; ")
		rows = append(rows, row)
	}
	return rows
}

// CountedFrom says from when losses count; zero before the first check.
func (l Life) CountedFrom() say.Line {
	for _, v := range l.Valves {
		if v.Base >= 0 {
			base := v.Points[v.Base]
			return say.New("life.counted", say.New("life.since-"+string(base.Service)), base.Day)
		}
	}
	return say.Line{}
}

// InWords is the log as a table, with the last checks of it: titles, and of each valve its label and a cell under each title; and
// how many checks are left out before them.
func (log LashLog) InWords(words say.Printer, most int) (titles []string, rows [][]string, more int) {
	if len(log.Days) == 0 {
		return nil, nil, 0
	}
	text := func(n unit.Length) string { return words.Line(say.New("expr.one", n)) }
	more = max(0, len(log.Days)-most)
	titles = []string{words.Line(say.New("life.lash-built"))}
	for _, d := range log.Days[more:] {
		titles = append(titles, words.Day(d.Shown()))
	}
	titles = append(titles, words.Line(say.New("life.lash-moved")))
	for _, r := range log.Rows {
		cells := []string{r.Label, ""}
		if r.Built != nil {
			cells[1] = text(*r.Built)
		}
		for _, at := range r.At[more:] {
			cells = append(cells, at.inWords(words, text))
		}
		moved := ""
		switch {
		case r.Moved == nil:
		case *r.Moved > 0:
			moved = "+" + text(*r.Moved)
		case *r.Moved < 0:
			moved = "−" + text(-*r.Moved)
		default:
			moved = text(0)
		}
		rows = append(rows, append(cells, moved))
	}
	return titles, rows, more
}

func (at LashAt) inWords(words say.Printer, text func(unit.Length) string) string {
	switch {
	case at.Found == nil && at.Left == nil:
		return ""
	case at.Found == nil:
		return words.Line(say.New("life.lash-left-only", *at.Left))
	case at.Left == nil || *at.Left == *at.Found:
		return text(*at.Found)
	}
	return words.Line(say.New("life.lash-found-left", *at.Found, *at.Left))
}
