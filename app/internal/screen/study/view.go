package study

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the page in the window: on the left what is typed and what it means, on the right the plot and its
// numbers, the readings and the studies of the gauge.
type View struct {
	host      kit.Host
	presenter *Presenter
	leave     func()

	title    *kit.Text
	counting *kit.Text
	what     *kit.Field
	who      *kit.Select
	reading  *kit.Field
	aside    *fyne.Container
	figures  *fyne.Container
	remarks  *fyne.Container
	deeds    *fyne.Container
	left     *kit.Form

	plot     *kit.Section
	readings *kit.Rows
	cells    [][]Cell
	none     *kit.Text
	studies  *kit.Rows
	lines    []Line
	right    *kit.Form

	object fyne.CanvasObject
}

// New returns the page of a gauge. Leave goes back to where it was opened from.
func New(host kit.Host, desk *task.Desk, gauge string, leave func()) (*View, error) {
	studies, err := desk.OpenStudies(context.Background(), gauge)
	if err != nil {
		return nil, err
	}
	v := &View{
		host: host, presenter: NewPresenter(studies), leave: leave,
		title: kit.NewHeading(""), counting: kit.NewText(""), none: kit.NewText(""),
		aside: kit.Column(), figures: kit.Columns(), remarks: kit.Column(), deeds: kit.Buttons(), plot: kit.NewSection(),
	}
	v.fields()
	v.rows()
	p := v.presenter
	v.left = kit.NewForm(
		kit.Column(v.title, v.counting, kit.Buttons(v.button("study.back", p.say("kit.esc"), leave))),
		kit.Group(p.say("study.reads"), v.what, v.who, kit.Buttons(v.button("study.other", "F3", v.askReader)), v.reading, v.aside),
		kit.Column(v.remarks, v.deeds),
	)
	v.right = kit.NewForm(
		v.figures,
		kit.Group(p.say("study.readings"), v.none, v.readings),
		kit.Group(p.say("study.studies"), v.studies),
	)
	v.object = container.New(sides{}, v.left, v.plot, v.right)
	v.draw()
	return v, nil
}

// fields makes what is typed into. The keyboard stays in the field of readings until somebody takes it away.
func (v *View) fields() {
	p := v.presenter
	v.reading = kit.NewField(p.say("study.reading-field"), "", v.enter)
	v.reading.Unit, v.reading.Understand = p.Unit(), p.Understand
	v.reading.Next = func() {}
	v.reading.Key = func(k fyne.KeyName) bool { return v.key(v.reading, k) }
	v.what = kit.NewField(p.say("study.what"), p.What(), v.name)
	v.what.Next = v.reading.Focus
	v.what.Key = func(k fyne.KeyName) bool { return v.key(v.what, k) }
	v.who = kit.NewChoice(p.say("study.who"), p.People(), p.Reader(), func(i int) error {
		return v.readBy(p.People()[i])
	})
	v.who.Next, v.who.Typed = v.reading.Focus, v.reading.Begin
}

func (v *View) rows() {
	v.readings = kit.NewRows(nil, v.chooseReading)
	v.readings.Typed = func(_ kit.RowAt, r rune) { v.reading.Begin(r) }
	v.readings.Leave = v.reading.Focus
	v.readings.Menu = v.readingMenu
	v.studies = kit.NewRows(nil, v.chooseStudy).Named(v.presenter.say("kit.menu-open"))
	v.studies.Typed, v.studies.Leave = v.readings.Typed, v.readings.Leave
}

// button is a button on which a gauge that types presses nothing.
func (v *View) button(key, hint string, do func()) *kit.Button {
	return kit.NewButton(v.presenter.say(key), hint, do).Typing(v.reading)
}

// key takes the keys that mean something in a field of the page.
func (v *View) key(f *kit.Field, k fyne.KeyName) bool {
	switch {
	case k == fyne.KeyF2:
		v.nextReader()
	case k == fyne.KeyF3:
		v.askReader()
	case k == fyne.KeyEscape && !f.Pending():
		v.leave()
	default:
		return false
	}
	return true
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Focus puts the keyboard where work goes on: first it is said what is measured.
func (v *View) Focus() {
	if v.presenter.What() == "" {
		v.what.Focus()
		return
	}
	v.reading.Focus()
}

// Refresh takes everything from the book again.
func (v *View) Refresh() {
	if err := v.presenter.Load(context.Background()); err != nil {
		v.host.Fail(err)
	}
	v.draw()
}

// Stray takes what a gauge typed into a dialog.
func (v *View) Stray(text string) {
	v.presenter.Stray(text)
	kit.Refused(v.host)
	v.draw()
}

// Unkept names what is not in the book.
func (v *View) Unkept() []say.Line {
	lines := v.presenter.Unkept()
	for _, f := range []*kit.Field{v.what, v.reading} {
		if f.Pending() {
			lines = append(lines, say.New("study.unkept", f.Text()))
		}
	}
	return lines
}

// sides gives what is typed two fifths of the width, and of the rest the upper half to the plot.
type sides struct{}

func (sides) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b, c := objects[0].MinSize(), objects[1].MinSize(), objects[2].MinSize()
	return fyne.NewSize(a.Width+max(b.Width, c.Width), max(a.Height, b.Height+c.Height))
}

func (sides) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	pad := 4 * theme.Padding()
	w := max(0.4*size.Width, min(objects[0].MinSize().Width, size.Width/2))
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(w, size.Height))
	h := 0.5 * size.Height
	objects[1].Move(fyne.NewPos(w+pad, pad))
	objects[1].Resize(fyne.NewSize(size.Width-w-2*pad, h-pad))
	objects[2].Move(fyne.NewPos(w, h))
	objects[2].Resize(fyne.NewSize(size.Width-w, size.Height-h))
}
