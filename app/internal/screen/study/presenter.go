// Package study is the page on which it is tried how well one gauge repeats: one and the same thing is read
// on it again and again, and the page says how far the readings scatter and how far people differ.
package study

import (
	"context"
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/budget"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// Presenter is the page without a window.
type Presenter struct {
	studies *task.Studies
	aside   []Aside
}

// NewPresenter returns the page of a gauge's studies.
func NewPresenter(studies *task.Studies) *Presenter { return &Presenter{studies: studies} }

// Load takes gauge and studies from the book again.
func (p *Presenter) Load(ctx context.Context) error { return p.studies.Load(ctx) }

func (p *Presenter) say(key string, args ...any) string {
	return p.studies.Words().Line(say.New(key, args...))
}

// Words returns the printer in the unit of the study.
func (p *Presenter) Words() say.Printer { return p.studies.Words() }

// Title names the gauge.
func (p *Presenter) Title() string { return p.say("study.title", p.studies.Gauge().Name) }

// Counting says what the gauge counts with now.
func (p *Presenter) Counting() string {
	g := p.studies.Gauge()
	r := g.Repeat
	if r == nil {
		a, ok := p.studies.Assumed()
		if !ok {
			return p.say("study.counts-nothing")
		}
		return p.say("study.counts-assumed", say.Number(a.S.String()), say.New("gauge."+string(g.Kind)), budget.AssumedNu)
	}
	from := p.say("study.from-elsewhere")
	for _, s := range p.studies.All() {
		if s.ID == r.Study {
			from = p.say("study.from", day(s))
		}
	}
	return p.say("study.counts", say.Number(r.S.String()), say.Number(r.Freedom), from)
}

// Fixed reports whether the gauge counts with the open study, which then stays as it is.
func (p *Presenter) Fixed() bool { return p.studies.InForce(p.studies.Open().ID) }

// Unit is the one that readings are in without one behind them.
func (p *Presenter) Unit() string { return string(p.studies.Open().Unit) }

// What is what is measured, in the shop's words.
func (p *Presenter) What() string { return p.studies.Open().What }

// Name says what is measured. A number was meant for the study, and is set aside.
func (p *Presenter) Name(ctx context.Context, what string) error {
	if _, err := p.studies.Understand(strings.TrimSpace(what)); err == nil {
		p.aside = append(p.aside, Aside{what, p.say("study.what-number", strings.TrimSpace(what))})
		return nil
	}
	return p.studies.Name(ctx, what)
}

// People are those who may read, and Reader is the index of who does.
func (p *Presenter) People() []string { return p.studies.People() }

// Reader is the index of who reads now.
func (p *Presenter) Reader() int { return slices.Index(p.studies.People(), p.studies.By()) }

// ReadBy has somebody read from now on.
func (p *Presenter) ReadBy(name string) error { return p.studies.ReadBy(name) }

// NextReader has the next of the people read.
func (p *Presenter) NextReader() error {
	all := p.People()
	return p.studies.ReadBy(all[(p.Reader()+1)%len(all)])
}

// Aside is a text that was typed and is no reading of the study, with the sentence that says why.
type Aside struct{ Text, Why string }

// Enter keeps a reading and reports whether it is kept. What is refused is set aside, so that the next
// reading of a gauge that types finds an empty field and nothing is lost.
func (p *Presenter) Enter(ctx context.Context, text string) bool {
	err := p.studies.Take(ctx, text)
	if err != nil {
		p.aside = append(p.aside, Aside{text, p.studies.Words().Line(task.Told(err))})
	}
	return err == nil
}

// Stray takes a reading that a gauge typed into a dialog.
func (p *Presenter) Stray(text string) {
	p.aside = append(p.aside, Aside{text, p.say("study.stray", text)})
}

// Aside returns what was set aside, the oldest first.
func (p *Presenter) Aside() []Aside { return p.aside }

// PutBack takes a text out of what is set aside and returns it, to be typed on.
func (p *Presenter) PutBack(i int) string {
	text := p.aside[i].Text
	p.aside = slices.Delete(p.aside, i, i+1)
	return text
}

// Unkept names what is not in the book: what was set aside, and what is to be measured as long as nothing was.
func (p *Presenter) Unkept() []say.Line {
	var lines []say.Line
	for _, a := range p.aside {
		lines = append(lines, say.New("study.unkept", a.Text))
	}
	if open := p.studies.Open(); open.What != "" && len(open.Readings) == 0 {
		lines = append(lines, say.New("study.unkept-what", open.What))
	}
	return lines
}

// Understand says what a text reads as, while it is typed.
func (p *Presenter) Understand(text string) string {
	read, err := p.studies.Understand(text)
	if err != nil {
		return ""
	}
	return read
}

// found is what the open study comes to.
func (p *Presenter) found() evaluate.Study {
	open := p.studies.Open()
	return evaluate.StudyOf(&open)
}

// Drawing is the plot of the readings.
func (p *Presenter) Drawing() figure.Spread { return figure.NewSpread(p.found(), p.studies.Words()) }

// Use has the gauge count with the open study.
func (p *Presenter) Use(ctx context.Context) (say.Line, error) {
	if err := p.studies.Use(ctx); err != nil {
		return say.Line{}, err
	}
	return say.New("study.used", p.studies.Gauge().Name), nil
}

// CanTakeBack reports whether the last use of a study can be taken back. Where the book cannot be read just
// now it can not.
func (p *Presenter) CanTakeBack(ctx context.Context) bool {
	can, err := p.studies.CanTakeBack(ctx)
	return can && err == nil
}

// TakeBack has the gauge count with what it counted with before.
func (p *Presenter) TakeBack(ctx context.Context) (say.Line, error) {
	if err := p.studies.TakeBack(ctx); err != nil {
		return say.Line{}, err
	}
	return say.New("study.taken-back", p.studies.Gauge().Name), nil
}

// Begin opens a new study.
func (p *Presenter) Begin() { p.studies.Begin() }

// day is when a study was begun.
func day(s record.Study) say.Day {
	if len(s.Readings) == 0 {
		return ""
	}
	return s.Readings[0].When.Day()
}
