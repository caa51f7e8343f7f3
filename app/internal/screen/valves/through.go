package valves

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// through is what readings of a column are read through: on a gauge, with its standing setting.
type through struct {
	gauge string // id
	taken []record.Taken
}

// Way is one way in which readings can have been taken.
type Way struct {
	Line say.Line // "bind fixture: takes off lid .095", "nothing else in the stack"
	through
}

// Ways are the ways that a column can be told to read through: nothing else in the stack, or on one of
// the book's gauges with its setting.
func (p *Presenter) Ways() []Way {
	all := []Way{{Line: say.New("valves.way.bare")}}
	for _, g := range p.gauges() {
		line := say.New("valves.way.gauge", g.Name)
		if words := settingLines(g.Setting); len(words) > 0 {
			line = say.New("valves.way.through", g.Name, words)
		}
		all = append(all, Way{line, through{g.ID, g.Setting}})
	}
	return all
}

// settingLines name the parts of a setting: "lid .095", "step .060 zeroed".
func settingLines(setting []record.Taken) []say.Line {
	var words []say.Line
	for _, t := range setting {
		key := "valves.part"
		if t.Zero == record.Zeroed {
			key = "valves.part.zeroed"
		}
		words = append(words, say.New(key, say.New("stack."+string(t.Part)), t.Amount))
	}
	return words
}

// ReadThrough says how readings of the cursor's column are taken from now on. Readings that were taken
// before keep what they were taken under.
func (p *Presenter) ReadThrough(w Way) {
	c := p.lay().columns[p.cursor.Column]
	if c.kind == "" {
		p.refuse(say.New("valves.computed", c.name))
		return
	}
	p.through[c.Key] = w.through
	p.out.Tell(say.New("valves.way.taken", c.name, w.Line))
	p.Refresh()
}

// throughOf is how readings of a column are taken: as was chosen, else as the last one of the column was
// taken, on its gauge as that is set now.
func (p *Presenter) throughOf(c column) through {
	if c.kind == "" {
		return through{}
	}
	if t, ok := p.through[c.Key]; ok {
		return t
	}
	all := p.bench.Record().Setup.Readings
	for i := len(all) - 1; i >= 0; i-- {
		r := &all[i]
		if r.Struck != nil || r.Kind != c.kind || r.Coil != c.coil {
			continue
		}
		if g := p.gaugeOf(r.Gauge); g != nil {
			return through{g.ID, g.Setting}
		}
		return through{r.Gauge, r.Correction}
	}
	return through{}
}

// takenOff is what stands in a column's head beside its title: what its readings are lessened by.
func (p *Presenter) takenOff(c column) say.Line {
	var line say.Line
	for _, t := range p.throughOf(c).taken {
		switch {
		case t.Zero == record.Zeroed:
		case line.Zero():
			line = say.New("expr.one", t.Amount)
		default:
			line = say.New("expr.minus", line, t.Amount)
		}
	}
	return line
}

// gauges are those of the book; where it cannot be read just now, those of the record.
func (p *Presenter) gauges() []record.Gauge {
	if all, err := p.bench.Gauges(p.ctx); err == nil {
		return all
	}
	return p.bench.Record().Gauges
}

// gaugeOf finds a gauge of the record, nil where it names none such.
func (p *Presenter) gaugeOf(id string) *record.Gauge {
	all := p.bench.Record().Gauges
	for i := range all {
		if id != "" && all[i].ID == id {
			return &all[i]
		}
	}
	return nil
}

// gaugeNew returns a gauge of the book that the record does not have yet.
func (p *Presenter) gaugeNew(id string) (record.Gauge, bool) {
	if id == "" || p.gaugeOf(id) != nil {
		return record.Gauge{}, false
	}
	for _, g := range p.gauges() {
		if g.ID == id {
			return g, true
		}
	}
	return record.Gauge{}, false
}

// tellError tells what went wrong with something that was asked for, and keeps nothing of it.
func (p *Presenter) tellError(err error) { p.refuse(task.Told(err)) }
