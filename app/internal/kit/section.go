package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/figure"
)

const textName = theme.SizeNameText

// Drawing is what is drawn in the same way on the screen and on a page.
type Drawing interface {
	Draw(c vg.Canvas, size vg.Point, look figure.Look)
}

// Section shows a drawing under a title: the section of a valve's spring stack, the readings of a study.
type Section struct {
	widget.BaseWidget
	title   *Text
	picture *picture
	drawing Drawing
	some    bool
	// Full sets its letters as large as those of the window, whatever its size: it has few of them, and says itself where there is
	// no room. It may be set before it is shown.
	Full bool
}

// NewSection returns an empty section.
func NewSection() *Section {
	s := &Section{title: newText("", textName, true), picture: newPicture()}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows a drawing under a title.
func (s *Section) Set(drawing Drawing, title string) {
	s.drawing, s.some = drawing, true
	s.title.Set(title)
	s.Refresh()
}

// lettered returns the size of a drawing's text: as large as that of the window, unless the numbers would
// then leave no room for what they measure. It is never less than at 100 %. All in points.
func lettered(wanted vg.Length, picture vg.Point) vg.Length {
	least := pointsOf(size(theme.SizeNameCaptionText))
	return min(wanted, max(least, min(picture.X/46, picture.Y/28)))
}

// Clear shows nothing.
func (s *Section) Clear() {
	s.some = false
	s.title.Set("")
	s.Refresh()
}

// CreateRenderer is the toolkit's.
func (s *Section) CreateRenderer() fyne.WidgetRenderer { return coloured(sectionRenderer{s}) }

type sectionRenderer struct{ s *Section }

func (r sectionRenderer) Destroy() {}

func (r sectionRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.title, r.s.picture.raster}
}

// MinSize is room for the title. In a low window the table above needs the room more than the picture.
func (r sectionRenderer) MinSize() fyne.Size {
	return fyne.NewSize(ratio(r.s, 240), 2*lineOf(sizeOf(r.s, textName)))
}

func (r sectionRenderer) Layout(size fyne.Size) {
	s := r.s
	height := s.title.HeightFor(size.Width)
	put(s.title, fyne.NewPos(0, 0), fyne.NewSize(size.Width, height))
	if height > 0 {
		height += sizeOf(s, theme.SizeNamePadding)
	}
	put(s.picture.raster, fyne.NewPos(0, height), fyne.NewSize(size.Width, max(0, size.Height-height)))
}

func (r sectionRenderer) Refresh() {
	s := r.s
	p := palette(s)
	s.picture.ground, s.picture.draw = p.Paper, nil
	if s.some {
		wanted, drawing := pointsOf(sizeOf(s, theme.SizeNameCaptionText)), s.drawing
		letters := func(size vg.Point) vg.Length {
			if words, ok := drawing.(interface{ OnlyWords() bool }); s.Full || ok && words.OnlyWords() {
				return wanted
			}
			return lettered(wanted, size)
		}
		s.picture.draw = func(c vg.Canvas, size vg.Point) { drawing.Draw(c, size, p.look(letters(size))) }
	}
	r.Layout(s.Size())
	s.title.Refresh()
	canvas.Refresh(s.picture.raster)
}
