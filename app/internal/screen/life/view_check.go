package life

import (
	"context"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// begin opens a check in the place of the springs.
func (v *View) begin() {
	v.presenter.Begin()
	v.enter()
}

// enter shows the check that is entered or corrected.
func (v *View) enter() {
	p := v.presenter
	services, at := p.Services()
	service := kit.NewChoice(p.say("life.service"), services, at, func(i int) error { p.Serve(i); return nil })
	testers, tester := p.Testers()
	on := kit.NewChoice(p.say("life.tester"), testers, tester, func(i int) error { p.Test(i); return nil })
	v.valves = nil
	lines := p.Lines()
	var fields []fyne.CanvasObject
	for _, l := range lines {
		f := kit.NewField(l.Label, l.Text, func(text string) error { return v.said(p.Found(l.At, text)) })
		v.valves, fields = append(v.valves, f), append(fields, f)
	}
	keep := kit.NewButton(p.say("life.keep"), p.say("kit.enter"), v.keep).Strong()
	drop := kit.NewButton(p.say("life.drop"), p.say("kit.esc"), v.drop).Escape(v.drop)
	nextDay, nextIn := p.Next()
	v.nextDay = kit.NewField(p.say("life.next-day"), nextDay, func(text string) error { p.NextDay(text); return nil })
	v.nextIn = kit.NewField(p.say("life.next-in"), nextIn, func(text string) error { p.NextIn(text); return nil })
	v.nextDay.Next, v.nextIn.Next = v.nextIn.Focus, func() { kit.GiveKeyboard(keep) }
	for i, f := range v.valves {
		if i+1 < len(v.valves) {
			f.Next = v.valves[i+1].Focus
		} else {
			f.Next = v.nextDay.Focus
		}
	}
	title := p.say("life.check-title")
	if day := p.Correcting(); day != "" {
		title = p.say("life.check-correcting", day)
	}
	v.right.Set(kit.Group(title,
		kit.NewHint(p.say("life.check-how")), service, on, kit.Columns(fields...), kit.Columns(v.nextDay, v.nextIn), kit.Buttons(keep, drop)))
	v.Focus()
}

// keep keeps the check, or says what is wrong with it and leaves it as it is.
func (v *View) keep() {
	for _, f := range v.fields() {
		if !f.Commit() {
			f.Focus()
			return
		}
	}
	told, err := v.presenter.Keep(context.Background())
	if err != nil {
		v.host.Fail(v.said(err))
		return
	}
	v.valves = nil
	v.draw()
	kit.GiveKeyboard(v.check)
	v.host.Changed()
	v.host.Tell(told)
}

// drop leaves the check; what was typed is asked for first.
func (v *View) drop() {
	p := v.presenter
	leave := func() {
		p.Drop()
		v.valves = nil
		v.draw()
		kit.GiveKeyboard(v.check)
	}
	if !v.typed() {
		leave()
		return
	}
	kit.Ask(v.host.Window(), p.say("life.drop-title"), p.say("life.drop-what"), []kit.Choice{
		{Label: p.say("life.drop"), Do: leave}, {Label: p.say("kit.cancel"), Primary: true, Cancel: true},
	})
}
