package shop

import (
	"context"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
)

// View is the shop's pages in the window: the pages along the top, what there is on the left, and on the
// right what is open of it.
type View struct {
	// Background runs what takes longer than a key press. It may be set before the view is shown.
	Background func(work func())
	// Study makes the page of a gauge's studies, which stands in the place of these until back is called. It
	// may be set before the view is shown.
	Study func(gauge string, back func()) (Panel, error)

	// Signers makes the page of whoever signs on this machine. It may be set before the view is shown.
	Signers func() Panel

	host      kit.Host
	presenter *Presenter
	pages     *kit.Select
	left      *kit.Form
	right     *kit.Form
	listing   string      // what the left is laid out for
	showing   string      // what the right is laid out for
	notes     []*kit.Text // of the right, in order
	lists     map[record.ItemKind]*kit.Rows
	inputs    map[record.Item]map[string]input // kept, so that a refused text is there again
	curve     *kit.Section                     // of the spring that is open
	remarks   map[string]remark                // beside the field of that name
	takeOff   *kit.Button                      // takes what is open away
	object    fyne.CanvasObject
	front     *fyne.Container  // holds the pages, or the studies of a gauge
	studies   map[string]Panel // of the gauges whose studies were opened, by id
	studying  Panel            // in the place of the pages; nil while they are shown
	signers   Panel            // in the place of lists and fields; nil until somebody went there
	both      *fyne.Container  // of lists and fields
	middle    *fyne.Container  // under the choice of pages
}

// New returns the shop's pages of a book.
func New(host kit.Host, desk *task.Desk) (*View, error) {
	counter, err := desk.OpenCounter(context.Background())
	if err != nil {
		return nil, err
	}
	v := &View{
		Background: func(work func()) { go work() },
		host:       host, presenter: NewPresenter(counter), left: kit.NewForm(), right: kit.NewForm(),
		lists: map[record.ItemKind]*kit.Rows{}, inputs: map[record.Item]map[string]input{},
		remarks: map[string]remark{}, curve: kit.NewSection(),
		studies: map[string]Panel{},
	}
	var words []string
	for _, p := range Pages() {
		words = append(words, v.presenter.say("shop.page."+string(p)))
	}
	v.takeOff = kit.NewButton(v.presenter.say("shop.remove"), "", v.remove)
	v.pages = kit.NewChoice("", words, 0, func(i int) error {
		v.Show(Pages()[i])
		return nil
	})
	top := container.New(rim{}, v.pages)
	// The keyboard comes to the pages first and then to what is on them.
	v.both = container.New(kit.Sides{}, v.left, v.right)
	v.middle = container.NewStack(v.both)
	v.object = container.New(layout.NewBorderLayout(top, nil, nil, nil), top, v.middle)
	v.front = container.NewStack(v.object)
	v.arrange()
	return v, nil
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.front }

// Show goes to a page.
func (v *View) Show(page Page) {
	v.presenter.Go(page)
	v.pages.Set(slices.Index(Pages(), page))
	v.arrange()
	under := fyne.CanvasObject(v.both)
	if panel := v.panel(); panel != nil {
		under = panel.Object()
		panel.Refresh()
	}
	v.middle.Objects = []fyne.CanvasObject{under}
	v.middle.Refresh()
}

// ShopName is what the shop is called.
func (v *View) ShopName() string { return v.presenter.counter.Shop().Name }

// panel is the page of another screen that is shown under the choice of pages; nil where it is one of these.
func (v *View) panel() Panel {
	if v.presenter.Page() != Signers || v.Signers == nil {
		return nil
	}
	if v.signers == nil {
		v.signers = v.Signers()
	}
	return v.signers
}

// Focus puts the keyboard where work goes on: in the first list of the page, or in its first field.
func (v *View) Focus() {
	if panel := v.panel(); panel != nil {
		panel.Focus()
		return
	}
	for _, l := range v.presenter.Lists() {
		if len(l.Lines) > 0 {
			v.lists[l.Kind].Focus()
			return
		}
	}
	v.pages.Focus()
}

// Refresh takes everything from the book again.
func (v *View) Refresh() {
	if err := v.presenter.Load(context.Background()); err != nil {
		v.host.Fail(err)
	}
	v.arrange()
	v.look(func() {})
}

// look finds out which set-ups use what is open, where that is not known, and then goes on unless
// something else was opened meanwhile.
func (v *View) look(then func()) {
	item := v.presenter.Chosen()
	if item.Key == "" {
		return
	}
	if v.presenter.Known() {
		then()
		return
	}
	v.Background(func() {
		take, err := v.presenter.Look(context.Background(), item)
		fyne.Do(func() {
			if err != nil {
				v.host.Fail(err)
				return
			}
			take()
			v.arrange()
			if v.presenter.Chosen() == item {
				then()
			}
		})
	})
}

