package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Group returns a section of a page: a heading and what belongs under it.
func Group(title string, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&column{gap: 3}, append([]fyne.CanvasObject{NewHeading(title)}, objects...)...)
}

// Column returns objects one under the other, each as wide as the column.
func Column(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&column{gap: 3}, objects...)
}

// Pair returns a value, which is read first, close under its name.
func Pair(name, value string) *fyne.Container {
	v := NewText(value)
	v.bold = true
	return container.New(&column{gap: 0.5}, NewHint(name), v)
}

// Columns returns objects side by side in equal shares, row after row; in a narrow window fewer share a
// row.
func Columns(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&columns{least: 190}, objects...)
}

// Buttons returns buttons in a row that goes on below where it is full.
func Buttons(buttons ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flow{gap: 2}, buttons...)
}

// widestForm is the width, in toolkit units at 100 %, beyond which lines get too long to be read.
const widestForm = 980

// Form is what is filled in, one group under the other, scrolled where the window is too low. What gets
// the keyboard is scrolled into sight.
type Form struct {
	widget.BaseWidget
	body   *fyne.Container
	holder *fyne.Container
	scroll *container.Scroll
}

// NewForm returns a page of groups.
func NewForm(groups ...fyne.CanvasObject) *Form {
	f := &Form{body: container.New(&column{gap: 5}, groups...)}
	f.holder = container.New(&margins{}, f.body)
	f.scroll = container.NewVScroll(f.holder)
	f.ExtendBaseWidget(f)
	f.follow(f.body)
	return f
}

// Set puts other groups on the page and goes to its top.
func (f *Form) Set(groups ...fyne.CanvasObject) {
	f.body.Objects = groups
	f.follow(f.body)
	f.Refresh()
	f.scroll.ScrollToTop()
}

// follow lets the things on the page ask to be seen.
func (f *Form) follow(o fyne.CanvasObject) {
	switch o := o.(type) {
	case follower:
		o.follow(f.reveal)
	case *fyne.Container:
		for _, inner := range o.Objects {
			f.follow(inner)
		}
	}
}

// follower is a thing that can have the keyboard and says so.
type follower interface {
	follow(reveal func(fyne.CanvasObject))
}

// reveal scrolls as little as needed to bring an object of the page into sight.
func (f *Form) reveal(o fyne.CanvasObject) {
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(o).Y - driver.AbsolutePositionForObject(f.holder).Y
	low, view := top+o.Size().Height, f.scroll.Size().Height
	pad := 2 * theme.Padding()
	y := f.scroll.Offset.Y
	switch {
	case top-pad < y:
		y = top - pad
	case low+pad > y+view:
		y = low + pad - view
	default:
		return
	}
	f.scroll.ScrollToOffset(fyne.NewPos(0, max(0, min(y, f.holder.Size().Height-view))))
}

// Refresh lays the page out again, because what is on it may have grown.
func (f *Form) Refresh() {
	f.follow(f.body)
	f.arrange(f.Size())
	f.BaseWidget.Refresh()
	canvas.Refresh(f)
}

func (f *Form) arrange(size fyne.Size) {
	// The scroll asks the holder how high it is, which depends on how wide it will be.
	f.holder.Layout.(*margins).width = size.Width
	f.scroll.Resize(size)
	f.scroll.Refresh()
}

// CreateRenderer is the toolkit's.
func (f *Form) CreateRenderer() fyne.WidgetRenderer { return coloured(formRenderer{f}) }

type formRenderer struct{ f *Form }

func (r formRenderer) Destroy()                     {}
func (r formRenderer) Layout(size fyne.Size)        { r.f.arrange(size) }
func (r formRenderer) MinSize() fyne.Size           { return fyne.NewSize(r.f.holder.MinSize().Width, 80) }
func (r formRenderer) Refresh()                     { r.f.scroll.Refresh() }
func (r formRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.f.scroll} }

// margins keeps a page off the window's edges and its lines short enough to be read.
type margins struct{ width float32 }

func (m *margins) inner(width float32) (x, w float32) {
	most := widestForm * theme.TextSize() / size(theme.SizeNameText)
	x = 4 * theme.Padding()
	return x, max(0, min(width-2*x-theme.Padding(), most))
}

// MinSize is the toolkit's.
func (m *margins) MinSize(objects []fyne.CanvasObject) fyne.Size {
	x, w := m.inner(m.width)
	least := widest(objects)
	return fyne.NewSize(least+2*x, heightOf(objects[0], max(w, least))+2*x)
}

// Layout is the toolkit's.
func (m *margins) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	m.width = size.Width
	x, w := m.inner(size.Width)
	put(objects[0], fyne.NewPos(x, x), fyne.NewSize(w, heightOf(objects[0], w)))
}
