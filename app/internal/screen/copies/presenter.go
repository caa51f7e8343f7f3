// Package copies is the page of the copies of a book: when each was taken, what it holds, and how one is put back.
package copies

import (
	"context"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Presenter is the page without a window.
type Presenter struct {
	desk *task.Desk
	all  []task.CopyLine
	read bool
}

// NewPresenter returns the page of a book, to be loaded.
func NewPresenter(desk *task.Desk) *Presenter { return &Presenter{desk: desk} }

func (p *Presenter) say(key string, args ...any) string {
	return say.Chosen().Line(say.New(key, args...))
}

// Load looks through the copies, which may take a moment; it may run beside other work, and what it returns may not.
func (p *Presenter) Load(ctx context.Context) (func(), error) {
	all, err := task.Copies(ctx, p.desk.Path(), p.desk.Second)
	if err != nil {
		return nil, err
	}
	return func() { p.all, p.read = all, true }, nil
}

// Row is one copy.
type Row struct {
	When, What string
	Bad        bool
}

// Rows are the copies, the newest first.
func (p *Presenter) Rows() []Row {
	rows := make([]Row, len(p.all))
	for i, c := range p.all {
		what := c.Holds()
		rows[i] = Row{When: say.Chosen().Day(say.MinuteOf(c.At.Local())), What: p.say(what.Key, what.Args...), Bad: !c.Bad.Zero()}
	}
	return rows
}

// Sum says how many there are; "" is never said.
func (p *Presenter) Sum() string {
	switch {
	case !p.read:
		return p.say("copies.reading")
	case len(p.all) == 0:
		return p.say("copies.none")
	}
	return p.say("copies.sum", len(p.all))
}

// Copy takes a copy now, where something was kept since the newest, and says which it was.
func (p *Presenter) Copy(ctx context.Context) (say.Line, error) {
	taken, err := p.desk.BackUp(ctx, 0)
	if err != nil {
		return say.Line{}, err
	}
	if !taken {
		return say.New("copies.same"), nil
	}
	return say.New("copies.taken"), nil
}

// Path is the file of a copy; "" of one that cannot be put back.
func (p *Presenter) Path(row int) string {
	if row < 0 || row >= len(p.all) || !p.all[row].Bad.Zero() {
		return ""
	}
	return p.all[row].Path
}
