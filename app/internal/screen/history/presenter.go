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
	all    [][]string // cells of each row
	lower  []string   // the same in one text, to search in
	filter string
	end    string
}

// NewPresenter returns the page of the open set-up.
func NewPresenter(bench *task.Bench) *Presenter { return &Presenter{bench: bench} }

// Load reads the history, which may take a moment; it may run beside other work, and what it returns may not.
func (p *Presenter) Load(ctx context.Context) (func(), error) {
	h, err := p.bench.History(ctx)
	if err != nil {
		return nil, err
	}
	words := p.bench.Words()
	all, lower := make([][]string, len(h.Rows)), make([]string, len(h.Rows))
	for i, r := range h.Rows {
		all[i] = r.Cells(words)
		lower[i] = strings.ToLower(strings.Join(all[i], " "))
	}
	end := ""
	if h.End != nil {
		end = words.Line(say.New("history.end", int(h.End.Events), say.Grouped(h.End.Head)))
	}
	return func() { p.all, p.lower, p.end = all, lower, end }, nil
}

// End says how long the history of the book is and what stands for all of it; "" before it is read.
func (p *Presenter) End() string { return p.end }

// Filter shows only what has all of these words.
func (p *Presenter) Filter(text string) { p.filter = strings.ToLower(text) }

// mostRows is how many rows are shown; more are found by typing.
const mostRows = 200

// Rows returns what is shown, the newest first, and how many more there are.
func (p *Presenter) Rows() (rows [][]string, more int) {
	wanted := strings.Fields(p.filter)
	for i, cells := range p.all {
		if !hasAll(p.lower[i], wanted) {
			continue
		}
		if len(rows) == mostRows {
			more++
			continue
		}
		rows = append(rows, cells)
	}
	return rows, more
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
	return p.bench.Words().Line(say.New("history.title", head, len(p.all)))
}

// Text is everything that is shown as a table for a spreadsheet, and what is not shown for being too much.
func (p *Presenter) Text() string {
	var b strings.Builder
	for i, cells := range p.all {
		if hasAll(p.lower[i], strings.Fields(p.filter)) {
			b.WriteString(strings.Join(cells, "\t") + "\n")
		}
	}
	return b.String()
}

func (p *Presenter) say(key string, args ...any) string {
	return p.bench.Words().Line(say.New(key, args...))
}
