package parts

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/model/record"
)

// valvesInLine is how many valves stand in one line of the list to choose from.
const valvesInLine = 6

// list is the left side: what is missing, what the roles carry, the valves that differ, what is not
// within, and the gauges.
type list struct {
	view *View
	form *kit.Form

	title, hint         *kit.Text
	missing             *linked
	table               *kit.Rows
	cells               [][]Cell
	same                *kit.Button
	differing, findings *linked
	none, found         *kit.Text
	notWithin           *fyne.Container
	valves              *kit.Rows
	all                 []Option
	gauges              *linked
	noGauge             *kit.Text
	last                fyne.CanvasObject // where the keyboard was when a place was opened
}

// linked is rows that lead somewhere.
type linked struct {
	rows  *kit.Rows
	links []Link
}

func (l *list) linked() *linked {
	k := &linked{}
	k.rows = kit.NewRows(nil, func(at kit.RowAt) {
		l.last = k.rows
		l.view.follow(k.links[at.Row])
	}).Named(l.view.say("kit.menu-go"))
	return k
}

// set shows other links, and hides the rows where there are none.
func (k *linked) set(links []Link) {
	k.links = links
	rows := make([]kit.Row, len(links))
	for i, l := range links {
		rows[i].Cells = []kit.RowCell{{Text: l.Text, More: l.More}}
	}
	k.rows.Set(rows)
	if len(links) == 0 {
		k.rows.Hide()
		return
	}
	k.rows.Show()
}

func newList(v *View) *list {
	l := &list{
		view: v, title: kit.NewTitle(""), hint: kit.NewHint(""), none: kit.NewHint(v.say("parts.differing-none")),
		found: kit.NewHeading(""), noGauge: kit.NewHint(v.say("parts.gauges-none")),
	}
	l.missing, l.differing, l.findings, l.gauges = l.linked(), l.linked(), l.linked(), l.linked()
	var heads []string
	for _, role := range v.presenter.Roles() {
		heads = append(heads, v.say("role."+string(role)))
	}
	l.table = kit.NewRows(heads, l.openCell)
	l.table.Typed, l.table.Menu = l.typed, l.menu
	l.valves = kit.NewRows(nil, l.openValve).Named(v.say("kit.menu-open"))
	l.same = kit.NewButton(v.say("parts.same", v.role(record.Exhaust), v.role(record.Intake)), "", v.sameAll)
	l.notWithin = kit.Column(l.found, l.findings.rows)
	l.form = kit.NewForm(
		kit.Column(l.title, l.hint, l.missing.rows),
		kit.Group(v.say("parts.package"), l.table, kit.NewHint(v.say("parts.same-how")), kit.Buttons(l.same)),
		l.notWithin,
		kit.Group(v.say("parts.differing"), l.differing.rows, l.none, kit.NewHint(v.say("parts.valve-choose")), l.valves),
		kit.Group(v.say("parts.gauges"), l.gauges.rows, l.noGauge, kit.Buttons(kit.NewButton(v.say("parts.gauge-new"), "", l.newGauge))),
	)
	l.fill()
	return l
}

// fill draws the side as the set-up is now.
func (l *list) fill() {
	p := l.view.presenter
	missing := p.Missing()
	l.title.Set(l.view.say("parts.title"))
	l.hint.Set(l.view.say("parts.keys"))
	switch {
	case p.Empty():
		l.hint.Set(l.view.say("parts.empty"))
	case len(missing) > 0:
		l.title.Set(l.view.say("parts.missing", len(missing)))
	}
	l.missing.set(missing)

	l.cells = nil
	var rows []kit.Row
	for _, row := range p.Package() {
		r := kit.Row{Label: row.Title}
		for _, c := range row.Cells {
			cell := kit.RowCell{Text: c.Name, More: c.Sizes}
			if c.Name == "" {
				cell = kit.RowCell{Text: l.view.say("parts.nothing"), Faint: true}
			}
			r.Cells = append(r.Cells, cell)
		}
		rows, l.cells = append(rows, r), append(l.cells, row.Cells)
	}
	l.table.Set(rows)
	setShown(l.same, p.Differs(record.Intake))

	findings := p.Findings()
	l.found.Set(l.view.say("parts.findings", len(findings)))
	l.findings.set(findings)
	setShown(l.notWithin, len(findings) > 0)
	l.differing.set(p.Differing())
	setShown(l.none, len(l.differing.links) == 0)
	l.fillValves()
	l.gauges.set(p.Gauges())
	setShown(l.noGauge, len(l.gauges.links) == 0)
	l.form.Refresh()
}

