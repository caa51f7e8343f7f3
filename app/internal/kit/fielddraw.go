package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// CreateRenderer is the toolkit's.
func (f *Field) CreateRenderer() fyne.WidgetRenderer { return coloured(fieldRenderer{f}) }

// fieldRenderer sets label, text and note one under the other.
type fieldRenderer struct{ f *Field }

func (r fieldRenderer) Destroy() {}

func (r fieldRenderer) Objects() []fyne.CanvasObject {
	f := r.f
	return []fyne.CanvasObject{f.label, f.holder, f.unit, f.frame, f.below}
}

func (r fieldRenderer) gap() float32 { return 0.8 * sizeOf(r.f, theme.SizeNamePadding) }

// box is the height of the text with its frame.
func (r fieldRenderer) box() float32 {
	height := r.f.holder.MinSize().Height
	if r.f.entry.MultiLine {
		height = max(height, 4.4*lineOf(sizeOf(r.f, sizeLarge)))
	}
	return height
}

func (r fieldRenderer) MinSize() fyne.Size {
	f := r.f
	width := 7 * sizeOf(f, sizeLarge)
	if f.Unit != "" {
		width += r.unit()
	}
	return fyne.NewSize(width, f.HeightFor(max(width, f.Size().Width)))
}

// unit is the width that the unit takes beside the text.
func (r fieldRenderer) unit() float32 {
	if r.f.Unit == "" {
		return 0
	}
	return wide(r.f.Unit, r.f.unit.points(), false) + 1.5*sizeOf(r.f, theme.SizeNameInnerPadding)
}

// HeightFor returns the height in toolkit units that the field takes at a width. The line for what was
// understood is kept free in a field that understands, so that nothing jumps while it is typed.
func (f *Field) HeightFor(width float32) float32 {
	r := fieldRenderer{f}
	height := f.label.HeightFor(width) + r.gap() + r.box()
	below := f.below.heightAs(f.note(), f.refused, width)
	if f.Understand != nil {
		below = max(below, lineOf(f.below.points()))
	}
	if below > 0 {
		height += r.gap() + below
	}
	return height
}

func (f *Field) labelFor(width float32) float32 { return f.label.HeightFor(width) }

func (r fieldRenderer) Layout(size fyne.Size) {
	f := r.f
	label := f.label.HeightFor(size.Width)
	put(f.label, fyne.NewPos(0, 0), fyne.NewSize(size.Width, label))
	y := label + r.gap()
	box := fyne.NewSize(size.Width-r.unit(), r.box())
	// The toolkit's entry keeps the width of its border free around it.
	edge := sizeOf(f, theme.SizeNameInputBorder)
	put(f.holder, fyne.NewPos(-edge, y-edge), box.AddWidthHeight(2*edge, 2*edge))
	put(f.frame, fyne.NewPos(0, y), box)
	put(f.unit, fyne.NewPos(box.Width+0.7*sizeOf(f, theme.SizeNameInnerPadding), y+(box.Height-lineOf(f.unit.points()))/2),
		fyne.NewSize(r.unit(), lineOf(f.unit.points())))
	y += box.Height + r.gap()
	put(f.below, fyne.NewPos(0, y), fyne.NewSize(size.Width, f.below.HeightFor(size.Width)))
}

// Refresh draws the field as it is now. A refusal is a heavy frame and a bold sentence.
func (r fieldRenderer) Refresh() {
	f := r.f
	p := palette(f)
	f.unit.Set(f.Unit)
	f.below.text, f.below.bold = f.note(), f.refused
	f.below.tone = theme.ColorNamePlaceHolder
	f.frame.StrokeWidth = 0
	if f.refused {
		f.below.tone = theme.ColorNameForeground
		f.frame.StrokeColor, f.frame.StrokeWidth, f.frame.CornerRadius = p.Ink, 3, sizeOf(f, theme.SizeNameInputRadius)
	}
	r.Layout(f.Size())
	// The theme around the entry follows the window's. To refresh it too would have the toolkit forget what it
	// measured so far, of everything.
	for _, o := range []fyne.CanvasObject{f.label, f.entry, f.unit, f.frame, f.below} {
		o.Refresh()
	}
}
