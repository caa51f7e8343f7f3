package valves

import (
	"slices"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Optional is a column, or a few that belong together, which a set-up shows once a reading or a part
// asks for them. Before that somebody has to begin them.
type Optional int

// The optional columns, in bench order.
const (
	Difference  Optional = iota // the two depths that a base height is the difference of
	Gap                         // from the retainer to what it comes closest to
	OuterShims                  // shims under the outer coil only
	RunningLift                 // lift on running springs, beside that on checking springs
	SeatLoads                   // loads on the assembled head, beside those by the curve
	WholeBind                   // bind of the spring measured as one
	Lash                        // lash as found and as left, with its shims
)

var optionals = [...]struct {
	name    string   // key of its words
	columns []string // keys of what is typed in it, the first first
}{
	{"valves.optional.difference", []string{"taken-seat-depth", "taken-retainer-depth"}},
	{"valves.optional.gap", []string{"room"}},
	{"valves.optional.outer", []string{"outer"}},
	{"valves.optional.running", []string{"taken-lift-running"}},
	{"valves.optional.seat-load", []string{"seat-read"}},
	{"valves.optional.whole", []string{"bind-0"}},
	{"valves.optional.lash", []string{"lash-found", "taken-lash-shim", "lash-left"}},
}

// Line names the columns.
func (o Optional) Line() say.Line { return say.New(optionals[o].name) }

// asked reports whether the set-up itself asks for the columns.
func (u usage) asked(o Optional) bool {
	switch o {
	case Difference:
		return u.kinds[record.SeatDepth] || u.kinds[record.RetainerDepth]
	case Gap:
		return u.room || u.kinds[record.Room]
	case OuterShims:
		return u.outer
	case RunningLift:
		return u.kinds[record.LiftRunning]
	case SeatLoads:
		return u.kinds[record.SeatLoad]
	case WholeBind:
		return u.whole
	}
	return u.lash || u.kinds[record.LashFound] || u.kinds[record.LashShim] || u.kinds[record.LashLeft]
}

// shows reports whether the columns are in the table.
func (p *Presenter) shows(use usage, o Optional) bool { return use.asked(o) || p.begun[o] }

// Optionals returns the columns that can be begun or put away: not those that the set-up asks for, nor
// those in which an entry waits to be saved.
func (p *Presenter) Optionals() (free []Optional) {
	use := usageOf(p.bench.Record())
	for i := range optionals {
		o := Optional(i)
		waits := slices.ContainsFunc(p.unsaved, func(u unsaved) bool { return slices.Contains(optionals[o].columns, u.column) })
		if !use.asked(o) && !waits {
			free = append(free, o)
		}
	}
	return free
}

// Begin shows optional columns before anything is read in them, with the cursor where the first reading
// goes; or puts them away again. Those that the set-up asks for stay as they are.
func (p *Presenter) Begin(o Optional, on bool) {
	if !slices.Contains(p.Optionals(), o) {
		return
	}
	p.begun[o] = on
	p.Refresh()
	if !on {
		p.out.Tell(say.New("valves.column-away", o.Line()))
		return
	}
	p.out.Tell(say.New("valves.column-begun", o.Line()))
	l := p.lay()
	col := slices.IndexFunc(l.columns, func(c column) bool { return c.Key == optionals[o].columns[0] })
	if p.edit != nil || col < 0 {
		return
	}
	row := slices.IndexFunc(l.empty, func(row []bool) bool { return row[col] })
	p.jump(table.Place{Row: max(0, row), Column: col})
	p.out.Changed()
}

// askColumns asks which optional columns are shown.
func (p *Presenter) askColumns() {
	free := p.Optionals()
	if len(free) == 0 {
		p.out.Tell(say.New("valves.columns-all"))
		return
	}
	q := Question{About: AboutColumns, Line: say.New("valves.columns")}
	for _, o := range free {
		line := o.Line()
		if p.begun[o] {
			line = say.New("valves.columns-without", line)
		}
		q.Choices = append(q.Choices, line)
	}
	q.Choices = append(q.Choices, say.New("valves.leave"))
	q.act = func(choice int) {
		if choice < len(free) {
			p.Begin(free[choice], !p.begun[free[choice]])
		}
	}
	p.ask(q)
}
