package life

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/pdf/figure"
)

// logs are the days of the set-up, and how its lash went.
func (v *View) logs() (groups []fyne.CanvasObject) {
	p := v.presenter
	if t, ok := p.Times(); ok {
		v.times.Set(figure.NewTimes(t, p.bench.Words()), "")
		groups = append(groups, kit.Group(p.say("life.times"), container.New(kit.DrawingRoom{Lines: figure.TimesHigh + 3}, v.times)))
	}
	titles, lash, more := p.LashLog()
	if len(lash) == 0 {
		return groups
	}
	table := kit.NewRows(titles, nil)
	rows := make([]kit.Row, len(lash))
	for i, cells := range lash {
		rows[i].Label = cells[0]
		for _, c := range cells[1:] {
			rows[i].Cells = append(rows[i].Cells, kit.RowCell{Text: c})
		}
	}
	table.Set(rows)
	group := kit.Group(p.say("life.lash-title"), kit.NewHint(p.say("life.lash-how")), table)
	if more > 0 {
		group.Add(kit.NewHint(p.say("life.lash-more", more)))
	}
	return append(groups, group)
}

// checksNow lists the checks; nothing before the first.
func (v *View) checksNow() []fyne.CanvasObject {
	p := v.presenter
	found := p.Checks()
	if len(found) == 0 {
		return nil
	}
	rows := make([]kit.Row, len(found))
	for i, c := range found {
		rows[i] = kit.Row{Label: c.Day, Cells: []kit.RowCell{{Text: c.Text}}}
	}
	v.checks.Set(rows)
	return []fyne.CanvasObject{kit.Group(p.say("life.checks-title"), v.checks, kit.NewHint(p.say("life.checks-open")))}
}

// openCheck asks what is to become of a check.
func (v *View) openCheck(row int) {
	p := v.presenter
	all := p.Checks()
	if row >= len(all) || p.Checking() {
		return // the one that is entered comes first
	}
	c := all[row]
	kit.Ask(v.host.Window(), p.say("life.check-ask", c.Day), p.say("life.check-ask-what", c.Text), []kit.Choice{
		{Label: p.say("life.check-correct"), Do: func() {
			p.Correct(c.Check)
			v.enter()
		}},
		{Label: p.say("life.check-away"), Do: func() {
			if err := p.Forget(context.Background(), c.Check); err != nil {
				v.host.Fail(v.said(err))
			}
			v.draw()
			v.host.Changed()
		}},
		{Label: p.say("kit.cancel"), Primary: true, Cancel: true},
	})
}
