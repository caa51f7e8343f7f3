package valves

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	boxes "fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// View is the leaf: what is asked and held at the top, the table, the tray, and below it the section and
// the working of the selected valve.
type View struct {
	p       *Presenter
	bench   *task.Bench
	host    kit.Host
	object  *fyne.Container
	top     *fyne.Container // tools and strip
	high    float32         // of top and tray, as they were laid out last
	tools   *tools
	prompt  *prompt
	grid    *kit.Grid
	tray    *trayed
	section *kit.Section
	working *kit.Working
	steps   fyne.CanvasObject // the working, scrolled
	sure    *sure
	newer   *kit.Section     // in its place while two set-ups lie side by side
	below   *container.Split // section, and what stands beside it
	share   float64          // of the section, to go back to from two
	seen    int              // version of the set-up that the others were told of
}

// NewView builds the leaf of a set-up.
func NewView(host kit.Host, bench *task.Bench) *View {
	v := &View{bench: bench, host: host, tray: newTrayed(), section: kit.NewSection(), newer: kit.NewSection(), working: kit.NewWorking()}
	v.p = New(bench, v)
	v.seen = v.p.Version()
	v.grid = kit.NewGrid(v.p)
	v.grid.Menu = v.menu
	v.tools = newTools(v)
	v.prompt = newPrompt(v)
	// Results stand clear of the bar that scrolls them.
	inset := boxes.NewCustomPaddedLayout(theme.Padding(), theme.Padding(), theme.Padding(), 3*theme.Padding())
	v.steps = container.NewVScroll(container.New(inset, kit.Column(v.working, turnOver(v, "valves.tool.sure"))))
	v.sure = newSure(v)
	v.newer.Hide()
	v.below = container.NewHSplit(container.NewPadded(v.section), container.NewStack(v.steps, v.sure.object, container.NewPadded(v.newer)))
	v.below.Offset = 0.5
	v.top = container.NewVBox(v.tools.object, v.prompt.object)
	v.object = container.NewBorder(v.top, v.tray.object, nil, nil, kit.Under(v.grid, v.below))
	v.draw()
	return v
}

// Object is what the window shows.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Refresh draws what the set-up is now.
func (v *View) Refresh() { v.p.Refresh() }

// Focus puts the keyboard into the table.
func (v *View) Focus() {
	if c := v.host.Window().Canvas(); c != nil {
		c.Focus(v.grid)
	}
}

// Open counts what is open here.
func (v *View) Open() int { return v.p.Open() }

// Place is the cell that the cursor is in: "3/ex/1 base".
func (v *View) Place() string {
	return v.p.Selected().String() + " " + v.p.SelectedColumn()
}

// Drawn is what is drawn below the table.
func (v *View) Drawn() task.Drawn {
	d := task.Drawn{Valve: v.bench.Record().Head.Label(v.p.Selected())}
	for _, valve := range v.bench.Evaluation().Valves {
		if valve.At == v.p.Selected() && v.p.OnLoads() {
			_, d.Loads = valve.LoadGraph()
		}
	}
	return d
}

// Word is the page of help about the column that has the cursor.
func (v *View) Word() string { return v.p.Word() }

// GoTo puts the cursor back on a cell.
func (v *View) GoTo(place string) {
	for _, at := range v.bench.Record().Head.Positions() {
		if key := at.String() + " "; len(place) > len(key) && place[:len(key)] == key {
			v.p.Select(at, place[len(key):])
		}
	}
}

// Next says what to measure now, for the bottom line.
func (v *View) Next() say.Line { return v.p.Next() }

// Changed draws the table after a key, and tells the window where the set-up itself changed.
func (v *View) Changed() {
	v.draw()
	if version := v.p.Version(); version != v.seen {
		v.seen = version
		v.host.Changed()
		return
	}
	if h, ok := v.host.(mover); ok {
		h.Moved()
	}
}

// mover is a window whose bottom line follows the cursor: a reading lands where it is.
type mover interface{ Moved() }

// Ask shows the question that the presenter has open; it is drawn from there.
func (v *View) Ask(Question) { v.draw() }

// Tell passes a sentence to the bottom line.
func (v *View) Tell(line say.Line) { v.host.Tell(line) }

// Refused is heard, and seen in the strip above the table.
func (v *View) Refused() { kit.Refused(v.host) }

// Accepted is heard, and seen in the cell.
func (v *View) Accepted() { kit.Accepted(v.host) }

// Stray takes what a gauge sent while a dialog was open: it goes to the tray.
func (v *View) Stray(text string) { v.p.Stray(text) }

func (v *View) draw() {
	if v.object == nil && v.grid == nil {
		return
	}
	v.grid.SetState(v.p.State())
	if v.prompt != nil {
		v.prompt.draw()
		v.tools.draw()
	}
	v.tray.draw(v)
	v.drawBelow()
	v.arrange()
}

