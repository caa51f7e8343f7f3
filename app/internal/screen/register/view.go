package register

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// Door is what the register asks of the window.
type Door interface {
	OpenSetup(id string)
	Unfold() // folds the register beside an open head
	Tell(line say.Line)
	Fail(err error)
	Well() // what Fail said of the register before does not hold any more

	Deeds() []Deed
}

// Deed is what can be done in the book besides opening a head. It stands in a menu too, but the bar of menus is too low for a
// finger.
type Deed struct {
	Label string
	Do    func()
}

// View is the register as a panel: the filter, the heads under it, and how many there are.
type View struct {
	presenter *Presenter
	words     say.Printer
	door      Door
	filter    *filter
	list      *heads
	count     *widget.Label
	empty     *widget.Label
	panel     *fyne.Container
}

// NewView returns the register of a presenter that has been filtered once.
func NewView(p *Presenter, words say.Printer, door Door) *View {
	v := &View{presenter: p, words: words, door: door, count: widget.NewLabel(""), empty: widget.NewLabel("")}
	v.filter = newFilter(v)
	v.filter.SetPlaceHolder(words.Line(say.New("register.filter")))
	v.filter.OnChanged = v.narrow
	v.list = newHeads(v)
	v.empty.Wrapping = fyne.TextWrapWord
	v.count.Importance = widget.LowImportance
	what := widget.NewLabel(words.Line(say.New("register.filter-what")))
	what.Wrapping, what.Importance, what.SizeName = fyne.TextWrapWord, widget.LowImportance, theme.SizeNameCaptionText
	deeds := kit.Buttons()
	for _, d := range door.Deeds() {
		deeds.Add(kit.NewButton(d.Label, "", d.Do))
	}
	v.panel = container.NewBorder(container.NewVBox(v.filter, what), container.NewVBox(v.count, deeds), nil, nil, container.NewStack(v.list, v.empty))
	v.show()
	return v
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.panel }

// Refresh reads the list again.
func (v *View) Refresh() {
	if err := v.presenter.Reload(); err != nil {
		v.door.Fail(err)
	}
	v.show()
}

// Due shows how much is due of the heads.
func (v *View) Due(heads map[string]int) {
	v.presenter.Due(heads)
	v.list.Refresh()
}

// Empty reports whether the book has no heads.
func (v *View) Empty() bool { return v.presenter.None() }

// Mark chooses the head that is open beside the register.
func (v *View) Mark(head string) {
	v.presenter.Mark(head)
	v.show()
}

// Focus puts the keyboard into the filter. The window's canvas is named because the toolkit does not
// know whose the filter is before it was painted.
func (v *View) Focus(c fyne.Canvas) { c.Focus(v.filter) }

// narrow filters while somebody types.
func (v *View) narrow(text string) {
	if err := v.presenter.Filter(text); err != nil {
		v.door.Fail(err)
		return
	}
	v.door.Well()
	v.show()
}

func (v *View) show() {
	v.count.SetText(v.words.Line(v.presenter.Count()))
	v.empty.SetText(v.words.Line(v.presenter.Empty()))
	if v.presenter.Empty().Zero() {
		v.empty.Hide()
	} else {
		v.empty.Show()
	}
	v.list.Refresh()
	// Before it has a size the list would scroll the line away.
	if v.presenter.Cursor() >= 0 && v.list.Size().Height > 0 {
		v.list.ScrollTo(v.presenter.Cursor())
	}
}

func (v *View) length() int { return len(v.presenter.Lines()) }

func (v *View) draw(i widget.ListItemID, o fyne.CanvasObject) {
	if i < 0 || i >= v.length() {
		return // the list asks once more for a line that was just filtered away
	}
	l := v.presenter.Lines()[i]
	o.(*line).show(i, l.Tag, Engine(l), Whose(l), v.words.Line(v.presenter.State(l)), i == v.presenter.Cursor())
}

func (v *View) tap(i int) {
	v.presenter.Choose(i)
	v.open()
}

func (v *View) move(by int) {
	v.presenter.Move(by)
	v.show()
}

// open opens the chosen head, and empties the filter for the next label.
func (v *View) open() {
	setup, err := v.presenter.Enter()
	if err != nil {
		v.door.Fail(err)
		return
	}
	v.filter.SetText("")
	v.door.OpenSetup(setup)
}

// key takes a key that moves over the list, wherever the keyboard is in the register, and says whether
// it was one.
func (v *View) key(k *fyne.KeyEvent) bool {
	page := max(int(v.list.Size().Height/max(newLine(nil, nil).MinSize().Height, 1))-1, 1)
	switch k.Name {
	case fyne.KeyDown:
		v.move(1)
	case fyne.KeyUp:
		v.move(-1)
	case fyne.KeyPageDown:
		v.move(page)
	case fyne.KeyPageUp:
		v.move(-page)
	case fyne.KeyReturn, fyne.KeyEnter:
		v.open()
	case fyne.KeyF9:
		v.door.Unfold()
	case fyne.KeyEscape:
		if v.filter.Text == "" {
			v.door.Unfold()
			break
		}
		v.filter.SetText("")
	default:
		return false
	}
	return true
}
