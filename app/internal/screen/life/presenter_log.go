package life

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/life"
	"keeperbook/model/record"
)

// GraphAll is what all springs lost; false where one spring is drawn, or there is nothing to draw.
func (p *Presenter) GraphAll() (life.GraphAll, bool) {
	if !p.all {
		return life.GraphAll{}, false
	}
	return p.read.GraphAll(p.bench.Record().Setup.Rules.LoadLost)
}

// Times is the life of the set-up day by day; false before there is anything on it.
func (p *Presenter) Times() (life.Times, bool) {
	t := p.read.Times
	return t, len(t.Days)+len(t.Checks) > 0
}

// mostLash is how many checks the lash log shows beside each other.
const mostLash = 4

// LashLog is the lash of the valves, check by check: titles and cells, and how many earlier checks are left out.
func (p *Presenter) LashLog() (titles []string, rows [][]string, more int) {
	return p.read.Lash.InWords(p.bench.Words(), mostLash)
}

// CheckRow is a check as it is listed.
type CheckRow struct {
	Check     record.SpringCheck
	Day, Text string
}

// Checks are the checks of the set-up, the newest first.
func (p *Presenter) Checks() (rows []CheckRow) {
	for i := len(p.read.Done) - 1; i >= 0; i-- {
		c := p.read.Done[i]
		words := p.bench.Words()
		text := words.Line(task.CheckLine(c, p.testers))
		rows = append(rows, CheckRow{c, words.Day(c.Day.Shown()), text})
	}
	return rows
}

// Correct opens a check that was kept, with everything it says.
func (p *Presenter) Correct(c record.SpringCheck) {
	d := task.Correcting(c)
	p.draft = &d
}

// Correcting is the day of the check that is corrected; "" where a new one is entered.
func (p *Presenter) Correcting() string {
	if p.draft == nil || p.draft.Instead == nil {
		return ""
	}
	return p.bench.Words().Day(p.draft.Day.Shown())
}
