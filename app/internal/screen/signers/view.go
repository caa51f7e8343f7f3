package signers

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/signer"
	"keeperbook/model/say"
)

// View is the page in the window: on the left who signs, on the right what is known of whoever is open.
type View struct {
	host       kit.Host
	presenter  *Presenter
	background func(work func())
	rows       *kit.Rows
	left       *kit.Form
	right      *kit.Form
	pad        *kit.InkPad // while somebody draws; else nil
	object     fyne.CanvasObject
}

// New returns the page. What takes half a second is run by background.
func New(host kit.Host, presenter *Presenter, background func(work func())) *View {
	v := &View{host: host, presenter: presenter, background: background, left: kit.NewForm(), right: kit.NewForm()}
	if v.background == nil {
		v.background = func(work func()) { go work() }
	}
	v.rows = kit.NewRows(nil, v.choose)
	v.rows.Menu = v.menu
	v.object = container.New(kit.Sides{}, v.left, v.right)
	return v
}

// choose opens a signer. A drawing that was begun is left.
func (v *View) choose(at kit.RowAt) {
	v.presenter.Choose(at.Row)
	v.pad = nil
	v.draw()
}

// menu is what can be done with a signer: what the buttons do, once it is open.
func (v *View) menu(at kit.RowAt) []kit.Item {
	with := func(do func()) func() {
		return func() {
			if at.Row != v.presenter.Open() {
				v.choose(at)
			}
			do()
		}
	}
	return []kit.Item{
		v.rows.Enter(v.say("kit.menu-open")),
		{Label: v.say("signers.change"), Do: with(v.askChange)},
		{Label: v.say("signers.certificate"), Do: with(v.saveCertificate)},
		{Label: v.say("signers.forget"), Do: with(v.askForget)},
	}
}

