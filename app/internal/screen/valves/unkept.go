package valves

import (
	"strings"

	"keeperbook/model/say"
)

// Unkept names what would be lost with the table, a line for each: the text in the cell, entries that the
// book did not take, what lies in the tray.
func (p *Presenter) Unkept() (lines []say.Line) {
	if e := p.edit; e != nil && strings.TrimSpace(string(e.text)) != "" && !(e.modify && string(e.text) == e.was) {
		l := p.lay()
		cell := say.New("valves.cell", l.rows[p.cursor.Row].Label, l.columns[p.cursor.Column].name)
		lines = append(lines, say.New("valves.unkept.typed", cell, string(e.text)))
	}
	if line := p.NotSaved(); !line.Zero() {
		lines = append(lines, line)
	}
	for _, b := range p.tray {
		lines = append(lines, say.New("valves.unkept.tray", strings.Join(strings.Fields(b.Text), " ")))
	}
	return lines
}

// Unkept names what would be lost with the table.
func (v *View) Unkept() []say.Line { return v.p.Unkept() }
