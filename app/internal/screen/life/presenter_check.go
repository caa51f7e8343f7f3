package life

import (
	"context"
	"maps"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Begin opens an empty check, on the tester of the one before.
func (p *Presenter) Begin() {
	p.draft = &task.CheckDraft{Day: p.day, Service: record.CheckedRunIn, Lines: map[record.Position]string{}}
	if p.read.Last != nil {
		p.draft.Service, p.draft.Tester = record.CheckedLater, p.read.Last.Gauge
	} else if len(p.testers) > 0 {
		p.draft.Tester = p.testers[0].ID
	}
}

// Checking reports whether a check is entered.
func (p *Presenter) Checking() bool { return p.draft != nil }

// Drop forgets what was entered of a check.
func (p *Presenter) Drop() { p.draft = nil }

// Typed reports whether something of the check was entered, or changed of one that is corrected.
func (p *Presenter) Typed() bool {
	if c := p.draft.Instead; c != nil {
		was := task.Correcting(*c)
		return !maps.Equal(was.Lines, p.draft.Lines) || was.NextDay != p.draft.NextDay || was.Next != p.draft.Next ||
			was.Service != p.draft.Service || was.Tester != p.draft.Tester
	}
	for _, line := range p.draft.Lines {
		if line != "" {
			return true
		}
	}
	return p.draft.NextDay != "" || p.draft.Next != ""
}

// Services are when springs may be checked, and which it is.
func (p *Presenter) Services() (labels []string, at int) {
	for i, s := range record.Services {
		labels = append(labels, p.say("life.service-"+string(s)))
		if s == p.draft.Service {
			at = i
		}
	}
	return labels, at
}

// Serve takes when the springs are checked.
func (p *Presenter) Serve(at int) { p.draft.Service = record.Services[at] }

// Testers are what loads may be read on, the last one nothing that the book knows, and which it is.
func (p *Presenter) Testers() (labels []string, at int) {
	at = len(p.testers)
	for i, g := range p.testers {
		labels = append(labels, g.Name)
		if g.ID == p.draft.Tester {
			at = i
		}
	}
	return append(labels, p.say("life.tester-none")), at
}

// Test takes the tester.
func (p *Presenter) Test(at int) {
	p.draft.Tester = ""
	if at < len(p.testers) {
		p.draft.Tester = p.testers[at].ID
	}
}

// ValveLine is what is entered of one valve.
type ValveLine struct {
	At    record.Position
	Label string
	Text  string
}

// Lines are the valves in the order of the head.
func (p *Presenter) Lines() (all []ValveLine) {
	head := &p.bench.Record().Head
	for _, at := range head.Positions() {
		all = append(all, ValveLine{at, head.Label(at), p.draft.Lines[at]})
	}
	return all
}

// Found takes what was found at a valve.
func (p *Presenter) Found(at record.Position, text string) error {
	if err := task.ReadCheckLine(text); err != nil {
		return err
	}
	p.draft.Lines[at] = text
	return nil
}

// Next is when the next check is promised: the day, and after how much more.
func (p *Presenter) Next() (day, in string) {
	return p.bench.Words().Day(p.draft.NextDay.Shown()), p.draft.Next
}

// NextDay takes the day of the next check, and NextIn after how much more it is.
func (p *Presenter) NextDay(text string) { p.draft.NextDay = record.DateOf(text) }

// NextIn is described at [Presenter.NextDay].
func (p *Presenter) NextIn(text string) { p.draft.Next = text }

// Keep keeps the check.
func (p *Presenter) Keep(ctx context.Context) (say.Line, error) {
	told := say.New("life.corrected", p.draft.Day)
	if p.draft.Instead == nil {
		p.draft.Day, told = p.day, say.New("life.checked", p.day)
	}
	if err := p.bench.LogCheck(ctx, *p.draft); err != nil {
		return say.Line{}, err
	}
	p.draft = nil
	return told, p.Load(ctx)
}
