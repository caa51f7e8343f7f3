package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// CreateRenderer is the toolkit's.
func (s *Select) CreateRenderer() fyne.WidgetRenderer { return coloured(selectRenderer{s}) }

type selectRenderer struct{ s *Select }

func (r selectRenderer) Destroy() {}

func (r selectRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.s.label, r.s.below}
	for i := range r.s.cells {
		objects = append(objects, r.s.cells[i], r.s.words[i])
	}
	return append(objects, r.s.outline)
}

func (r selectRenderer) gap() float32   { return 0.8 * sizeOf(r.s, theme.SizeNamePadding) }
func (r selectRenderer) apart() float32 { return 1.8 * sizeOf(r.s, theme.SizeNamePadding) }
func (r selectRenderer) text() float32  { return 1.1 * sizeOf(r.s, theme.SizeNameText) }
func (r selectRenderer) cell() float32  { return 2.35 * sizeOf(r.s, theme.SizeNameText) }

// width of an option; measured bold, as it is drawn where it is chosen.
func (r selectRenderer) width(i int) float32 {
	return wide(r.s.options[i], r.text(), true) + 2.4*sizeOf(r.s, theme.SizeNameInnerPadding)
}

// place calls put for each option with its corner, and returns the height of all of them.
func (r selectRenderer) place(width float32, put func(i int, at fyne.Position)) float32 {
	x, y := float32(0), float32(0)
	for i := range r.s.options {
		w := r.width(i)
		if x > 0 && x+w > width+0.5 {
			x, y = 0, y+r.cell()+r.apart()
		}
		put(i, fyne.NewPos(x, y))
		x += w + r.apart()
	}
	return y + r.cell()
}

// HeightFor returns the height in toolkit units that the choice takes at a width.
func (s *Select) HeightFor(width float32) float32 {
	r := selectRenderer{s}
	height := s.label.HeightFor(width) + r.gap() + r.place(width, func(int, fyne.Position) {})
	if below := s.below.HeightFor(width); below > 0 {
		height += r.gap() + below
	}
	return height
}

func (s *Select) labelFor(width float32) float32 { return s.label.HeightFor(width) }

func (r selectRenderer) MinSize() fyne.Size {
	width := float32(0)
	for i := range r.s.options {
		width = max(width, r.width(i))
	}
	return fyne.NewSize(width, r.s.HeightFor(max(width, r.s.Size().Width)))
}

func (r selectRenderer) Layout(size fyne.Size) {
	s := r.s
	label := s.label.HeightFor(size.Width)
	put(s.label, fyne.NewPos(0, 0), fyne.NewSize(size.Width, label))
	top := label + r.gap()
	height := r.place(size.Width, func(i int, at fyne.Position) {
		at.Y += top
		put(s.cells[i], at, fyne.NewSize(r.width(i), r.cell()))
		text := wide(s.options[i], r.text(), s.words[i].TextStyle.Bold)
		put(s.words[i], at.AddXY((r.width(i)-text)/2, (r.cell()-lineOf(r.text()))/2), fyne.NewSize(text, lineOf(r.text())))
		if i == s.at {
			put(s.outline, at.SubtractXY(2.5, 2.5), fyne.NewSize(r.width(i)+5, r.cell()+5))
		}
	})
	put(s.below, fyne.NewPos(0, top+height+r.gap()), fyne.NewSize(size.Width, s.below.HeightFor(size.Width)))
}

// Refresh draws the marked option as paper on ink, and a frame round it where the keyboard is.
func (r selectRenderer) Refresh() {
	s := r.s
	p := palette(s)
	radius := sizeOf(s, theme.SizeNameInputRadius)
	for i := range s.cells {
		cell, word := s.cells[i], s.words[i]
		cell.FillColor, cell.StrokeColor, cell.StrokeWidth, cell.CornerRadius = p.Paper, p.Rule, 1, radius
		word.Color, word.TextSize, word.TextStyle.Bold = p.Ink, r.text(), i == s.at
		if i == s.at {
			cell.FillColor, cell.StrokeColor, word.Color = p.Ink, p.Ink, p.Paper
		}
	}
	s.outline.StrokeColor, s.outline.StrokeWidth, s.outline.CornerRadius = p.Ink, 0, radius+2
	if s.focused && s.at >= 0 {
		s.outline.StrokeWidth = 1.5
	}
	r.Layout(s.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
