package copies

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
)

// Host is what the page asks of the window besides.
type Host interface {
	kit.Host
	Restore(path string)  // puts a copy in the place of the book
	CopiesFolder() string // a second one, "" for none
	SetCopiesFolder(text string) error
}

// View is the page in the window.
type View struct {
	host       Host
	presenter  *Presenter
	background func(work func())
	sum        *kit.Text
	second     *kit.Field
	rows       *kit.Rows
	form       *kit.Form
}

// New returns the page of a presenter. What takes a moment is run by background.
func New(host Host, presenter *Presenter, background func(work func())) *View {
	v := &View{host: host, presenter: presenter, background: background, sum: kit.NewText("")}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	p := presenter
	v.rows = kit.NewRows(nil, func(at kit.RowAt) { v.Ask(at.Row) })
	v.rows.Menu = func(at kit.RowAt) []kit.Item {
		if p.Path(at.Row) == "" {
			return nil // it cannot be read any more
		}
		return []kit.Item{v.rows.Enter(p.say("copies.menu.back"))}
	}
	v.second = kit.NewField(p.say("copies.second"), host.CopiesFolder(), func(text string) error {
		if err := host.SetCopiesFolder(text); err != nil {
			return err
		}
		fyne.Do(v.Refresh)
		return nil
	})
	v.form = kit.NewForm(
		kit.Column(kit.NewTitle(p.say("copies.title")), v.sum, kit.NewHint(p.say("copies.how")), v.second, kit.Buttons(kit.NewButton(p.say("copies.now"), "", v.Copy))),
		v.rows,
	)
	v.draw()
	return v
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return container.NewStack(v.form) }

// Focus puts the keyboard on the list.
func (v *View) Focus() { v.rows.Focus() }

// Refresh looks through the copies again.
func (v *View) Refresh() { kit.Load(v.background, v.presenter.Load, v.host.Fail, v.draw) }

func (v *View) draw() {
	p := v.presenter
	v.sum.Set(p.Sum())
	all := p.Rows()
	rows := make([]kit.Row, len(all))
	for i, r := range all {
		rows[i] = kit.Row{Label: r.When, Cells: []kit.RowCell{{Text: r.What, Faint: r.Bad}}}
	}
	v.rows.Set(rows)
	v.form.Refresh()
}

// Copy takes a copy now.
func (v *View) Copy() {
	told, err := v.presenter.Copy(context.Background())
	if err != nil {
		v.host.Fail(err)
		return
	}
	v.host.Tell(told)
	v.Refresh()
}

// Ask asks whether a copy is put back.
func (v *View) Ask(row int) {
	p := v.presenter
	path := p.Path(row)
	if path == "" {
		return
	}
	r := p.Rows()[row]
	kit.Ask(v.host.Window(), p.say("copies.back"), p.say("copies.back-what", r.When, r.What), []kit.Choice{
		{Label: p.say("copies.back-yes"), Key: 'r', Do: func() { v.host.Restore(path) }},
		{Label: p.say("kit.cancel"), Primary: true, Cancel: true},
	})
}
