package task

import (
	"bytes"
	"context"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
)

// Report is the life of a set-up as a PDF, as it stands on a day.
func (h HeadLife) Report(today record.Date, paper Paper, testers []record.Gauge) ([]byte, error) {
	r := pdf.Report{
		Record: h.Record, Life: h.Life, Times: h.Times, Lash: h.Lash, Ran: h.Sum(), Day: today, Paper: paper, Words: h.Words,
	}
	for i := len(h.Runs) - 1; i >= 0; i-- {
		text := exchange.RunLine(h.Runs[i])
		if h.Runs[i].Note != "" {
			text += "; " + h.Runs[i].Note
		}
		r.Runs = append(r.Runs, pdf.Logged{Day: h.Words.Day(h.Runs[i].Day.Shown()), Text: text})
	}
	for i := len(h.Done) - 1; i >= 0; i-- {
		text := h.Words.Line(CheckLine(h.Done[i], testers))
		if seen := h.seenAt(h.Done[i]); len(seen) > 0 {
			text += "; " + h.Words.Line(say.New("expr.one", seen))
		}
		r.Checks = append(r.Checks, pdf.Logged{Day: h.Words.Day(h.Done[i].Day.Shown()), Text: text})
	}
	for _, d := range h.Due(h.Record.Head.Tag, h.Record.Setup.ID, h.Runs, today) {
		r.Due = append(r.Due, h.Words.Line(DueOn(d)))
	}
	var b bytes.Buffer
	err := pdf.WriteReport(&b, r)
	return b.Bytes(), err
}

// seenAt says valve by valve what was seen at a check, where that was something.
func (h HeadLife) seenAt(c record.SpringCheck) (all []say.Line) {
	for _, v := range c.Valves {
		for _, s := range v.Seen {
			if s != record.NothingOnIt {
				all = append(all, say.New("report.seen", h.Record.Head.Label(v.At), say.New("sight."+string(s))))
			}
		}
	}
	return all
}

// CheckLine says of a check when in the life of the set-up it was, of how many valves, and on which tester.
func CheckLine(c record.SpringCheck, testers []record.Gauge) say.Line {
	service := say.New("life.service-" + string(c.Service))
	for _, g := range testers {
		if g.ID == c.Gauge {
			return say.New("life.check-row-on", service, len(c.Valves), g.Name)
		}
	}
	return say.New("life.check-row", service, len(c.Valves))
}

// SaveLife writes the life of the open set-up as a PDF, on the terms of [Bench.Save].
func (b *Bench) SaveLife(ctx context.Context, path string, replace bool) (string, error) {
	h, err := b.Life(ctx)
	if err != nil {
		return "", err
	}
	testers, err := b.Testers(ctx)
	if err != nil {
		return "", err
	}
	return b.saveAs(OutLife, path, replace, func() ([]byte, error) { return h.Report(b.Today(), b.UsualPaper(), testers) })
}
