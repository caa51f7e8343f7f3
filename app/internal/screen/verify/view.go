package verify

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"gonum.org/v1/plot/vg"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// Host is what the page asks of the window besides.
type Host interface {
	kit.Host
	OpenSetup(id string)
}

// View is the page in the window: on the left what was found, on the right the pages where they are what the record makes of
// them.
type View struct {
	host       Host
	presenter  *Presenter
	background func(work func())
	left       *kit.Form
	pages      *kit.Pages
	first      *kit.Button // that has the keyboard first; nil where there is none
	stopped    bool        // nobody knows anything of the sheet, for the look was stopped
	taken      []string    // what came of taking in
	object     *fyne.Container
}

// New returns the page of a presenter. What takes a moment is run by background.
func New(host Host, presenter *Presenter, background func(work func())) *View {
	v := &View{host: host, presenter: presenter, background: background, left: kit.NewForm(), pages: kit.NewPages()}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	v.object = container.New(kit.Sides{}, v.left, v.pages)
	v.draw()
	return v
}

func (v *View) say(key string, args ...any) string {
	return v.presenter.words.Line(say.New(key, args...))
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Focus puts the keyboard on what can be done.
func (v *View) Focus() {
	if v.first != nil {
		kit.GiveKeyboard(v.first)
		return
	}
	v.pages.Focus()
}

// Refresh looks at the sheet again, which can be stopped.
func (v *View) Refresh() {
	kit.Run(context.Background(), v.host.Window(), v.background, kit.Work{Title: v.presenter.Working(), Do: func(ctx context.Context) func() {
		take := v.presenter.Look(ctx)
		return func() {
			take()
			v.stopped = !v.presenter.Looked()
			v.draw()
			v.Focus()
		}
	}})
}

func (v *View) draw() {
	p := v.presenter
	v.first = nil
	title := kit.Group(v.say("verify.title", p.Name()))
	groups := []fyne.CanvasObject{title}
	switch {
	case v.stopped:
		again := kit.NewButton(v.say("verify.look"), "", v.Refresh)
		v.begin(again)
		title.Add(kit.NewText(v.say("verify.stopped")))
		title.Add(kit.Buttons(again))
	case !p.Looked():
	case p.Fault() != nil:
		text := kit.NewText(kit.Sentence(p.Fault()))
		text.Bold(true)
		title.Add(text)
	default:
		title.Add(kit.NewTitle(p.Verdict()))
		groups = append(groups, v.hands(), v.record())
	}
	if p.Looked() {
		if all := p.Trusted(); len(all) > 0 {
			groups = append(groups, v.trusted(all))
		}
	}
	v.left.Set(groups...)
	v.show()
}

// hands are the signatures, each with what can be done about it.
func (v *View) hands() fyne.CanvasObject {
	group := kit.Group(v.say("verify.hands"))
	for _, h := range v.presenter.Hands() {
		name := kit.NewText(h.Name)
		if h.Role != "" {
			name = kit.NewText(h.Name + ", " + h.Role)
		}
		name.Bold(true)
		hand := kit.Column(name)
		for _, line := range h.Lines {
			hand.Add(kit.NewText(line))
		}
		if h.Root != "" {
			b := kit.NewButton(v.say("verify.trust"), "", func() { v.askTrust(h) })
			v.begin(b)
			hand.Add(kit.Buttons(b))
		}
		group.Add(hand)
	}
	return group
}

// begin has a button get the keyboard first, unless another one does.
func (v *View) begin(b *kit.Button) {
	if v.first == nil {
		v.first = b
	}
}

// record is what rides in the sheet.
func (v *View) record() fyne.CanvasObject {
	p := v.presenter
	group := kit.Group(v.say("verify.record-title"))
	for _, line := range p.Record() {
		group.Add(kit.NewText(line))
	}
	buttons := kit.Buttons()
	if p.CanTakeIn() {
		b := kit.NewButton(v.say("verify.take-in"), "", v.takeIn).Strong()
		v.begin(b)
		buttons.Add(b)
	}
	if setup := p.CanOpen(); setup != "" {
		b := kit.NewButton(v.say("verify.open"), "", func() { v.host.OpenSetup(setup) })
		v.begin(b)
		buttons.Add(b)
	}
	if len(buttons.Objects) > 0 {
		group.Add(buttons)
	}
	for _, line := range v.taken {
		text := kit.NewText(line)
		text.Bold(true)
		group.Add(text)
	}
	return group
}

// trusted is the list of whom the shop trusts; choosing one takes the trust back.
func (v *View) trusted(all []Trusted) fyne.CanvasObject {
	group := kit.Group(v.say("trust.title"), kit.NewHint(v.say("trust.what")))
	rows := make([]kit.Row, len(all))
	for i, t := range all {
		rows[i].Cells = []kit.RowCell{{Text: t.Name, More: t.More}}
	}
	list := kit.NewRows(nil, nil)
	if v.presenter.CanWithdraw() {
		list.Choose = func(at kit.RowAt) { v.askWithdraw(all[at.Row]) }
		list.Named(v.say("trust.withdraw"))
	}
	list.Set(rows)
	group.Add(list)
	return group
}

// askTrust asks whose the certificate is and how that is known.
func (v *View) askTrust(h Hand) {
	kit.AskForm(v.host.Window(), v.say("verify.trust-title", say.Grouped(h.Root)), []kit.Blank{
		{Label: v.say("verify.trust-name"), Start: h.Name}, {Label: v.say("verify.trust-how")},
	}, func(texts []string) error {
		if err := v.presenter.Trust(context.Background(), h.Root, texts[0], texts[1]); err != nil {
			return err
		}
		v.host.Tell(say.New("verify.trust-done", texts[0]))
		v.Refresh()
		return nil
	})
}

func (v *View) askWithdraw(t Trusted) {
	kit.Ask(v.host.Window(), v.say("trust.withdraw"), v.say("trust.withdraw-what", t.Name), []kit.Choice{
		{Label: v.say("kit.cancel"), Cancel: true},
		{Label: v.say("trust.withdraw-yes"), Key: 'w', Do: func() {
			if err := v.presenter.Withdraw(context.Background(), t.Root); err != nil {
				v.host.Fail(err)
			}
			v.Refresh()
		}},
	})
}

// takeIn takes the record into the book, and says what came of it.
func (v *View) takeIn() {
	kit.Run(context.Background(), v.host.Window(), v.background, kit.Work{Title: v.say("work.take-in", v.presenter.Name()), Do: func(ctx context.Context) func() {
		taken, err := v.presenter.TakeIn(ctx)
		return func() {
			switch {
			case errors.Is(err, context.Canceled):
				v.host.Tell(say.New("work.not-taken", v.presenter.Name()))
			case err != nil:
				v.host.Fail(err)
			default:
				v.taken = taken
				v.Refresh()
			}
		}
	}})
}

// show draws the pages, where they are what the record makes of them.
func (v *View) show() {
	pages := v.presenter.Pages()
	shown := make([]kit.Page, len(pages))
	for i, p := range pages {
		shown[i] = kit.Page{Width: vg.Length(p.Width), Height: vg.Length(p.Height), Draw: p.Draw}
	}
	v.pages.Set(shown)
}
