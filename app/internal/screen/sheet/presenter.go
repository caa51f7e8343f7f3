// Package sheet is the leaf of a head that shows its pages as they will print, what is still open on
// them, and lets them out as files.
package sheet

import (
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter is the leaf without a window.
type Presenter struct {
	bench *task.Bench
	what  task.Out // OutSheet or OutForm
	paper task.Paper
	draft draft // of whoever is about to sign
}

// NewPresenter returns the leaf of a set-up: its sheet on A4.
func NewPresenter(bench *task.Bench) *Presenter {
	return &Presenter{bench: bench, what: task.OutSheet, paper: task.A4}
}

// Whats and Papers are what can be shown and on what, in the order they are offered.
func Whats() []task.Out { return []task.Out{task.OutSheet, task.OutForm} }

// Papers are the sizes of paper.
func Papers() []task.Paper { return []task.Paper{task.A4, task.Letter} }

// Show chooses what is shown.
func (p *Presenter) Show(what task.Out) { p.what = what }

// On chooses the paper.
func (p *Presenter) On(paper task.Paper) { p.paper = paper }

// Paper is what the pages are printed on.
func (p *Presenter) Paper() task.Paper { return p.paper }

// Languages are the tags of those that pages are printed in.
func Languages() []string { return say.Languages() }

// In chooses the language of the pages.
func (p *Presenter) In(language string) { p.bench.PrintIn(language) }

// Language is the tag of the language that the pages are printed in.
func (p *Presenter) Language() string { return p.bench.PrintsIn() }

// Shown returns what is shown.
func (p *Presenter) Shown() task.Out { return p.what }

// Pages returns the pages that an export now prints.
func (p *Presenter) Pages() ([]task.Page, error) {
	switch {
	case p.First():
		return p.bench.PagesToSign(p.signing())
	case p.what == task.OutForm:
		return p.bench.FormPages(p.paper)
	}
	return p.bench.SheetPages(p.paper)
}

// Point is one thing on the sheet that is not within, or missing.
type Point struct {
	At    record.Position
	Valve string
	Line  say.Line // what is wrong, short
}

// Points returns what stands open on the sheet, valve by valve. What somebody accepted with a reason is
// settled, and a note is none of it.
func (p *Presenter) Points() []Point {
	var all []Point
	ev := p.bench.Evaluation()
	for v, f := range ev.Listed() {
		if f.Verdict == evaluate.Within || f.Note || f.Accepted != nil {
			continue
		}
		line := say.New("sheet.point", f.Verdict.Line(), f.Short)
		if f.Verdict == evaluate.WithinUpTo {
			line = f.Short // which says the word with its number
		}
		all = append(all, Point{v.At, p.Words().Line(f.Whose(v)), line})
	}
	for _, f := range ev.Findings {
		if f.Verdict != evaluate.Within && !f.Note && f.Accepted == nil {
			all = append(all, Point{Line: say.New("sheet.point", f.Verdict.Line(), f.Short)})
		}
	}
	return all
}

// Open counts the points.
func (p *Presenter) Open() int { return len(p.Points()) }

// Title says how many points are open.
func (p *Presenter) Title() say.Line {
	switch n := p.Open(); n {
	case 0:
		return say.New("sheet.open-none")
	case 1:
		return say.New("sheet.open-one")
	default:
		return say.New("sheet.open", n)
	}
}

// Path proposes where a file goes.
func (p *Presenter) Path(out task.Out) string { return p.bench.OutPath(out) }

// Save lets a file out and says where it is. Where one is there already it is replaced only if replace
// says so (say.Conflict).
func (p *Presenter) Save(out task.Out, path string, replace bool) (say.Line, error) {
	where, err := p.bench.Save(out, p.paper, path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("sheet.saved."+string(out), where), nil
}

// Table returns the figures as text for a spreadsheet: a line a valve, cells between tabs.
func (p *Presenter) Table() string {
	fig, words := p.bench.Printed()
	head := []string{words.Line(say.New("sheet.valve"))}
	for _, c := range fig.Columns {
		title := c.Title
		if c.Unit != "" {
			title += " " + c.Unit
		}
		head = append(head, title)
	}
	rows := [][]string{head}
	for _, r := range fig.Rows {
		rows = append(rows, append([]string{r.Valve}, r.Cells...))
	}
	var b strings.Builder
	for _, r := range rows {
		for i, cell := range r {
			if i > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(strings.Join(strings.Fields(cell), " "))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Words returns the printer in the set-up's units.
func (p *Presenter) Words() say.Printer { return p.bench.Words() }
