package pdf

import (
	"io"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Plan is what was planned for a head: valve by valve before and after, and what to pick in bench order.
type Plan struct {
	Record *record.Record
	Made   *evaluate.Planned
	Paper  Paper
	Words  say.Printer
}

// WritePlan writes the plan as a PDF, in the way of [Write] and with its errors.
func WritePlan(w io.Writer, p Plan) error {
	return writeTo(w, p.Paper, p.press)
}

func (p Plan) press(width, height float64) *press {
	r := p.Record
	out := newPress(width, height, made(r), p.Words.Line(say.New("plan.title", r.Head.Tag)))
	f := newFlow(out, p.Words)
	f.shop(r.Shop, f.say("plan.sheet"))
	f.name(r, f.say("setup."+string(r.Setup.Kind)))
	f.facts(3, strong, f.filled([]fact{
		{"sheet.engine", r.Engine.Name}, {"sheet.casting", r.Head.Casting}, {"sheet.work-order", r.Head.WorkOrder},
	}))
	f.skip(4)
	f.para(strong, 0, f.words.Line(p.Made.Say()))
	for _, note := range p.Made.Notes {
		f.para(body, 0, f.words.Line(note))
	}
	f.heading(f.say("plan.before-after"))
	f.grid(p.table(f))
	for _, s := range p.Made.Spreads {
		for _, line := range s.Lines(string(r.Setup.Units.Load)) {
			f.para(body, 0, f.words.Line(line))
		}
	}
	f.para(label, 0, f.say("plan.marks"))
	f.heading(f.say("plan.pick"))
	for _, line := range p.Made.Pick {
		f.item("☐", f.words.Line(line))
	}
	f.skip(6)
	f.para(body, 0, f.say("plan.sheet-then"))
	f.skip(12)
	f.need(20)
	f.ink("plan.sheet-by", f.left, 260)
	f.ink("form.date", f.left+276, 110)
	f.foot(f.say("plan.sheet-foot", f.short(label, footTag, f.tag(r)), r.Setup.ID), "")
	return out
}

// table is valve by valve what it was and what it will be. Where a spring comes from stands in the pick list.
func (p Plan) table(f *flow) grid {
	g := grid{shares: []float64{0.065, 0.08, 0.125, 0.14, 0.15, 0.15, 0.185, 0.105}}
	for _, key := range []string{"valve", "spring", "shims", "height", "margin", "seat", "open", "verdict"} {
		g.titles = append(g.titles, f.say("plan.head."+key))
	}
	for i := range p.Made.Rows {
		var row []string
		for _, c := range p.Made.Rows[i].Cells(p.Words) {
			c.From = ""
			row = append(row, c.Text())
		}
		r := &p.Made.Rows[i]
		row[len(row)-1] = f.words.Line(r.After.Word)
		g.rows = append(g.rows, row)
	}
	return g
}
