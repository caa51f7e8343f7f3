package valves

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
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

// AskWay is the question that [Presenter.Ways] answer.
func (p *Presenter) AskWay() say.Line {
	if p.lay().columns[p.cursor.Column].under != "" {
		return say.New("valves.way.ask-shims")
	}
	return say.New("valves.way.ask")
}

// Ways are the ways that the cursor's column can be told to read through: nothing else in the stack, or
// on one of the book's gauges with what of its setting a reading of the column goes through. Shims are
// as sold, or measured on one of the gauges.
func (p *Presenter) Ways() []Way {
	c := p.lay().columns[p.cursor.Column]
	if c.under == "" {
		return p.waysOf(c.kind)
	}
	all := []Way{{Line: say.New("valves.way.sold")}}
	for _, g := range p.gauges() {
		all = append(all, Way{say.New("valves.way.measured", g.Name), through{gauge: g.ID}})
	}
	return all
}

func (p *Presenter) waysOf(kind record.Kind) []Way {
	all := []Way{{Line: say.New("valves.way.bare")}}
	for _, g := range p.gauges() {
		line, setting := say.New("valves.way.gauge", g.Name), settingFor(&g, kind)
		if words := settingLines(setting); len(words) > 0 {
			line = say.New("valves.way.through", g.Name, words)
		}
		all = append(all, Way{line, through{g.ID, setting}})
	}
	return all
}

// settingFor is what of a gauge's setting a reading of the table goes through. A load is read there at the installed
// height, so there is no height that a part could come off.
func settingFor(g *record.Gauge, kind record.Kind) []record.Taken {
	if kind.IsLoad() {
		return nil
	}
	return g.SettingFor(kind)
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
	if !c.typed() {
		p.refuse(say.New("valves.computed", c.name))
		return
	}
	p.through[c.Key] = w.through
	p.out.Tell(say.New("valves.way.taken", c.name, w.Line))
	p.Refresh()
}

// throughOf is how readings of a column are taken: as was chosen, else as the last one of the column was
// taken, on its gauge as that is set now, else on the gauge that such readings were taken on last in
// another set-up.
func (p *Presenter) throughOf(c column) through {
	if t, ok := p.through[c.Key]; ok {
		return t
	}
	if c.kind == "" {
		return through{gauge: p.measuredOn(c.under)}
	}
	if r := p.lastTaken(c); r != nil {
		if g := p.gaugeOf(r.Gauge); g != nil {
			return through{g.ID, settingFor(g, c.kind)}
		}
		return through{r.Gauge, r.Correction}
	}
	if g, ok := p.bench.UsualGauge(p.ctx, c.kind); ok {
		return through{g.ID, settingFor(&g, c.kind)}
	}
	return through{}
}

// lastTaken is the newest reading of a column that counts, nil where there is none. The list stands in the order of the head.
func (p *Presenter) lastTaken(c column) *record.Reading {
	var last *record.Reading
	all := p.bench.Record().Setup.Readings
	for i := range all {
		r := &all[i]
		if r.Struck == nil && r.Kind == c.kind && r.Coil == c.coil && (last == nil || r.When >= last.When) {
			last = r
		}
	}
	return last
}

// measuredOn is the gauge that the last valve's shims in this place were measured on, "" where none is
// named.
func (p *Presenter) measuredOn(under record.Under) string {
	gauge := ""
	for _, v := range p.bench.Record().Setup.Valves {
		for _, s := range v.Stack {
			if s.Under == under && s.Gauge != "" {
				gauge = s.Gauge
			}
		}
	}
	return gauge
}

// headed is what stands over a column: its title and what its readings are lessened by, "bind −.095".
func (p *Presenter) headed(c column) say.Line {
	title, first := c.title(), true
	for _, t := range p.throughOf(c).taken {
		if t.Zero == record.Zeroed {
			continue
		}
		if !first {
			title = evaluate.Lessen(title, c.kind, t)
			continue
		}
		first = false
		// A head is narrow, so its first term stands close.
		amount, off := evaluate.Term(c.kind, t)
		key := "valves.title.through"
		if !off {
			key = "valves.title.through-plus"
		}
		title = say.New(key, title, amount)
	}
	return title
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
