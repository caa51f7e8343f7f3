package shop

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// input is a field or a choice.
type input interface {
	fyne.CanvasObject
	Focus()
}

// detail shows what is open: its name, who else it concerns, and its fields.
func (v *View) detail() {
	p := v.presenter
	item, sections, place := p.Chosen(), p.Sections(), p.place()
	if item.Key != "" && !p.Known() {
		sections = nil // who else it concerns is said before anything can be changed
	}
	var notes []string
	switch {
	case item.Key != "":
		notes = append(notes, p.Used())
	case len(sections) == 0 && v.someListed():
		notes = append(notes, p.say("shop.choose"))
	}
	showing := fmt.Sprintln(p.Page(), item, p.Title(), p.Known(), p.InUse(), len(notes))
	drawn := v.drawCurve(len(sections) > 0)
	showing += drawn + "\n"
	for _, s := range sections {
		showing += fmt.Sprintln(s.Title, len(s.Notes))
		notes = append(notes, s.Notes...)
		for _, f := range s.Fields {
			showing += f.Name + "\n"
			v.fill(place, f)
		}
	}
	if showing != v.showing {
		v.showing = showing
		v.lay(item, sections, len(notes), drawn)
	}
	for i, n := range notes {
		v.notes[i].Set(n)
	}
	v.right.Refresh()
}

// lay lays the right out anew, with this many notes on it and a drawing of that title; "" for none.
func (v *View) lay(item record.Item, sections []Section, notes int, drawn string) {
	p := v.presenter
	v.notes = make([]*kit.Text, notes)
	for i := range v.notes {
		v.notes[i] = kit.NewText("")
	}
	rest := v.notes
	var all, halves []fyne.CanvasObject
	for _, s := range sections {
		notes -= len(s.Notes)
	}
	if notes > 0 {
		head := kit.Column(rest[0])
		rest = rest[1:]
		if item.Key != "" {
			head = kit.Group(p.Title(), head)
		}
		if item.Key != "" && p.Known() && !p.InUse() {
			head.Add(kit.Buttons(v.takeOff))
		}
		all = append(all, head)
	}
	for _, s := range sections {
		group := kit.Column()
		if s.Title != "" {
			group = kit.Group(s.Title)
		}
		for range s.Notes {
			group.Add(rest[0])
			rest = rest[1:]
		}
		for i := 0; i < len(s.Fields); {
			var line []fyne.CanvasObject
			var shares []float32
			for first := i; i < len(s.Fields) && (i == first || s.Fields[i].Beside); i++ {
				line, shares = append(line, v.inputs[p.place()][s.Fields[i].Name]), append(shares, 1)
				if s.Fields[i].Note != "" {
					line, shares = append(line, v.remarks[s.Fields[i].Name].body), append(shares, 1.1)
				}
			}
			group.Add(kit.Beside(shares, line...))
		}
		if s.Deed != "" {
			group.Add(kit.Buttons(kit.NewButton(s.Deed, "", v.openStudies)))
		}
		if s.Beside {
			halves = append(halves, group)
			all[len(all)-1] = kit.Halves(halfWidth, halves...)
			continue
		}
		halves = []fyne.CanvasObject{group}
		all = append(all, group)
	}
	if drawn != "" {
		all = append(all, kit.Group(drawn, container.New(kit.DrawingRoom{}, v.curve)))
	}
	v.right.Set(all...)
}

// halfWidth is the least width of a section that stands beside another, in letters of running text.
const halfWidth = 26

// someListed reports whether there is anything on the left to choose.
func (v *View) someListed() bool {
	return slices.ContainsFunc(v.presenter.Lists(), func(l List) bool { return len(l.Lines) > 0 })
}

// fill makes the input of a field the first time it is shown, and puts into it what the book has. What was
// typed into it and refused stays.
func (v *View) fill(item record.Item, f Field) {
	v.remarkOn(f)
	if v.inputs[item] == nil {
		v.inputs[item] = map[string]input{}
	}
	switch in := v.inputs[item][f.Name].(type) {
	case *kit.Field:
		in.Unit = f.Unit
		in.Set(f.Value)
		in.Refresh()
	case *kit.Select:
		// Its answers may be others by now: another gauge, another type.
		in.SetOptions(f.labels(), f.chosen())
	default:
		v.inputs[item][f.Name] = v.newInput(f)
	}
}

func (v *View) newInput(f Field) input {
	if len(f.Options) > 0 {
		return kit.NewChoice(f.Label, f.labels(), f.chosen(), func(i int) error { return v.answer(f.Name, i) })
	}
	var in *kit.Field
	in = kit.NewField(f.Label, f.Value, func(text string) error {
		err := v.put(f.Name, text)
		if err == nil {
			in.Restore() // shows what was kept, in the way it is written
		}
		return err
	})
	in.Unit = f.Unit
	if f.Again {
		in.Next = in.Focus
	}
	if f.Note != "" {
		// Enter goes on to the next rule, past the button that would take back what was just typed.
		in.Next = func() { v.after(f.Name) }
	}
	return in
}

func (f Field) labels() []string {
	all := make([]string, len(f.Options))
	for i, o := range f.Options {
		all[i] = o.Label
	}
	return all
}

// chosen is the index of the answer that holds, −1 while nothing was said.
func (f Field) chosen() int {
	return slices.IndexFunc(f.Options, func(o Option) bool { return o.Value == f.Value })
}

// answer keeps the answer i of a choice.
func (v *View) answer(field string, i int) error {
	for _, s := range v.presenter.Sections() {
		for _, f := range s.Fields {
			if f.Name == field && i < len(f.Options) {
				return v.put(field, f.Options[i].Value)
			}
		}
	}
	return nil
}

// put keeps a text and draws what came of it.
func (v *View) put(field, text string) error {
	if err := v.presenter.Put(context.Background(), field, text); err != nil {
		return kit.Said(v.presenter.counter.Words(), err)
	}
	v.host.Changed()
	v.arrange()
	return nil
}

// Unkept names the texts on the pages, and beside the studies of gauges, that are not in the book.
func (v *View) Unkept() []say.Line {
	texts := v.presenter.Waiting()
	for _, inputs := range v.inputs {
		for _, in := range inputs {
			if f, ok := in.(*kit.Field); ok && f.Pending() {
				texts = append(texts, f.Text())
			}
		}
	}
	slices.Sort(texts)
	lines := make([]say.Line, len(texts))
	for i, t := range texts {
		lines[i] = say.New("shop.unkept", t)
	}
	for _, gauge := range slices.Sorted(maps.Keys(v.studies)) {
		lines = append(lines, v.studies[gauge].Unkept()...)
	}
	if v.signers != nil {
		lines = append(lines, v.signers.Unkept()...)
	}
	return lines
}
