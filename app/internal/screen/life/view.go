package life

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// Host is what the leaf asks of the window besides.
type Host interface {
	kit.Host
	AskFollow(kind record.SetupKind) // asks whether to begin the next set-up
}

// View is the leaf in the window: on the left the day and what was run, on the right the springs and what falls due, or a check
// while it is entered.
type View struct {
	host      Host
	presenter *Presenter
	day       *kit.Field
	line      *kit.Field
	runs      *kit.Rows
	springs   *kit.Rows
	plot      *kit.Section
	times     *kit.Section
	checks    *kit.Rows
	check     *kit.Button
	valves    []*kit.Field // of a check while it is entered
	nextDay   *kit.Field
	nextIn    *kit.Field
	left      *kit.Form
	right     *kit.Form
	object    fyne.CanvasObject
}

// New returns the leaf of a set-up.
func New(host Host, bench *task.Bench) *View {
	v := &View{host: host, presenter: NewPresenter(bench), left: kit.NewForm(), right: kit.NewForm()}
	p := v.presenter
	v.day = kit.NewField(p.say("life.day"), p.Day(), func(text string) error { return v.said(p.SetDay(text)) })
	v.line = kit.NewField(p.say("life.line"), "", v.log)
	v.line.Understand = p.Understood
	v.line.Next = func() { // one line after the other
		v.line.Set("")
		v.line.Focus()
	}
	v.day.Next = func() { v.line.Focus() }
	v.runs = kit.NewRows(nil, func(at kit.RowAt) { v.takeAway(at.Row) }).Named(p.say("life.menu.take"))
	v.springs = kit.NewRows([]string{p.say("life.head-verdict"), p.say("life.head-lost"), p.say("life.head-why")}, func(at kit.RowAt) {
		p.Choose(at.Row)
		v.drawPlot()
	})
	v.springs.Menu = func(kit.RowAt) []kit.Item {
		return []kit.Item{v.springs.Enter(p.say("life.menu.draw")), {Label: p.say("life.all"), Do: v.All}}
	}
	v.plot, v.times = kit.NewSection(), kit.NewSection()
	v.plot.Full, v.times.Full = true, true
	v.checks = kit.NewRows(nil, func(at kit.RowAt) { v.openCheck(at.Row) })
	v.checks.Menu = func(kit.RowAt) []kit.Item {
		if p.Checking() {
			return nil // the one that is entered comes first
		}
		return []kit.Item{v.checks.Enter(p.say("life.menu.check"))}
	}
	v.check = kit.NewButton(p.say("life.check"), "", v.begin)
	v.object = kit.Aside(24, v.left, v.right)
	v.Refresh()
	return v
}

