package register

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
)

// filter is the field of the register. Arrows move over the list below it while one types.
type filter struct {
	widget.Entry
	view *View
}

func newFilter(v *View) *filter {
	f := &filter{view: v}
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey gives the keys of the list to the list.
func (f *filter) TypedKey(k *fyne.KeyEvent) {
	if !kit.Wherever(f, k) && !f.view.key(k) {
		f.Entry.TypedKey(k)
	}
}

// OpenMenu shows what can be done with the head that the keys of the field choose.
func (f *filter) OpenMenu() { f.view.openMenu() }

// heads is the list. The toolkit's own would choose with the space bar; this one takes the keys that the
// filter takes, and gives what is typed to the filter.
type heads struct {
	widget.List
	view *View
}

func newHeads(v *View) *heads {
	h := &heads{view: v}
	h.Length, h.UpdateItem = v.length, v.draw
	h.CreateItem = func() fyne.CanvasObject { return newLine(v.tap, v.menuOver) }
	h.HideSeparators = true
	h.ExtendBaseWidget(h)
	return h
}

// TypedKey takes the keys of the register.
func (h *heads) TypedKey(k *fyne.KeyEvent) {
	if !kit.Wherever(h, k) {
		h.view.key(k)
	}
}

// OpenMenu shows what can be done with the chosen head.
func (h *heads) OpenMenu() { h.view.openMenu() }

// TypedRune goes on in the filter.
func (h *heads) TypedRune(r rune) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(h); c != nil {
		h.view.Focus(c)
	}
	h.view.filter.TypedRune(r)
}

// line is one head in the list: its tag with how far it is, its engine, whose it is.
type line struct {
	widget.BaseWidget
	index  int
	tapped func(int)
	menu   func(int, fyne.Position)
	chosen bool
	back   *canvas.Rectangle
	words  [3]*widget.Label
	state  *widget.Label // beside the tag
}

func newLine(tapped func(int), menu func(int, fyne.Position)) *line {
	l := &line{tapped: tapped, menu: menu, back: canvas.NewRectangle(color.Transparent), state: widget.NewLabel("")}
	for i := range l.words {
		l.words[i] = widget.NewLabel("")
		l.words[i].Truncation = fyne.TextTruncateEllipsis
	}
	l.words[0].TextStyle, l.words[0].SizeName = fyne.TextStyle{Bold: true}, theme.SizeNameSubHeadingText
	l.state.Importance, l.state.SizeName = widget.LowImportance, theme.SizeNameCaptionText
	l.ExtendBaseWidget(l)
	return l
}

func (l *line) show(index int, tag, engine, whose, state string, chosen bool) {
	l.index, l.chosen = index, chosen
	for i, text := range []string{tag, engine, whose} {
		l.words[i].SetText(text)
	}
	l.state.SetText(state)
	l.Refresh()
}

// Tapped opens the head.
func (l *line) Tapped(*fyne.PointEvent) { l.tapped(l.index) }

// TappedSecondary shows what can be done with the head.
func (l *line) TappedSecondary(e *fyne.PointEvent) { l.menu(l.index, e.AbsolutePosition) }

// CreateRenderer is the toolkit's.
func (l *line) CreateRenderer() fyne.WidgetRenderer { return &lineRenderer{l} }

type lineRenderer struct{ line *line }

// leading is how far the lines of an entry stand apart: a label has room around it that a list in its
// entries has no use for.
func (d *lineRenderer) leading(i int) float32 {
	return d.line.words[i].MinSize().Height - 1.5*theme.InnerPadding()
}

func (d *lineRenderer) MinSize() fyne.Size {
	h := 2 * theme.InnerPadding()
	for i := range d.line.words {
		h += d.leading(i)
	}
	return fyne.NewSize(12*theme.Size(theme.SizeNameText), h)
}

func (d *lineRenderer) Layout(size fyne.Size) {
	d.line.back.Resize(size)
	y := theme.InnerPadding() / 4
	state := d.line.state.MinSize()
	for i, w := range d.line.words {
		width := size.Width
		if i == 0 {
			width -= state.Width - theme.InnerPadding()
			d.line.state.Resize(state)
			d.line.state.Move(fyne.NewPos(size.Width-state.Width, y+0.7*(w.MinSize().Height-state.Height)))
		}
		w.Resize(fyne.NewSize(width, w.MinSize().Height))
		w.Move(fyne.NewPos(0, y))
		y += d.leading(i)
	}
}

func (d *lineRenderer) Refresh() {
	d.line.back.FillColor = color.Transparent
	if d.line.chosen {
		d.line.back.FillColor = theme.Color(theme.ColorNameSelection)
	}
	d.line.back.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	d.Layout(d.line.Size())
	canvas.Refresh(d.line.back)
}

func (d *lineRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{d.line.back, d.line.words[0], d.line.words[1], d.line.words[2], d.line.state}
}

func (d *lineRenderer) Destroy() {}
