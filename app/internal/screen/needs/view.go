package needs

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the page in the window.
type View struct {
	host      kit.Host
	presenter *Presenter
	form      *kit.Form
	count     *kit.Text
	hint      *kit.Text
	questions *kit.Rows
	asked     []Question
	inputs    map[string]input
	groups    map[string]*group
	rules     *fyne.Container
}

// New returns the page of a set-up.
func New(host kit.Host, bench *task.Bench) *View {
	v := &View{
		host: host, presenter: NewPresenter(bench),
		count: kit.NewTitle(""), hint: kit.NewHint(""), inputs: map[string]input{}, groups: map[string]*group{},
	}
	v.questions = kit.NewRows(nil, v.answer).Named(v.presenter.bench.Say("kit.menu-go"))
	v.build()
	return v
}

// build puts the groups on the page: what is open, the engine and its makers side by side, the roles
// side by side, and what is said rarely below.
func (v *View) build() {
	for _, g := range v.presenter.Groups() {
		v.groups[g.Name] = newGroup(g.Title)
	}
	v.rules = kit.Group(v.presenter.bench.Say("needs.group.rules"))
	v.fill()
	half := func(names ...string) *fyne.Container {
		panel := kit.Panels()
		for _, name := range names {
			panel.Add(v.groups[name].body)
		}
		return panel
	}
	v.form = kit.NewForm(
		kit.Column(v.count, v.hint, v.questions),
		kit.Halves(panelWidth, half("use"), half("cam", "who")),
		kit.Halves(panelWidth, half("in"), half("ex")),
		v.groups["checks"].body,
		kit.Halves(panelWidth, half("setup"), v.rules),
	)
}

// Object is the page.
func (v *View) Object() fyne.CanvasObject { return v.form }

// Open is how many questions are open.
func (v *View) Open() int { return v.presenter.Open() }

// Unkept names the texts on the page that are not in the book.
func (v *View) Unkept() []say.Line { return v.presenter.drafts.Unkept() }

// Refresh draws the page as the set-up is now. What is being typed stays.
func (v *View) Refresh() {
	v.fill()
	v.form.Refresh()
}

// Focus puts the keyboard on the first open question, or into the first field where nothing is open.
func (v *View) Focus() {
	if len(v.asked) > 0 {
		v.questions.Focus()
		return
	}
	v.goTo("needs.use")
}

// answer goes to where a question is answered.
func (v *View) answer(at kit.RowAt) {
	if at.Row*2+at.Cell >= len(v.asked) {
		return
	}
	q := v.asked[at.Row*2+at.Cell]
	if q.Leaf != "" {
		v.host.Show(q.Leaf)
		return
	}
	v.goTo(q.Field)
}

func (v *View) goTo(field string) {
	if in, ok := v.inputs[field]; ok {
		in.Focus()
	}
}

// commit keeps a text; the field shows the sentence of an error.
func (v *View) commit(field, text string) error {
	err := v.presenter.Commit(context.Background(), field, text)
	if err != nil {
		return kit.Said(v.presenter.bench.Words(), err)
	}
	v.host.Changed()
	return nil
}
