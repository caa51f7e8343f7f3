package sheet

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Sign shows the pages as they are signed, and beside them what the signer has to say. Of a set-up that was signed already it
// is the second signature, where a place was kept for one.
func (v *View) Sign() {
	if err := v.presenter.Begin(); err != nil {
		v.fail(err)
		return
	}
	v.Refresh()
	v.reason(0)
}

func (v *View) fail(err error) { v.host.Fail(kit.Said(v.presenter.Words(), err)) }

// reason gives the keyboard to the reason i, or to the signer where there are not so many.
func (v *View) reason(i int) {
	if i < len(v.reasons) {
		v.reasons[i].Focus()
		return
	}
	kit.GiveKeyboard(v.signs)
}

// leaveSigning goes back to the pages as they are.
func (v *View) leaveSigning() {
	v.presenter.Leave()
	v.Refresh()
	v.Focus()
}

// signing is the panel of whoever is about to sign.
func (v *View) signing() []fyne.CanvasObject {
	p := v.presenter
	v.reasons = nil
	if !p.First() {
		return []fyne.CanvasObject{kit.Group(v.say("sign.second-title"), kit.NewText(v.say("sign.second-what"))), v.who()}
	}
	groups := []fyne.CanvasObject{kit.Group(v.say("sign.title"), kit.NewText(v.say("sign.what")), v.papers(), v.languages())}
	if asks := p.Asks(); len(asks) > 0 {
		why := kit.Group(v.say("sign.why"), kit.NewText(v.say("sign.why-what")))
		for i, ask := range asks {
			f := kit.NewField(v.say("sign.reason"), p.Reason(i), func(text string) error {
				p.Explain(i, text)
				return v.draw()
			})
			f.Key = v.escapes(f)
			v.reasons = append(v.reasons, f)
			line := kit.NewText(ask)
			line.Bold(true)
			why.Add(kit.Column(line, f))
		}
		if len(asks) > 1 {
			rest := kit.NewField(v.say("sign.reason-rest"), "", func(text string) error {
				p.ExplainRest(text)
				for i, f := range v.reasons {
					f.Set(p.Reason(i))
				}
				return v.draw()
			})
			rest.Key = v.escapes(rest)
			why.Add(rest)
		}
		groups = append(groups, why)
	}
	return append(groups, v.who())
}

// escapes has Esc go back from a field in which nothing stands that is not kept.
func (v *View) escapes(f *kit.Field) func(fyne.KeyName) bool {
	return func(k fyne.KeyName) bool {
		if k != fyne.KeyEscape || f.Pending() {
			return false
		}
		v.leaveSigning()
		return true
	}
}

// Unkept names the reasons that somebody typed who has not signed yet.
func (v *View) Unkept() []say.Line {
	if v.presenter.Explained() {
		return []say.Line{say.New("sign.unkept")}
	}
	return nil
}

// who is where the signer is chosen.
func (v *View) who() fyne.CanvasObject {
	p := v.presenter
	group := kit.Group(v.say("sign.who"))
	back := kit.NewButton(v.say("sign.back"), v.say("kit.esc"), v.leaveSigning)
	back.Escape(v.leaveSigning)
	all, at, err := p.Signers()
	if err != nil { // of one of them; the others can sign
		group.Add(kit.NewText(kit.Sentence(kit.Said(p.Words(), err))))
	}
	if len(all) == 0 {
		group.Add(kit.NewText(v.say("sign.nobody")))
		v.signs = back
		group.Add(kit.Buttons(back))
		return group
	}
	group.Add(v.choice(all, at))
	v.role = kit.NewField(v.say("sign.role"), p.Role(), func(text string) error {
		p.As(text)
		return v.draw()
	})
	v.role.Key = v.escapes(v.role)
	group.Add(v.role)
	if p.First() {
		group.Add(v.second())
	}
	v.signs = kit.NewButton(v.say("sign.sign"), v.say("kit.enter"), v.askSecret).Strong()
	v.signs.Escape(v.leaveSigning)
	group.Add(kit.Buttons(v.signs, back))
	return group
}

// choice is the list of signers, the chosen one marked.
func (v *View) choice(all []Who, at int) fyne.CanvasObject {
	var rows []kit.Row
	for _, who := range all {
		rows = append(rows, kit.Row{Cells: []kit.RowCell{{Text: who.Name, More: who.More}}})
	}
	list := kit.NewRows(nil, nil).Named(v.say("kit.menu-choose"))
	list.Set(rows)
	list.Open(kit.RowAt{Row: at})
	list.Leave = v.leaveSigning
	list.Choose = func(at kit.RowAt) {
		v.presenter.Choose(at.Row)
		list.Open(at)
		v.role.Set(v.presenter.Role())
		if err := v.draw(); err != nil {
			v.fail(err)
		}
		kit.GiveKeyboard(v.signs)
	}
	return list
}

// second is where a second signature is asked for.
func (v *View) second() fyne.CanvasObject {
	at := 0
	if v.presenter.Second() {
		at = 1
	}
	return kit.NewChoice(v.say("sign.second"), []string{v.say("sign.second-no"), v.say("sign.second-yes")}, at, func(i int) error {
		v.presenter.AskSecond(i == 1)
		return v.draw()
	})
}

// askSecret asks for the passphrase, opens the key beside the window, which takes half a second, and signs.
func (v *View) askSecret() {
	p := v.presenter
	if i := p.Unexplained(); i >= 0 {
		v.reason(i)
		v.fail(p.lacks(i))
		return
	}
	who, ok := p.Chosen()
	if !ok {
		v.fail(say.Fail(say.Invalid, "sign.nobody"))
		return
	}
	if key, ok := p.Held(); ok {
		v.finish(key)
		return
	}
	words := p.Words() // of the bench, which is not looked at beside the window
	kit.AskSlow(v.host.Window(), kit.Slow{
		Title: v.say("sign.secret-title", who.Name), Yes: v.say("sign.yes"), Waiting: v.say("sign.opening"), Run: v.background,
		Blanks: []kit.Blank{{Label: v.say("sign.secret"), Hide: true}},
		Work: func(texts []string) (func(), error) {
			key, err := p.Unlock(who.ID, texts[0])
			return func() { v.finish(key) }, kit.Said(words, err)
		},
	})
}

// finish signs with the key.
func (v *View) finish(key task.Key) {
	told, err := v.presenter.Sign(context.Background(), key)
	if err != nil {
		v.fail(err)
	}
	v.Refresh()
	v.Focus()
	v.host.Changed()
	if err == nil {
		v.host.Tell(told)
	}
}
