package pdf

import (
	"image/color"
	"math"

	"github.com/jung-kurt/gofpdf"
	"gonum.org/v1/plot/vg"
)

// mark is one thing that the layout did. A layout is made once and its marks are played, in order, to the
// PDF writer or to a drawing surface: what a screen shows is the page that prints.
//
// Coordinates are points of the page with y down; a drawing surface has y up from the lower edge.
type mark interface {
	print(to *printer)
	draw(c vg.Canvas, height float64)
}

// settled is a place or a length on a page, to a millionth of a point. A processor that multiplies and adds in one step ends
// a little elsewhere than one that rounds in between, and half a hundredth, on which many places lie, would print as the one or the other.
func settled(points float64) float64 { return math.Round(points*1e6) / 1e6 }

// opened is a new page, turned is going back to an earlier one. They order the marks and draw nothing.
type (
	opened struct{}
	turned struct{ page int }
)

func (opened) draw(vg.Canvas, float64) {}
func (turned) draw(vg.Canvas, float64) {}

func (opened) print(to *printer) {
	to.doc.AddPage()
	to.set = letters{}
}

func (t turned) print(to *printer) {
	to.doc.SetPage(t.page)
	to.set = letters{}
	// The writer knows what it filled with last, but not that it was on another page: black letters are set in whatever
	// the page that was turned to was filled with last.
	to.doc.SetFillColor(0, 0, 0)
}

// lettering is one line of letters. A line that is turned keeps the matrix it is turned by, y up.
type lettering struct {
	x, y float64
	set  letters
	rgb  [3]int
	line string // in the order of the page, see visual
	turn *gofpdf.TransformMatrix
}

func (l lettering) print(to *printer) {
	x, y := l.x, l.y
	if l.turn != nil {
		to.doc.TransformBegin()
		to.doc.Transform(*l.turn)
		// The page turns around its lower left corner; the letters stand at its origin.
		x, y = 0, to.height
		defer func() {
			to.doc.TransformEnd() // which also takes back the letters that were set since
			to.set = letters{}
		}()
	}
	if to.set != l.set {
		style := ""
		if l.set.bold {
			style = "B"
		}
		to.doc.SetFont("dejavu", style, l.set.size)
		to.set = l.set
	}
	to.doc.SetTextColor(l.rgb[0], l.rgb[1], l.rgb[2])
	to.doc.Text(settled(x), settled(y), l.line)
}

func (l lettering) draw(c vg.Canvas, height float64) {
	c.SetColor(shadeOf(l.rgb))
	if l.turn == nil {
		unkerned(c, l.set, l.x, height-l.y, l.line)
		return
	}
	c.Push()
	c.Translate(vg.Point{X: vg.Length(l.x), Y: vg.Length(height - l.y)})
	c.Rotate(math.Atan2(l.turn.B, l.turn.A))
	unkerned(c, l.set, 0, 0, l.line)
	c.Pop()
}

// rule is a straight line.
type rule struct {
	x1, y1, x2, y2, width float64
	shade                 grey
}

func (r rule) print(to *printer) {
	to.pen(r.width, r.shade)
	to.doc.Line(settled(r.x1), settled(r.y1), settled(r.x2), settled(r.y2))
}

func (r rule) draw(c vg.Canvas, height float64) {
	var p vg.Path
	p.Move(spot(r.x1, height-r.y1))
	p.Line(spot(r.x2, height-r.y2))
	inked(c, r.width, r.shade)
	c.Stroke(p)
}

// block is a rectangle, filled where it has no width of line.
type block struct {
	x, y, w, h, width float64
	shade             grey
}

func (b block) print(to *printer) {
	if b.width > 0 {
		to.pen(b.width, b.shade)
		to.doc.Rect(settled(b.x), settled(b.y), settled(b.w), settled(b.h), "D")
		return
	}
	to.doc.SetFillColor(int(b.shade), int(b.shade), int(b.shade))
	to.doc.Rect(settled(b.x), settled(b.y), settled(b.w), settled(b.h), "F")
}

