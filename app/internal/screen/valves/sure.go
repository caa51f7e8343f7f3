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

// Doubt says how sure the number under the cursor is, and of a cell without one how sure the margin is.
func (p *Presenter) Doubt(v evaluate.Valve) Doubt {
	c := p.lay().columns[p.cursor.Column]
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
		d := Doubt{Title: title(value)}
		var e *say.Error
		if errors.As(err, &e) {
			d.Lines = append(d.Lines, e.Line)
		}
		return d
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
