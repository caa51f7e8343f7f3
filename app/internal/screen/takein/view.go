package takein

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
)

// View is the page in the window.
type View struct {
	host       kit.Host
	presenter  *Presenter
	background func(work func())
	sum        *kit.Text
	units      *kit.Select // nil where the columns are the program's own
	columns    *kit.Rows
	wrong      *kit.Rows
	take       *kit.Button
	form       *kit.Form
}

// New returns the page of a table. What may take long is run by background.
func New(host kit.Host, table *task.TableIn, background func(work func())) *View {
	v := &View{host: host, presenter: NewPresenter(table), background: background, sum: kit.NewText("")}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	p := v.presenter
	v.sum.Bold(true)
	v.columns = kit.NewRows([]string{p.say("table.sample"), p.say("table.is")}, func(at kit.RowAt) { v.Ask(at.Row) }).Named(p.say("table.menu.ask"))
	v.wrong = kit.NewRows(nil, nil)
	v.take = kit.NewButton(p.say("table.take"), "", v.Take).Strong()
	parts := []fyne.CanvasObject{kit.NewTitle(p.say("table.title", table.Name()))}
	var own []fyne.CanvasObject
	if len(p.Columns()) > 0 {
		v.units = kit.NewChoice(p.say("table.unit"), v.lengths(), v.length(), func(i int) error {
			v.read(func(ctx context.Context) (func(), error) { return p.SetInches(ctx, i == 0) })
			return nil
		})
		parts = append(parts, kit.NewHint(p.say("table.how")), v.units)
		own = append(own, kit.NewHeading(p.say("table.columns")), v.columns)
	}
	parts = append(parts, v.sum, kit.Buttons(v.take))
	v.form = kit.NewForm(append([]fyne.CanvasObject{kit.Column(parts...)}, append(own, v.wrong)...)...)
	v.draw()
	return v
}

// lengths are the units that numbers may be in, and length which of them they are.
func (v *View) lengths() []string {
	return []string{v.presenter.say("table.inches"), v.presenter.say("table.millimetres")}
}

func (v *View) length() int {
	if v.presenter.Inches() {
		return 0
	}
	return 1
}

// read has the table read otherwise, which may be stopped: then it is read as before.
func (v *View) read(otherwise func(context.Context) (func(), error)) {
	v.run(func(ctx context.Context) func() {
		take, err := otherwise(ctx)
		return func() {
			switch {
			case err == nil:
				take()
			case !errors.Is(err, context.Canceled):
				v.host.Fail(err)
			}
			v.draw()
		}
	})
}

func (v *View) run(do func(context.Context) func()) {
	kit.Run(context.Background(), v.host.Window(), v.background, kit.Work{Title: v.presenter.Working(), Do: do})
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
	if v.units != nil {
		v.units.SetOptions(v.lengths(), v.length())
	}
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
			v.read(func(ctx context.Context) (func(), error) { return p.Use(ctx, column, i) })
		}})
	}
	choices = append(choices, kit.Choice{Label: p.say("kit.cancel"), Primary: true, Cancel: true})
	kit.Ask(v.host.Window(), p.say("table.ask", c.Head), p.say("table.ask-what", c.Sample), choices)
}

// Take takes in what fits.
func (v *View) Take() {
	v.run(func(ctx context.Context) func() {
		take, err := v.presenter.Keep(ctx)
		return func() {
			switch {
			case errors.Is(err, context.Canceled):
				v.host.Tell(v.presenter.Stopped())
			case err != nil:
				v.host.Fail(err)
			default:
				v.host.Tell(take())
			}
			v.draw()
		}
	})
}
