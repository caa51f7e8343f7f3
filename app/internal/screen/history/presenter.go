// Package history is the page that says what became of a set-up: what was changed, by whom and when.
package history

import (
	"context"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Presenter is the page without a window.
type Presenter struct {
	bench  *task.Bench
	read   task.History
	lower  []string // each row in one text, to search in
	filter string
}

// NewPresenter returns the page of the open set-up.
func NewPresenter(bench *task.Bench) *Presenter { return &Presenter{bench: bench} }

// Load returns what reads the history, which may take a moment. That may run beside other work, and what it returns may not.
func (p *Presenter) Load() func(context.Context) (func(), error) {
	past := p.bench.Past()
	return func(ctx context.Context) (func(), error) {
		h, err := past(ctx)
		if err != nil {
			return nil, err
		}
		lower := make([]string, len(h.Rows))
		for i, r := range h.Rows {
			lower[i] = strings.ToLower(strings.Join(r.Cells(h.Words), " "))
		}
		return func() { p.read, p.lower = h, lower }, nil
	}
}

// End says how long the history of the book is and what stands for all of it; "" before it is read.
func (p *Presenter) End() string {
	if p.read.End == nil {
		return ""
	}
	return p.say("history.end", int(p.read.End.Events), say.Grouped(p.read.End.Head))
}

// Filter shows only what has all of these words.
func (p *Presenter) Filter(text string) { p.filter = strings.ToLower(text) }

// mostRows is how many rows are shown; more are found by typing.
const mostRows = 200

// Rows returns what is shown, the newest first, and how many more there are.
func (p *Presenter) Rows() (rows [][]string, more int) {
	for _, r := range p.found().Rows {
		if len(rows) == mostRows {
			more++
			continue
		}
		rows = append(rows, r.Cells(p.read.Words))
	}
	return rows, more
}

// found is what has all the words.
func (p *Presenter) found() task.History {
	h := p.read
	h.Rows = nil
	wanted := strings.Fields(p.filter)
	for i, r := range p.read.Rows {
		if hasAll(p.lower[i], wanted) {
			h.Rows = append(h.Rows, r)
		}
	}
	return h
}

func hasAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// Title counts the changes.
func (p *Presenter) Title() string {
	head := p.bench.Record().Head.Tag
	return p.bench.Words().Line(say.New("history.title", head, len(p.read.Rows)))
}

// Text is everything that is shown as a table for a spreadsheet, and what is not shown for being too much.
func (p *Presenter) Text() string {
	return p.found().Text()
}

func (p *Presenter) say(key string, args ...any) string {
	return p.bench.Words().Line(say.New(key, args...))
}
