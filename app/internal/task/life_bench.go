package task

import (
	"context"
	"errors"
	"slices"
	"strings"

	"keeperbook/model/exchange"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Life returns the life of the open set-up.
func (b *Bench) Life(ctx context.Context) (HeadLife, error) {
	return livedBy(ctx, b.desk.Book, b.rec, b.ev)
}

// Today is the day on which entries are made.
func (b *Bench) Today() record.Date { return record.Date(b.desk.now().Day()) }

// Dues returns what falls due of the open set-up.
func (b *Bench) Dues(h HeadLife) []life.Due {
	return h.Due(b.rec.Head.Tag, b.rec.Setup.ID, h.Runs, b.Today())
}

// Testers are the spring testers of the shop.
func (b *Bench) Testers(ctx context.Context) ([]record.Gauge, error) {
	all, err := b.desk.Book.Gauges(ctx)
	return slices.DeleteFunc(all, func(g record.Gauge) bool { return g.Kind != record.SpringTester }), err
}

// ran refuses a day on which the head ran with another set-up than the open one: it would go to the life of that.
func (b *Bench) ran(ctx context.Context, day record.Date) error {
	setups, err := b.desk.Book.Setups(ctx, b.rec.Head.ID)
	if err != nil {
		return err
	}
	if s := inService(setups, day); s != nil && s.ID != b.rec.Setup.ID {
		return say.Fail(say.Conflict, "life.other-setup", day, say.New("setup."+string(s.Kind)), s.Begun.Day())
	}
	return nil
}

// LogRun keeps what the head did on a day, typed in one line, as [exchange.ReadRunLine] reads it, or as the name of a usual day.
func (b *Bench) LogRun(ctx context.Context, day record.Date, line string) (record.Run, error) {
	days, err := b.UsualDays(ctx)
	if err != nil {
		return record.Run{}, err
	}
	line = Usual(line, days)
	in := lifeIn{desk: b.desk, heads: map[string]*headIn{}}
	h, err := in.head(ctx, b.rec.Head.ID)
	if err != nil {
		return record.Run{}, err
	}
	run, err := exchange.ReadRunLine(line, h.runs)
	if err != nil {
		return run, err
	}
	run.Day = day
	if run, err = in.run(ctx, b.rec.Head.ID, run); err != nil {
		return run, err
	}
	if err := b.ran(ctx, day); err != nil {
		return run, err
	}
	return run, b.desk.keep(ctx, "", []record.Edit{record.Put("", run)})
}

// UsualDays are the days that the engine of the open set-up often has.
func (b *Bench) UsualDays(ctx context.Context) ([]record.UsualDay, error) {
	return b.desk.Book.UsualDays(ctx, b.rec.Engine.ID)
}

// Usual writes a line out that begins with the name of a usual day; another one stays as it is.
func Usual(line string, days []record.UsualDay) string {
	name, rest, more := strings.Cut(line, ",")
	for _, d := range days {
		if !strings.EqualFold(strings.Join(strings.Fields(name), " "), d.Name) {
			continue
		}
		if more {
			return d.Line + "," + rest
		}
		return d.Line
	}
	return line
}

// NameDay keeps a line of running under a name for the engine, where a text says both: "race day = 6 passes, 9.5 s". A name with
// nothing behind it is forgotten. It reports whether the text was of that kind.
func (b *Bench) NameDay(ctx context.Context, text string) (u record.UsualDay, named bool, err error) {
	name, line, named := strings.Cut(text, "=")
	if !named {
		return u, false, nil
	}
	u = record.UsualDay{Engine: b.rec.Engine.ID, Name: strings.Join(strings.Fields(name), " "), Line: strings.TrimSpace(line), By: b.desk.Who}
	if u.Line == "" {
		return u, true, b.desk.keep(ctx, "", []record.Edit{record.Remove("", u)})
	}
	if _, err := exchange.ReadRunLine(u.Line, nil); err != nil {
		return u, true, err
	}
	if err := record.Doubt(u, b.desk.now()); err != nil {
		return u, true, err
	}
	return u, true, b.desk.keep(ctx, "", []record.Edit{record.Put("", u)})
}

// ReadRunLine reads a day's running without keeping it, and writes it as it is understood.
func ReadRunLine(line string, before []record.Run) (string, error) {
	run, err := exchange.ReadRunLine(line, before)
	if err != nil {
		return "", err
	}
	return exchange.RunLine(run), nil
}

// RunLine writes a run in one line.
func RunLine(r record.Run) string { return exchange.RunLine(r) }

// CheckDraft is a check of springs while it is typed.
type CheckDraft struct {
	Instead *record.SpringCheck // the one that it corrects; nil of a new one
	Day     record.Date
	Service record.Service
	Tester  string      // identifier
	NextDay record.Date // of the next check, "" where none is promised
	Next    string      // or after how much more: 40 passes
	Lines   map[record.Position]string
}

// ReadCheckLine says whether what was typed for one valve can be read.
func ReadCheckLine(line string) error {
	_, err := exchange.ReadCheckLine(line)
	return err
}

// LogCheck keeps a check of the open set-up, a line for each valve that was looked at. It refuses (say.Invalid) one of no valve.
func (b *Bench) LogCheck(ctx context.Context, d CheckDraft) error {
	nextIn, nextOf, err := exchange.ReadNextLine(d.Next)
	if err != nil {
		return err
	}
	var rows []exchange.CheckRow
	for _, at := range b.rec.Head.Positions() {
		if d.Lines[at] == "" {
			continue
		}
		row, err := exchange.ReadCheckLine(d.Lines[at])
		if err != nil {
			return err
		}
		row.Head, row.Day, row.Service, row.Tester, row.At = b.rec.Head.ID, d.Day, d.Service, d.Tester, at
		row.NextDay = d.NextDay
		row.Note = noteOn(d.Instead, at)
		row.NextIn, row.NextOf = nextIn, nextOf
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		return say.Fail(say.Invalid, "life.check-empty")
	}
	if err := b.ran(ctx, d.Day); err != nil {
		return err
	}
	_, err = b.desk.checksIn(ctx, rows, d.Instead)
	var refused *Refused
	if errors.As(err, &refused) {
		return refused.Rows[0].Err
	}
	return err
}

// noteOn is what was noted of a valve in a check, which no line holds.
func noteOn(c *record.SpringCheck, at record.Position) string {
	if c != nil {
		for _, v := range c.Valves {
			if v.At == at {
				return v.Note
			}
		}
	}
	return ""
}

// Correcting is a draft with everything that a check says.
func Correcting(c record.SpringCheck) CheckDraft {
	d := CheckDraft{Instead: &c, Day: c.Day, Service: c.Service, Tester: c.Gauge, NextDay: c.NextDay, Lines: map[record.Position]string{}}
	if c.NextIn != "" {
		d.Next = c.NextIn + " " + string(c.NextOf)
	}
	for _, v := range c.Valves {
		d.Lines[v.At] = exchange.CheckLine(v)
	}
	return d
}

// Forget takes a run or a check away. The history keeps that it was there.
func (b *Bench) Forget(ctx context.Context, n record.Noun) error {
	return b.desk.keep(ctx, "", []record.Edit{record.Remove("", n)})
}

// CheckDay refuses a day that is none, or that is still to come.
func CheckDay(day, today record.Date) error {
	return record.Doubt(record.SpringCheck{Day: day, Service: record.CheckedLater}, record.Stamp(today+"T00:00:00Z"))
}
