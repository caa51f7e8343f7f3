package valves

import (
	"errors"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Doubt is how sure one number of a valve is, in words.
type Doubt struct {
	Title say.Line
	Lines []say.Line
	Parts []evaluate.Part // where the uncertainty comes from; none where it cannot be told
}

// ShowsSure reports whether the budget of the number under the cursor is shown in place of the working.
func (p *Presenter) ShowsSure() bool { return p.sure && p.beside == nil }

// OnLoads reports whether the cursor is in a column of loads.
func (p *Presenter) OnLoads() bool { return p.lay().columns[p.cursor.Column].load }

// Doubt says how sure the number under the cursor is, and of a cell without one how sure the margin is.
func (p *Presenter) Doubt(v evaluate.Valve) Doubt {
	c := p.lay().columns[p.cursor.Column]
	if l, ok := v.Load(c.Key); ok {
		return p.doubtLoad(v, c, l)
	}
	f, ok := v.Figure(c.Key)
	name, value := c.name, say.New("expr.one", f.Value)
	margin := !ok || c.Key == "bar" || c.Key == "margin" || c.Key == "u"
	if margin {
		f, name, value = v.Margin, say.New("column.margin"), say.New("expr.one", v.Text(p.bench.Words(), "margin"))
	}
	title := func(what say.Line) say.Line { return say.New("valves.sure.title", name, v.Label, what) }
	if !f.Known {
		return Doubt{Title: title(say.New("valves.sure.unknown"))}
	}
	b, err := f.Sure()
	if err != nil {
		return untold(title(value), err)
	}
	u, _ := f.U()
	spread := say.New("expr.spread", unit.Up(u))
	if margin {
		spread = v.SpreadLine()
	}
	d := Doubt{
		Title: title(say.New("valves.sure.spread", value, spread)),
		Lines: []say.Line{say.New("valves.sure.k", evaluate.Degrees(b.Nu))},
		Parts: f.Parts(),
	}
	if chance := v.ChanceLine(); margin && !chance.Zero() {
		d.Lines = append(d.Lines, say.New("valves.sure.chance", chance))
	}
	if decides := f.Decides(); !decides.Zero() {
		d.Lines = append(d.Lines, say.New("valves.sure.ends", decides))
	}
	return d
}

// doubtLoad says how sure a load is.
func (p *Presenter) doubtLoad(v evaluate.Valve, c column, l evaluate.Load) Doubt {
	title := func(what say.Line) say.Line { return say.New("valves.sure.title", c.name, v.Label, what) }
	if !l.Known {
		return Doubt{Title: title(say.New("valves.sure.unknown"))}
	}
	value := say.New("expr.one", l.Value)
	b, err := l.Sure()
	if err != nil {
		return untold(title(value), err)
	}
	u, _ := l.U()
	d := Doubt{
		Title: title(say.New("valves.sure.spread", value, say.New("expr.spread", unit.UpLoad(u)))),
		Lines: []say.Line{say.New("valves.sure.k", evaluate.Degrees(b.Nu))},
		Parts: l.Parts(),
	}
	if decides := l.Decides(); !decides.Zero() {
		d.Lines = append(d.Lines, say.New("valves.sure.ends", decides))
	}
	return d
}

// untold is a number of which nothing can be told, with why not.
func untold(title say.Line, err error) Doubt {
	d := Doubt{Title: title}
	var e *say.Error
	if errors.As(err, &e) {
		d.Lines = append(d.Lines, e.Line)
	}
	return d
}
