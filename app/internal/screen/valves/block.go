package valves

import (
	"strings"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Copy returns the selection as rows of cells between tabs: of what is typed the raw readings with the
// word of their correction, of the others what they show.
func (p *Presenter) Copy() string {
	if p.edit != nil {
		return string(p.edit.text)
	}
	l := p.lay()
	if len(l.rows) == 0 {
		return ""
	}
	from, to := corners(p.anchor, p.cursor)
	var rows []string
	for row := from.Row; row <= to.Row; row++ {
		var cells []string
		for col := from.Column; col <= to.Column; col++ {
			at := table.Place{Row: row, Column: col}
			text := l.cells[row][col].Text
			if l.columns[col].typed() && p.unsavedAt(at) < 0 {
				text = p.bench.Raw(p.entry(at, ""))
			}
			cells = append(cells, text)
		}
		rows = append(rows, strings.Join(cells, "\t"))
	}
	return strings.Join(rows, "\n")
}

func corners(a, b table.Place) (from, to table.Place) {
	return table.Place{Row: min(a.Row, b.Row), Column: min(a.Column, b.Column)},
		table.Place{Row: max(a.Row, b.Row), Column: max(a.Column, b.Column)}
}

// Paste takes a text in: into what is being typed, as one entry, or as a block that spreads over the
// cells from the upper left corner of the selection on. While the table is held, asked or blocked, or two
// set-ups lie side by side, it goes to the tray.
func (p *Presenter) Paste(text string) {
	defer p.out.Changed()
	rows := task.SplitBlock(text)
	single := len(rows) == 1 && len(rows[0]) == 1
	switch {
	case len(rows) == 0:
	case p.busy() || p.beside != nil:
		p.stow(text)
		p.refuse(say.New("valves.in-tray", rows[0][0], len(p.tray)))
	case p.edit != nil && single:
		for _, r := range rows[0][0] {
			p.write(r)
		}
	case p.edit != nil:
		p.commit(func() { p.block(text) })
	default:
		p.block(text)
	}
}

// pasted is one reading or stack of a block with where it stands in it.
type pasted struct {
	task.Cell
	at   table.Place
	bare bool // a bind height that does not say what was in the stack
}

// block reads a block from the upper left corner of the selection on, and keeps it whole or not at all.
func (p *Presenter) block(text string) {
	from, _ := corners(p.anchor, p.cursor)
	cells, faults := p.spread(from, task.SplitBlock(text))
	switch {
	case len(faults) > 0:
		p.askFaults(text, faults)
	case len(cells) == 0:
		p.refuse(say.New("valves.block.empty"))
	case len(cells) == 1 && !cells[0].bare && p.bench.Filled(cells[0].Cell) && p.unsavedAt(cells[0].at) < 0 &&
		!strings.HasSuffix(cells[0].Text, "*"):
		p.jump(cells[0].at)
		p.askFilled(cells[0].Cell, p.shown(p.cursor), cells[0].Under == "", task.Instead, func() {})
	case hasBare(cells):
		p.askBare(text, cells)
	default:
		p.takeBlock(text, cells)
	}
}

// spread lays the texts of a block over the cells of the table and names those that cannot be there.
func (p *Presenter) spread(from table.Place, rows [][]string) (cells []pasted, faults []say.Line) {
	l := p.lay()
	for r, row := range rows {
		for c, text := range row {
			at := table.Place{Row: from.Row + r, Column: from.Column + c}
			if strings.TrimSpace(text) == "" {
				continue
			}
			if at.Row >= len(l.rows) || at.Column >= len(l.columns) {
				faults = append(faults, say.New("valves.block.outside", text, r+1, c+1))
				continue
			}
			made, err := p.pastedCell(at, text)
			if !err.Zero() {
				faults = append(faults, p.faultAt(at, err))
				continue
			}
			cells = append(cells, made...)
		}
	}
	return cells, faults
}

// faultAt names a cell and says what is wrong in it.
func (p *Presenter) faultAt(at table.Place, why say.Line) say.Line {
	l := p.lay()
	return say.New("valves.block.fault", l.rows[at.Row].Label, l.columns[at.Column].name, why)
}

// pastedCell reads the readings of one cell of a block with what was taken off each.
func (p *Presenter) pastedCell(at table.Place, text string) ([]pasted, say.Line) {
	c := p.lay().columns[at.Column]
	switch {
	case !c.typed():
		return nil, say.New("valves.computed", c.name)
	case p.unsavedAt(at) >= 0:
		return nil, say.New("valves.block.unsaved")
	case c.under != "" && p.bench.Filled(p.entry(at, "")):
		return nil, say.New("valves.block.filled", p.shown(at))
	}
	parts := task.SplitCell(text)
	if c.under != "" {
		parts = []string{text} // a stack has no repeats: of two, one would be lost
	}
	var all []pasted
	for _, part := range parts {
		reading, word, said := task.CutCorrection(part)
		made := pasted{Cell: p.entry(at, reading), at: at}
		if said {
			taken, err := p.bench.Correction(word, p.gaugeOf(made.Gauge), c.kind)
			if err != nil {
				return nil, task.Told(err)
			}
			made.Correction = taken
		}
		made.bare = c.kind == record.BindReading && !said
		if _, err := p.bench.Understand(made.Cell); err != nil {
			// What stands above may come with the block itself; it is looked at when the block is kept.
			if !strings.HasPrefix(reading, `"`) {
				return nil, task.Told(err)
			}
		}
		all = append(all, made)
	}
	return all, say.Line{}
}

func hasBare(cells []pasted) bool {
	for _, c := range cells {
		if c.bare {
			return true
		}
	}
	return false
}

// askBare asks what stood in the stack when pasted bind heights were read: taken wrongly, a margin is
// off by a whole lid.
func (p *Presenter) askBare(text string, cells []pasted) {
	ways := p.waysOf(record.BindReading)
	q := Question{About: AboutBare, Line: say.New("valves.bare", len(cells))}
	for _, w := range ways {
		q.Choices = append(q.Choices, w.Line)
	}
	q.Choices = append(q.Choices, say.New("valves.bare.drop"))
	q.act = func(choice int) {
		if choice == len(ways) {
			p.stow(text)
			return
		}
		for i := range cells {
			if cells[i].bare {
				cells[i].Gauge, cells[i].Correction = ways[choice].gauge, ways[choice].taken
			}
		}
		p.takeBlock(text, cells)
	}
	p.ask(q)
}

func (p *Presenter) takeBlock(text string, cells []pasted) {
	plain := make([]task.Cell, len(cells))
	for i := range cells {
		plain[i] = cells[i].Cell
	}
	var wrong []task.CellFault
	err := p.settled()
	if err == nil {
		wrong, err = p.bench.TakeBlock(p.ctx, plain)
	}
	switch {
	case err != nil:
		p.stow(text)
		p.refuse(say.New("valves.block.not-saved", task.Told(err)))
	case len(wrong) > 0:
		faults := make([]say.Line, len(wrong))
		for i, w := range wrong {
			faults[i] = p.faultAt(cells[w.Index].at, task.Told(w.Err))
		}
		p.askFaults(text, faults)
	default:
		for _, c := range plain {
			p.kept(c)
		}
		p.choose(cells[0].at, cells[len(cells)-1].at)
		p.out.Tell(say.New("valves.block.taken", len(cells)))
		p.out.Accepted()
	}
}

// askFaults says what is wrong in a block of which nothing was taken, cell by cell.
func (p *Presenter) askFaults(text string, faults []say.Line) {
	p.ask(Question{
		About: AboutBlock, Line: say.New("valves.block.refused", len(faults)), Details: faults,
		Choices: []say.Line{say.New("valves.block.drop"), say.New("valves.block.tray")},
		act: func(choice int) {
			if choice == 1 {
				p.stow(text)
			}
		},
	})
	p.out.Refused()
}
