package valves

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// sure is the budget of the number under the cursor, which F8 puts in place of the working.
type sure struct {
	v      *View
	object fyne.CanvasObject
	title  *kit.Text
	lines  *kit.Text
	ledger *kit.Ledger
}

func newSure(v *View) *sure {
	word := func(key string) string { return v.p.Words().Line(say.New(key)) }
	s := &sure{v: v, title: kit.NewText(""), lines: kit.NewText("")}
	s.title.Bold(true)
	s.ledger = kit.NewLedger(2, word("valves.sure.what"), word("valves.sure.how"), word("valves.sure.times"), word("valves.sure.u"),
		word("valves.sure.share"))
	s.object = container.NewVScroll(container.NewPadded(kit.Column(s.title, s.lines, s.ledger.Object(), turnOver(v, "valves.tool.working"))))
	s.object.Hide()
	return s
}

// turnOver is the button that puts the budget in place of the working, and the working in place of the budget.
func turnOver(v *View, key string) fyne.CanvasObject {
	return kit.Buttons(kit.NewButton(v.p.Words().Line(say.New(key)), "F8", v.back(func() { v.p.Key(table.Sure, false) })))
}

// draw shows the budget of a valve's number. It is worked out only while it is seen.
func (s *sure) draw(valve evaluate.Valve) {
	if !s.v.p.ShowsSure() {
		return
	}
	words := s.v.p.Words()
	d := s.v.p.Doubt(valve)
	s.title.Set(words.Line(d.Title))
	text := ""
	for _, l := range d.Lines {
		if text != "" {
			text += "\n"
		}
		text += words.Line(l)
	}
	s.lines.Set(text)
	var rows [][]string
	for _, p := range d.Parts {
		what := words.Line(p.What)
		if from := words.Line(p.From); from != "" {
			what += "\n" + from
		}
		rows = append(rows, []string{what, words.Line(p.How), words.Line(p.Times), words.Line(p.U), words.Line(p.Share)})
	}
	s.ledger.Set(rows)
	s.object.Refresh()
}