// arrange draws lists and fields as they are now. Where they are the same ones as before only their
// words change, so that neither scrolls away under whoever types.
func (v *View) arrange() {
	lists := v.presenter.Lists()
	listing := ""
	for _, l := range lists {
		listing += fmt.Sprintln(l.Kind, len(l.Lines) > 0, l.Note, l.Warn, l.Add, l.Deed, l.Print)
		v.fillList(l)
	}
	if listing == v.listing {
		v.left.Refresh()
	} else {
		v.listing = listing
		v.left.Set(v.listed(lists)...)
	}
	if v.left.Visible() != (len(lists) > 0) {
		if len(lists) > 0 {
			v.left.Show()
		} else {
			v.left.Hide()
		}
		v.object.Refresh()
	}
	v.detail()
}

// fillList puts the lines of a list into its rows.
func (v *View) fillList(l List) {
	rows, ok := v.lists[l.Kind]
	if !ok {
		rows = kit.NewRows(nil, nil)
		v.lists[l.Kind] = rows
	}
	rows.Choose = func(at kit.RowAt) { v.choose(l.Lines[at.Row].Item) }
	rows.Menu = func(at kit.RowAt) []kit.Item { return v.menu(rows, l.Lines[at.Row].Item) }
	var lines []kit.Row
	open := kit.RowAt{Row: -1}
	for i, line := range l.Lines {
		lines = append(lines, kit.Row{Cells: []kit.RowCell{{Text: line.Text, More: line.More}}})
		if line.Item == v.presenter.Chosen() {
			open.Row = i
		}
	}
	rows.Set(lines)
	rows.Open(open)
}

// listed puts the lists of a page under each other.
func (v *View) listed(lists []List) []fyne.CanvasObject {
	var all []fyne.CanvasObject
	for _, l := range lists {
		group := kit.Group(l.Title)
		if l.Warn != "" {
			warn := kit.NewText(l.Warn)
			warn.Bold(true)
			group.Add(warn)
		}
		if l.Note != "" {
			group.Add(kit.NewHint(l.Note))
		}
		if len(l.Lines) == 0 {
			group.Add(kit.NewText(l.Empty))
		} else {
			group.Add(v.lists[l.Kind])
		}
		buttons := kit.Buttons()
		if l.Add != "" {
			buttons.Add(kit.NewButton(l.Add, "", func() { v.add(l.Kind, l.Add) }))
		}
		if l.Deed != "" {
			buttons.Add(kit.NewButton(l.Deed, "", func() { v.deed(l.Kind, l.Deed) }))
		}
		if l.Print != "" {
			buttons.Add(kit.NewButton(l.Print, "", v.Labels))
		}
		if len(buttons.Objects) > 0 {
			group.Add(buttons)
		}
		all = append(all, group)
	}
	return all
}

// choose opens a thing and puts the keyboard into its first field.
func (v *View) choose(item record.Item) {
	v.presenter.Choose(item)
	v.arrange()
	v.look(func() {
		if _, size := sized(item.Kind); size {
			v.host.Window().Canvas().Focus(v.takeOff) // all that can be done with it
			return
		}
		for _, s := range v.presenter.Sections() {
			for _, f := range s.Fields {
				if in, ok := v.inputs[item][f.Name]; ok {
					in.Focus()
					return
				}
			}
		}
	})
}

// add asks for the name of a new thing.
func (v *View) add(kind record.ItemKind, title string) {
	label := map[record.ItemKind]string{
		record.SpringItem: "shop.type-name", record.PieceItem: "shop.piece-tag", record.GaugeItem: "shop.gauge-name",
		record.StockShimItem: "stock.name", record.RetainerItem: "tagged.name", record.LocksItem: "tagged.name",
	}[kind]
	kit.AskForm(v.host.Window(), title, []kit.Blank{{Label: v.presenter.say(label)}}, func(texts []string) error {
		if err := v.presenter.Add(context.Background(), kind, texts[0]); err != nil {
			return err
		}
		v.choose(v.presenter.Chosen())
		return nil
	})
}

// remove asks before a thing is taken out of the book, or off the list of shims.
func (v *View) remove() {
	item := v.presenter.Chosen()
	sure, done := v.presenter.removing()
	kit.Ask(v.host.Window(), v.presenter.say("shop.remove"), v.presenter.say(sure.Key, sure.Args...), []kit.Choice{
		{Label: v.presenter.say("kit.cancel"), Cancel: true},
		{Label: v.presenter.say("shop.remove-yes"), Key: 'r', Do: func() {
			list := v.presenter.listOf(item)
			if err := v.presenter.Discard(context.Background()); err != nil {
				v.host.Fail(err)
				return
			}
			delete(v.inputs, item)
			v.arrange()
			v.lists[list].Focus()
			v.host.Tell(done)
		}},
	})
}

// rim keeps the choice of pages in line with what stands under it.
type rim struct{}

func (rim) MinSize(objects []fyne.CanvasObject) fyne.Size {
	pad := 4 * theme.Padding()
	return objects[0].MinSize().AddWidthHeight(2*pad, pad)
}

func (rim) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	pad := 4 * theme.Padding()
	objects[0].Move(fyne.NewPos(pad, pad))
	objects[0].Resize(size.SubtractWidthHeight(2*pad, pad))
}
