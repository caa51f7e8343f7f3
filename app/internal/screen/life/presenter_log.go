package life

import (
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
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
const mostLash = 5

// LashLog is the lash of the valves, check by check: titles and cells, and how many earlier checks are left out.
func (p *Presenter) LashLog() (titles []string, rows [][]string, more int) {
	log := p.read.Lash
	if len(log.Days) == 0 {
		return nil, nil, 0
	}
	more = max(0, len(log.Days)-mostLash)
	titles = []string{p.say("life.lash-built")}
	for _, d := range log.Days[more:] {
		titles = append(titles, string(d))
	}
	titles = append(titles, p.say("life.lash-moved"))
	for _, r := range log.Rows {
		cells := []string{r.Label, ""}
		if r.Built != nil {
			cells[1] = p.say("expr.one", *r.Built)
		}
		for _, at := range r.At[more:] {
			cells = append(cells, p.lashAt(at))
		}
		moved := ""
		switch {
		case r.Moved == nil:
		case *r.Moved > 0:
			moved = "+" + p.say("expr.one", *r.Moved)
		default:
			moved = strings.Replace(p.say("expr.one", *r.Moved), "-", "−", 1)
		}
		rows = append(rows, append(cells, moved))
	}
	return titles, rows, more
}

func (p *Presenter) lashAt(at life.LashAt) string {
	switch {
	case at.Found == nil && at.Left == nil:
		return ""
	case at.Found == nil:
		return p.say("life.lash-left-only", *at.Left)
	case at.Left == nil || *at.Left == *at.Found:
		return p.say("expr.one", *at.Found)
	}
	return p.say("life.lash-found-left", *at.Found, *at.Left)
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
		service := say.New("life.service-" + string(c.Service))
		text := p.say("life.check-row", service, len(c.Valves))
		for _, g := range p.testers {
			if g.ID == c.Gauge {
				text = p.say("life.check-row-on", service, len(c.Valves), g.Name)
			}
		}
		rows = append(rows, CheckRow{c, string(c.Day), text})
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
	return string(p.draft.Day)
}