func (l *list) fillValves() {
	l.all = l.view.presenter.Valves()
	var rows []kit.Row
	for line := range slices.Chunk(l.all, valvesInLine) {
		var r kit.Row
		for _, o := range line {
			r.Cells = append(r.Cells, kit.RowCell{Text: o.Label, More: o.More})
		}
		rows = append(rows, r)
	}
	l.valves.Set(rows)
}

func setShown(o fyne.CanvasObject, shown bool) {
	if shown {
		o.Show()
		return
	}
	o.Hide()
}

func (l *list) openCell(at kit.RowAt) {
	l.last = l.table
	l.view.open(l.cells[at.Row][at.Cell].Place, "")
}

// menu is what can be done with a part of a role.
func (l *list) menu(at kit.RowAt) []kit.Item {
	items := []kit.Item{l.table.Enter(l.view.say("kit.menu-open"))}
	if cell := l.cells[at.Row][at.Cell]; cell.Name != "" {
		items = append(items, kit.Item{Label: l.view.say("parts.same-slot"), Key: "=", Do: func() { l.sameSlot(cell) }})
	}
	return items
}

func (l *list) sameSlot(c Cell) {
	l.view.do(func(ctx context.Context) error { return l.view.presenter.SameSlot(ctx, c.Place) })
}

// typed gives the other role the part under the cursor, or begins the name of a new part.
func (l *list) typed(at kit.RowAt, char rune) {
	cell := l.cells[at.Row][at.Cell]
	switch {
	case char != '=':
		l.openCell(at)
		l.view.detail.begin(char)
	case cell.Name != "":
		l.sameSlot(cell)
	}
}

func (l *list) openValve(at kit.RowAt) {
	l.last = l.valves
	l.view.open(l.view.presenter.ValveOf(l.all[at.Row*valvesInLine+at.Cell].Value), "")
}

func (l *list) newGauge() {
	l.last = l.gauges.rows
	l.view.open(Place{What: AtGauge}, "")
}

// mark shows which cell, valve or gauge is open.
func (l *list) mark(at Place) {
	cell, valve := kit.RowAt{Row: -1}, kit.RowAt{Row: -1}
	for i, row := range l.cells {
		for j, c := range row {
			if c.Place == at {
				cell = kit.RowAt{Row: i, Cell: j}
			}
		}
	}
	for i, o := range l.all {
		if l.view.presenter.ValveOf(o.Value) == at {
			valve = kit.RowAt{Row: i / valvesInLine, Cell: i % valvesInLine}
		}
	}
	l.table.Open(cell)
	l.valves.Open(valve)
	gauge := slices.IndexFunc(l.gauges.links, func(k Link) bool { return k.To == at })
	l.gauges.rows.Open(kit.RowAt{Row: gauge})
}

// focus puts the keyboard on what is missing, or on the parts.
func (l *list) focus() {
	if len(l.missing.links) > 0 && !l.view.presenter.Empty() {
		l.missing.rows.Focus()
		return
	}
	l.table.Focus()
}

// back puts the keyboard where it was when a place was opened.
func (l *list) back() {
	if r, ok := l.last.(*kit.Rows); ok && r.Visible() {
		r.Focus()
		return
	}
	l.focus()
}
