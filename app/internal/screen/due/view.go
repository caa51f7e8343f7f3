package due

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// Host is what the page asks of the window besides.
type Host interface {
	kit.Host
	OpenSetup(id string)
}

// View is the page in the window.
type View struct {
	host       Host
	presenter  *Presenter
	background func(work func())
	sum        *kit.Text
	rows       *kit.Rows
	save       *kit.Button
	form       *kit.Form
}

// New returns the page of a presenter. What takes a moment is run by background.
func New(host Host, presenter *Presenter, background func(work func())) *View {
	v := &View{host: host, presenter: presenter, background: background, sum: kit.NewText("")}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	p := presenter
	v.rows = kit.NewRows(nil, func(at kit.RowAt) {
		if rows := p.Rows(); at.Row < len(rows) && rows[at.Row].Setup != "" {
			host.OpenSetup(rows[at.Row].Setup)
			host.Show("life")
		}
	})
	v.rows.Menu = func(at kit.RowAt) []kit.Item {
		if p.Rows()[at.Row].Setup == "" {
			return nil // of a gauge
		}
		return []kit.Item{v.rows.Enter(p.say("due.menu.open"))}
	}
	v.save = kit.NewButton(p.say("due.save"), "", v.Save)
	v.form = kit.NewForm(kit.Column(kit.NewTitle(p.say("due.title")), v.sum, kit.NewHint(p.say("due.how")), kit.Buttons(v.save)), v.rows)
	v.draw()
	return v
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return container.NewStack(v.form) }

// Word is the name of the page of help about what is in sight.
func (v *View) Word() string { return "life" }

// Focus puts the keyboard on the list.
func (v *View) Focus() { v.rows.Focus() }

// Refresh works out anew what falls due.
func (v *View) Refresh() { kit.Load(v.background, v.presenter.Load, v.host.Fail, v.draw) }

func (v *View) draw() {
	p := v.presenter
	v.sum.Set(p.Sum())
	all := p.Rows()
	rows := make([]kit.Row, len(all))
	for i, r := range all {
		rows[i] = kit.Row{Label: r.When, Cells: []kit.RowCell{{Text: r.What, Faint: r.Quiet}}}
	}
	v.rows.Set(rows)
	v.form.Refresh()
}

// Save asks where the calendar goes, and writes it.
func (v *View) Save() {
	p := v.presenter
	kit.Save(v.host, kit.Saving{
		Title: p.say("due.save"), Label: p.say("choose.form-path"), Path: p.Path(), Replace: p.say("choose.replace"), Cancel: p.say("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) { return p.Save(path, replace) },
	})
}
