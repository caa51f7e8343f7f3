package parts

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// detail is the right side: what is known of what is open.
type detail struct {
	view   *View
	form   *kit.Form
	body   *fyne.Container
	title  *kit.Text
	uses   *kit.Text
	back   *kit.Button
	at     Place
	part   string // whose uses are shown, as kind and key
	stop   context.CancelFunc
	inputs map[string]input
	first  string // name of the first input
	wide   string // name of the list that shows all of its answers
	asked  bool   // what was committed last had been missing
	hinted bool   // the first list said which key shows them
}

// input is a field, a choice or a list of the detail.
type input interface {
	fyne.CanvasObject
	Focus()
}

func newDetail(v *View) *detail {
	d := &detail{view: v, body: kit.Panels(), title: kit.NewTitle(""), uses: kit.NewHint(""), stop: func() {}}
	d.back = kit.NewButton(v.say("parts.all"), "", v.back)
	d.form = kit.NewForm(d.body)
	d.open(Place{})
	return d
}

// open shows a place.
func (d *detail) open(at Place) {
	if at != d.at || d.inputs == nil {
		d.at, d.inputs, d.wide = at, map[string]input{}, ""
		d.fill()
		d.form.Set(d.body)
		return
	}
	d.fill()
}

// fill draws the place as it is now. Inputs that are there already are kept, for one of them may have
// the keyboard.
func (d *detail) fill() {
	d.first, d.hinted = "", false
	if d.at == (Place{}) {
		d.body.Objects = []fyne.CanvasObject{kit.NewHint(d.view.say("parts.pick"))}
		d.form.Refresh()
		return
	}
	now := d.view.presenter.Detail(d.at)
	d.title.Set(now.Title)
	d.look(now.Part)
	head := kit.Column(d.title)
	if now.Part != nil {
		head.Add(d.uses)
	}
	d.body.Objects = []fyne.CanvasObject{head}
	for _, g := range now.Groups {
		d.body.Objects = append(d.body.Objects, d.group(g))
	}
	d.body.Objects = append(d.body.Objects, d.buttons(now.Actions))
	d.form.Refresh()
}

func (d *detail) buttons(actions []Action) fyne.CanvasObject {
	at, row := d.at, kit.Buttons()
	for _, a := range actions {
		in, ok := d.inputs["do "+a.Name]
		if !ok {
			in = focusable{kit.NewButton(a.Label, "", func() {
				d.view.do(func(ctx context.Context) error { return d.view.presenter.Act(ctx, at, a.Name) })
			})}
			d.inputs["do "+a.Name] = in
		}
		row.Add(in.(focusable).Button)
	}
	row.Add(d.back)
	return row
}

// focusable is a button among the inputs.
type focusable struct{ *kit.Button }

func (f focusable) Focus() { kit.GiveKeyboard(f.Button) }

// group draws a group: what is said of it, its fields, and where it leads.
func (d *detail) group(g Group) fyne.CanvasObject {
	column := kit.Column()
	if g.Title != "" {
		column.Add(kit.NewHeading(g.Title))
	}
	if len(g.Notes) > 0 {
		column.Add(kit.NewHint(strings.Join(g.Notes, "\n")))
	}
	for i := 0; i < len(g.Fields); {
		var row []fyne.CanvasObject
		var shares []float32
		for first := i; i < len(g.Fields) && (i == first || g.Fields[i].Beside); i++ {
			f := g.Fields[i]
			row, shares = append(row, d.input(f)), append(shares, 1)
			if f.Long {
				shares[len(shares)-1] = 2
			}
		}
		column.Add(kit.Beside(shares, row...))
	}
	if len(g.Links) > 0 {
		column.Add(d.links(g))
	}
	return column
}

// links is where a group leads.
func (d *detail) links(g Group) fyne.CanvasObject {
	name := "links " + g.Title
	rows, ok := d.inputs[name].(*kit.Rows)
	if !ok {
		rows = kit.NewRows(nil, nil).Named(d.view.say("kit.menu-go"))
		rows.Leave = d.view.back
		d.inputs[name] = rows
	}
	rows.Choose = func(at kit.RowAt) { d.view.follow(g.Links[at.Row]) }
	lines := make([]kit.Row, len(g.Links))
	for i, l := range g.Links {
		lines[i].Cells = []kit.RowCell{{Text: l.Text, More: l.More}}
	}
	rows.Set(lines)
	return rows
}

// focus puts the keyboard into a field, or into the first.
func (d *detail) focus(field string) {
	if field == "" {
		field = d.first
	}
	in, ok := d.inputs[field]
	if !ok {
		in, ok = d.inputs[d.first] // a part is named where there is none to choose from
	}
	if ok {
		in.Focus()
	}
}

// onward goes from a field that answered what was missing to what is missing still, and to the valves when
// nothing is; from any other field to the one behind it.
func (d *detail) onward(field string, from *kit.Field) {
	asked := d.asked
	d.asked = false
	if asked {
		if link, ok := d.view.presenter.Onward(d.at, field); ok {
			d.view.follow(link)
			return
		}
		d.view.host.Show("valves")
		return
	}
	if from != nil {
		from.Forward()
	}
}

// begin starts the name of a new part with a first character, where what is open takes one.
func (d *detail) begin(char rune) {
	if in, ok := d.inputs[newPart].(*kit.Field); ok {
		in.Begin(char)
	}
}

// look says which set-ups carry the part. It reads the whole book, and so beside other work.
func (d *detail) look(part record.Noun) {
	key := ""
	if part != nil {
		key = string(part.ItemKind()) + " " + part.Key()
	}
	if key == d.part {
		return
	}
	d.part = key
	d.stop()
	if part == nil {
		return
	}
	d.uses.Set(d.view.say("parts.uses-looking"))
	ctx, stop := context.WithCancel(context.Background())
	d.stop = stop
	bench := d.view.presenter.bench
	d.view.apart(func() func() {
		uses, err := bench.UsedIn(ctx, part)
		return func() {
			if ctx.Err() == nil {
				d.uses.Set(d.said(part, uses, err))
				d.form.Refresh()
			}
		}
	})
}

// said says which set-ups carry a part. On a valve it is not the part that is open, and so it is named.
func (d *detail) said(part record.Noun, uses []task.Use, err error) string {
	piece, single := part.(record.SpringPiece)
	switch {
	case err != nil:
		return d.view.say("parts.uses-failed")
	case len(uses) < 2 && single:
		return d.view.say("parts.piece-only", piece.Tag)
	case len(uses) < 2:
		return d.view.say("parts.uses-only")
	}
	names := make([]string, len(uses))
	for i, u := range uses {
		names[i] = d.view.say("parts.use", u.Head, say.New("setup."+string(u.Kind)), u.Begun.Day())
	}
	if single {
		return d.view.say("parts.piece-uses", piece.Tag, len(uses), strings.Join(names, ", "))
	}
	return d.view.say("parts.uses", len(uses), strings.Join(names, ", "))
}
