package welcome

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// View is the page. It has the keyboard as a whole: letters and numbers choose, arrows and Enter do too.
type View struct {
	widget.BaseWidget
	presenter *Presenter
	words     say.Printer
	rows      []*row
	cursor    int
	focused   bool
	body      fyne.CanvasObject
}

// mostDoors is how many rows stand before the books that were open before.
const mostDoors = 4

// NewView returns the page of a presenter.
func NewView(p *Presenter, words say.Printer) *View {
	v := &View{presenter: p, words: words}
	v.add('N', words.Line(say.New("welcome.new")), words.Line(say.New("welcome.new-what")))
	v.add('O', words.Line(say.New("welcome.open")), words.Line(say.New("welcome.open-what")))
	v.add('D', words.Line(say.New("welcome.demo")), words.Line(say.New("welcome.demo-what")))
	v.add('F', words.Line(say.New("welcome.first")), words.Line(say.New("welcome.first-what")))
	for _, b := range p.Books() {
		v.add(b.Key, b.Name, b.Folder)
	}
	if len(p.Books()) > 0 {
		v.cursor = mostDoors // the book that was open last
	}
	v.body = v.page()
	v.ExtendBaseWidget(v)
	v.mark()
	return v
}

func (v *View) add(key rune, title, what string) {
	v.rows = append(v.rows, newRow(key, title, what, func() { v.presenter.Type(key) }))
}

// page puts the rows in one column in the middle of the window.
func (v *View) page() fyne.CanvasObject {
	title := widget.NewLabelWithStyle(v.words.Line(say.New("welcome.title")), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.SizeName = theme.SizeNameHeadingText
	what := widget.NewLabel(v.words.Line(say.New("welcome.what")))
	what.Wrapping = fyne.TextWrapWord
	column := container.NewVBox(title, what)
	for i, r := range v.rows {
		if i == mostDoors {
			head := widget.NewLabelWithStyle(v.words.Line(say.New("welcome.recent")), fyne.TextAlignLeading, fyne.TextStyle{})
			column.Add(head)
		}
		column.Add(r)
	}
	return container.NewVScroll(container.New(narrow{}, column))
}

// CreateRenderer is the toolkit's.
func (v *View) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(v.body) }

// Focus puts the keyboard on the page. The window's canvas is named because the toolkit does not know
// whose the page is before it was painted.
func (v *View) Focus(c fyne.Canvas) { c.Focus(v) }

// FocusGained and FocusLost show where the keyboard is.
func (v *View) FocusGained() { v.focused = true; v.mark() }

// FocusLost is the other way.
func (v *View) FocusLost() { v.focused = false; v.mark() }

// TypedRune takes the key of a row.
func (v *View) TypedRune(r rune) { v.presenter.Type(r) }

// TypedKey moves over the rows and takes one.
func (v *View) TypedKey(k *fyne.KeyEvent) {
	if kit.Wherever(v, k) {
		return
	}
	switch k.Name {
	case fyne.KeyDown:
		v.cursor = min(v.cursor+1, len(v.rows)-1)
	case fyne.KeyUp:
		v.cursor = max(v.cursor-1, 0)
	case fyne.KeyReturn, fyne.KeyEnter:
		v.rows[v.cursor].tapped()
		return
	}
	v.mark()
}

// Tapped gives the keyboard back to the page.
func (v *View) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		c.Focus(v)
	}
}

func (v *View) mark() {
	for i, r := range v.rows {
		r.choose(i == v.cursor && v.focused)
	}
}

// narrow is a column of at most 44 times the height of a line, in the middle, a little above half way.
type narrow struct{}

func (narrow) wide() float32 { return 44 * theme.Size(theme.SizeNameText) }

func (c narrow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(c.wide()*0.55, objects[0].MinSize().Height+theme.Size(theme.SizeNameText))
}

func (c narrow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := min(c.wide(), size.Width-2*theme.Padding())
	objects[0].Resize(fyne.NewSize(w, objects[0].MinSize().Height))
	h := objects[0].MinSize().Height
	objects[0].Resize(fyne.NewSize(w, h))
	objects[0].Move(fyne.NewPos((size.Width-w)/2, max((size.Height-h)/3, theme.Padding())))
}

// row is one thing that can be chosen: its key, what it is, and a line about it.
type row struct {
	widget.BaseWidget
	tapped func()
	chosen bool
	back   *canvas.Rectangle
	cap    *canvas.Rectangle
	key    *canvas.Text
	title  *widget.Label
	what   *widget.Label
}

func newRow(key rune, title, what string, tapped func()) *row {
	r := &row{
		tapped: tapped, back: canvas.NewRectangle(color.Transparent), cap: canvas.NewRectangle(nil), key: canvas.NewText(string(key), nil),
		title: widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), what: widget.NewLabel(what),
	}
	r.key.TextStyle, r.key.Alignment = fyne.TextStyle{Bold: true}, fyne.TextAlignCenter
	r.title.SizeName = theme.SizeNameSubHeadingText
	r.title.Truncation, r.what.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	r.ExtendBaseWidget(r)
	return r
}

// Tapped chooses the row.
func (r *row) Tapped(*fyne.PointEvent) { r.tapped() }

func (r *row) choose(chosen bool) {
	if r.chosen != chosen {
		r.chosen = chosen
		r.Refresh()
	}
}

// CreateRenderer is the toolkit's.
func (r *row) CreateRenderer() fyne.WidgetRenderer {
	words := container.New(layout.NewCustomPaddedVBoxLayout(-2*theme.InnerPadding()+theme.Padding()), r.title, r.what)
	return &rowRenderer{row: r, words: words}
}

type rowRenderer struct {
	row   *row
	words *fyne.Container
}

func (d *rowRenderer) side() float32 { return 2.6 * theme.Size(theme.SizeNameText) }

func (d *rowRenderer) MinSize() fyne.Size {
	min := d.words.MinSize()
	return fyne.NewSize(min.Width+d.side()+3*theme.InnerPadding(), max(min.Height, d.side())+theme.InnerPadding())
}

func (d *rowRenderer) Layout(size fyne.Size) {
	pad, side := theme.InnerPadding(), d.side()
	d.row.back.Resize(size)
	d.row.cap.Resize(fyne.NewSquareSize(side))
	d.row.cap.Move(fyne.NewPos(pad, (size.Height-side)/2))
	text := d.row.key.MinSize()
	d.row.key.Resize(fyne.NewSize(side, text.Height))
	d.row.key.Move(fyne.NewPos(pad, (size.Height-text.Height)/2))
	h := d.words.MinSize().Height
	d.words.Resize(fyne.NewSize(size.Width-side-3*pad, h))
	d.words.Move(fyne.NewPos(side+2*pad, (size.Height-h)/2))
}

func (d *rowRenderer) Refresh() {
	r := d.row
	ink := theme.Color(theme.ColorNameForeground)
	r.key.Color, r.key.TextSize = ink, theme.Size(theme.SizeNameSubHeadingText)
	r.cap.StrokeColor, r.cap.StrokeWidth = ink, 1.5
	r.cap.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	r.back.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	r.back.FillColor = theme.Color(theme.ColorNameBackground)
	if r.chosen {
		r.back.FillColor = theme.Color(theme.ColorNameSelection)
	}
	d.Layout(r.Size())
	canvas.Refresh(r.back)
	canvas.Refresh(r.cap)
	canvas.Refresh(r.key)
	d.words.Refresh()
}

func (d *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{d.row.back, d.row.cap, d.row.key, d.words}
}

func (d *rowRenderer) Destroy() {}
