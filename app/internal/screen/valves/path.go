package valves

import (
	"slices"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Path is the order in which Enter goes from valve to valve, always within one column.
type Path int

// The paths. Each stops at its end; OwnOrder alone comes round to what was passed over above.
const (
	ThisColumn Path = iota // down the rows, to the last
	RoleFirst              // down the valves of the cursor's role, then those of the other from the top
	Firing                 // the cylinders in the engine's firing order
	OwnOrder               // the head's own order, from the cursor round to the valve before it
)

// Line is the name of a path.
func (w Path) Line() say.Line {
	return [...]say.Line{
		say.New("valves.path.column"), say.New("valves.path.role"), say.New("valves.path.firing"), say.New("valves.path.own"),
	}[w]
}

// Short is the name of a path on a button.
func (w Path) Short() say.Line {
	return [...]say.Line{
		say.New("valves.path-short.column"), say.New("valves.path-short.role"), say.New("valves.path-short.firing"),
		say.New("valves.path-short.own"),
	}[w]
}

// Paths returns the paths that this head has: the firing order only where the engine's is known for
// every cylinder of the head.
func (p *Presenter) Paths() []Path {
	all := []Path{ThisColumn, RoleFirst}
	if p.fires() {
		all = append(all, Firing)
	}
	return append(all, OwnOrder)
}

func (p *Presenter) fires() bool {
	rec := p.bench.Record()
	return !slices.ContainsFunc(rec.Head.Cylinders, func(c string) bool { return !slices.Contains(rec.Engine.Firing, c) })
}

// Path returns the chosen path.
func (p *Presenter) Path() Path { return p.path }

// SetPath chooses a path. One that this head does not have is not taken.
func (p *Presenter) SetPath(w Path) {
	if slices.Contains(p.Paths(), w) {
		p.path = w
		p.out.Tell(say.New("valves.path", w.Line()))
	}
	p.out.Changed()
}

// ahead returns the rows that the path comes to after a row, in its order.
func (p *Presenter) ahead(row int) []int {
	l := p.lay()
	order := make([]int, len(l.at))
	for i := range order {
		order[i] = i
	}
	switch p.path {
	case OwnOrder:
		return append(order[row+1:], order[:row]...)
	case RoleFirst:
		role := l.at[row].Role
		same := slices.DeleteFunc(slices.Clone(order[row+1:]), func(i int) bool { return l.at[i].Role != role })
		other := slices.DeleteFunc(order, func(i int) bool { return l.at[i].Role == role })
		return append(same, other...)
	case Firing:
		firing := p.bench.Record().Engine.Firing
		slices.SortStableFunc(order, func(a, b int) int {
			return slices.Index(firing, l.at[a].Cylinder) - slices.Index(firing, l.at[b].Cylinder)
		})
	}
	return order[slices.Index(order, row)+1:]
}

// advance goes to the next empty cell of the path, or says that its end is reached.
func (p *Presenter) advance() {
	l := p.lay()
	for _, row := range p.ahead(p.cursor.Row) {
		if l.empty[row][p.cursor.Column] {
			p.jump(table.Place{Row: row, Column: p.cursor.Column})
			return
		}
	}
	p.anchor = p.cursor
	name, left := l.columns[p.cursor.Column].name, 0
	for row := range l.empty {
		if l.empty[row][p.cursor.Column] {
			left++
		}
	}
	if left > 0 {
		p.out.Tell(say.New("valves.path-end-left", name, left))
		return
	}
	p.out.Tell(say.New("valves.path-end", name))
}

// nextMissing goes to the next reading that the evaluation misses, column after column in bench order,
// and round from the last to the first.
func (p *Presenter) nextMissing() {
	places := p.missing()
	if len(places) == 0 {
		p.out.Tell(p.nothingMissing())
		return
	}
	after := slices.IndexFunc(places, func(at table.Place) bool { return before(p.cursor, at) })
	p.jump(places[max(0, after)])
}

func before(a, b table.Place) bool {
	return a.Column < b.Column || a.Column == b.Column && a.Row < b.Row
}

// missing are the cells whose reading or shims the evaluation misses, column after column.
func (p *Presenter) missing() []table.Place {
	l := p.lay()
	var places []table.Place
	for row, v := range p.bench.Evaluation().Valves {
		for _, n := range v.Missing {
			if col := p.columnOfNeed(n); col >= 0 && l.empty[row][col] {
				places = append(places, table.Place{Row: row, Column: col})
			}
		}
	}
	slices.SortFunc(places, func(a, b table.Place) int {
		switch {
		case a == b:
			return 0
		case before(a, b):
			return -1
		}
		return 1
	})
	return slices.Compact(places)
}

// columnOfNeed returns the column in which what is missing is typed, −1 where it is said elsewhere.
func (p *Presenter) columnOfNeed(n evaluate.Need) int {
	l := p.lay()
	if n.What == "need.shims" {
		return slices.IndexFunc(l.columns, func(c column) bool { return c.under == record.UnderLocator })
	}
	col := l.columnOf(n.Kind, n.Coil)
	if col < 0 && n.Kind == record.BaseHeight {
		return l.columnOf(record.SeatDepth, 0)
	}
	return col
}

// nothingMissing says what else is open: parts and limits are said on another leaf.
func (p *Presenter) nothingMissing() say.Line {
	if n := p.bench.Evaluation().Next; n != nil {
		return say.New("valves.missing-elsewhere", p.bench.Evaluation().NextLine())
	}
	return say.New("valves.nothing-missing")
}

// startCell puts the cursor where work goes on: on the first missing reading, else the first cell that
// takes one.
func (p *Presenter) startCell() {
	l := p.lay()
	if places := p.missing(); len(places) > 0 {
		p.jump(places[0])
		return
	}
	p.jump(table.Place{Column: slices.IndexFunc(l.columns, column.typed)})
}