func (v *View) say(key string, args ...any) string {
	return v.presenter.words.Line(say.New(key, args...))
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Refresh reads who is there again.
func (v *View) Refresh() {
	if err := v.presenter.Load(); err != nil {
		v.host.Fail(err)
	}
	v.draw()
}

// Focus puts the keyboard on the list.
func (v *View) Focus() { v.rows.Focus() }

// Stray takes what a gauge typed into a dialog; nothing is measured here.
func (v *View) Stray(string) {}

// Unkept names what is not kept: a drawing that somebody has begun.
func (v *View) Unkept() []say.Line {
	if v.pad != nil && len(v.pad.Strokes()) > 0 {
		return []say.Line{say.New("signers.drawing-unkept")}
	}
	return nil
}

func (v *View) draw() {
	lines := v.presenter.Lines()
	rows := make([]kit.Row, len(lines))
	for i, l := range lines {
		rows[i].Cells = []kit.RowCell{{Text: l.Name, More: l.More}}
	}
	v.rows.Set(rows)
	v.rows.Open(kit.RowAt{Row: v.presenter.Open()})
	group := kit.Group(v.say("signers.title"), kit.NewHint(v.say("signers.what")))
	if len(lines) == 0 {
		group.Add(kit.NewText(v.say("signers.none")))
	} else {
		group.Add(v.rows)
	}
	group.Add(kit.Buttons(
		kit.NewButton(v.say("signers.new"), "", v.askNew), kit.NewButton(v.say("signers.bring"), "", v.askBring)))
	words, at := v.presenter.Minutes()
	v.left.Set(group, kit.Group(v.say("signers.minutes"), kit.NewHint(v.say("signers.minutes-what")),
		kit.NewChoice("", words, at, func(i int) error { return v.presenter.Allow(i) })))
	v.detail()
}

// detail shows whoever is open.
func (v *View) detail() {
	if _, ok := v.presenter.Chosen(); !ok {
		v.right.Set()
		return
	}
	facts := kit.Columns()
	for _, f := range v.presenter.Facts() {
		facts.Add(kit.Pair(f.Name, f.Value))
	}
	who := kit.Column()
	if warn := v.presenter.Warn(); warn != "" {
		text := kit.NewText(warn)
		text.Bold(true)
		who.Add(text)
	}
	who.Add(facts)
	who.Add(kit.NewField(v.say("signers.role"), v.presenter.Role(), func(text string) error {
		if err := v.presenter.As(text); err != nil {
			return err
		}
		v.draw()
		return nil
	}))
	who.Add(kit.Buttons(
		kit.NewButton(v.say("signers.change"), "", v.askChange),
		kit.NewButton(v.say("signers.certificate"), "", v.saveCertificate),
		kit.NewButton(v.say("signers.forget"), "", v.askForget),
	))
	v.right.Set(kit.Group(v.presenter.Facts()[0].Value, who), v.hand())
}

// askNew asks who a new signer is.
func (v *View) askNew() {
	v.slow("signers.new-title", "signers.new-what", []kit.Blank{
		{Label: v.say("signers.new-name")}, {Label: v.say("signers.role")}, {Label: v.say("signers.shop"), Start: v.presenter.Shop()},
		{Label: v.say("signers.secret-new"), Hide: true}, {Label: v.say("signers.secret-again"), Hide: true},
	}, "signers.made", func(t []string) (func() error, error) {
		return v.presenter.Make(signer.New{Name: t[0], Role: t[1], Shop: t[2], Secret: t[3], Again: t[4]})
	})
}

// askBring asks for a key file of one's own.
func (v *View) askBring() {
	v.slow("signers.bring-title", "signers.bring-what", []kit.Blank{
		{Label: v.say("signers.file")}, {Label: v.say("signers.role")}, {Label: v.say("signers.secret"), Hide: true},
	}, "signers.brought", func(t []string) (func() error, error) { return v.presenter.Bring(t[0], t[1], t[2]) })
}

// askChange asks for another passphrase.
func (v *View) askChange() {
	v.slow("signers.change", "signers.change-what", []kit.Blank{
		{Label: v.say("signers.secret-old"), Hide: true}, {Label: v.say("signers.secret-new"), Hide: true}, {Label: v.say("signers.secret-again"), Hide: true},
	}, "signers.changed", func(t []string) (func() error, error) {
		return func() error { return nil }, v.presenter.Change(t[0], t[1], t[2])
	})
}

// slow asks for texts, works on them beside the window, and says what was done.
func (v *View) slow(title, text string, blanks []kit.Blank, done string, work func(texts []string) (func() error, error)) {
	kit.AskSlow(v.host.Window(), kit.Slow{
		Title: v.say(title), Text: v.say(text), Yes: v.say("signers.yes"), Waiting: v.say("signers.waiting"), Run: v.background, Blanks: blanks,
		Work: func(texts []string) (func(), error) {
			then, err := work(texts)
			return func() {
				if err := then(); err != nil {
					v.host.Fail(err)
				}
				v.draw()
				v.Focus()
				v.host.Tell(say.New(done))
			}, err
		},
	})
}

func (v *View) saveCertificate() {
	kit.Save(v.host, kit.Saving{
		Title: v.say("signers.certificate"), Label: v.say("sheet.path"), Path: v.presenter.CertificatePath(),
		Replace: v.say("sheet.replace"), Cancel: v.say("kit.cancel"), Write: v.presenter.SaveCertificate,
	})
}

// askForget asks before a signer is taken away for good.
func (v *View) askForget() {
	who, _ := v.presenter.Chosen()
	v.sure("signers.forget", v.say("signers.forget-what", who.Name), v.presenter.Forget)
}

func (v *View) sure(title, text string, do func() error) {
	kit.Ask(v.host.Window(), v.say(title), text, []kit.Choice{
		{Label: v.say("kit.cancel"), Cancel: true},
		{Label: v.say("signers.forget-yes"), Key: 't', Do: func() {
			if err := do(); err != nil {
				v.host.Fail(err)
			}
			v.draw()
		}},
	})
}

// hand is the signature drawn by hand, or the paper to draw one on.
func (v *View) hand() fyne.CanvasObject {
	group := kit.Group(v.say("signers.hand"))
	ink, there := v.presenter.Drawn()
	switch {
	case v.pad != nil:
		group.Add(kit.NewHint(v.say("signers.draw-what")))
		group.Add(v.pad)
		group.Add(kit.Buttons(
			kit.NewButton(v.say("signers.draw-keep"), "", v.keepDrawing).Strong(),
			kit.NewButton(v.say("signers.draw-clear"), v.say("signers.delete"), v.pad.Clear),
			kit.NewButton(v.say("sign.back"), "", v.leaveDrawing),
		))
		return group
	case !there:
		group.Add(kit.NewText(v.say("signers.hand-none")))
		group.Add(kit.Buttons(kit.NewButton(v.say("signers.draw"), "", v.beginDrawing)))
		return group
	case ink == nil:
		group.Add(kit.NewText(v.say("signers.hand-locked")))
	default:
		seen := kit.NewInkPad(signer.InkWide, signer.InkHigh)
		seen.Set(ink)
		seen.Still()
		group.Add(seen)
	}
	show := kit.Buttons(kit.NewButton(v.say("signers.draw-again"), "", v.beginDrawing))
	if ink == nil {
		show.Add(kit.NewButton(v.say("signers.unveil"), "", v.askUnveil))
	}
	show.Add(kit.NewButton(v.say("signers.erase"), "", func() { v.sure("signers.erase", v.say("signers.erase-what"), v.presenter.Erase) }))
	group.Add(show)
	return group
}

func (v *View) beginDrawing() {
	v.pad = kit.NewInkPad(signer.InkWide, signer.InkHigh)
	v.detail()
	kit.GiveKeyboard(v.pad)
}

func (v *View) leaveDrawing() {
	v.pad = nil
	v.detail()
	v.Focus()
}

// keepDrawing asks for the passphrase that the drawing is kept under.
func (v *View) keepDrawing() {
	ink := v.pad.Strokes()
	if len(ink) == 0 {
		v.host.Fail(say.Fail(say.Invalid, "signers.nothing-drawn"))
		return
	}
	v.slow("signers.draw", "signers.secret-what", []kit.Blank{{Label: v.say("signers.secret"), Hide: true}}, "signers.drawn",
		func(t []string) (func() error, error) {
			then, err := v.presenter.Draw(ink, t[0])
			return func() error {
				v.pad = nil
				return then()
			}, err
		})
}

func (v *View) askUnveil() {
	v.slow("signers.unveil", "signers.secret-what", []kit.Blank{{Label: v.say("signers.secret"), Hide: true}}, "signers.unveiled",
		func(t []string) (func() error, error) { return v.presenter.Unveil(t[0]) })
}
