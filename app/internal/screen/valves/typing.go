package valves

import (
	"slices"
	"strings"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// edit is the text that is being typed in the cursor's cell.
type edit struct {
	at         record.Position // the cell it belongs to, wherever that stands in the table
	column     string
	text       []rune
	caret      int
	modify     bool   // it goes on with what was there, so that arrows move within it
	was        string // the text that it began with
	understood string
	refused    string
}

// burstGap is the longest pause between two characters that belong to one reading which a gauge types,
// also where the table stops or begins to listen between them. A gauge sends a character every few
// milliseconds; nobody types so fast for long.
const burstGap = 250 * time.Millisecond

// entry is what a text would be in the cell at a place.
func (p *Presenter) entry(at table.Place, text string) task.Cell {
	l := p.lay()
	c := l.columns[at.Column]
	t := p.throughOf(c)
	cell := task.Cell{
		Under: c.under,
		Entry: task.Entry{
			At: l.at[at.Row], Kind: c.kind, Coil: c.coil, Text: text, Method: record.Typed,
			Gauge: t.gauge, Correction: t.taken, When: task.StampOf(p.bench.Now()),
		},
	}
	if at.Row > 0 {
		cell.Above = &l.at[at.Row-1]
	}
	return cell
}

// Rune takes a character, from a person or from a gauge that types. Where the table is held, asked or
// blocked, or nothing can be typed into the cell, it goes to the tray.
func (p *Presenter) Rune(r rune) {
	switch r {
	case '\r', '\n':
		p.Key(table.Enter, false)
		return
	case '\t':
		p.Key(table.Tab, false)
		return
	}
	defer p.out.Changed()
	follows, recent := p.follows(), p.recent()
	p.last = p.bench.Now()
	switch {
	case p.growing && (follows || recent && (p.busy() || !p.types())):
		p.grow(r)
	case p.busy():
		p.divert(follows)
		p.grow(r)
	case p.edit == nil && !p.types():
		if r == ' ' {
			return
		}
		p.growing = false
		p.grow(r)
		p.refuse(p.notHere())
	default:
		p.growing = false
		p.write(r)
	}
}

// types reports whether something can be typed into the cursor's cell.
func (p *Presenter) types() bool {
	l := p.lay()
	name, _ := p.bench.Signed()
	return name == "" && len(l.rows) > 0 && l.columns[p.cursor.Column].typed()
}

func (p *Presenter) notHere() say.Line {
	l := p.lay()
	name, when := p.bench.Signed()
	switch {
	case name != "":
		return say.New("valves.signed", name, when.Day())
	case len(l.rows) == 0:
		return say.New("valves.no-valves")
	case p.beside != nil:
		return say.New("valves.beside.typing")
	}
	return say.New("valves.computed", l.columns[p.cursor.Column].name)
}

// write puts a character into the edit, beginning one where there is none.
func (p *Presenter) write(r rune) {
	if p.edit == nil {
		if r == ' ' {
			return
		}
		p.begin("")
	}
	e := p.edit
	e.text = slices.Insert(e.text, e.caret, r)
	e.caret++
	p.understand()
}

// begin begins an edit in the cursor's cell.
func (p *Presenter) begin(text string) {
	l := p.lay()
	p.edit = &edit{
		at: l.at[p.cursor.Row], column: l.columns[p.cursor.Column].Key, text: []rune(text), caret: len([]rune(text)),
	}
	p.anchor = p.cursor
	p.understand()
}

// understand reads what stands in the edit, quietly: it may not be finished.
func (p *Presenter) understand() {
	e := p.edit
	e.refused, e.understood = "", ""
	if text := strings.TrimSpace(string(e.text)); text != "" {
		if read, err := p.bench.Understand(p.entry(p.cursor, text)); err == nil {
			e.understood = read
		}
	}
}

// modify goes on with what is in the cell.
func (p *Presenter) modify() {
	switch {
	case p.edit != nil:
		p.edit.modify = true
	case !p.types():
		p.refuse(p.notHere())
	default:
		text := p.raw(p.cursor)
		p.begin(text)
		p.edit.modify, p.edit.was = true, text
	}
}

// raw is what F2 goes on with: the text as it was typed last, of shims all of them.
func (p *Presenter) raw(at table.Place) string {
	if i := p.unsavedAt(at); i >= 0 {
		return p.unsaved[i].cell.Text
	}
	c := p.entry(at, "")
	if c.Under != "" {
		return p.bench.Raw(c)
	}
	all := p.bench.Counting(c)
	if len(all) == 0 {
		return ""
	}
	// What counted from a nominal or stood for another cell would read differently now.
	typed := all[len(all)-1].Quantity.Typed
	if read, err := p.bench.Understand(task.Cell{Entry: task.Entry{At: c.At, Kind: c.Kind, Text: typed}}); err == nil &&
		!strings.ContainsAny(typed, "+-−\"*") && read != "" {
		return typed
	}
	return task.Number(all[len(all)-1].Quantity.String())
}

// typingKey acts on a key that means something within a text. It reports whether it did.
func (p *Presenter) typingKey(k table.Key) bool {
	e := p.edit
	switch k {
	case table.Escape, table.Undo:
		p.edit = nil
	case table.Backspace:
		if e.caret > 0 {
			e.caret--
			e.text = slices.Delete(e.text, e.caret, e.caret+1)
			p.understand()
		}
	case table.Delete:
		if e.caret < len(e.text) {
			e.text = slices.Delete(e.text, e.caret, e.caret+1)
			p.understand()
		}
	case table.Modify:
		e.modify = true
	case table.Left, table.Right, table.Home, table.End:
		if !e.modify {
			return false
		}
		e.caret = map[table.Key]int{
			table.Left: max(0, e.caret-1), table.Right: min(len(e.text), e.caret+1), table.End: len(e.text),
		}[k]
	default:
		return false
	}
	return true
}
