package valves

import (
	"strings"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// unsaved is an entry that was read and is right, and that the book did not take. It stays in its cell.
type unsaved struct {
	cell   task.Cell
	column string // key
	how    task.Taking
	why    say.Line
}

// commit keeps what is being typed and then goes on. A text that is refused stays where it is and holds
// the table; then is called only once the entry is settled, after a question it may have led to.
func (p *Presenter) commit(then func()) {
	if p.edit == nil {
		then()
		return
	}
	text := strings.TrimSpace(string(p.edit.text))
	if text == "" || p.edit.modify && text == p.edit.was {
		p.edit = nil
		then()
		return
	}
	c := p.entry(p.cursor, text)
	if _, err := p.bench.Understand(c); err != nil {
		p.hold(err)
		return
	}
	repeat := c.Under == "" && strings.HasSuffix(text, "*")
	switch i := p.unsavedAt(p.cursor); {
	case i >= 0 && p.edit.modify:
		p.keep(c, p.unsaved[i].how, then)
	case i >= 0:
		p.askFilled(c, p.unsaved[i].cell.Text, false, p.unsaved[i].how, then)
	case p.bench.Filled(c) && !repeat:
		p.askFilled(c, p.shown(p.cursor), c.Under == "", task.Instead, then)
	default:
		p.keep(c, task.First, then)
	}
}

// shown is what a cell says, without the letter of a mark.
func (p *Presenter) shown(at table.Place) string {
	if all := p.bench.Counting(p.entry(at, "")); len(all) > 0 {
		return task.Number(all[len(all)-1].Quantity.String())
	}
	return p.lay().cells[at.Row][at.Column].Text
}

// askFilled asks what becomes of a reading that came to a filled cell.
func (p *Presenter) askFilled(c task.Cell, was string, repeats bool, replace task.Taking, then func()) {
	l := p.lay()
	read, _ := p.bench.Understand(c) // it was read before, so this reads it again
	keep := []func(){func() { p.keep(c, replace, then) }}
	choices := []say.Line{say.New("valves.filled.replace")}
	if repeats {
		keep = append(keep, func() { p.keep(c, task.Again, then) })
		choices = append(choices, say.New("valves.filled.repeat"))
	}
	keep = append(keep, func() { p.edit = nil })
	p.ask(Question{
		About:   AboutFilled,
		Line:    say.New("valves.filled", l.rows[p.cursor.Row].Label, l.columns[p.cursor.Column].name, was, read),
		Choices: append(choices, say.New("valves.filled.drop")),
		act:     func(choice int) { keep[choice]() },
	})
	p.out.Refused()
}

// keep puts an entry into the book. What the book does not take stays in its cell, unsaved.
func (p *Presenter) keep(c task.Cell, how task.Taking, then func()) {
	if i := p.unsavedAt(p.cursor); i >= 0 {
		// It keeps its turn: what was measured over a shim comes after the shim.
		c.Stood = p.unsaved[i].cell.Stood
		if p.edit == nil || !p.edit.modify {
			c.Stood = p.bench.Stood(c.At, p.waiting()) // it was read again
		}
		p.unsaved[i].cell, p.unsaved[i].how = c, how
		p.edit = nil
		p.save()
		then()
		p.tellSaved(1)
		return
	}
	column := p.lay().columns[p.cursor.Column].Key
	p.save()
	switch err := p.bench.Take(p.ctx, c, how); {
	case err == nil:
		p.edit = nil
		p.kept(c)
		p.out.Accepted()
		then()
	case say.CodeOf(err) == say.Invalid:
		if p.edit == nil {
			p.begin(c.Text)
		}
		p.hold(err)
	default:
		p.edit = nil
		c.Stood = p.bench.Stood(c.At, p.waiting())
		p.unsaved = append(p.unsaved, unsaved{c, column, how, task.Told(err)})
		p.loosen()
		then()
		p.tellSaved(0)
	}
}

// kept follows up on an entry that the book took: a gauge of the shop that was used for the first time on
// this set-up belongs to its record from then on.
func (p *Presenter) kept(c task.Cell) {
	p.crossed = crossing{}
	p.changed()
	if g, ok := p.gaugeNew(c.Gauge); ok {
		// It is in the book already, so nothing is written and nothing can be lost.
		if p.bench.Keep(p.ctx, g) == nil {
			p.loosen()
		}
	}
}

// unsavedAt returns the index of the entry in a cell that is not saved, −1 where there is none.
func (p *Presenter) unsavedAt(at table.Place) int {
	l := p.lay()
	for i, u := range p.unsaved {
		if place, ok := l.find(u.cell.At, u.column); ok && place == at {
			return i
		}
	}
	return -1
}

// save tries again to keep what is not saved, from the oldest on. What the book still does not take
// stays in its cell.
func (p *Presenter) save() {
	waiting := p.unsaved
	if len(waiting) == 0 {
		return
	}
	p.unsaved = nil
	for i, u := range waiting {
		err := p.bench.Take(p.ctx, u.cell, u.how)
		if err == nil {
			p.kept(u.cell)
			p.out.Accepted()
			continue
		}
		u.why = task.Told(err)
		p.unsaved = append(p.unsaved, u)
		if say.CodeOf(err) != say.Invalid {
			p.unsaved = append(p.unsaved, waiting[i+1:]...)
			break
		}
	}
	p.loosen()
}

// settled keeps what waits before something else changes the set-up: an undo goes by the order of the book, and a cut or a strike
// does not overtake what was entered before it. The error says why something waits still.
func (p *Presenter) settled() error {
	p.save()
	if len(p.unsaved) > 0 {
		return &say.Error{Code: say.Conflict, Line: p.notSaved()}
	}
	return nil
}

// waiting are the cells that are not saved, in the order in which they were typed.
func (p *Presenter) waiting() []task.Cell {
	all := make([]task.Cell, len(p.unsaved))
	for i, u := range p.unsaved {
		all[i] = u.cell
	}
	return all
}

// tellSaved says what is not saved, or that everything is that was waiting.
func (p *Presenter) tellSaved(waited int) bool {
	if len(p.unsaved) > 0 {
		p.refuse(p.notSaved())
		return false
	}
	if waited > 0 {
		p.out.Tell(say.New("valves.saved", waited))
	}
	return true
}

// Save tries again to keep everything that is not saved, and reports whether everything is kept now.
func (p *Presenter) Save() bool {
	defer p.out.Changed()
	if p.busy() {
		p.refuse(say.New("valves.place-later"))
		return false
	}
	waited := len(p.unsaved)
	p.save()
	return p.tellSaved(waited)
}

// NotSaved says how many entries are not on the disk, why, and what to do; the zero Line where all are.
func (p *Presenter) NotSaved() say.Line {
	if len(p.unsaved) == 0 {
		return say.Line{}
	}
	return p.notSaved()
}

func (p *Presenter) notSaved() say.Line {
	last := p.unsaved[len(p.unsaved)-1]
	return say.New("valves.not-saved", len(p.unsaved), p.bench.Record().Head.Label(last.cell.At), last.why)
}
