package valves

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// tools is the row above the table: where Enter goes, and what is done to a valve beside typing. F6 leads
// to it from the table.
type tools struct {
	v      *View
	object fyne.CanvasObject
	row    *fyne.Container
	path   *kit.Button
	large  *kit.Button
	table  []fyne.CanvasObject // what there is to do in the table of one set-up
	beside []fyne.CanvasObject // and while two lie side by side
}

func newTools(v *View) *tools {
	t := &tools{v: v}
	t.path = kit.NewButton("", "", v.back(t.nextPath))
	t.large = kit.NewButton("", "", v.back(func() { v.p.SetLarge(!v.p.Large()) }))
	button := func(key string, shown string, do func()) fyne.CanvasObject {
		return kit.NewButton(v.p.Words().Line(say.New(key)), shown, do)
	}
	press := func(k table.Key) func() { return v.back(func() { v.p.Key(k, false) }) }
	t.table = []fyne.CanvasObject{
		button("valves.tool.missing", "F3", press(table.NextMissing)),
		t.path,
		button("valves.tool.way", "", t.chooseWay),
		button("valves.tool.share", "", v.back(v.p.Share)),
		button("valves.tool.seat", "", t.cutSeat),
		button("valves.tool.accept", "", t.accept),
		button("valves.tool.columns", "F7", press(table.Choose)),
		button("valves.tool.beside", "F4", press(table.Beside)),
	}
	t.beside = []fyne.CanvasObject{
		button("valves.tool.table", "Esc", press(table.Escape)),
		button("valves.tool.other", "F7", press(table.Choose)),
	}
	t.row = kit.Buttons(append(append(slices.Clone(t.table), t.beside...), t.large)...)
	t.object = container.NewPadded(t.row)
	return t
}

func (t *tools) draw() {
	t.turn(t.v.p.SideBySide())
	words := t.v.p.Words()
	t.path.SetLabel(words.Line(say.New("valves.tool.path", t.v.p.Path().Short())))
	key := "valves.tool.large"
	if t.v.p.Large() {
		key = "valves.tool.small"
	}
	t.large.SetLabel(words.Line(say.New(key)))
}

// turn shows what there is to do.
func (t *tools) turn(both bool) {
	if t.beside[0].Visible() == both && t.table[0].Visible() != both {
		return
	}
	for _, b := range t.table {
		show(b, !both)
	}
	for _, b := range t.beside {
		show(b, both)
	}
	t.row.Refresh()
}

// nextPath goes round the paths that this head has.
func (t *tools) nextPath() {
	paths := t.v.p.Paths()
	for i, w := range paths {
		if w == t.v.p.Path() {
			t.v.p.SetPath(paths[(i+1)%len(paths)])
			return
		}
	}
}

// chooseWay asks what the readings of the cursor's column are taken through.
func (t *tools) chooseWay() {
	t.v.Focus() // where the keyboard comes back to
	words := t.v.p.Words()
	var choices []kit.Choice
	for i, w := range t.v.p.Ways() {
		choices = append(choices, kit.Choice{Label: words.Line(w.Line), Key: rune('a' + i), Do: func() { t.v.p.ReadThrough(w) }})
	}
	choices = append(choices, kit.Choice{Label: words.Line(say.New("valves.leave")), Cancel: true})
	kit.Ask(t.v.host.Window(), words.Line(say.New("valves.tool.way")), words.Line(t.v.p.AskWay()), choices)
}

// cutSeat asks how far the selected valve's seat was cut.
func (t *tools) cutSeat() {
	t.v.Focus() // where the keyboard comes back to
	words := t.v.p.Words()
	label := t.v.bench.Record().Head.Label(t.v.p.Selected())
	kit.AskForm(t.v.host.Window(), words.Line(say.New("valves.seat.ask", label)),
		[]kit.Blank{{Label: words.Line(say.New("valves.seat.depth")), Unit: string(t.v.bench.Record().Setup.Units.Length)}},
		func(texts []string) error {
			if err := t.v.p.CutSeat(texts[0]); err != nil {
				return kit.Said(words, err)
			}
			return nil
		})
}

// accept asks which finding of the selected valve is accepted, and why.
func (t *tools) accept() {
	t.v.Focus() // where the keyboard comes back to
	words := t.v.p.Words()
	win := t.v.host.Window()
	valve := t.v.p.Preview(t.v.p.Selected())
	var choices []kit.Choice
	for _, f := range valve.Findings {
		if f.Verdict == evaluate.Within && !f.Note || f.Accepted != nil {
			continue
		}
		choices = append(choices, kit.Choice{Label: words.Line(f.Short), Key: rune('a' + len(choices)), Do: func() {
			kit.AskText(win, words.Line(f.Line), words.Line(say.New("valves.accept.reason")), "",
				func(text string) error { return kit.Said(words, t.v.p.Accept(f.Key, text)) }, func(string) {})
		}})
	}
	title := say.New("valves.accept", valve.Label)
	if len(choices) == 0 {
		title = say.New("valves.accept.none", valve.Label)
	}
	choices = append(choices, kit.Choice{Label: words.Line(say.New("valves.leave")), Cancel: true})
	kit.Ask(win, words.Line(title), "", choices)
}
