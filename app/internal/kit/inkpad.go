package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// InkPad is paper to sign on with a pointer, a pen or a finger. Backspace takes the last stroke away, Delete all of them.
type InkPad struct {
	widget.BaseWidget
	Changed func() // may be nil

	wide, high int // of the paper in its own dots
	strokes    [][]image.Point
	down       bool
	still      bool // nothing can be drawn
	focused    bool
	shown      func(fyne.CanvasObject)
}

// NewInkPad returns paper that is so many dots wide and high, with nothing on it.
func NewInkPad(wide, high int) *InkPad {
	p := &InkPad{wide: wide, high: high}
	p.ExtendBaseWidget(p)
	return p
}

// Strokes returns what was drawn, in dots of the paper from its upper left corner.
func (p *InkPad) Strokes() [][]image.Point { return p.strokes }

// Set puts a drawing on the paper in the place of what is there.
func (p *InkPad) Set(strokes [][]image.Point) {
	p.strokes, p.down = strokes, false
	p.changed()
}

// Still makes a picture of the paper, which takes no pen any more.
func (p *InkPad) Still() { p.still = true }

func (p *InkPad) changed() {
	p.Refresh()
	if p.Changed != nil {
		p.Changed()
	}
}

// dotsApart is how far a dot is from the one before it at least, as a part of the paper's height: nearer ones make no line
// that anybody sees.
const dotsApart = 80

// touch takes where the pen is.
func (p *InkPad) touch(at fyne.Position) {
	size := p.Size()
	if size.Width <= 0 || size.Height <= 0 || p.still {
		return
	}
	dot := image.Pt(
		max(0, min(p.wide, int(at.X/size.Width*float32(p.wide)+0.5))),
		max(0, min(p.high, int(at.Y/size.Height*float32(p.high)+0.5))),
	)
	if !p.down {
		p.down, p.strokes = true, append(p.strokes, []image.Point{dot})
		p.changed()
		return
	}
	last := &p.strokes[len(p.strokes)-1]
	if d := dot.Sub((*last)[len(*last)-1]); d.X*d.X+d.Y*d.Y < (p.high/dotsApart)*(p.high/dotsApart) {
		return
	}
	*last = append(*last, dot)
	p.changed()
}

// MouseDown begins a stroke.
func (p *InkPad) MouseDown(e *desktop.MouseEvent) {
	step(p, func(c fyne.Canvas) { c.Focus(p) })
	if e.Button == desktop.MouseButtonPrimary {
		p.touch(e.Position)
	}
}

// MouseUp ends it.
func (p *InkPad) MouseUp(*desktop.MouseEvent) { p.down = false }

// Dragged goes on with a stroke, or begins one where a finger does.
func (p *InkPad) Dragged(e *fyne.DragEvent) { p.touch(e.Position) }

// DragEnd ends it.
func (p *InkPad) DragEnd() { p.down = false }

// Clear takes everything away.
func (p *InkPad) Clear() { p.Set(nil) }

// Back takes the last stroke away.
func (p *InkPad) Back() {
	if len(p.strokes) > 0 {
		p.Set(p.strokes[:len(p.strokes)-1])
	}
}

// FocusGained is the toolkit's.
func (p *InkPad) FocusGained() {
	p.focused = true
	p.Refresh()
	if p.shown != nil {
		p.shown(p)
	}
}

// FocusLost is the toolkit's.
func (p *InkPad) FocusLost() { p.focused = false; p.Refresh() }

// TypedRune is the toolkit's; nothing is typed on paper.
func (p *InkPad) TypedRune(rune) {}

// TypedKey takes strokes away, or goes on.
func (p *InkPad) TypedKey(e *fyne.KeyEvent) {
	if Wherever(p, e) {
		return
	}
	switch {
	case p.still:
	case e.Name == fyne.KeyBackspace:
		p.Back()
		return
	case e.Name == fyne.KeyDelete:
		p.Clear()
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown, fyne.KeyRight:
		step(p, fyne.Canvas.FocusNext)
	case fyne.KeyUp, fyne.KeyLeft:
		step(p, fyne.Canvas.FocusPrevious)
	}
}

func (p *InkPad) follow(reveal func(fyne.CanvasObject)) { p.shown = reveal }

// HeightFor keeps the paper's shape.
func (p *InkPad) HeightFor(width float32) float32 { return width * float32(p.high) / float32(p.wide) }

// MinSize is the toolkit's.
func (p *InkPad) MinSize() fyne.Size {
	w := 24 * theme.TextSize()
	return fyne.NewSize(w, p.HeightFor(w))
}

// CreateRenderer is the toolkit's.
func (p *InkPad) CreateRenderer() fyne.WidgetRenderer {
	r := &inkRenderer{pad: p, paper: canvas.NewRectangle(color.White), base: canvas.NewLine(color.Gray{0xa0})}
	r.paper.StrokeWidth = 1
	r.Refresh()
	return r
}

// inkRenderer draws the paper with its base line and the strokes. Paper is white and ink black in any light, as on the sheet.
type inkRenderer struct {
	pad   *InkPad
	paper *canvas.Rectangle
	base  *canvas.Line
	ink   []fyne.CanvasObject
}

func (r *inkRenderer) Destroy()           {}
func (r *inkRenderer) MinSize() fyne.Size { return r.pad.MinSize() }

func (r *inkRenderer) Layout(size fyne.Size) {
	r.paper.Resize(size)
	y, x := 0.86*size.Height, 0.02*size.Width
	r.base.Position1, r.base.Position2 = fyne.NewPos(x, y), fyne.NewPos(size.Width-x, y)
	r.draw(size)
}

func (r *inkRenderer) Refresh() {
	r.paper.StrokeColor, r.paper.StrokeWidth = theme.Color(theme.ColorNameForeground), 1
	if r.pad.focused {
		r.paper.StrokeColor, r.paper.StrokeWidth = theme.Color(theme.ColorNamePrimary), 3
	}
	r.draw(r.pad.Size())
	canvas.Refresh(r.pad)
}

// draw makes lines and the round ends between them.
func (r *inkRenderer) draw(size fyne.Size) {
	unit := size.Height / float32(r.pad.high)
	pen := max(40*unit, 1.5)
	at := func(d image.Point) fyne.Position { return fyne.NewPos(float32(d.X)*unit, float32(d.Y)*unit) }
	r.ink = r.ink[:0]
	for _, s := range r.pad.strokes {
		for i, d := range s {
			end := canvas.NewCircle(color.Black)
			end.Move(at(d).SubtractXY(pen/2, pen/2))
			end.Resize(fyne.NewSquareSize(pen))
			r.ink = append(r.ink, end)
			if i > 0 {
				line := canvas.NewLine(color.Black)
				line.StrokeWidth, line.Position1, line.Position2 = pen, at(s[i-1]), at(d)
				r.ink = append(r.ink, line)
			}
		}
	}
}

func (r *inkRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.paper, r.base}, r.ink...)
}
