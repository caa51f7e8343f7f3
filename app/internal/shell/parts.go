package shell

import (
	"image"
	"strings"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
)

// em is the height of running text, which grows with the chosen scale.
func em() float32 { return theme.Size(theme.SizeNameText) }

// middling puts one object in the middle of its room, so many ems wide at most.
type middling struct{ em float32 }

func (m *middling) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(m.em*em()/2, objects[0].MinSize().Height)
}

func (m *middling) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := min(m.em*em(), size.Width)
	objects[0].Resize(fyne.NewSize(w, objects[0].MinSize().Height)) // so that wrapped words know their height
	h := objects[0].MinSize().Height
	objects[0].Resize(fyne.NewSize(w, h))
	objects[0].Move(fyne.NewPos((size.Width-w)/2, max((size.Height-h)/2, 0)))
}

// fixed is a column so many ems wide, whatever is in it.
type fixed struct{ em float32 }

func (f *fixed) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(f.em*em(), objects[0].MinSize().Height)
}

func (f *fixed) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
		o.Move(fyne.NewPos(0, 0))
	}
}

// registerWide is how many ems wide the register is.
const registerWide = 24

// newPanel is the room of the register at the left, with a rule at its edge.
func newPanel(content fyne.CanvasObject) fyne.CanvasObject {
	inner := container.NewPadded(content)
	return container.NewBorder(nil, nil, nil, widget.NewSeparator(), container.New(&fixed{em: registerWide}, inner))
}

// strip is what the register folds to: a narrow column with its key, which a tap unfolds.
type strip struct {
	widget.BaseWidget
	text   string
	tapped func()
}

func newStrip(text string, tapped func()) *strip {
	s := &strip{text: text, tapped: tapped}
	s.ExtendBaseWidget(s)
	return s
}

// Tapped unfolds the register.
func (s *strip) Tapped(*fyne.PointEvent) { s.tapped() }

// CreateRenderer is the toolkit's.
func (s *strip) CreateRenderer() fyne.WidgetRenderer {
	key := widget.NewLabelWithStyle(s.text, fyne.TextAlignCenter, fyne.TextStyle{})
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, nil, widget.NewSeparator(), container.New(&fixed{em: 2.6}, key)))
}

// heading is what stands above the leaves: the head's tag, whose it is, and which of its set-ups is open.
type heading struct {
	shell  *Shell
	tag    *kit.Text
	whose  *kit.Text
	setup  *kit.Button
	object *fyne.Container
}

func newHeading(s *Shell) *heading {
	h := &heading{shell: s, tag: kit.NewTitle(""), whose: kit.NewText(""), setup: kit.NewButton("", s.line("kit.ctrl", "U"), s.ChooseSetup)}
	h.object = container.New(headingRoom{}, h.tag, h.whose, h.setup)
	h.refresh()
	return h
}

func (h *heading) refresh() {
	d := h.shell.presenter.Heading()
	h.tag.Set(d.Tag)
	h.whose.Set(strings.Join(d.Whose, " · "))
	h.setup.SetLabel(h.shell.printer().Line(d.Setup))
	h.object.Refresh()
}

func (h *heading) heightFor(width float32) float32 {
	return headingRoom{}.heightFor(h.object.Objects, width)
}

// headingRoom sets tag, whose it is and the set-up in one row where they fit, and whose it is below them
// where they do not.
type headingRoom struct{}

// below reports whether whose it is goes below, and how high that is.
func (headingRoom) below(o []fyne.CanvasObject, width float32) (bool, float32) {
	tag, whose, setup := o[0].(*kit.Text), o[1].(*kit.Text), o[2].MinSize()
	need := fyne.MeasureText(whose.Text(), em(), fyne.TextStyle{}).Width + 5*em()
	need += fyne.MeasureText(tag.Text(), theme.Size(theme.SizeNameHeadingText), fyne.TextStyle{Bold: true}).Width
	return need+setup.Width > width, whose.HeightFor(width - 2*em())
}

func (headingRoom) row(o []fyne.CanvasObject) float32 {
	return max(o[0].(*kit.Text).HeightFor(1e6), o[2].MinSize().Height) + 0.6*em()
}

func (r headingRoom) heightFor(o []fyne.CanvasObject, width float32) float32 {
	if below, more := r.below(o, width); below {
		return r.row(o) + more
	}
	return r.row(o)
}

func (r headingRoom) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[2].MinSize().Width+8*em(), r.row(o))
}

func (r headingRoom) Layout(o []fyne.CanvasObject, size fyne.Size) {
	tag, whose, row, setup := o[0].(*kit.Text), o[1].(*kit.Text), r.row(o), o[2].MinSize()
	o[2].Resize(setup)
	o[2].Move(fyne.NewPos(size.Width-setup.Width-em()/2, (row-setup.Height)/2))
	w := fyne.MeasureText(tag.Text(), theme.Size(theme.SizeNameHeadingText), fyne.TextStyle{Bold: true}).Width + 1
	w = min(w, size.Width-setup.Width-2*em())
	tag.Resize(fyne.NewSize(w, tag.HeightFor(w)))
	tag.Move(fyne.NewPos(em(), (row-tag.HeightFor(w))/2))
	if below, more := r.below(o, size.Width); below {
		whose.Resize(fyne.NewSize(size.Width-2*em(), more))
		whose.Move(fyne.NewPos(em(), row-0.3*em()))
		return
	}
	room := size.Width - w - setup.Width - 4*em()
	whose.Resize(fyne.NewSize(room, whose.HeightFor(room)))
	whose.Move(fyne.NewPos(w+2.4*em(), (row-whose.HeightFor(room))/2+0.15*em()))
}

// firstFrame calls back once, after the first picture of the window was painted.
func firstFrame(done func()) fyne.CanvasObject {
	var once sync.Once
	r := canvas.NewRaster(func(w, h int) image.Image {
		once.Do(func() { fyne.Do(done) })
		return image.NewRGBA(image.Rect(0, 0, w, h))
	})
	r.SetMinSize(fyne.NewSize(1, 1))
	return r
}
