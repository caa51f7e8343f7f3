package shop

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// asOne is a nest that was tested whole, of its type.
func (p *Presenter) asOne(s record.Spring) Section {
	a := record.Assembly{}
	if s.Assembly != nil {
		a = *s.Assembly
	}
	set := func(change func(*record.Assembly)) record.Noun { return task.WithAssembly(s, change) }
	one := p.coil(0, record.Coil{Bind: a.Bind}, wholeBind(a.Bind), "springs.one-bind", func(b *record.Bind) record.Noun {
		return set(func(a *record.Assembly) { a.Bind = b })
	})
	one.Title = p.say("springs.one")
	one.Notes = append([]string{p.say("springs.one-what")}, one.Notes...)
	p.tested(&one, 0, a.Loads, "springs.one-loads", func(l *record.Loads) record.Noun {
		return set(func(a *record.Assembly) { a.Loads = l })
	})
	if a.Bind != nil || a.Loads != nil {
		one.Fields = append(one.Fields, p.stoodOn(a.Retainer, a.Locator, func(retainer, locator string) record.Noun {
			return set(func(a *record.Assembly) { a.Retainer, a.Locator = retainer, locator })
		})...)
	}
	return one
}

// wholeBind works out a bind height of a spring as one.
func wholeBind(b *record.Bind) evaluate.Figure {
	return task.TypeBinds(record.Spring{ID: "whole", Coils: []record.Coil{{Bind: b}}})[0]
}

// pieceAsOne is a single spring that was tested whole.
func (p *Presenter) pieceAsOne(n record.SpringPiece) Section {
	l := task.PieceLoads(n, 0)
	one := Section{Title: p.say("springs.one")}
	p.tested(&one, 0, l, "springs.one-of-type", func(l *record.Loads) record.Noun { return task.WithLoads(n, 0, l) })
	if l != nil {
		on := record.PieceLoads{}
		for _, one := range n.Loads {
			if one.Coil == 0 {
				on = one
			}
		}
		one.Fields = append(one.Fields, p.stoodOn(on.Retainer, on.Locator, func(retainer, locator string) record.Noun {
			return task.StoodOn(n, retainer, locator)
		})...)
	}
	return one
}

// stoodOn are the parts at both ends of a spring that was tested whole.
func (p *Presenter) stoodOn(retainer, locator string, put func(retainer, locator string) record.Noun) []Field {
	bare := Option{"", p.say("springs.bare")}
	up := Field{Name: "one retainer", Label: p.say("springs.on-retainer"), Value: retainer, Options: []Option{bare}}
	for _, r := range p.counter.Parts().Retainers {
		up.Options = append(up.Options, Option{r.ID, r.Name})
	}
	up.put = func(id string) (record.Noun, error) { return put(id, locator), nil }
	down := Field{Name: "one locator", Label: p.say("springs.on-locator"), Value: locator, Options: []Option{bare}}
	for _, l := range p.counter.Parts().Locators {
		down.Options = append(down.Options, Option{l.ID, l.Name})
	}
	down.put = func(id string) (record.Noun, error) { return put(retainer, id), nil }
	return []Field{up, beside(down)}
}
