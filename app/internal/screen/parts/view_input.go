package parts

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// input returns the input of a field with what the book has in it.
func (d *detail) input(f Field) fyne.CanvasObject {
	if d.first == "" {
		d.first = f.Name
	}
	at := d.at
	commit := func(text string) error {
		d.asked = d.view.presenter.Asked(at, f.Name)
		return d.view.commit(at, f.Name, text)
	}
	switch {
	case f.List:
		return d.choose(f, commit)
	case f.Options != nil:
		labels := make([]string, len(f.Options))
		for i, o := range f.Options {
			labels[i] = o.Label
		}
		in, ok := d.inputs[f.Name].(*kit.Select)
		if !ok {
			in = kit.NewChoice(f.Label, labels, f.chosen(), func(i int) error { return commit(f.Options[i].Value) })
			d.inputs[f.Name] = in
		}
		in.Set(f.chosen())
		return in
	}
	in, ok := d.inputs[f.Name].(*kit.Field)
	if !ok {
		in = kit.NewField(f.Label, f.holds(), func(text string) error {
			err := commit(text)
			if err == nil {
				in.Restore() // shows what was kept, in the way it is written
			}
			return err
		})
		if f.Refused != "" {
			in.Resume(f.Value, errors.New(f.Refused))
		}
		in.Next = func() { d.onward(f.Name, in) }
		if at == (Place{What: AtGauge}) {
			in.Next = func() { d.view.open(d.view.presenter.Made(), "kind") }
		}
		d.inputs[f.Name] = in
	}
	in.Set(f.holds())
	in.SetLabel(f.Label)
	in.Unit = f.Unit
	in.Refresh()
	return in
}

// choose is a list to choose one answer from. Until it is asked for, only the one that holds is seen.
func (d *detail) choose(f Field, commit func(string) error) fyne.CanvasObject {
	rows, ok := d.inputs[f.Name].(*kit.Rows)
	if !ok {
		rows = kit.NewRows(nil, nil).Named(d.view.say("kit.menu-choose"))
		d.inputs[f.Name] = rows
	}
	options := f.Options
	if d.wide != f.Name {
		options = nil
		if i := f.chosen(); i >= 0 {
			options = f.Options[i : i+1]
		}
	}
	rows.Choose = func(at kit.RowAt) {
		if d.wide != f.Name {
			d.widen(f.Name)
			return
		}
		d.widen("")
		if err := commit(options[at.Row].Value); err != nil {
			d.view.host.Fail(err)
			return
		}
		d.onward(f.Name, nil)
	}
	rows.Typed = func(_ kit.RowAt, char rune) { d.begin(char) }
	rows.Leave = func() {
		if d.wide == f.Name {
			d.widen("")
			return
		}
		d.view.back()
	}
	lines := make([]kit.Row, len(options))
	for i, o := range options {
		lines[i].Cells = []kit.RowCell{{Text: o.Label, More: o.More, Faint: o.Value == ""}}
	}
	rows.Set(lines)
	label := f.Label
	if d.wide == f.Name {
		rows.Open(kit.RowAt{Row: f.chosen()})
	} else {
		rows.Open(kit.RowAt{Row: -1})
		if !d.hinted {
			label = d.view.say("parts.list", f.Label)
		}
		d.hinted = true
	}
	return kit.Column(kit.NewHint(label), rows)
}

// widen shows all answers of a list, and of no other.
func (d *detail) widen(name string) {
	d.wide = name
	d.fill()
}

// holds is what Esc gives back.
func (f Field) holds() string {
	if f.Refused != "" {
		return f.Book
	}
	return f.Value
}

// chosen is the index of the answer that holds, −1 where it is none of them.
func (f Field) chosen() int {
	return slices.IndexFunc(f.Options, func(o Option) bool { return o.Value == f.holds() })
}
