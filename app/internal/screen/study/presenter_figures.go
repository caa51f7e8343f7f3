package study

import (
	"context"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Figure is one number of the study with what it is.
type Figure struct{ Label, Value string }

// Figures are the numbers of the open study. What is not known yet is not in them.
func (p *Presenter) Figures() []Figure {
	s := p.found()
	all := []Figure{{p.say("study.count"), p.say("study.count-of", s.Count, len(s.Of.Readings))}}
	if s.Count == 0 {
		return all
	}
	add := func(label, value string) { all = append(all, Figure{label, value}) }
	add(p.say("study.mean"), p.length(s, s.Mean))
	if s.Known {
		add(p.say("study.scatter"), p.length(s, s.Scatter))
		add(p.say("study.freedom"), p.say("study.number", s.Freedom))
	}
	if s.Readers() < 2 {
		return all
	}
	for _, who := range s.People {
		if who.Count > 0 {
			add(p.say("study.mean-of", who.Name, who.Count), p.length(s, who.Mean))
		}
	}
	switch {
	case s.Known && s.Between > 0:
		add(p.say("study.between"), p.length(s, s.Between))
	case s.Known:
		add(p.say("study.between"), p.say("study.between-none"))
	}
	return all
}

// length writes a length with its unit.
func (p *Presenter) length(s evaluate.Study, l unit.Length) string {
	return say.Chosen().Number(say.Number(s.Show(l).String()))
}

// Remarks say what the numbers mean: whether they are enough, and who or what is to be looked at again.
func (p *Presenter) Remarks() []string {
	s := p.found()
	var all []string
	switch wanting := s.Wanting(); {
	case p.Fixed():
		all = append(all, p.say("study.is-used"))
	case s.Count == 0:
		all = append(all, p.say("study.how"))
	case wanting > 0:
		all = append(all, p.say("study.wanting", wanting))
	default:
		all = append(all, p.say("study.enough"))
	}
	if s.Outlying >= 0 {
		all = append(all, p.say(s.Why.Key, s.Why.Args...))
	}
	return all
}

// Outlying is the index of the reading that a test calls an outlier, −1 for none.
func (p *Presenter) Outlying() int { return p.found().Outlying }

// Row is a row of readings of one person.
type Row struct {
	Who   string // in the first row of the person
	Cells []Cell
}

// Cell is one reading.
type Cell struct {
	At     int // index in the study
	Text   string
	More   string // why it was struck
	Struck bool
}

// abreast is how many readings stand in a row.
const abreast = 5

// Readings are all readings of the open study, struck ones too, by who took them.
func (p *Presenter) Readings() []Row {
	open := p.studies.Open()
	var rows []Row
	for _, who := range p.found().People {
		begun := false
		for i, r := range open.Readings {
			if r.By != who.Name {
				continue
			}
			if last := len(rows) - 1; !begun || len(rows[last].Cells) == abreast {
				rows = append(rows, Row{})
				if !begun {
					rows[len(rows)-1].Who = who.Name
				}
				begun = true
			}
			c := Cell{At: i, Text: p.say("study.reading", r.Quantity)}
			if r.Struck != nil {
				c.Struck, c.More = true, p.say("study.struck", r.Struck.Reason)
			}
			rows[len(rows)-1].Cells = append(rows[len(rows)-1].Cells, c)
		}
	}
	return rows
}

// Reading names a reading in a question: "reading 5, 1.848 by J. Peverel".
func (p *Presenter) Reading(at int) string {
	r := p.studies.Open().Readings[at]
	return p.say("study.named", at+1, r.Quantity, r.By)
}

// Struck returns the reason for which a reading does not count; false where it counts.
func (p *Presenter) Struck(at int) (string, bool) {
	s := p.studies.Open().Readings[at].Struck
	if s == nil {
		return "", false
	}
	return s.Reason, true
}

// Strike says that a reading does not count, and why.
func (p *Presenter) Strike(ctx context.Context, at int, reason string) error {
	return p.studies.Strike(ctx, at, reason)
}

// CountAgain takes that back.
func (p *Presenter) CountAgain(ctx context.Context, at int) error {
	return p.studies.CountAgain(ctx, at)
}

// Line is one study of the gauge.
type Line struct {
	ID   string
	Text string // day and what was measured
	More string // what it came to
	Open bool
}

// Studies are the studies of the gauge, the newest first.
func (p *Presenter) Studies() []Line {
	var all []Line
	for _, one := range p.studies.All() {
		all = append(all, Line{one.ID, p.heading(one), p.outcome(one), one.ID == p.studies.Open().ID})
	}
	return all
}

func (p *Presenter) heading(one record.Study) string {
	if one.What == "" {
		return p.say("study.line-unnamed", day(one))
	}
	return p.say("study.line", day(one), one.What)
}

// outcome says in one line what a study came to, and whether the gauge counts with it.
func (p *Presenter) outcome(one record.Study) string {
	s := evaluate.StudyOf(&one)
	parts := []say.Line{say.New("study.line-few", s.Count)}
	if s.Known {
		parts = []say.Line{say.New("study.line-known", say.Number(s.Show(s.Scatter).String()), s.Freedom, s.Readers())}
	}
	switch {
	case p.studies.InForce(one.ID):
		parts = append(parts, say.New("study.line-used"))
	case s.Wanting() > 0:
		parts = append(parts, say.New("study.line-wanting", s.Wanting()))
	}
	return p.say("expr.one", parts)
}

// Choose opens a study.
func (p *Presenter) Choose(id string) { p.studies.Choose(id) }
