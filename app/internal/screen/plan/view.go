package plan

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the leaf in the window: on the left what is planned for and how the plan stands, on the right the head before
// and after, and the pick list.
type View struct {
	background func(work func()) // runs what takes longer than a key press

	host      kit.Host
	presenter *Presenter
	mode      *kit.Select
	what      *kit.Text
	most      *kit.Field
	kin       *kit.Select // nil while the engine has one head
	make      *kit.Button
	stop      *kit.Button
	put       *kit.Button
	save      *kit.Button
	says      *kit.Text
	far       *kit.Text // how far a search is
	rows      *kit.Rows
	left      *kit.Form
	right     *kit.Form
	object    fyne.CanvasObject
}

// New returns the leaf of a set-up.
func New(host kit.Host, bench *task.Bench) *View {
	v := &View{
		background: func(work func()) { go work() },
		host:       host, presenter: NewPresenter(bench), left: kit.NewForm(), right: kit.NewForm(),
		what: kit.NewHint(""), says: kit.NewText(""), far: kit.NewHint(""),
	}
	p := v.presenter
	v.says.Bold(true)
	labels, at := p.Modes()
	v.mode = kit.NewChoice(p.say("plan.for"), labels, at, func(i int) error {
		p.Choose(i)
		v.draw()
		return nil
	})
	v.most = kit.NewField(p.say("plan.most"), p.Most(), func(text string) error {
		if err := p.SetMost(text); err != nil {
			return kit.Said(bench.Words(), err)
		}
		v.draw()
		return nil
	})
	v.most.Next = func() { kit.GiveKeyboard(v.make) }
	v.make = kit.NewButton(p.say("plan.make"), p.say("kit.enter"), v.begin).Strong()
	v.stop = kit.NewButton(p.say("plan.stop"), p.say("kit.esc"), p.Stop).Escape(p.Stop)
	v.put = kit.NewButton(p.say("plan.put"), p.say("kit.enter"), v.putOn).Strong()
	v.save = kit.NewButton(p.say("plan.save"), "", v.export)
	v.rows = kit.NewRows(p.Heads(), nil)
	v.rows.Menu = v.menu
	v.object = kit.Aside(22, v.left, v.right)
	v.draw()
	return v
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Word is the name of the page of help about what is in sight.
func (v *View) Word() string { return "plan" }

// menu is what can be done with the plan that a line belongs to.
func (v *View) menu(kit.RowAt) (items []kit.Item) {
	p := v.presenter
	if p.Ready() {
		items = append(items, kit.Item{Label: p.say("plan.put"), Do: v.putOn})
	}
	if p.Ready() || p.Same() {
		items = append(items, kit.Item{Label: p.say("plan.save"), Do: v.export})
	}
	return items
}

// Work says what runs what takes longer than a key press.
func (v *View) Work(background func(work func())) { v.background = background }

// Open is nothing: a plan leaves nothing open.
func (v *View) Open() int { return 0 }

// Focus puts the keyboard where work goes on: on what is to be done with the plan, or on making one.
func (v *View) Focus() {
	switch {
	case v.presenter.Making():
		kit.GiveKeyboard(v.stop)
	case v.presenter.Ready():
		kit.GiveKeyboard(v.put)
	case v.presenter.Same():
		kit.GiveKeyboard(v.save)
	default:
		kit.GiveKeyboard(v.make)
	}
}

// Refresh looks whether the plan is still of the set-up as it is.
func (v *View) Refresh() {
	v.presenter.Refresh()
	v.draw()
}

// begin makes the plan beside other work.
func (v *View) begin() {
	work, done := v.presenter.Begin(context.Background())
	v.draw()
	if work == nil {
		return
	}
	kit.GiveKeyboard(v.stop)
	v.background(func() {
		work(func(far string) {
			fyne.Do(func() { v.far.Set(far) })
		})
		fyne.Do(func() {
			// Whoever went on to type elsewhere keeps the keyboard: Enter there must not put a plan on.
			here := v.stop.Focused()
			done()
			v.draw()
			if here {
				v.Focus()
			}
		})
	})
}

func (v *View) draw() {
	p := v.presenter
	v.what.Set(p.What())
	v.says.Set(p.Says())
	stands := []fyne.CanvasObject{v.says}
	buttons := kit.Buttons()
	switch {
	case p.Making():
		stands = append(stands, v.far)
		buttons.Add(v.stop)
	case p.Ready():
		buttons.Add(v.put)
		buttons.Add(v.save)
	case p.Same():
		stands = append(stands, kit.NewText(p.say("plan.same")))
		buttons.Add(v.save)
	default:
		v.far.Set("")
		buttons.Add(v.make)
	}
	stands = append(stands, buttons)
	for _, note := range p.Notes() {
		stands = append(stands, kit.NewHint(note))
	}
	asked := kit.Column(v.mode, v.what, v.most)
	if heads := v.heads(); heads != nil {
		asked.Add(heads)
	}
	v.left.Set(asked, kit.Group(p.say("plan.stands"), stands...))
	v.list()
}

// heads is the choice of which heads are planned for; nil where the engine has no other one.
func (v *View) heads() fyne.CanvasObject {
	labels, at, err := v.presenter.Kin(context.Background())
	if err != nil {
		v.host.Fail(err)
	}
	if len(labels) == 0 {
		return nil
	}
	if v.kin == nil {
		v.kin = kit.NewChoice(v.presenter.say("plan.heads"), labels, at, func(i int) error {
			v.presenter.WithKin(i == 1)
			v.draw()
			return nil
		})
	}
	v.kin.SetOptions(labels, at)
	return v.kin
}

// list shows the head before and after, or why there is nothing to show.
func (v *View) list() {
	p := v.presenter
	why, free := p.Why()
	rows := p.Rows()
	switch {
	case len(why) > 0:
		groups := []fyne.CanvasObject{kit.Group(p.say("plan.why"), texts(why)...)}
		if len(free) > 0 {
			groups = append(groups, kit.Group(p.say("plan.free"), texts(free)...))
		}
		v.right.Set(groups...)
		return
	case len(rows) == 0:
		v.right.Set(kit.NewText(p.say("plan.empty")))
		return
	}
	table := make([]kit.Row, len(rows))
	for i, r := range rows {
		for _, cell := range r.Cells {
			table[i].Cells = append(table[i].Cells, kit.RowCell{Text: cell.Text, More: cell.More, Faint: r.Same})
		}
	}
	v.rows.Set(table)
	v.right.Set(
		kit.Group(p.say("plan.before-after"), append([]fyne.CanvasObject{v.rows, kit.NewHint(p.say("plan.marks"))}, texts(p.Spreads())...)...),
		kit.Group(p.say("plan.pick"), texts(p.Pick())...),
	)
}

func texts(all []string) []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(all))
	for i, text := range all {
		objects[i] = kit.NewText(text)
	}
	return objects
}

// putOn puts the plan on the head.
func (v *View) putOn() {
	told, err := v.presenter.Put(context.Background())
	if err != nil {
		v.host.Fail(kit.Said(v.presenter.bench.Words(), err))
		return
	}
	v.draw()
	v.Focus()
	v.host.Changed()
	v.host.Tell(told)
}

// export asks where the pick list goes, and writes it.
func (v *View) export() {
	p := v.presenter
	kit.Save(v.host, kit.Saving{
		Title: p.say("plan.save"), Label: p.say("choose.form-path"), Path: p.Path(), Replace: p.say("choose.replace"), Cancel: p.say("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) { return p.Save(path, replace) },
	})
}
