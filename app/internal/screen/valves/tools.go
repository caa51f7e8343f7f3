package valves

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	boxes "fyne.io/fyne/v2/layout" // this package has a layout of its own
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// tools is the row above the table: where Enter goes, and what is done to a valve beside typing. F6 leads
// to it from the table.
type tools struct {
	v      *View
	object *fyne.Container
	path   *kit.Button
	large  [2]*kit.Button
	table  *fyne.Container // what there is to do in the table of one set-up
	beside *fyne.Container // and while two lie side by side, with which two
	two    *kit.Text
}

func newTools(v *View) *tools {
	t := &tools{v: v, two: kit.NewText("")}
	t.path = kit.NewButton("", "", v.back(t.nextPath))
	for i := range t.large {
		t.large[i] = kit.NewButton("", "", v.back(func() { v.p.SetLarge(!v.p.Large()) }))
	}
	button := func(key string, shown string, do func()) fyne.CanvasObject {
		return kit.NewButton(v.p.Words().Line(say.New(key)), shown, do)
	}
	press := func(k table.Key) func() { return v.back(func() { v.p.Key(k, false) }) }
	t.table = container.NewPadded(kit.Buttons(
		button("valves.tool.missing", "F3", press(table.NextMissing)),
		t.path,
		button("valves.tool.way", "", t.chooseWay),
		button("valves.tool.share", "", v.back(v.p.Share)),
		button("valves.tool.seat", "", t.cutSeat),
		button("valves.tool.accept", "", t.accept),
		button("valves.tool.columns", "F7", press(table.Choose)),
		button("valves.tool.beside", "F4", press(table.Beside)),
		t.large[0],
	))
	buttons := container.New(boxes.NewCustomPaddedHBoxLayout(2*theme.Padding()),
		button("valves.tool.table", v.p.Words().Line(say.New("kit.esc")), press(table.Escape)),
		button("valves.tool.other", "F7", press(table.Choose)),
		t.large[1],
	)
	// The words stand in the middle of the height, in one line or in two, and apart from the buttons.
	words := container.NewPadded(container.NewVBox(boxes.NewSpacer(), t.two, boxes.NewSpacer()))
	t.beside = container.NewPadded(container.NewBorder(nil, nil, buttons, nil, words))
	t.object = container.NewVBox(t.table, t.beside)
	return t
}

func (t *tools) draw() {
	both := t.v.p.SideBySide()
	if both != t.beside.Visible() {
		t.v.high = 0 // other buttons are to be laid out, though they may be as high
	}
	show(t.table, !both)
	show(t.beside, both)
	t.two.Set(t.v.p.Words().Line(t.v.p.Compared()))
	words := t.v.p.Words()
	t.path.SetLabel(words.Line(say.New("valves.tool.path", t.v.p.Path().Short())))
	key := "valves.tool.large"
	if t.v.p.Large() {
		key = "valves.tool.small"
	}
	for _, b := range t.large {
		b.SetLabel(words.Line(say.New(key)))
	}
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