// arrange gives the table the room that tools, strip and tray leave, which come and go. Refreshing the whole
// leaf would do it too, and draw every cell anew at each key.
func (v *View) arrange() {
	if v.object == nil || v.object.Size().IsZero() {
		return
	}
	high := v.top.MinSize().Height
	if v.tray.object.Visible() {
		high += v.tray.object.MinSize().Height
	}
	if high == v.high {
		return
	}
	v.high = high
	for _, c := range []*fyne.Container{v.object, v.top, v.tools.object} {
		c.Layout.Layout(c.Objects, c.Size())
	}
}

// drawBelow shows the selected valve as it would be with what is being typed.
func (v *View) drawBelow() {
	at := v.p.Selected()
	both := v.p.SideBySide() && at != (record.Position{})
	v.halve(both)
	switch {
	case at == (record.Position{}):
		v.section.Clear()
		v.working.Set(nil)
		return
	case both:
		was, is := v.p.Sides()
		v.drawSide(v.section, "valves.beside.section-old", was)
		v.drawSide(v.newer, "valves.beside.section-new", is)
		return
	}
	valve := v.p.Preview(at)
	words := v.p.Words()
	v.drawSection(valve)
	lines := v.p.Working(valve)
	for _, f := range valve.Findings {
		lines = append(lines, words.Line(f.Line))
	}
	v.working.Set(lines)
	v.sure.draw(valve)
}

// halve gives two sections the same room, and what stood below the table its own again afterwards.
func (v *View) halve(both bool) {
	show(v.sure.object, !both && v.p.ShowsSure())
	show(v.steps, !both && !v.p.ShowsSure())
	if both == v.newer.Visible() {
		return
	}
	show(v.newer, both)
	if both {
		v.share = v.below.Offset
		v.below.SetOffset(0.5)
		return
	}
	v.below.SetOffset(v.share)
}

// drawSide shows the selected valve as it stands in one of two set-ups.
func (v *View) drawSide(section *kit.Section, title string, s Side) {
	words := v.p.Words()
	section.Set(figure.NewSection(*s.Valve, figure.PartsOf(s.Record, s.Valve.At), words),
		words.Line(say.New(title, s.Valve.Label, s.Valve.Word())))
}

func show(o fyne.CanvasObject, yes bool) {
	if yes {
		o.Show()
		return
	}
	o.Hide()
}

// back does something and gives the keyboard back to the table.
func (v *View) back(do func()) func() {
	return func() {
		do()
		v.Focus()
	}
}

// prompt is the strip that shows a refused reading or a question with its answers. The keys for them
// are the table's: arrows pick, Enter takes, Esc changes nothing.
type prompt struct {
	v      *View
	object *fyne.Container
	ground *canvas.Rectangle
	inside *fyne.Container
}

func newPrompt(v *View) *prompt {
	p := &prompt{v: v, ground: canvas.NewRectangle(nil), inside: container.NewVBox()}
	p.object = container.NewStack(p.ground, container.NewPadded(p.inside))
	return p
}

func (p *prompt) draw() {
	words := p.v.p.Words()
	p.inside.Objects = nil
	switch held, asked := p.v.p.Held(), p.v.p.Asked(); {
	case held != nil:
		p.say(words.Line(say.New("valves.held", held.Valve, held.Column, held.Read)), words.Line(held.Why))
		p.answers(held.Choices, held.Picked)
	case asked != nil:
		p.say(words.Line(asked.Line))
		for _, d := range asked.Details {
			p.inside.Add(kit.NewText(words.Line(d)))
		}
		p.answers(asked.Choices, asked.Picked)
		if asked.Words {
			p.inside.Add(kit.Buttons(kit.NewButton(words.Line(say.New("valves.own-words")), "", p.ownWords)))
		}
	default:
		if line := p.v.p.NotSaved(); !line.Zero() {
			p.say(words.Line(line))
			p.inside.Add(kit.Buttons(kit.NewButton(words.Line(say.New("valves.save-again")), "", p.v.back(func() { p.v.p.Save() }))))
		}
	}
	p.ground.FillColor = theme.Color(theme.ColorNameHeaderBackground)
	if len(p.inside.Objects) == 0 {
		p.object.Hide()
		return
	}
	p.object.Show()
	p.object.Refresh()
}

func (p *prompt) say(first string, more ...string) {
	line := kit.NewText(first)
	line.Bold(true)
	p.inside.Add(line)
	for _, m := range more {
		p.inside.Add(kit.NewText(m))
	}
}

func (p *prompt) answers(choices []say.Line, picked int) {
	words := p.v.p.Words()
	buttons := make([]fyne.CanvasObject, len(choices))
	for i, c := range choices {
		b := kit.NewButton(words.Line(c), "", p.v.back(func() { p.v.p.Answer(i) }))
		if i == picked {
			b.Strong()
		}
		buttons[i] = b
	}
	p.inside.Add(kit.Buttons(buttons...))
}

// ownWords asks for an answer in words.
func (p *prompt) ownWords() {
	words := p.v.p.Words()
	p.v.Focus() // where the keyboard comes back to
	kit.AskText(p.v.host.Window(), words.Line(say.New("valves.own-words")), words.Line(say.New("valves.reason")), "", nil,
		p.v.p.AnswerWords)
}