// said puts what went wrong into the words of the set-up.
func (v *View) said(err error) error {
	if err == nil {
		return nil
	}
	return kit.Said(v.presenter.bench.Words(), err)
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Word is the name of the page of help about what is in sight.
func (v *View) Word() string { return "life" }

// Open returns how many springs are to be changed.
func (v *View) Open() int { return v.presenter.Open() }

// Focus puts the keyboard where a day is logged, or on the check that is entered.
func (v *View) Focus() {
	if v.presenter.Checking() && len(v.valves) > 0 {
		v.valves[0].Focus()
		return
	}
	v.line.Focus()
}

// Unkept says what is typed and not in the book: a check that is being entered, and a line of running that was refused.
func (v *View) Unkept() (lines []say.Line) {
	if v.presenter.Checking() && v.typed() {
		lines = append(lines, say.New("life.unkept-check"))
	}
	if v.line.Pending() {
		lines = append(lines, say.New("life.unkept-line"))
	}
	return lines
}

// typed reports whether something of the check was typed.
func (v *View) typed() bool {
	return v.presenter.Typed() || slices.ContainsFunc(v.fields(), (*kit.Field).Pending)
}

// fields are those of the check.
func (v *View) fields() []*kit.Field { return append([]*kit.Field{v.nextDay, v.nextIn}, v.valves...) }

// Refresh reads the life of the head again.
func (v *View) Refresh() {
	if err := v.presenter.Load(context.Background()); err != nil {
		v.host.Fail(err)
	}
	v.draw()
}

func (v *View) draw() {
	p := v.presenter
	v.day.Set(p.Day())
	found, more := p.Runs()
	rows := make([]kit.Row, len(found))
	for i, r := range found {
		rows[i] = kit.Row{Label: r.Day, Cells: []kit.RowCell{{Text: r.Text}}}
	}
	v.runs.Set(rows)
	ran := []fyne.CanvasObject{kit.NewText(p.Sum())}
	if len(rows) > 0 {
		ran = append(ran, v.runs, kit.NewHint(p.say("life.runs-take")))
	}
	if more > 0 {
		ran = append(ran, kit.NewHint(p.say("life.runs-more", more)))
	}
	top := kit.Column(v.day, v.line, kit.NewHint(p.say("life.line-how")))
	if days := p.Days(); days != "" {
		top.Add(kit.NewHint(days))
	}
	v.left.Set(append([]fyne.CanvasObject{top, kit.Group(p.say("life.ran-title"), ran...)}, v.checksNow()...)...)
	if p.Checking() {
		return // what is entered stays as it is
	}
	v.right.Set(v.springsNow()...)
}

// springsNow are the springs and what falls due, or what to do first.
func (v *View) springsNow() []fyne.CanvasObject {
	p := v.presenter
	springs := p.Springs()
	if len(springs) == 0 {
		return []fyne.CanvasObject{kit.Group(p.say("life.springs"), kit.NewText(p.say("life.empty")), kit.Buttons(v.check))}
	}
	rows := make([]kit.Row, len(springs))
	for i, s := range springs {
		rows[i] = kit.Row{Label: s.Label, Cells: []kit.RowCell{
			{Text: s.Verdict, Faint: s.Quiet}, {Text: s.Lost, More: s.Loads, Faint: s.Quiet}, {Text: s.Why, Faint: s.Quiet},
		}}
	}
	v.springs.Set(rows)
	v.drawPlot()
	var groups []fyne.CanvasObject
	if dues := p.Dues(); len(dues) > 0 {
		texts := make([]fyne.CanvasObject, len(dues))
		for i, d := range dues {
			texts[i] = kit.NewText(d)
		}
		groups = append(groups, kit.Group(p.say("life.due"), texts...))
	}
	groups = append(groups,
		kit.Group(p.say("life.springs"), kit.NewHint(p.Counted()), container.New(kit.DrawingRoom{}, v.plot), v.springs,
			kit.NewHint(p.say("life.choose")), v.deeds(), kit.NewHint(p.say("life.caution"))))
	return append(groups, v.logs()...)
}

// deeds are what can be done with the springs.
func (v *View) deeds() fyne.CanvasObject {
	all := kit.Buttons(v.check, kit.NewButton(v.presenter.say("life.all"), "", v.All))
	all.Add(kit.NewButton(v.presenter.say("report.save"), "", v.Save))
	if v.Open() > 0 {
		all.Add(kit.NewButton(v.presenter.say("life.change"), "", v.Change))
	}
	return all
}

// Save asks where the report goes, and writes it.
func (v *View) Save() {
	p := v.presenter
	kit.Save(v.host, kit.Saving{
		Title: p.say("report.save"), Label: p.say("choose.form-path"), Path: p.Path(), Replace: p.say("choose.replace"), Cancel: p.say("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) {
			told, err := p.Save(context.Background(), path, replace)
			return told, v.said(err)
		},
	})
}

// Change asks whether to begin the set-up in which the springs are changed.
func (v *View) Change() { v.host.AskFollow(record.AsBuilt) }

// All draws the losses of all springs.
func (v *View) All() {
	v.presenter.All()
	v.drawPlot()
}

// drawPlot draws the loads of the spring that is chosen, or the losses of all.
func (v *View) drawPlot() {
	p := v.presenter
	if g, ok := p.GraphAll(); ok {
		v.springs.Open(kit.RowAt{Row: -1})
		v.plot.Set(figure.NewLossesAll(g, p.bench.Words()), p.say("life.plot-all"))
		return
	}
	v.springs.Open(kit.RowAt{Row: p.Chosen(), Cell: 0})
	if g, ok := p.Graph(); ok {
		v.plot.Set(figure.NewLosses(g, p.bench.Words()), p.say("life.plot", g.Of))
		return
	}
	v.plot.Clear()
}

// log keeps the line and empties it for the next.
func (v *View) log(line string) error {
	if line == "" {
		return nil
	}
	told, err := v.presenter.Log(context.Background(), line)
	if err != nil {
		return v.said(err)
	}
	fyne.Do(func() {
		v.line.Set("") // where the keyboard left it; Enter has emptied it
		v.draw()
		v.host.Changed()
		v.host.Tell(told)
	})
	return nil
}

// takeAway asks whether a run is to go, and takes it away.
func (v *View) takeAway(row int) {
	p := v.presenter
	rows, _ := p.Runs()
	if row >= len(rows) {
		return
	}
	r := rows[row]
	kit.Ask(v.host.Window(), p.say("life.take-title"), p.say("life.take", r.Text, r.Day), []kit.Choice{
		{Label: p.say("life.take-yes"), Do: func() {
			if err := p.Forget(context.Background(), r.Run); err != nil {
				v.host.Fail(v.said(err))
			}
			v.draw()
			v.host.Changed()
		}},
		{Label: p.say("kit.cancel"), Primary: true, Cancel: true},
	})
}
