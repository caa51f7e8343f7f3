package choose

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the leaf in the window: on the left what is not known yet, on the right the types and what is said of
// the one that is open.
type View struct {
	host      kit.Host
	presenter *Presenter
	role      *kit.Select
	questions *kit.Form
	rows      *kit.Rows
	types     *kit.Form
	put       *kit.Button
	object    fyne.CanvasObject
}

// New returns the leaf of a set-up.
func New(host kit.Host, bench *task.Bench) *View {
	v := &View{host: host, presenter: NewPresenter(bench)}
	names, at := v.presenter.Roles()
	v.role = kit.NewChoice(v.say("choose.role"), names, at, v.show)
	v.rows = kit.NewRows([]string{v.say("choose.head.spring"), v.say("choose.head.stands"), v.say("choose.head.height"), v.say("choose.head.margin"),
		v.say("choose.head.seat"), v.say("choose.head.open")}, v.look)
	v.rows.Typed = func(_ kit.RowAt, r rune) {
		if r == 'q' || r == 'Q' {
			v.ExportQuestions()
		}
	}
	v.rows.Menu = v.menu
	v.questions, v.types = kit.NewForm(), kit.NewForm()
	v.object = kit.Aside(21, v.questions, v.types)
	v.Refresh()
	return v
}

func (v *View) say(key string, args ...any) string { return v.presenter.bench.Say(key, args...) }

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Open returns how many roles have no spring yet.
func (v *View) Open() int { return v.presenter.Open() }

// Focus puts the keyboard on the types.
func (v *View) Focus() {
	if len(v.presenter.choice.All) == 0 {
		v.role.Focus()
		return
	}
	v.rows.Focus()
}

// Refresh holds the types against the set-up as it is now.
func (v *View) Refresh() {
	if err := v.presenter.Load(context.Background()); err != nil {
		v.host.Fail(err)
	}
	v.draw()
}

func (v *View) draw() {
	v.ask()
	v.list()
}

// ask shows what is not known yet.
func (v *View) ask() {
	asks := []fyne.CanvasObject{}
	for _, text := range v.presenter.Asks() {
		asks = append(asks, kit.NewText(text))
	}
	if len(asks) == 0 {
		asks = append(asks, kit.NewText(v.say("choose.asks-none")))
	} else {
		asks = append(asks, kit.Buttons(kit.NewButton(v.say("choose.form"), "Q", v.ExportQuestions)))
	}
	groups := []fyne.CanvasObject{v.role, kit.Group(v.say("choose.asks"), asks...)}
	if all := texts(v.presenter.Beside()); len(all) > 0 {
		groups = append(groups, kit.Group(v.say("choose.beside"), all...))
	}
	v.questions.Set(groups...)
}

// list shows the types and what is said of the open one.
func (v *View) list() {
	lines, more := v.presenter.Lines()
	if len(lines) == 0 {
		v.types.Set(kit.NewText(v.say("choose.none")))
		return
	}
	rows := make([]kit.Row, len(lines))
	for i, l := range lines {
		rows[i] = kit.Row{Cells: []kit.RowCell{
			{Text: l.Spring}, {Text: l.Stands, More: l.Why}, {Text: l.Height, More: l.Shims}, {Text: l.Margin}, {Text: l.Seat}, {Text: l.Open},
		}}
	}
	v.rows.Set(rows)
	groups := []fyne.CanvasObject{kit.NewText(v.presenter.On()), v.rows}
	if more > 0 {
		groups = append(groups, kit.NewHint(v.say("choose.more", more)))
	}
	v.types.Set(append(groups, v.seen())...)
}

// seen is everything that is said of the open type, and the button that puts it on.
func (v *View) seen() fyne.CanvasObject {
	s, ok := v.presenter.Seen()
	v.put = nil
	if !ok {
		v.rows.Open(kit.RowAt{Row: -1})
		return kit.NewHint(v.say("choose.pick"))
	}
	v.rows.Open(kit.RowAt{Row: s.At, Cell: v.rows.Cursor().Cell})
	var all []fyne.CanvasObject
	if len(s.Against) > 0 {
		all = append(all, kit.NewHint(v.say("choose.against")))
		all = append(all, texts(s.Against)...)
	}
	if len(s.Unsaid) > 0 {
		all = append(all, kit.NewHint(v.say("choose.unsaid")))
		all = append(all, texts(s.Unsaid)...)
	}
	if s.Clear {
		all = append(all, kit.NewText(v.say("choose.clear")))
	}
	if s.Fitted {
		all = append(all, kit.NewText(v.say("choose.fitted", s.Role)))
	} else {
		v.put = kit.NewButton(v.say("choose.put", s.Role), v.say("kit.enter"), v.putOn).Strong()
		all = append(all, kit.Buttons(v.put))
	}
	return kit.Group(s.Name, all...)
}

func texts(all []string) []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(all))
	for i, text := range all {
		objects[i] = kit.NewText(text)
	}
	return objects
}

func (v *View) show(i int) error {
	err := v.presenter.Show(context.Background(), i)
	v.draw()
	return err
}

// look opens a type. Enter once more puts it on.
func (v *View) look(at kit.RowAt) {
	if s, ok := v.presenter.Seen(); ok && s.At == at.Row && !s.Fitted {
		v.putOn()
		return
	}
	v.presenter.Look(at.Row)
	v.draw()
}

// menu is what can be done with a type.
func (v *View) menu(at kit.RowAt) (items []kit.Item) {
	switch s, ok := v.presenter.Seen(); {
	case !ok || s.At != at.Row:
		items = append(items, v.rows.Enter(v.say("choose.menu.look")))
	case !s.Fitted:
		items = append(items, v.rows.Enter(v.say("choose.put", s.Role)))
	}
	return append(items, kit.Item{Label: v.say("choose.form"), Key: "Q", Do: v.ExportQuestions})
}

// Word is the name of the page of help about the column that has the cursor.
func (v *View) Word() string {
	words := []string{"loads", "margin", "calc", "margin"} // of spring, what stands against it, height, margin; then loads
	if at := v.rows.Cursor().Cell; at < len(words) {
		return words[at]
	}
	return "loads"
}

func (v *View) putOn() {
	told, err := v.presenter.Put(context.Background())
	if err != nil {
		v.host.Fail(kit.Said(v.presenter.bench.Words(), err))
		return
	}
	v.host.Changed()
	v.host.Tell(told)
}

// ExportQuestions asks where the question form goes, and writes it.
func (v *View) ExportQuestions() {
	kit.Save(v.host, kit.Saving{
		Title: v.say("choose.form-export"), Label: v.say("choose.form-path"), Path: v.presenter.Path(),
		Replace: v.say("choose.replace"), Cancel: v.say("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) { return v.presenter.Save(path, replace) },
	})
}
