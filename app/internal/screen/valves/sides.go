package valves

import (
	"slices"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Side is the selected valve as it stands in one of two set-ups.
type Side struct {
	Valve  *evaluate.Valve
	Record *record.Record
	own    own // its readings
}

// sides are the older and the newer of two set-ups, with no valve looked at yet.
func (p *Presenter) sides() (was, is Side) {
	open, other := p.bench.Record(), p.beside.other.Record
	was, is = Side{Record: other, own: countOf(other)}, Side{Record: open, own: countOf(open)}
	if p.beside.other.Later {
		return is, was
	}
	return was, is
}

// Sides returns the selected valve in the older and in the newer set-up, while two lie side by side.
func (p *Presenter) Sides() (was, is Side) {
	was, is = p.sides()
	for _, pair := range p.bench.Against(p.beside.other) {
		if pair.At == p.Selected() {
			was.Valve, is.Valve = pair.Was, pair.Is
		}
	}
	return was, is
}

// fillBeside fills the table with two set-ups side by side: old, new and the change, number by number.
// A number that neither of them has is left out.
func (p *Presenter) fillBeside(l *layout) {
	pairs, words := p.bench.Against(p.beside.other), p.bench.Words()
	was, is := p.sides()
	for i := range pairs {
		l.at = append(l.at, pairs[i].At)
	}
	p.fillRows(l)
	p.besideColumns(l, pairs)
	l.room()
	for row := range pairs {
		pair := &pairs[row]
		l.put(row, "old-verdict", verdictCell(words, pair.Was))
		l.put(row, "new-verdict", verdictCell(words, pair.Is))
		l.put(row, "governs", table.Cell{Text: words.Line(pair.Governs())})
		for _, c := range pair.Changes {
			l.put(row, "old-"+c.Key, was.cell(words, pair.Was, c.Key, c.Was))
			l.put(row, "new-"+c.Key, is.cell(words, pair.Is, c.Key, c.Is))
			l.put(row, "by-"+c.Key, table.Cell{Text: c.Text(words), Faint: c.By.Value == 0})
		}
	}
	l.measure()
}

// besideColumns lays out the groups of columns that two set-ups fill.
func (p *Presenter) besideColumns(l *layout, pairs []evaluate.Pair) {
	words, unit := p.bench.Words(), string(p.bench.Record().Setup.Units.Length)
	add := func(key, title string, group say.Line, unit string, text bool) {
		l.columns = append(l.columns, column{name: group, Column: table.Column{
			Key: key, Title: words.Line(say.New(title)), Unit: unit, Text: text, Computed: true, Group: words.Line(group),
		}})
	}
	verdict := say.New("column.verdict")
	add("old-verdict", "valves.beside.old", verdict, "", true)
	add("new-verdict", "valves.beside.new", verdict, "", true)
	governs := slices.ContainsFunc(pairs, func(p evaluate.Pair) bool { return !p.Governs().Zero() })
	for i, key := range evaluate.ComparedKeys() {
		known := func(p evaluate.Pair) bool { return p.Changes[i].Was.Known || p.Changes[i].Is.Known }
		if !slices.ContainsFunc(pairs, known) {
			continue
		}
		group := say.New("column." + key)
		if key == "height" {
			group = say.New("valves.beside.height")
		}
		add("old-"+key, "valves.beside.old", group, unit, key == "shims")
		add("new-"+key, "valves.beside.new", group, unit, key == "shims")
		add("by-"+key, "valves.beside.by", group, unit, false)
		if key == "margin" && governs {
			add("governs", "valves.beside.governs", say.New("column.coil"), "", true)
		}
	}
}

// put fills a cell where its column is shown.
func (l *layout) put(row int, key string, c table.Cell) {
	for col := range l.columns {
		if l.columns[col].Key == key {
			l.cells[row][col] = c
		}
	}
}

// cell is one number of a valve as it stands in the table of its own set-up.
func (s Side) cell(words say.Printer, v *evaluate.Valve, key string, f evaluate.Figure) table.Cell {
	text := v.Text(words, key)
	if key == "height" {
		text = f.Text(words)
	}
	return table.Cell{Text: text, Strong: s.measured(v, key)}
}

// measured reports whether a number was measured on this very valve, or fitted to it.
func (s Side) measured(v *evaluate.Valve, key string) bool {
	here := thing{at: v.At}
	switch key {
	case "shims":
		return v.StackSaid
	case "height":
		return v.Height.Known && v.Height.Mark == "" // a check height is in force
	case "base":
		here.kind = record.BaseHeight
	case "lift":
		here.kind = record.LiftChecking
	case "seal":
		here.kind = record.SealGap
	case "bind":
		here.kind = record.BindReading
		if v.Governing >= 0 && v.Coils[v.Governing].Name != "assembly" {
			here.coil = v.Coils[v.Governing].Index
		}
	}
	return s.own[here] > 0
}
