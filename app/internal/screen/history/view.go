package history

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the page in the window.
type View struct {
	host       kit.Host
	presenter  *Presenter
	background func(work func())
	title      *kit.Text
	end        *kit.Text
	filter     *kit.Field
	more       *kit.Text
	rows       *kit.Rows
	form       *kit.Form
}

// New returns the page of the open set-up. What takes a moment is run by background.
func New(host kit.Host, bench *task.Bench, background func(work func())) *View {
	v := &View{host: host, presenter: NewPresenter(bench), background: background, title: kit.NewTitle(""), end: kit.NewHint(""), more: kit.NewText("")}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	p := v.presenter
	v.rows = kit.NewRows([]string{p.say("history.what"), p.say("history.before"), p.say("history.after"), p.say("history.who")}, nil)
	v.rows.Menu = func(kit.RowAt) []kit.Item { return []kit.Item{{Label: p.say("history.menu.copy"), Do: v.Copy}} }
	v.filter = kit.NewField(p.say("history.filter"), "", nil)
	v.filter.Typing = v.find
	v.form = kit.NewForm(kit.Column(v.title, v.end, v.filter, kit.Buttons(kit.NewButton(p.say("history.copy"), "", v.Copy))), v.more, v.rows)
	v.draw()
	return v
}

// find shows what has the words that were typed.
func (v *View) find(text string) {
	v.presenter.Filter(text)
	v.draw()
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return container.NewStack(v.form) }

// Word is the name of the page of help about what is in sight.
func (v *View) Word() string { return "setup" }

// Focus puts the keyboard where something can be looked for.
func (v *View) Focus() { v.filter.Focus() }

// Refresh reads the history again.
func (v *View) Refresh() { kit.Load(v.background, v.presenter.Load(), v.host.Fail, v.draw) }

func (v *View) draw() {
	p := v.presenter
	v.title.Set(p.Title())
	v.end.Set(p.End())
	found, more := p.Rows()
	rows := make([]kit.Row, len(found))
	for i, c := range found {
		rows[i] = kit.Row{Label: c[0], Cells: []kit.RowCell{{Text: c[2]}, {Text: c[3]}, {Text: c[4]}, {Text: c[1]}}}
	}
	v.rows.Set(rows)
	switch {
	case len(rows) == 0:
		v.more.Set(p.say("history.none"))
	case more > 0:
		v.more.Set(p.say("history.more", more))
	default:
		v.more.Set("")
	}
	v.form.Refresh()
}

// Copy puts everything that was found on the clipboard.
func (v *View) Copy() {
	fyne.CurrentApp().Clipboard().SetContent(v.presenter.Text())
	v.host.Tell(say.New("history.copied"))
}
