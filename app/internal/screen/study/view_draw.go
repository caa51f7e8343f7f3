package study

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// draw shows the page as it is now. Fields, lists and forms stay the same ones, so that nothing scrolls away
// under whoever types.
func (v *View) draw() {
	p := v.presenter
	v.title.Set(p.Title())
	v.counting.Set(p.Counting())
	v.what.Set(p.What())
	v.who.SetOptions(p.People(), p.Reader())
	v.reading.Unit = p.Unit()
	v.reading.Refresh()
	v.drawAside()
	v.drawFigures()
	v.left.Refresh()
	v.plot.Set(p.Drawing(), "")
	v.drawReadings()
	v.drawStudies()
	v.right.Refresh()
}

// drawAside lists what was typed and is no reading of the study, each with what can be done about it.
func (v *View) drawAside() {
	p := v.presenter
	v.aside.Objects = nil
	for i, a := range p.Aside() {
		why := kit.NewText(a.Why)
		why.Bold(true)
		v.aside.Add(kit.Column(why, kit.Buttons(
			v.button("study.put-back", "", func() {
				text := p.PutBack(i)
				v.draw()
				v.reading.BeginText(text)
			}),
			v.button("study.drop", "", func() {
				p.PutBack(i)
				v.draw()
				v.reading.Focus()
			}),
		)))
	}
}

func (v *View) drawFigures() {
	p := v.presenter
	v.figures.Objects, v.remarks.Objects, v.deeds.Objects = nil, nil, nil
	for _, f := range p.Figures() {
		v.figures.Add(kit.Pair(f.Label, f.Value))
	}
	for _, line := range p.Remarks() {
		v.remarks.Add(kit.NewText(line))
	}
	if at := p.Outlying(); at >= 0 && !p.Fixed() {
		v.remarks.Add(kit.Buttons(kit.NewButton(p.say("study.strike-it", at+1), "", func() { v.askStrike(at) }).Typing(v.reading)))
	}
	if !p.Fixed() {
		v.deeds.Add(v.button("study.use", "", v.use))
	}
	if p.CanTakeBack(context.Background()) {
		v.deeds.Add(v.button("study.take-back", "", v.takeBack))
	}
	if len(p.Readings()) > 0 {
		v.deeds.Add(v.button("study.begin", "", v.begin))
	}
}

func (v *View) drawReadings() {
	v.cells = nil
	var rows []kit.Row
	for _, r := range v.presenter.Readings() {
		row := kit.Row{Label: r.Who}
		for _, c := range r.Cells {
			row.Cells = append(row.Cells, kit.RowCell{Text: c.Text, More: c.More, Faint: c.Struck})
		}
		rows, v.cells = append(rows, row), append(v.cells, r.Cells)
	}
	v.readings.Set(rows)
	v.none.Set(v.presenter.say("study.readings-none"))
	seen(v.readings, len(rows) > 0)
	seen(v.none, len(rows) == 0)
}

func (v *View) drawStudies() {
	v.lines = v.presenter.Studies()
	open := kit.RowAt{Row: -1}
	rows := make([]kit.Row, len(v.lines))
	for i, l := range v.lines {
		rows[i] = kit.Row{Cells: []kit.RowCell{{Text: l.Text, More: l.More}}}
		if l.Open {
			open.Row = i
		}
	}
	v.studies.Set(rows)
	v.studies.Open(open)
	seen(v.studies, len(rows) > 0)
}

func seen(o fyne.CanvasObject, is bool) {
	switch {
	case is == o.Visible():
	case is:
		o.Show()
	default:
		o.Hide()
	}
}