func (b block) draw(c vg.Canvas, height float64) {
	top, foot := height-b.y, height-b.y-b.h
	var p vg.Path
	p.Move(spot(b.x, top))
	p.Line(spot(b.x+b.w, top))
	p.Line(spot(b.x+b.w, foot))
	p.Line(spot(b.x, foot))
	p.Close()
	inked(c, b.width, b.shade)
	if b.width > 0 {
		c.Stroke(p)
		return
	}
	c.Fill(p)
}

// shape is a path of a drawing, stroked or filled: moves, straight lines, cubic curves and ways back, on
// the page with y down.
type shape struct {
	path   vg.Path
	stroke bool
	width  float64
	dash   []float64
	offset float64
	rgb    [3]int
}

func (s shape) print(to *printer) {
	paint := "f"
	if s.stroke {
		paint = "S"
		to.doc.SetDashPattern(s.dash, s.offset)
		to.doc.SetDrawColor(s.rgb[0], s.rgb[1], s.rgb[2])
		to.doc.SetLineWidth(s.width)
	} else {
		to.doc.SetFillColor(s.rgb[0], s.rgb[1], s.rgb[2])
	}
	if len(s.path) == 0 {
		return
	}
	for _, c := range s.path {
		x, y := settled(float64(c.Pos.X)), settled(float64(c.Pos.Y))
		switch c.Type {
		case vg.MoveComp:
			to.doc.MoveTo(x, y)
		case vg.LineComp:
			to.doc.LineTo(x, y)
		case vg.CurveComp:
			a, b := c.Control[0], c.Control[1]
			to.doc.CurveBezierCubicTo(settled(float64(a.X)), settled(float64(a.Y)), settled(float64(b.X)), settled(float64(b.Y)), x, y)
		case vg.CloseComp:
			to.doc.ClosePath()
		}
	}
	to.doc.DrawPath(paint)
}

func (s shape) draw(c vg.Canvas, height float64) {
	up := func(p vg.Point) vg.Point { return vg.Point{X: p.X, Y: vg.Length(height) - p.Y} }
	path := make(vg.Path, len(s.path))
	for i, comp := range s.path {
		comp.Pos = up(comp.Pos)
		if comp.Type == vg.CurveComp {
			comp.Control = []vg.Point{up(comp.Control[0]), up(comp.Control[1])}
		}
		path[i] = comp
	}
	c.SetColor(shadeOf(s.rgb))
	if !s.stroke {
		c.Fill(path)
		return
	}
	dash := make([]vg.Length, len(s.dash))
	for i, d := range s.dash {
		dash[i] = vg.Length(d)
	}
	c.SetLineWidth(vg.Length(s.width))
	c.SetLineDash(dash, vg.Length(s.offset))
	c.Stroke(path)
}

func spot(x, y float64) vg.Point { return vg.Point{X: vg.Length(x), Y: vg.Length(y)} }

func shadeOf(rgb [3]int) color.Color {
	return color.RGBA{uint8(rgb[0]), uint8(rgb[1]), uint8(rgb[2]), 255}
}

// inked takes a whole line of a width in a shade.
func inked(c vg.Canvas, width float64, shade grey) {
	c.SetColor(color.Gray{uint8(shade)})
	c.SetLineWidth(vg.Length(width))
	c.SetLineDash(nil, 0)
}

// unkerned sets a line as the PDF writer sets it, which does not kern: surfaces that would move two
// letters together get them in two pieces.
func unkerned(c vg.Canvas, l letters, x, y float64, line string) {
	f := l.face()
	pitch, begun, from := newRuler(f.Face), 0, x
	last := rune(-1)
	for i, r := range line {
		if last >= 0 && pitch.kerned(last, r) {
			c.FillString(f, spot(from, y), line[begun:i])
			begun, from = i, x+pitch.width(line[:i])*l.size
		}
		last = r
	}
	c.FillString(f, spot(from, y), line[begun:])
}
