// Package valves is the table of a head's valves: every reading is typed here, and what it comes to is
// seen here first.
//
// The presenter holds what a table cannot know: which cell a reading belongs to, what is being typed,
// what was refused and holds the table, what arrived meanwhile and lies in the tray, what is not on the
// disk yet. It belongs to one goroutine, the window's.
package valves

import (
	"context"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Out is what the presenter asks of whoever shows it.
type Out interface {
	Changed()      // there is a new State to draw
	Ask(Question)  // a question is open; Presenter.Asked has it until it is answered
	Tell(say.Line) // one sentence on the bottom line
	Refused()      // the sound of a reading that needs a person
	Accepted()     // the sound of a reading that is on the disk
}

// Presenter is the table of one set-up. It implements [table.Handler].
type Presenter struct {
	ctx     context.Context
	bench   *task.Bench
	out     Out
	laid    *layout         // nil once something it was laid out from has changed
	valve   record.Position // where the cursor was then
	column  string
	cursor  table.Place
	anchor  table.Place
	edit    *edit
	held    *Held
	asked   *Question
	unsaved []unsaved // in the order they were typed
	tray    []Burst
	growing bool      // the last burst of the tray is still arriving
	last    time.Time // when the last character arrived
	blocked bool      // a dialog has the keyboard
	path    Path
	large   bool
	sure    bool               // the budget is shown in place of the working
	begun   map[Optional]bool  // columns that are shown although nothing asks for them yet
	beside  *beside            // the other set-up that lies beside this one; nil where none does
	through map[string]through // chosen per column, by its key
	crossed crossing           // what undo and redo were allowed to cross
	version int
}

// New returns the table of a set-up, on the first cell that is still missing.
func New(bench *task.Bench, out Out) *Presenter {
	p := &Presenter{ctx: context.Background(), bench: bench, out: out, through: map[string]through{}, begun: map[Optional]bool{}}
	p.startCell()
	return p
}

// State returns the table as it is to be drawn now. What it refers to is never written to again.
func (p *Presenter) State() table.State {
	l := p.lay()
	s := table.State{
		Columns: l.heads, Rows: l.rows, Cells: l.cells, Cursor: p.cursor, Anchor: p.anchor, Large: p.large,
	}
	if p.edit != nil && len(l.rows) > 0 {
		s.Edit = &table.Edit{
			Text: string(p.edit.text), Caret: p.edit.caret, Unit: l.columns[p.cursor.Column].Unit,
			Understood: p.edit.understood, Refused: p.edit.refused,
		}
	}
	return s
}

// Refresh takes in what another screen changed in the set-up.
func (p *Presenter) Refresh() {
	p.readOther()
	p.loosen()
	p.lay()
	p.out.Changed()
}

// Version counts the changes of the set-up that were made here, so that others can be refreshed.
func (p *Presenter) Version() int { return p.version }

// changed is called after the set-up changed.
func (p *Presenter) changed() {
	p.loosen()
	p.version++
}

// Summary says how the head stands: "Tightest of 10 measured: 3 ex, short by .004; 2 missing".
func (p *Presenter) Summary() say.Line { return p.bench.Evaluation().Summary }

// Next says what to measure now: the selected cell where it is empty, since a reading would land there,
// else what the evaluation misses first; side by side, where nothing lands, how to go on. It is the zero
// Line where nothing is missing.
func (p *Presenter) Next() say.Line {
	l := p.lay()
	if len(l.rows) == 0 {
		return say.Line{}
	}
	if p.beside != nil {
		return say.New("valves.beside.next")
	}
	if c := l.columns[p.cursor.Column]; c.typed() && l.empty[p.cursor.Row][p.cursor.Column] {
		return say.New("valves.next", say.New("next", l.rows[p.cursor.Row].Label, c.name))
	}
	if line := p.bench.Evaluation().NextLine(); !line.Zero() {
		return say.New("valves.next", line)
	}
	return say.Line{}
}

// Open counts what is open here: valves with something missing, entries not saved, bursts in the tray.
func (p *Presenter) Open() int {
	return p.bench.Evaluation().Missing + len(p.unsaved) + len(p.tray)
}

// Words returns the printer that lines of this screen are printed with.
func (p *Presenter) Words() say.Printer { return p.bench.Words() }

// Large reports whether the table is drawn for reading at arm's length.
func (p *Presenter) Large() bool { return p.large }

// SetLarge draws the table for reading at arm's length, or not.
func (p *Presenter) SetLarge(on bool) {
	p.large = on
	p.out.Changed()
}

// Selected returns the valve whose working and section are shown.
func (p *Presenter) Selected() record.Position {
	l := p.lay()
	if len(l.at) == 0 {
		return record.Position{}
	}
	return l.at[p.cursor.Row]
}

// SelectedColumn returns the key of the column that the cursor is in; side by side, of the one that it
// goes back to.
func (p *Presenter) SelectedColumn() string {
	if p.beside != nil {
		return p.beside.column
	}
	l := p.lay()
	return l.columns[p.cursor.Column].Key
}

// Select puts the cursor on a cell, as it was left the last time. A valve or column that is not there
// any more leaves the cursor where it is.
func (p *Presenter) Select(at record.Position, column string) {
	if place, ok := p.lay().find(at, column); ok && p.edit == nil && !p.busy() {
		p.jump(place)
		p.out.Changed()
	}
}

// Preview returns a valve with the text that is being typed taken in, where it reads as something. It
// keeps nothing.
func (p *Presenter) Preview(at record.Position) evaluate.Valve {
	l := p.lay()
	if p.edit != nil && l.at[p.cursor.Row] == at && len(p.edit.text) > 0 {
		if v, err := p.bench.Try(p.entry(p.cursor, string(p.edit.text))); err == nil {
			return v
		}
	}
	for _, v := range p.bench.Evaluation().Valves {
		if v.At == at {
			return v
		}
	}
	return evaluate.Valve{At: at, Governing: -1}
}

// busy reports whether characters go to the tray wherever the cursor is.
func (p *Presenter) busy() bool { return p.held != nil || p.asked != nil || p.blocked }

// SetBlocked says that a dialog has the keyboard: what arrives meanwhile goes to the tray.
func (p *Presenter) SetBlocked(on bool) { p.blocked = on }

func (p *Presenter) refuse(line say.Line) {
	p.out.Tell(line)
	p.out.Refused()
}
