package valves

import (
	"slices"
	"unicode/utf8"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// layout is the table worked out for one state of the set-up. It is made anew after a change and never
// written to, for the widget compares what it drew with what it is to draw.
type layout struct {
	at      []record.Position
	columns []column
	heads   []table.Column
	rows    []table.Row
	cells   [][]table.Cell
	empty   [][]bool // cells that a reading is still wanted in
}

// least width of a column of numbers, in characters: "1.8425" and the letter of its mark.
const leastWidth = 7

// lay returns the table as it is now. The cursor stays on its column where columns come or go.
func (p *Presenter) lay() *layout {
	if p.laid != nil {
		return p.laid
	}
	l := &layout{}
	p.laid = l
	if p.beside != nil {
		p.fillBeside(l)
	} else {
		l.at = p.bench.Record().Head.Positions()
		l.columns = p.columns(usageOf(p.bench.Record()))
		p.fillRows(l)
		p.fillCells(l)
		p.fillHeads(l)
	}
	p.anchor, p.cursor = p.settle(l, p.anchor), p.settle(l, p.cursor)
	p.follow(l)
	return l
}

// loosen forgets the table as it is laid out, but for the valve and column that the cursor is in.
func (p *Presenter) loosen() {
	if p.laid != nil && len(p.laid.at) > 0 {
		p.valve, p.column = p.laid.at[p.cursor.Row], p.laid.columns[p.cursor.Column].Key
	}
	p.laid = nil
}

// settle keeps a place on the table and, where rows or columns came or went, on its valve and column.
func (p *Presenter) settle(l *layout, at table.Place) table.Place {
	to, _ := l.find(p.valve, p.column)
	if to.Row >= 0 && at.Row == p.cursor.Row {
		at.Row = to.Row
	}
	if to.Column >= 0 && at.Column == p.cursor.Column {
		at.Column = to.Column
	}
	at.Row = max(0, min(at.Row, len(l.rows)-1))
	at.Column = max(0, min(at.Column, len(l.columns)-1))
	return at
}

// follow keeps the cursor on the cell that is being typed into. Where that takes no entry any more, what
// was typed goes to the tray: it must not land on another valve.
func (p *Presenter) follow(l *layout) {
	if p.edit == nil {
		return
	}
	if place, ok := l.find(p.edit.at, p.edit.column); ok && l.columns[place.Column].typed() {
		p.cursor, p.anchor = place, place
		return
	}
	text := string(p.edit.text)
	p.edit, p.held, p.asked = nil, nil, nil
	p.stow(text)
}

func (p *Presenter) fillRows(l *layout) {
	head, group := &p.bench.Record().Head, 0
	for i, at := range l.at {
		if i > 0 && l.at[i-1].Cylinder != at.Cylinder {
			group++
		}
		l.rows = append(l.rows, table.Row{Label: head.Label(at), Group: group})
	}
}

// own counts the readings of each thing that count.
type own map[thing]int

type thing struct {
	at   record.Position
	kind record.Kind
	coil int
}

func countOf(rec *record.Record) own {
	counted := own{}
	for i := range rec.Setup.Readings {
		if r := &rec.Setup.Readings[i]; r.Struck == nil {
			counted[thing{r.At, r.Kind, r.Coil}]++
		}
	}
	return counted
}

// room makes as many cells as there are rows and columns.
func (l *layout) room() {
	l.cells = make([][]table.Cell, len(l.at))
	l.empty = make([][]bool, len(l.at))
	for row := range l.at {
		l.cells[row] = make([]table.Cell, len(l.columns))
		l.empty[row] = make([]bool, len(l.columns))
	}
}

func (p *Presenter) fillCells(l *layout) {
	rec, ev, words := p.bench.Record(), p.bench.Evaluation(), p.bench.Words()
	counted := countOf(rec)
	l.room()
	for col, c := range l.columns {
		var taken []evaluate.Figure
		if c.kind != "" && c.text == "" {
			taken = evaluate.Taken(rec, c.kind, c.coil)
		}
		for row := range l.at {
			v := &ev.Valves[row]
			var figure evaluate.Figure
			if taken != nil {
				figure = taken[row]
			}
			here := counted[thing{v.At, c.kind, c.coil}] > 0
			l.cells[row][col] = p.cell(words, v, c, figure, here)
			l.empty[row][col] = p.wanted(v, c, here, figure)
		}
	}
	for _, u := range p.unsaved {
		if place, ok := l.find(u.cell.At, u.column); ok {
			l.cells[place.Row][place.Column] = table.Cell{Text: u.cell.Text, Strong: true, Unsaved: true}
			l.empty[place.Row][place.Column] = false
		}
	}
}

// cell is what one cell shows. Strong is what was measured on this very valve, or fitted to it.
func (p *Presenter) cell(words say.Printer, v *evaluate.Valve, c column, taken evaluate.Figure, here bool) table.Cell {
	switch {
	case c.Key == "bar":
		if bar, ok := figure.NewBar(*v); ok {
			return table.Cell{Bar: &bar}
		}
		return table.Cell{}
	case c.Key == "verdict":
		return verdictCell(words, v)
	case c.under == record.UnderOuter:
		return table.Cell{Text: outerText(words, v.Stack), Strong: true}
	case c.under != "":
		return table.Cell{Text: v.Text(words, c.Key), Strong: v.StackSaid}
	case c.kind == record.BindReading && !here:
		if !p.applies(v.At, c) {
			return table.Cell{Text: "–", Faint: true}
		}
		return table.Cell{Text: bindOf(v, c.coil).Text(words)}
	case c.kind != "" && c.text == "":
		return table.Cell{Text: taken.Text(words), Strong: here}
	}
	return table.Cell{Text: v.Text(words, c.text), Strong: here}
}

func verdictCell(words say.Printer, v *evaluate.Valve) table.Cell {
	return table.Cell{
		Text: words.Line(v.Word()), Strong: v.Verdict <= evaluate.Missing, Inverse: v.Verdict <= evaluate.Unfit,
	}
}

// outerText writes the shims that lie under the outer coil only.
func outerText(words say.Printer, stack []record.Shim) string {
	var line say.Line
	for _, s := range stack {
		one := say.New("expr.one", s.Thickness)
		switch {
		case s.Under != record.UnderOuter:
		case line.Zero():
			line = one
		default:
			line = say.New("stack.and", line, one)
		}
	}
	return words.Line(line)
}

// wanted reports whether a path stops at a cell: nothing was measured here, and nobody said that it was
// taken once for the role. An estimate and a number of the spring type do not stand in for a reading.
func (p *Presenter) wanted(v *evaluate.Valve, c column, here bool, taken evaluate.Figure) bool {
	switch {
	case c.under == record.UnderLocator:
		return !v.StackSaid
	case c.kind == "" || here || taken.Mark == evaluate.Borrowed || !p.applies(v.At, c):
		return false
	}
	return !p.borrowed(v.At, c)
}

// borrowed reports whether a kind was taken once for the role of a valve.
func (p *Presenter) borrowed(at record.Position, c column) bool {
	return evaluate.Shareable(c.kind) && slices.ContainsFunc(p.bench.Record().Setup.Shared, func(s record.Shared) bool {
		return s.Kind == c.kind && s.Role == at.Role && s.From != at
	})
}

// applies reports whether a valve has what a column is about: its spring may have fewer coils.
func (p *Presenter) applies(at record.Position, c column) bool {
	if c.kind != record.BindReading || c.coil <= 1 {
		return true
	}
	coils := coilsAt(p.bench.Record(), at)
	return coils == nil || c.coil <= len(coils)
}

func (p *Presenter) fillHeads(l *layout) {
	words, units := p.bench.Words(), p.bench.Record().Setup.Units
	for col := range l.columns {
		c := &l.columns[col]
		c.Title = words.Line(p.headed(*c))
		if c.Key == "verdict" {
			c.Text = true
		} else if c.Key != "bar" {
			c.Unit = string(units.Length)
		}
		if c.load {
			c.Unit = string(units.Load)
		}
		if c.Width = 0; c.Key != "verdict" {
			c.Width = leastWidth
		}
	}
	l.measure()
}

// measure widens the columns to what stands in them.
func (l *layout) measure() {
	l.heads = make([]table.Column, len(l.columns))
	for col := range l.columns {
		c := &l.columns[col]
		for row := range l.cells {
			c.Width = max(c.Width, utf8.RuneCountInString(l.cells[row][col].Text))
		}
		l.heads[col] = c.Column
	}
}

// find returns the cell of a valve in a column.
func (l *layout) find(at record.Position, key string) (table.Place, bool) {
	row := slices.Index(l.at, at)
	col := slices.IndexFunc(l.columns, func(c column) bool { return c.Key == key })
	return table.Place{Row: row, Column: col}, row >= 0 && col >= 0
}

// columnOf returns the column that readings of a kind and coil stand in, −1 where it is not shown.
func (l *layout) columnOf(kind record.Kind, coil int) int {
	return slices.IndexFunc(l.columns, func(c column) bool { return c.kind == kind && c.coil == coil && kind != "" })
}
