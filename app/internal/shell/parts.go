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

// newPanel is the room of the register at the left, with a rule at its edge.
func newPanel(content fyne.CanvasObject) fyne.CanvasObject {
	inner := container.NewPadded(content)
	return container.NewBorder(nil, nil, nil, widget.NewSeparator(), container.New(&fixed{em: 24}, inner))
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
	tag    *widget.Label
	whose  *widget.Label
	setup  *widget.Button
	object fyne.CanvasObject
}

func newHeading(s *Shell) *heading {
	h := &heading{shell: s, tag: widget.NewLabel(""), whose: widget.NewLabel(""), setup: widget.NewButton("", s.ChooseSetup)}
	h.tag.TextStyle, h.tag.SizeName = fyne.TextStyle{Bold: true}, theme.SizeNameHeadingText
	h.whose.Truncation = fyne.TextTruncateEllipsis
	h.setup.Importance = widget.LowImportance
	h.object = container.NewBorder(nil, nil, h.tag, container.NewCenter(h.setup), container.New(&level{}, h.whose))
	h.refresh()
	return h
}

func (h *heading) refresh() {
	d := h.shell.presenter.Heading()
	h.tag.SetText(d.Tag)
	h.whose.SetText(strings.Join(d.Whose, " · "))
	h.setup.SetText(h.shell.printer().Line(d.Setup) + "  ▾")
}

// level puts one object at half height, as wide as its room.
type level struct{}

func (*level) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

func (*level) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	h := objects[0].MinSize().Height
	objects[0].Resize(fyne.NewSize(size.Width, h))
	objects[0].Move(fyne.NewPos(0, (size.Height-h)/2))
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
