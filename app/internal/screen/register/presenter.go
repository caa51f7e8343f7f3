// Package register is the list of the heads in a book: the newest first, filtered while one types, with
// the form for a new one.
package register

import (
	"context"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Source is where the heads come from: the open book.
type Source interface {
	Heads(ctx context.Context, text string) ([]task.HeadLine, error)
}

// Presenter is the list of heads and the text it is filtered by.
type Presenter struct {
	ctx    context.Context
	source Source
	text   string
	lines  []task.HeadLine
	all    int            // heads in the book
	cursor int            // index into lines, −1 where none is chosen
	due    map[string]int // how much is due of a head, by its identifier
}

// NewPresenter returns the register of a book, with nothing in it until it is filtered first.
func NewPresenter(ctx context.Context, source Source) *Presenter {
	return &Presenter{ctx: ctx, source: source, cursor: -1}
}

// Filter shows the heads that a text stands in. On an error the list stays as it was.
//
// With a text that leaves several heads none is chosen yet, so that the Enter of a scanned label opens
// a head only where it names just one.
func (p *Presenter) Filter(text string) error {
	lines, err := p.source.Heads(p.ctx, text)
	if err != nil {
		return err
	}
	p.text, p.lines, p.cursor = text, lines, -1
	if strings.TrimSpace(text) == "" {
		p.all = len(lines)
	}
	if len(lines) == 1 || len(lines) > 0 && strings.TrimSpace(text) == "" {
		p.cursor = 0
	} else {
		p.cursor = p.named(text)
	}
	return nil
}

// named returns the only head whose tag or work order is the text as a whole, −1 where there is none.
func (p *Presenter) named(text string) int {
	found := -1
	for i, l := range p.lines {
		if strings.EqualFold(l.Tag, strings.TrimSpace(text)) || strings.EqualFold(l.WorkOrder, strings.TrimSpace(text)) {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	return found
}

// Reload reads the list again: something in the book changed. The chosen head stays chosen.
func (p *Presenter) Reload() error {
	chosen, _ := p.Chosen()
	text := p.text
	if text != "" {
		if err := p.Filter(""); err != nil {
			return err
		}
	}
	if err := p.Filter(text); err != nil {
		return err
	}
	p.Mark(chosen.Head)
	return nil
}

// Mark chooses a head by its identifier, where it is in the list.
func (p *Presenter) Mark(head string) {
	for i, l := range p.lines {
		if l.Head == head {
			p.cursor = i
		}
	}
}

// Lines returns the heads that are shown.
func (p *Presenter) Lines() []task.HeadLine { return p.lines }

// Cursor returns which of them is chosen, −1 where none is.
func (p *Presenter) Cursor() int { return p.cursor }

// Move chooses the head so many lines further down, or up, and stops at the ends.
func (p *Presenter) Move(by int) {
	if len(p.lines) == 0 {
		return
	}
	if p.cursor < 0 {
		by = 0
	}
	p.cursor = min(max(p.cursor+by, 0), len(p.lines)-1)
}

// Choose chooses a line, as a tap on it does.
func (p *Presenter) Choose(line int) {
	if line >= 0 && line < len(p.lines) {
		p.cursor = line
	}
}

// Chosen returns the chosen head.
func (p *Presenter) Chosen() (task.HeadLine, bool) {
	if p.cursor < 0 {
		return task.HeadLine{}, false
	}
	return p.lines[p.cursor], true
}

// Enter returns the set-up to open: that of the chosen head. Where none is chosen, or it has no set-up,
// the error says what to do.
func (p *Presenter) Enter() (string, error) {
	l, ok := p.Chosen()
	switch {
	case ok && l.Setup == "":
		return "", say.Fail(say.NotFound, "register.no-setup", l.Tag)
	case ok:
		return l.Setup, nil
	case p.all == 0:
		return "", say.Fail(say.NotFound, "register.none")
	case len(p.lines) == 0:
		return "", say.Fail(say.NotFound, "register.unknown", p.text)
	}
	return "", say.Fail(say.Conflict, "register.several", len(p.lines), p.text)
}

// None reports whether the book has no heads at all.
func (p *Presenter) None() bool { return p.all == 0 }

// Empty says why there is nothing in the list, and what to do; nothing where there is something.
func (p *Presenter) Empty() say.Line {
	switch {
	case p.all == 0:
		return say.New("register.empty")
	case len(p.lines) == 0:
		return say.New("register.nothing", p.text)
	}
	return say.Line{}
}

// Count says how many heads are shown, of how many.
func (p *Presenter) Count() say.Line {
	switch {
	case p.all == 0:
		return say.Line{}
	case len(p.lines) == p.all && p.all == 1:
		return say.New("register.count-one")
	case len(p.lines) == p.all:
		return say.New("register.count", p.all)
	}
	return say.New("register.count-of", len(p.lines), p.all)
}

// Engine names the engine of a head; nothing where nobody named it and it is called as its head is.
func Engine(l task.HeadLine) string {
	if l.Engine == l.Tag {
		return ""
	}
	return l.Engine
}

// Whose says whose a head is, and under which work order it came in.
func Whose(l task.HeadLine) string {
	var parts []string
	for _, t := range []string{l.Owner, l.WorkOrder} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, " · ")
}

// Due takes how much is due of the heads.
func (p *Presenter) Due(heads map[string]int) { p.due = heads }

// State says in words what is due of a head and how far it is.
func (p *Presenter) State(l task.HeadLine) say.Line {
	if n := p.due[l.Head]; n > 0 {
		return say.New("register.due", n, State(l))
	}
	return State(l)
}

// State says in words how far a head is.
func State(l task.HeadLine) say.Line {
	if l.Setup == "" {
		return say.New("register.state-none")
	}
	key := "register.state-open"
	if l.State == record.Closed {
		key = "register.state-closed"
	}
	return say.New(key, say.New("setup."+string(l.Kind)), l.Begun.Day())
}
