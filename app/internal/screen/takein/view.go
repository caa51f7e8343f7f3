package takein

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
)

// View is the page in the window.
type View struct {
	host      kit.Host
	presenter *Presenter
	sum       *kit.Text
	columns   *kit.Rows
	wrong     *kit.Rows
	take      *kit.Button
	form      *kit.Form
}

// New returns the page of a table.
func New(host kit.Host, table *task.TableIn) *View {
	v := &View{host: host, presenter: NewPresenter(table), sum: kit.NewText("")}
	p := v.presenter
	v.sum.Bold(true)
	v.columns = kit.NewRows([]string{p.say("table.sample"), p.say("table.is")}, func(at kit.RowAt) { v.Ask(at.Row) }).Named(p.say("table.menu.ask"))
	v.wrong = kit.NewRows(nil, nil)
	v.take = kit.NewButton(p.say("table.take"), "", v.Take).Strong()
	parts := []fyne.CanvasObject{kit.NewTitle(p.say("table.title", table.Name()))}
	var own []fyne.CanvasObject
	if len(p.Columns()) > 0 {
		start := 1
		if p.Inches() {
			start = 0
		}
		units := kit.NewChoice(p.say("table.unit"), []string{p.say("table.inches"), p.say("table.millimetres")}, start, func(i int) error {
			defer v.draw()
			return p.SetInches(context.Background(), i == 0)
		})
		parts = append(parts, kit.NewHint(p.say("table.how")), units)
		own = append(own, kit.NewHeading(p.say("table.columns")), v.columns)
	}
	parts = append(parts, v.sum, kit.Buttons(v.take))
	v.form = kit.NewForm(append([]fyne.CanvasObject{kit.Column(parts...)}, append(own, v.wrong)...)...)
	v.draw()
	return v
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return container.NewStack(v.form) }

// Focus puts the keyboard on the columns, or on what takes the table in where they are known.
func (v *View) Focus() {
	if len(v.presenter.Columns()) > 0 {
		v.columns.Focus()
		return
	}
	kit.GiveKeyboard(v.take)
}

// Refresh draws the page.
func (v *View) Refresh() { v.draw() }

func (v *View) draw() {
	p := v.presenter
	v.sum.Set(p.Sum())
	var columns, wrong []kit.Row
	for _, c := range p.Columns() {
		columns = append(columns, kit.Row{Label: c.Head, Cells: []kit.RowCell{{Text: c.Sample, Faint: true}, {Text: c.Is}}})
	}
	for _, w := range p.Wrong() {
		wrong = append(wrong, kit.Row{Label: w.Label, Cells: []kit.RowCell{{Text: w.Why}}})
	}
	v.columns.Set(columns)
	v.wrong.Set(wrong)
	if p.Can() {
		v.take.Show()
	} else {
		v.take.Hide()
	}
	v.form.Refresh()
}

// Ask asks what a column is.
func (v *View) Ask(column int) {
	p := v.presenter
	c := p.Columns()[column]
	choices := []kit.Choice{}
	for i, use := range p.Uses() {
		choices = append(choices, kit.Choice{Label: use, Key: rune('a' + i), Do: func() {
			if err := p.Use(context.Background(), column, i); err != nil {
				v.host.Fail(err)
			}
			v.draw()
		}})
	}
	choices = append(choices, kit.Choice{Label: p.say("kit.cancel"), Primary: true, Cancel: true})
	kit.Ask(v.host.Window(), p.say("table.ask", c.Head), p.say("table.ask-what", c.Sample), choices)
}

// Take takes in what fits.
func (v *View) Take() {
	told, err := v.presenter.Keep(context.Background())
	if err != nil {
		v.host.Fail(err)
		return
	}
	v.host.Tell(told)
	v.draw()
}
