package valves

import (
	"slices"
	"strings"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// beside is another set-up of the head, laid beside the open one. The table then only shows: a reading
// that arrives goes to the tray, for it could be meant for either.
type beside struct {
	other  *task.Beside
	column string // where the cursor was, and goes back to
}

// SideBySide reports whether another set-up lies beside the open one.
func (p *Presenter) SideBySide() bool { return p.beside != nil }

// layBeside lays the usual one of the other set-ups beside the open one.
func (p *Presenter) layBeside() {
	others, usual, err := p.bench.Others(p.ctx)
	switch {
	case err != nil:
		p.tellError(err)
	case usual < 0:
		p.out.Tell(say.New("valves.beside.alone", p.bench.Record().Head.Tag))
	default:
		p.layOther(others[usual].ID)
	}
}

// layOther lays one of the other set-ups beside the open one, in place of the one that lies there.
func (p *Presenter) layOther(setup string) {
	other, err := p.bench.Beside(p.ctx, setup)
	if err != nil {
		p.tellError(err)
		return
	}
	at, column := p.Selected(), p.SelectedColumn()
	p.loosen()
	p.beside = &beside{other, column}
	// The valve stays, and the number where it is one of those compared.
	to, _ := p.lay().find(at, "new-"+comparedBy(column))
	p.jump(table.Place{Row: max(0, to.Row), Column: max(0, to.Column)})
}

// comparedBy is the compared number that a column of the table is about, its own key where it is one.
func comparedBy(column string) string {
	switch {
	case column == "calc" || column == "check":
		return "height"
	case column == "outer":
		return "shims"
	case strings.HasPrefix(column, "bind-"):
		return "bind"
	}
	return column
}

// putBack takes the other set-up away. The cursor goes back to the column it came from.
func (p *Presenter) putBack() {
	at, column := p.Selected(), p.beside.column
	p.loosen()
	p.beside = nil
	if to, ok := p.lay().find(at, column); ok {
		p.jump(to)
	}
}

// readOther reads the other set-up anew, for it may share a part that was changed.
func (p *Presenter) readOther() {
	if p.beside == nil {
		return
	}
	other, err := p.bench.Beside(p.ctx, p.beside.other.Record.Setup.ID)
	if err != nil {
		p.putBack()
		p.tellError(err)
		return
	}
	p.beside.other = other
}

// besideKey acts on a key while two set-ups lie side by side, and reports whether that was all of it.
func (p *Presenter) besideKey(k table.Key, shift bool) bool {
	switch k {
	case table.Escape, table.Beside:
		p.putBack()
	case table.Choose:
		p.askOther()
	case table.Enter:
		p.move(table.Down, shift)
	case table.Modify, table.Backspace, table.Delete:
		p.refuse(p.notHere())
	case table.Undo, table.Redo, table.NextMissing:
		p.putBack() // they say what they did in the cell that it was done in
		return false
	default:
		p.move(k, shift)
	}
	return true
}

// askOther asks which set-up lies beside the open one.
func (p *Presenter) askOther() {
	others, _, err := p.bench.Others(p.ctx)
	if err != nil {
		p.tellError(err)
		return
	}
	others = slices.DeleteFunc(others, func(s record.Setup) bool { return s.ID == p.beside.other.Record.Setup.ID })
	if len(others) == 0 {
		p.out.Tell(say.New("valves.beside.two", p.bench.Record().Head.Tag))
		return
	}
	q := Question{About: AboutBeside, Line: say.New("valves.beside.ask")}
	for _, s := range others {
		q.Choices = append(q.Choices, setupLine(s))
	}
	q.Choices = append(q.Choices, say.New("valves.leave"))
	q.act = func(choice int) {
		if choice < len(others) {
			p.layOther(others[choice].ID)
		}
	}
	p.ask(q)
}

func setupLine(s record.Setup) say.Line {
	return say.New("valves.beside.setup", say.New("setup."+string(s.Kind)), s.Begun.Day())
}

// Compared says which two set-ups lie side by side; the zero Line where there is one alone.
func (p *Presenter) Compared() say.Line {
	if p.beside == nil {
		return say.Line{}
	}
	was, is := p.sides()
	key := "valves.beside.open-new"
	if p.beside.other.Later {
		key = "valves.beside.open-old"
	}
	return say.New(key, setupLine(was.Record.Setup), setupLine(is.Record.Setup))
}
