// Package due is the page of what falls due in a book: springs to change or to watch, checks that were promised, calibrations.
package due

import (
	"context"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Presenter is the page without a window.
type Presenter struct {
	desk *task.Desk
	all  []task.DueLine
	read bool
}

// NewPresenter returns the page of a book, to be loaded.
func NewPresenter(desk *task.Desk) *Presenter { return &Presenter{desk: desk} }

func (p *Presenter) say(key string, args ...any) string {
	return say.Chosen().Line(say.New(key, args...))
}

// Load works out what falls due, which may take a moment; it may run beside other work, and what it returns may not.
func (p *Presenter) Load(ctx context.Context) (func(), error) {
	all, err := p.desk.Dues(ctx)
	if err != nil {
		return nil, err
	}
	return func() { p.all, p.read = all, true }, nil
}

// Row is one thing that falls due.
type Row struct {
	When, What string
	Quiet      bool   // it is not due yet
	Setup      string // to open; "" of a gauge
}

// Rows are what falls due, what is due already first.
func (p *Presenter) Rows() []Row {
	rows := make([]Row, len(p.all))
	for i, d := range p.all {
		row := Row{When: say.Chosen().Day(d.Day.Shown()), What: d.Text, Quiet: !d.Over, Setup: d.Setup}
		switch {
		case d.Over && d.Day != "":
			row.When = p.say("due.since", d.Day)
		case d.Over:
			row.When = p.say("due.now")
		}
		rows[i] = row
	}
	return rows
}

// Sum says how much is due; "" before it was worked out.
func (p *Presenter) Sum() string {
	if !p.read {
		return p.say("due.reading")
	}
	if len(p.all) == 0 {
		return p.say("due.none")
	}
	over := 0
	for _, d := range p.all {
		if d.Over {
			over++
		}
	}
	return p.say("due.sum", over, len(p.all)-over)
}

// Path is where the calendar goes where nobody says otherwise.
func (p *Presenter) Path() string { return p.desk.CalendarPath() }

// Save writes the calendar and says where it is.
func (p *Presenter) Save(path string, replace bool) (say.Line, error) {
	where, err := p.desk.SaveCalendar(p.all, path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("due.saved", where), nil
}
