// Package takein is the page of a table that is about to be taken in: what its columns are, and which lines do not fit.
package takein

import (
	"context"

	"keeperbook/app/internal/task"
	"keeperbook/model/exchange"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Presenter is the page without a window.
type Presenter struct {
	table *task.TableIn
	kept  bool
}

// NewPresenter returns the page of a table.
func NewPresenter(table *task.TableIn) *Presenter { return &Presenter{table: table} }

func (p *Presenter) say(key string, args ...any) string {
	return p.table.Words().Line(say.New(key, args...))
}

// Column is one column of a table of somebody's own.
type Column struct{ Head, Sample, Is string }

// Columns are those of a table of somebody's own.
func (p *Presenter) Columns() []Column {
	var all []Column
	for _, c := range p.table.Columns() {
		head := c.Head
		if head == "" {
			head = p.say("table.nameless")
		}
		all = append(all, Column{head, c.Sample, p.table.Words().Line(task.UseName(c.Use))})
	}
	return all
}

// Uses are the words for what a column may be.
func (p *Presenter) Uses() []string {
	var all []string
	for _, u := range exchange.Uses() {
		all = append(all, p.table.Words().Line(task.UseName(u)))
	}
	return all
}

// Use says what a column is, by its index in [Presenter.Uses]. It may run beside other work, and what it returns may not.
func (p *Presenter) Use(ctx context.Context, column, use int) (take func(), err error) {
	return p.other(p.table.Use(ctx, column, exchange.Uses()[use]))
}

func (p *Presenter) other(table *task.TableIn, err error) (func(), error) {
	return func() { p.table = table }, err
}

// Inches reports whether numbers without a unit are inches.
func (p *Presenter) Inches() bool { return p.table.Length() == unit.In }

// SetInches says whether they are. It may run beside other work, and what it returns may not.
func (p *Presenter) SetInches(ctx context.Context, inches bool) (take func(), err error) {
	u := unit.Mm
	if inches {
		u = unit.In
	}
	return p.other(p.table.In(ctx, u))
}

// Sum says how much goes in and how much does not.
func (p *Presenter) Sum() string {
	lines := map[int]bool{}
	for _, w := range p.table.Wrong() {
		lines[w.Line] = true
	}
	switch {
	case p.kept:
		return p.say("table.done")
	case len(lines) == 0:
		return p.say("table.all", p.table.Right())
	}
	return p.say("table.some", p.table.Right(), len(lines))
}

// Line is one that does not fit.
type Line struct{ Label, Why string }

// Wrong are the lines that do not fit, each with its reason.
func (p *Presenter) Wrong() []Line {
	var all []Line
	for _, w := range p.table.Wrong() {
		all = append(all, Line{p.say("table.line", w.Line), p.table.Words().Line(w.Err.Line)})
	}
	return all
}

// Can reports whether something can be taken in.
func (p *Presenter) Can() bool { return !p.kept && p.table.Right() > 0 }

// Keep takes in what fits. It may run beside other work, and what it returns may not: it says how much there was.
func (p *Presenter) Keep(ctx context.Context) (take func() say.Line, err error) {
	n, err := p.table.Keep(ctx)
	return func() say.Line {
		p.kept = true
		return say.New("table.kept", n)
	}, err
}

// Working is what is said while the table is read again or taken in, and Stopped what is left of it where that was stopped.
func (p *Presenter) Working() string { return p.say("work.take-in", p.table.Name()) }

// Stopped is described at [Presenter.Working].
func (p *Presenter) Stopped() say.Line { return say.New("work.not-taken", p.table.Name()) }
