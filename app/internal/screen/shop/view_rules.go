package shop

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// remark is what stands beside a field: where its value comes from, and the button that gives it back to
// common practice.
type remark struct {
	note *kit.Text
	back *kit.Button
	body *fyne.Container
}

// after puts the keyboard into the field that follows, or on the pages after the last.
func (v *View) after(field string) {
	here := false
	for _, s := range v.presenter.Sections() {
		for _, f := range s.Fields {
			if here {
				v.inputs[v.presenter.place()][f.Name].Focus()
				return
			}
			here = f.Name == field
		}
	}
	v.pages.Focus()
}

// remarkOn fills in what stands beside a field.
func (v *View) remarkOn(f Field) {
	if f.Note == "" {
		return
	}
	r, ok := v.remarks[f.Name]
	if !ok {
		r = remark{note: kit.NewHint(""), back: kit.NewButton(f.Back, "", func() { v.back(f.Name) })}
		r.body = container.NewVBox(r.note, kit.Buttons(r.back)) // no higher than the field
		v.remarks[f.Name] = r
	}
	r.note.Set(f.Note)
	if f.CanBack() {
		r.back.Show()
	} else {
		r.back.Hide()
	}
}

// back gives a value back to common practice, and puts the keyboard where it can be typed anew.
func (v *View) back(field string) {
	if err := v.presenter.Back(context.Background(), field); err != nil {
		v.host.Fail(err)
		return
	}
	v.inputs[v.presenter.place()][field].Focus()
	v.host.Changed()
	v.arrange()
}

// deed does what else can be done with a whole list: springs are pasted in, the usual shims are put on the shelf, and
// a list of sizes goes back to common practice.
func (v *View) deed(kind record.ItemKind, title string) {
	switch kind {
	case record.PieceItem:
		v.paste()
	case record.StockShimItem:
		v.addUsual() // nothing is lost by it, so nobody is asked
	default:
		v.backSizes(kind, title)
	}
}

// paste takes a table of single springs in from the clipboard.
func (v *View) paste() {
	p, table := v.presenter, fyne.CurrentApp().Clipboard().Content()
	kit.Run(context.Background(), v.host.Window(), v.Background, kit.Work{Title: p.say("springs.pasting"), Do: func(ctx context.Context) func() {
		told, err := p.Paste(ctx, table)
		return func() { v.pasted(told, err) }
	}})
}

// pasted goes on after a table was taken in, or was not.
func (v *View) pasted(told say.Line, err error) {
	if err == nil {
		err = v.presenter.Load(context.Background())
	}
	switch {
	case errors.Is(err, context.Canceled):
		v.host.Tell(say.New("springs.not-pasted"))
		return
	case err != nil:
		v.host.Fail(kit.Said(v.presenter.counter.Words(), err))
		return
	}
	v.host.Tell(told)
	v.host.Changed()
	v.arrange()
}

// backSizes asks before a list of shims goes back to common practice.
func (v *View) backSizes(kind record.ItemKind, title string) {
	kit.Ask(v.host.Window(), title, v.presenter.BackSure(kind), []kit.Choice{
		{Label: v.presenter.say("kit.cancel"), Cancel: true},
		{Label: v.presenter.say("shop.sizes-back-yes"), Key: 'b', Do: func() {
			if err := v.presenter.BackSizes(context.Background(), kind); err != nil {
				v.host.Fail(err)
			}
			v.arrange()
			v.Focus()
		}},
	})
}

// addUsual puts the sizes of common practice on the shelf, each to be counted.
func (v *View) addUsual() {
	if err := v.presenter.AddUsual(context.Background()); err != nil {
		v.host.Fail(err)
	}
	v.arrange()
	v.Focus()
}
