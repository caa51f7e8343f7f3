package valves

import (
	"slices"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// way is which way history is gone: back by undo, again by redo.
type way int

const (
	back way = iota
	again
)

// crossing is a day and person whose steps may be taken back without being asked again.
type crossing struct {
	by  string
	day say.Day
}

// turn takes the last step back, or does again what was taken back last. It asks before a step of
// another day or of another person.
func (p *Presenter) turn(w way) {
	if err := p.settled(); err != nil {
		p.tellError(err)
		return
	}
	peek := p.bench.PeekUndo
	if w == again {
		peek = p.bench.PeekRedo
	}
	step, err := peek(p.ctx)
	switch {
	case err != nil:
		p.tellError(err)
		return
	case step == nil && w == again:
		p.out.Tell(say.New("valves.no-redo"))
		return
	case step == nil:
		p.out.Tell(say.New("valves.no-undo"))
		return
	}
	c := crossing{step.By, step.At.Day()}
	here := crossing{p.bench.Who(), task.StampOf(p.bench.Now()).Day()}
	if c == here || c == p.crossed {
		p.step(w)
		return
	}
	yes := say.New("valves.cross.undo")
	if w == again {
		yes = say.New("valves.cross.redo")
	}
	p.ask(Question{
		About:   AboutUndo,
		Line:    say.New("valves.cross", c.by, c.day, p.what(step)),
		Choices: []say.Line{yes, say.New("valves.cross.leave")},
		act: func(choice int) {
			if choice == 0 {
				p.crossed = c
				p.step(w)
			}
		},
	})
}

// step takes one step, jumps to the cell it changed and says what changed there.
func (p *Presenter) step(w way) {
	was := p.lay()
	do, told := p.bench.Undo, "valves.undone"
	if w == again {
		do, told = p.bench.Redo, "valves.redone"
	}
	step, err := do(p.ctx)
	if err != nil {
		p.tellError(err)
		return
	}
	p.changed()
	p.out.Tell(say.New(told, p.happened(step, was)))
}

// happened says what a step did, in the words of the cell it changed, and puts the cursor there.
func (p *Presenter) happened(step *task.Step, was *layout) say.Line {
	l := p.lay()
	cells := p.touched(step)
	if len(cells) == 0 {
		return p.what(step)
	}
	at := cells[0]
	p.jump(at)
	name := say.New("valves.cell", l.rows[at.Row].Label, l.columns[at.Column].name)
	if len(cells) > 1 {
		return say.New("valves.did.several", len(cells), name)
	}
	before, after := say.New("valves.empty"), say.New("valves.empty")
	if old, ok := was.find(l.at[at.Row], l.columns[at.Column].Key); ok {
		before = textLine(was.cells[old.Row][old.Column].Text)
	}
	after = textLine(l.cells[at.Row][at.Column].Text)
	if before.Key == after.Key && slices.Equal(before.Args, after.Args) {
		return p.what(step)
	}
	return say.New("valves.did.cell", name, before, after)
}

func textLine(text string) say.Line {
	if text == "" {
		return say.New("valves.empty")
	}
	return say.New("expr.one", text)
}

// touched are the cells that a step changes, each once, in the order of the step.
func (p *Presenter) touched(step *task.Step) []table.Place {
	l := p.lay()
	var cells []table.Place
	for _, ch := range step.Changes {
		noun := ch.After
		if noun == nil {
			noun = ch.Before
		}
		at, ok := table.Place{}, false
		switch n := noun.(type) {
		case record.Reading:
			at, _ = l.find(n.At, "")
			at.Column = l.columnOf(n.Kind, n.Coil)
			ok = at.Row >= 0 && at.Column >= 0
		case record.Valve:
			at, ok = l.find(n.At, "shims")
		case record.SeatWork:
			at, ok = l.find(n.At, "base")
		case record.Deviation:
			at, ok = l.find(n.At, "verdict")
		}
		if ok && !slices.Contains(cells, at) {
			cells = append(cells, at)
		}
	}
	return cells
}

// what says in a few words what a step is about.
func (p *Presenter) what(step *task.Step) say.Line {
	if len(step.Changes) == 0 {
		return say.New("valves.noun.setup")
	}
	head := &p.bench.Record().Head
	// What moved on the shelf came of what changed on the head.
	first := max(0, slices.IndexFunc(step.Changes, func(c task.Change) bool { return c.Item.Kind != record.StockItem }))
	noun := step.Changes[first].After
	if noun == nil {
		noun = step.Changes[first].Before
	}
	more := len(step.Changes)
	switch n := noun.(type) {
	case record.Reading:
		if more > 1 {
			return say.New("valves.did.readings", more, head.Label(n.At), say.New("kind."+string(n.Kind)))
		}
		return say.New("valves.did.reading", head.Label(n.At), say.New("kind."+string(n.Kind)), n.Quantity)
	case record.Valve:
		return say.New("valves.did.valve", head.Label(n.At))
	case record.SeatWork:
		return say.New("valves.did.seat", head.Label(n.At), n.Depth)
	case record.Deviation:
		return say.New("valves.did.accepted", head.Label(n.At))
	case record.Shared:
		return say.New("valves.did.shared", say.New("kind."+string(n.Kind)), say.New("role."+string(n.Role)), head.Label(n.From))
	case record.Package:
		return say.New("valves.did.package", say.New("role."+string(n.Role)))
	}
	return say.New("valves.noun.setup")
}
