package shell

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// tabs are the names of the leaves in a row, each with the count of what is open in it. They take taps;
// from the keyboard leaves are reached with Alt and their number, so that Tab stays within a leaf.
type tabs struct {
	widget.BaseWidget
	names  []*tab
	chosen int
}

func newTabs(titles []string, choose func(int)) *tabs {
	t := &tabs{}
	for i, title := range titles {
		t.names = append(t.names, newTab(title, i, choose))
	}
	t.ExtendBaseWidget(t)
	return t
}

// place calls put for each name with its corner and size, and returns the height of all of them. Names
// that have no room in the first row go on in the next.
func (t *tabs) place(width float32, put func(*tab, fyne.Position, fyne.Size)) float32 {
	x, y, row := float32(0), float32(0), float32(0)
	for _, n := range t.names {
		size := n.MinSize()
		if x > 0 && x+size.Width > width+0.5 {
			x, y = 0, y+row
		}
		put(n, fyne.NewPos(x, y), size)
		x, row = x+size.Width, max(row, size.Height)
	}
	return y + row
}

func (t *tabs) heightFor(width float32) float32 {
	return t.place(width, func(*tab, fyne.Position, fyne.Size) {})
}

// show marks the chosen leaf and writes the counts.
func (t *tabs) show(chosen int, open []int) {
	t.chosen = chosen
	for i, n := range t.names {
		n.show(i == chosen, open[i])
	}
}

// CreateRenderer is the toolkit's.
func (t *tabs) CreateRenderer() fyne.WidgetRenderer {
	d := &tabsRenderer{tabs: t, rule: canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))}
	for _, n := range t.names {
		d.objects = append(d.objects, n)
	}
	d.objects = append(d.objects, d.rule)
	return d
}

type tabsRenderer struct {
	tabs    *tabs
	rule    *canvas.Rectangle
	objects []fyne.CanvasObject
}

func (d *tabsRenderer) MinSize() fyne.Size {
	size := fyne.NewSize(0, 0)
	for _, n := range d.tabs.names {
		size.Width = max(size.Width, n.MinSize().Width)
	}
	size.Height = d.tabs.heightFor(max(size.Width, d.tabs.Size().Width))
	return size
}

func (d *tabsRenderer) Layout(size fyne.Size) {
	d.tabs.place(size.Width, func(n *tab, at fyne.Position, size fyne.Size) {
		n.Resize(size)
		n.Move(at)
	})
	d.rule.Resize(fyne.NewSize(size.Width, 1))
	d.rule.Move(fyne.NewPos(0, size.Height-1))
}

func (d *tabsRenderer) Refresh() {
	d.rule.FillColor = theme.Color(theme.ColorNameSeparator)
	d.Layout(d.tabs.Size())
	canvas.Refresh(d.rule)
	for _, n := range d.tabs.names {
		n.Refresh()
	}
}

func (d *tabsRenderer) Objects() []fyne.CanvasObject { return d.objects }

func (d *tabsRenderer) Destroy() {}

// tab is the name of one leaf.
type tab struct {
	widget.BaseWidget
	title  string
	index  int
	choose func(int)
	chosen bool
	open   int
	word   *canvas.Text
	count  *canvas.Text
	bar    *canvas.Rectangle
}

func newTab(title string, index int, choose func(int)) *tab {
	t := &tab{
		title: title, index: index, choose: choose,
		word: canvas.NewText(title, nil), count: canvas.NewText("", nil), bar: canvas.NewRectangle(color.Transparent),
	}
	t.ExtendBaseWidget(t)
	return t
}

// Tapped shows the leaf.
func (t *tab) Tapped(*fyne.PointEvent) { t.choose(t.index) }

func (t *tab) show(chosen bool, open int) {
	if t.chosen == chosen && t.open == open {
		return
	}
	t.chosen, t.open = chosen, open
	t.Refresh()
}

// CreateRenderer is the toolkit's.
func (t *tab) CreateRenderer() fyne.WidgetRenderer {
	d := &tabRenderer{t}
	d.paint()
	return d
}

type tabRenderer struct{ tab *tab }

// paint sets words and weights: the chosen leaf is bold with a bar under it.
func (d *tabRenderer) paint() {
	t, ink := d.tab, theme.Color(theme.ColorNameForeground)
	t.word.Color, t.word.TextSize, t.word.TextStyle.Bold = ink, theme.Size(theme.SizeNameSubHeadingText), t.chosen
	t.count.Color, t.count.TextSize = ink, theme.Size(theme.SizeNameText)
	t.count.Text = ""
	if t.open > 0 {
		t.count.Text = fmt.Sprint(t.open)
	}
	t.bar.FillColor = color.Transparent
	if t.chosen {
		t.bar.FillColor = ink
	}
}

// MinSize has room for the bold title, so that nothing moves when the leaf is chosen.
func (d *tabRenderer) MinSize() fyne.Size {
	word := fyne.MeasureText(d.tab.title, theme.Size(theme.SizeNameSubHeadingText), fyne.TextStyle{Bold: true})
	size := fyne.NewSize(word.Width+4*theme.InnerPadding(), word.Height+2*theme.InnerPadding())
	if d.tab.open > 0 {
		size.Width += d.tab.count.MinSize().Width + theme.InnerPadding()
	}
	return size
}

func (d *tabRenderer) Layout(size fyne.Size) {
	t, pad := d.tab, theme.InnerPadding()
	word := fyne.MeasureText(t.title, theme.Size(theme.SizeNameSubHeadingText), fyne.TextStyle{Bold: true})
	y := (size.Height - word.Height) / 2
	t.word.Resize(word)
	t.word.Move(fyne.NewPos(2*pad, y))
	count := t.count.MinSize()
	t.count.Resize(count)
	t.count.Move(fyne.NewPos(3*pad+word.Width, y+(word.Height-count.Height)*0.7)) // on the line of the title
	t.bar.Resize(fyne.NewSize(size.Width-2*pad, 4))
	t.bar.Move(fyne.NewPos(pad, size.Height-4))
}

func (d *tabRenderer) Refresh() {
	d.paint()
	d.Layout(d.tab.Size())
	canvas.Refresh(d.tab.word)
	canvas.Refresh(d.tab.count)
	canvas.Refresh(d.tab.bar)
}

func (d *tabRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{d.tab.word, d.tab.count, d.tab.bar}
}

func (d *tabRenderer) Destroy() {}
