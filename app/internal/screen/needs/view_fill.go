package needs

import (
	"slices"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// panelWidth is the least width of half a page, in letters of running text.
const panelWidth = 26

// input is a field or a choice of the page.
type input interface {
	fyne.CanvasObject
	Focus()
}

// group is one group of the page with what it shows at the moment.
type group struct {
	body *fyne.Container
	note *kit.Text
	head fyne.CanvasObject
	rows []string // names of its fields, to see whether they are others
}

func newGroup(title string) *group {
	g := &group{body: kit.Group(title), note: kit.NewHint("")}
	g.head = g.body.Objects[0]
	return g
}

// fill draws questions, fields and rules as they are now.
func (v *View) fill() {
	p := v.presenter
	v.asked = p.Questions()
	v.count.Set(p.bench.Say("needs.title"))
	v.hint.Set(p.bench.Say("needs.all-known"))
	if n := len(v.asked); n > 0 {
		v.count.Set(p.bench.Say("needs.open", n))
		v.hint.Set(p.bench.Say("needs.first-key"))
	}
	var rows []kit.Row
	for pair := range slices.Chunk(v.asked, 2) {
		var row kit.Row
		for _, q := range pair {
			row.Cells = append(row.Cells, kit.RowCell{Text: q.Text})
		}
		rows = append(rows, row)
	}
	v.questions.Set(rows)
	for _, g := range p.Groups() {
		v.fillGroup(v.groups[g.Name], g)
	}
	v.fillRules()
}

// fillGroup sets the values of a group, and lays it out anew where it has other fields than before.
func (v *View) fillGroup(g *group, now Group) {
	g.note.Set(now.Note)
	var names []string
	for _, f := range now.Fields {
		names = append(names, f.Name)
		v.fillField(f)
	}
	if slices.Equal(names, g.rows) {
		return
	}
	g.rows = names
	g.body.Objects = []fyne.CanvasObject{g.head}
	if now.Note != "" {
		g.body.Objects = append(g.body.Objects, g.note)
	}
	g.body.Objects = append(g.body.Objects, v.lines(now)...)
}

// fillField makes the input of a field, or shows in it what the book has.
func (v *View) fillField(f Field) {
	switch in := v.inputs[f.Name].(type) {
	case nil:
		v.inputs[f.Name] = v.newInput(f)
	case *kit.Field:
		in.Set(f.holds())
		in.Unit = f.Unit
		in.Refresh()
	case *kit.Select:
		in.Set(f.chosen())
	}
}

// holds is what Esc gives back: what the book has, or what waits for the rest.
func (f Field) holds() string {
	if f.Refused != "" {
		return f.Book
	}
	return f.Value
}

// chosen is the index of the answer that holds, −1 while nothing was said.
func (f Field) chosen() int {
	if f.holds() == "" {
		return -1
	}
	return slices.IndexFunc(f.Options, func(o Option) bool { return o.Value == f.holds() })
}

func (v *View) newInput(f Field) input {
	if f.Options != nil {
		var labels []string
		for _, o := range f.Options {
			labels = append(labels, o.Label)
		}
		return kit.NewChoice(f.Label, labels, f.chosen(), func(i int) error { return v.commit(f.Name, f.Options[i].Value) })
	}
	field := kit.NewField
	if f.Many {
		field = kit.NewNote
	}
	var in *kit.Field
	in = field(f.Label, f.holds(), func(text string) error {
		err := v.commit(f.Name, text)
		if err == nil {
			in.Restore() // shows what was kept, in the way it is written
		}
		return err
	})
	in.Unit = f.Unit
	return in
}

// lines sets a field and those beside it in one line.
func (v *View) lines(g Group) []fyne.CanvasObject {
	var all []fyne.CanvasObject
	for i := 0; i < len(g.Fields); {
		var row []fyne.CanvasObject
		var shares []float32
		for first := i; i < len(g.Fields) && (i == first || g.Fields[i].Beside); i++ {
			row, shares = append(row, v.inputs[g.Fields[i].Name]), append(shares, share(g, g.Fields[i]))
		}
		all = append(all, kit.Beside(shares, row...))
	}
	return all
}

// share of a line that a field takes: words need more of it than numbers.
func share(g Group, f Field) float32 {
	switch {
	case g.Name == "checks" && f.Options == nil:
		return 1
	case f.Options != nil:
		return 0.8
	case f.Long:
		return 2.6
	}
	return 1
}

// fillRules shows units and rules.
func (v *View) fillRules() {
	if len(v.rules.Objects) > 1 {
		return // they are fixed
	}
	rules, source := v.presenter.Rules()
	v.rules.Add(kit.NewHint(source))
	for _, r := range rules {
		v.rules.Add(kit.Beside([]float32{1.6, 1}, kit.NewText(r.Name), kit.NewText(r.Value)))
	}
}
