package valves

import (
	"keeperbook/app/internal/kit/table"
	"keeperbook/model/say"
)

// page is how many rows a page key goes over.
const page = 8

// Key acts on a key. Where the table is held, asked or blocked, keys only answer what is asked, and the
// Enter at the end of a burst only ends the burst.
func (p *Presenter) Key(k table.Key, shift bool) {
	defer p.out.Changed()
	if p.endsBurst(k) {
		return
	}
	if p.busy() {
		p.answerKey(k)
		return
	}
	if len(p.lay().rows) == 0 || p.edit != nil && p.typingKey(k) || p.beside != nil && p.besideKey(k, shift) {
		return
	}
	switch k {
	case table.Enter:
		p.enter()
	case table.Modify:
		p.modify()
	case table.Backspace, table.Delete:
		p.strike()
	case table.Escape:
		p.anchor = p.cursor
	case table.Undo:
		p.turn(back)
	case table.Redo:
		p.commit(func() { p.turn(again) })
	case table.NextMissing:
		p.commit(p.nextMissing)
	case table.Beside:
		p.commit(p.layBeside)
	case table.Choose:
		p.commit(p.askColumns)
	case table.Sure:
		p.sure = !p.sure
	default:
		p.commit(func() { p.move(k, shift) })
	}
}

// AtRest reports whether Esc has nothing to leave: no entry, no question, no block and no set-up beside.
func (p *Presenter) AtRest() bool {
	return !p.busy() && p.edit == nil && p.beside == nil && p.anchor == p.cursor
}

// enter keeps what was typed and goes on along the path. On an entry that is not saved it tries again.
func (p *Presenter) enter() {
	if p.edit == nil && p.unsavedAt(p.cursor) >= 0 {
		waited := len(p.unsaved)
		if p.save(); len(p.unsaved) == 0 {
			p.advance()
		}
		p.tellSaved(waited)
		return
	}
	p.commit(p.advance)
}

// move puts the cursor where a key leads. With shift the other corner of the selection stays.
func (p *Presenter) move(k table.Key, shift bool) {
	to, l := p.cursor, p.lay()
	switch k {
	case table.Up:
		to.Row--
	case table.Down:
		to.Row++
	case table.Left:
		to.Column--
	case table.Right:
		to.Column++
	case table.Tab, table.BackTab:
		to.Column = l.taking(to.Column, k == table.BackTab)
	case table.Home:
		to.Column = 0
	case table.End:
		to.Column = len(l.columns) - 1
	case table.PageUp:
		to.Row -= page
	case table.PageDown:
		to.Row += page
	}
	to.Row = max(0, min(to.Row, len(l.rows)-1))
	to.Column = max(0, min(to.Column, len(l.columns)-1))
	p.cursor = to
	if !shift || k == table.Tab || k == table.BackTab {
		p.anchor = to
	}
}

// taking is the next column behind another one, or before it, that readings are typed into; the column next to
// it where there is none.
func (l *layout) taking(from int, back bool) int {
	step := 1
	if back {
		step = -1
	}
	for c := from + step; c >= 0 && c < len(l.columns); c += step {
		if l.columns[c].typed() {
			return c
		}
	}
	return from + step
}

// jump puts the cursor on a cell, with nothing else selected.
func (p *Presenter) jump(to table.Place) { p.choose(to, to) }

// choose selects from one cell to the cursor's. The table is laid out first: what it keeps the cursor's
// column by belongs to the cell that is left.
func (p *Presenter) choose(anchor, cursor table.Place) {
	p.lay()
	p.anchor, p.cursor = anchor, cursor
}

// Tap puts the cursor on the cell that was tapped, after what was typed is kept. On the cell whose
// reading was refused it goes on with its text; any other one is not reached before that is settled.
func (p *Presenter) Tap(at table.Place, shift bool) {
	defer p.out.Changed()
	l := p.lay()
	switch {
	case at.Row < 0 || at.Row >= len(l.rows) || at.Column < 0 || at.Column >= len(l.columns) || p.blocked:
	case p.held != nil && at == p.cursor:
		p.release()
	case p.held != nil:
		p.refuse(say.New("valves.held-first"))
	case p.asked != nil:
		p.refuse(say.New("valves.asked-first"))
	case at == p.cursor && p.edit != nil:
	default:
		p.growing = false
		p.commit(func() {
			if anchor := p.anchor; shift {
				p.choose(anchor, at)
				return
			}
			p.jump(at)
		})
	}
}
