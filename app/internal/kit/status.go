package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Status is the bottom line: on the left one sentence, on the right, large, what to do next.
type Status struct {
	widget.BaseWidget
	left, next   *Text
	ground, rule *canvas.Rectangle
	width        float32
}

// NewStatus returns an empty bottom line.
func NewStatus() *Status {
	s := &Status{left: NewText(""), next: newText("", sizeLarge, true)}
	s.next.right = true
	s.ground, s.rule = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	s.ExtendBaseWidget(s)
	return s
}

// Set says how things stand and what is next.
func (s *Status) Set(left, next string) {
	if s.left.text == left && s.next.text == next {
		return
	}
	s.left.text, s.next.text = left, next
	s.Refresh()
}

// Tell changes only the sentence on the left.
func (s *Status) Tell(left string) { s.Set(left, s.next.text) }

// Says returns what stands on the left and on the right.
func (s *Status) Says() (left, next string) { return s.left.text, s.next.text }

// CreateRenderer is the toolkit's.
func (s *Status) CreateRenderer() fyne.WidgetRenderer { return coloured(statusRenderer{s}) }

type statusRenderer struct{ s *Status }

func (r statusRenderer) Destroy() {}

func (r statusRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.ground, r.s.rule, r.s.left, r.s.next}
}

func (r statusRenderer) pad() float32 { return 2.4 * sizeOf(r.s, theme.SizeNamePadding) }

// share returns the widths of the two sides. What is next comes first; a long sentence wraps.
func (r statusRenderer) share(width float32) (left, next float32) {
	inner := width - 3*r.pad()
	next = min(wide(r.s.next.text, r.s.next.points(), true)+1, 0.6*inner)
	return inner - next, next
}

// HeightFor returns the height in toolkit units that the line takes at a width.
func (s *Status) HeightFor(width float32) float32 {
	r := statusRenderer{s}
	left, next := r.share(width)
	// Empty, it keeps its height, so that the window does not jump.
	text := max(s.left.HeightFor(left), s.next.HeightFor(next), lineOf(s.next.points()))
	return text + 1.2*r.pad()
}

func (r statusRenderer) MinSize() fyne.Size {
	least := ratio(r.s, 320)
	return fyne.NewSize(least, r.s.HeightFor(max(least, widthOf(r.s, r.s.width))))
}

func (r statusRenderer) Layout(size fyne.Size) {
	s := r.s
	s.width = size.Width
	put(s.ground, fyne.NewPos(0, 0), size)
	put(s.rule, fyne.NewPos(0, 0), fyne.NewSize(size.Width, 1))
	left, next := r.share(size.Width)
	height := s.left.HeightFor(left)
	put(s.left, fyne.NewPos(r.pad(), (size.Height-height)/2), fyne.NewSize(left, height))
	height = s.next.HeightFor(next)
	put(s.next, fyne.NewPos(size.Width-r.pad()-next, (size.Height-height)/2), fyne.NewSize(next, height))
}

func (r statusRenderer) Refresh() {
	p := palette(r.s)
	r.s.ground.FillColor, r.s.rule.FillColor = p.Raised, p.Rule
	r.Layout(r.s.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
