package pdf

import (
	"errors"
	"image"
	"image/color"
	"math"

	"github.com/jung-kurt/gofpdf"
	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// canvas is a vg.Canvas on a page. It keeps the transformations itself and hands the page finished
// coordinates; only turned letters are turned by the page. Letters stay letters.
type canvas struct {
	press *press
	path  vg.Path // that is being built
	now   pen
	stack []pen
}

// pen is the state that Push saves.
type pen struct {
	at     affine
	width  vg.Length
	dash   []vg.Length
	offset vg.Length
	rgb    [3]int
}

// affine is the transformation x' = a·x + c·y + e, y' = b·x + d·y + f onto the page, y down.
type affine struct{ a, b, c, d, e, f float64 }

// canvasAt returns a canvas whose origin is the point x, y of the page, with y running up from there.
func canvasAt(p *press, x, y float64) *canvas {
	return &canvas{press: p, now: pen{at: affine{1, 0, 0, -1, x, y}, width: 1}}
}

func (m affine) point(p vg.Point) (float64, float64) {
	x, y := float64(p.X), float64(p.Y)
	return m.a*x + m.c*y + m.e, m.b*x + m.d*y + m.f
}

// after returns the transformation that does n first, then m.
func (m affine) after(n affine) affine {
	return affine{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

// size is how much longer a line gets by the transformation, for line widths and letters.
func (m affine) size() float64 { return math.Sqrt(math.Abs(m.a*m.d - m.b*m.c)) }

func (c *canvas) SetLineWidth(w vg.Length) { c.now.width = w }

func (c *canvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	c.now.dash, c.now.offset = pattern, offset
}

// SetColor mixes what is not opaque with white, the paper: a page without transparency is read alike
// by every program.
func (c *canvas) SetColor(col color.Color) {
	if col == nil {
		col = color.Black
	}
	r, g, b, a := col.RGBA()
	rest := 0xFFFF - a
	c.now.rgb = [3]int{int(r+rest) >> 8, int(g+rest) >> 8, int(b+rest) >> 8}
}

func (c *canvas) Rotate(rad float64) {
	s, k := math.Sincos(rad)
	c.now.at = c.now.at.after(affine{k, s, -s, k, 0, 0})
}

func (c *canvas) Translate(pt vg.Point) {
	c.now.at = c.now.at.after(affine{1, 0, 0, 1, float64(pt.X), float64(pt.Y)})
}

func (c *canvas) Scale(x, y float64) { c.now.at = c.now.at.after(affine{x, 0, 0, y, 0, 0}) }

func (c *canvas) Push() { c.stack = append(c.stack, c.now) }

func (c *canvas) Pop() {
	if len(c.stack) == 0 {
		c.press.fail(errors.New("a drawing took back more states than it saved"))
		return
	}
	c.now = c.stack[len(c.stack)-1]
	c.stack = c.stack[:len(c.stack)-1]
}

func (c *canvas) Stroke(p vg.Path) {
	if c.now.width <= 0 {
		return
	}
	scale := c.now.at.size()
	dash := make([]float64, len(c.now.dash))
	for i, d := range c.now.dash {
		dash[i] = float64(d) * scale
	}
	c.put(p, shape{
		stroke: true, width: float64(c.now.width) * scale, dash: dash, offset: float64(c.now.offset) * scale,
	})
}

func (c *canvas) Fill(p vg.Path) { c.put(p, shape{}) }

// put puts a path on the page, painted as the shape says.
func (c *canvas) put(p vg.Path, s shape) {
	s.rgb = c.now.rgb
	c.path = nil
	begun := false
	var last vg.Point
	for _, part := range p {
		switch part.Type {
		case vg.MoveComp:
			c.move(part.Pos)
		case vg.LineComp:
			c.lineTo(part.Pos)
		case vg.ArcComp:
			c.arc(part, begun)
		case vg.CurveComp:
			c.curve(last, part)
		case vg.CloseComp:
			c.path.Close()
		}
		begun, last = part.Type != vg.CloseComp, part.Pos
	}
	s.path = c.path
	c.press.put(s)
}

func (c *canvas) move(p vg.Point) {
	if x, y := c.now.at.point(p); c.press.sound(x, y) {
		c.path.Move(spot(x, y))
	}
}

func (c *canvas) lineTo(p vg.Point) {
	if x, y := c.now.at.point(p); c.press.sound(x, y) {
		c.path.Line(spot(x, y))
	}
}

func (c *canvas) cubic(p1, p2, p vg.Point) {
	x1, y1 := c.now.at.point(p1)
	x2, y2 := c.now.at.point(p2)
	x, y := c.now.at.point(p)
	if c.press.sound(x1, y1, x2, y2, x, y) {
		c.path.CubeTo(spot(x1, y1), spot(x2, y2), spot(x, y))
	}
}

// curve draws a cubic curve, or a quadratic one as the cubic that lies on it.
func (c *canvas) curve(from vg.Point, part vg.PathComp) {
	switch len(part.Control) {
	case 1:
		third := func(p vg.Point) vg.Point { return p.Add(part.Control[0].Sub(p).Scale(2.0 / 3.0)) }
		c.cubic(third(from), third(part.Pos), part.Pos)
	case 2:
		c.cubic(part.Control[0], part.Control[1], part.Pos)
	}
}

// arc draws an arc as cubic curves of at most a quarter turn each, which are within 0.03 % of the radius.
func (c *canvas) arc(part vg.PathComp, begun bool) {
	on := func(angle float64) vg.Point {
		s, k := math.Sincos(angle)
		return vg.Point{X: part.Pos.X + part.Radius*vg.Length(k), Y: part.Pos.Y + part.Radius*vg.Length(s)}
	}
	if begun {
		c.lineTo(on(part.Start))
	} else {
		c.move(on(part.Start))
	}
	n := max(1, int(math.Ceil(math.Abs(part.Angle)/(math.Pi/2)-1e-9)))
	step := part.Angle / float64(n)
	reach := part.Radius * vg.Length(4.0/3.0*math.Tan(step/4))
	for i := range n {
		from := part.Start + float64(i)*step
		to := from + step
		a, b := on(from), on(to)
		sa, ka := math.Sincos(from)
		sb, kb := math.Sincos(to)
		c.cubic(
			vg.Point{X: a.X - reach*vg.Length(sa), Y: a.Y + reach*vg.Length(ka)},
			vg.Point{X: b.X + reach*vg.Length(sb), Y: b.Y - reach*vg.Length(kb)},
			b,
		)
	}
}

// FillString sets letters; a font is taken by its weight, since a page knows one typeface only.
func (c *canvas) FillString(f font.Face, pt vg.Point, text string) {
	if f.Font.Size == 0 || text == "" {
		return
	}
	m := c.now.at
	l := letters{bold: f.Font.Weight >= stdfont.WeightSemiBold, size: float64(f.Font.Size) * m.size()}
	x, y := m.point(pt)
	if !c.press.sound(x, y) {
		return
	}
	if m.b == 0 && m.c == 0 && m.a > 0 {
		c.press.shaded(x, y, l, c.now.rgb, text)
		return
	}
	// The page turns with y up.
	line, ok := c.press.fit(x, y, l, text)
	if !ok {
		return
	}
	scale := m.size()
	c.press.put(lettering{x: x, y: y, set: l, rgb: c.now.rgb, line: line, turn: &gofpdf.TransformMatrix{
		A: m.a / scale, B: -m.b / scale, C: m.c / scale, D: -m.d / scale, E: x, F: c.press.height - y,
	}})
}

// DrawImage is refused: a page holds no bitmaps, which would not come out in the same bytes each time.
func (c *canvas) DrawImage(vg.Rectangle, image.Image) {
	c.press.fail(errors.New("a drawing holds a bitmap"))
}
