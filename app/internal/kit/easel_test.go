package kit

import (
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/face"
)

// black returns how much ink is on an easel, in whole pixels.
func (e *easel) black() (sum float64) {
	for i := 0; i < len(e.image.Pix); i += 4 {
		sum += float64(255-e.image.Pix[i]) / 255
	}
	return sum
}

// reach returns the outermost columns and rows with ink.
func (e *easel) reach() (left, top, right, bottom int) {
	left, top, right, bottom = math.MaxInt, math.MaxInt, -1, -1
	b := e.image.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			if e.image.RGBAAt(x, y).R < 128 {
				left, top, right, bottom = min(left, x), min(top, y), max(right, x), max(bottom, y)
			}
		}
	}
	return left, top, right, bottom
}

func box(x, y, w, h vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: x, Y: y})
	p.Line(vg.Point{X: x + w, Y: y})
	p.Line(vg.Point{X: x + w, Y: y + h})
	p.Line(vg.Point{X: x, Y: y + h})
	p.Close()
	return p
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s: got %.2f, want %.2f ± %.2f", what, got, want, within)
	}
}

// Areas and lengths are those of geometry, in pixels at two to the point.
func TestEaselAreas(t *testing.T) {
	for _, tt := range []struct {
		name         string
		draw         func(*easel)
		want, within float64
	}{
		{"rectangle", func(e *easel) { e.Fill(box(10, 10, 20, 30)) }, 40 * 60, 0.5},
		{"rectangle across the edge", func(e *easel) { e.Fill(box(-10, -10, 20, 20)) }, 20 * 20, 0.5},
		{"nothing outside", func(e *easel) { e.Fill(box(400, 400, 20, 20)) }, 0, 0},
		{"disc", func(e *easel) {
			var p vg.Path
			p.Move(vg.Point{X: 80, Y: 50})
			p.Arc(vg.Point{X: 50, Y: 50}, 30, 0, 2*math.Pi)
			p.Close()
			e.Fill(p)
		}, math.Pi * 60 * 60, 20},
		{"cubic half disc", func(e *easel) {
			// Two quarter circles by cubics with handles of .5523 of the radius; common practice, from memory.
			const k = 0.5523 * 30
			var p vg.Path
			p.Move(vg.Point{X: 20, Y: 50})
			p.CubeTo(vg.Point{X: 20, Y: 50 + k}, vg.Point{X: 50 - k, Y: 80}, vg.Point{X: 50, Y: 80})
			p.CubeTo(vg.Point{X: 50 + k, Y: 80}, vg.Point{X: 80, Y: 50 + k}, vg.Point{X: 80, Y: 50})
			p.Close()
			e.Fill(p)
		}, math.Pi * 60 * 60 / 2, 20},
		{"quadratic segment", func(e *easel) {
			// A parabola's segment has two thirds of the triangle of its tangents (Archimedes).
			var p vg.Path
			p.Move(vg.Point{X: 10, Y: 10})
			p.QuadTo(vg.Point{X: 50, Y: 90}, vg.Point{X: 90, Y: 10})
			p.Close()
			e.Fill(p)
		}, 2. / 3 * (160 * 160 / 2), 20},
		{"line", func(e *easel) {
			e.SetLineWidth(3)
			e.Stroke(vg.Path{{Type: vg.MoveComp, Pos: vg.Point{X: 10, Y: 20}}, {Type: vg.LineComp, Pos: vg.Point{X: 60, Y: 20}}})
		}, 100 * 6, 0.5},
		{"closed line", func(e *easel) {
			e.SetLineWidth(2)
			e.Stroke(box(20, 20, 40, 40)) // four sides of 80, the corners outside them rounded: a disc of radius 2 less their quarters inside
		}, 4*80*4 - 4*4 + math.Pi*4, 3},
		{"dashes", func(e *easel) {
			e.SetLineWidth(2)
			e.SetLineDash([]vg.Length{6, 4}, 0)
			e.Stroke(vg.Path{{Type: vg.MoveComp, Pos: vg.Point{X: 10, Y: 20}}, {Type: vg.LineComp, Pos: vg.Point{X: 90, Y: 20}}})
		}, 8 * 12 * 4, 1},
		{"dashes that begin later", func(e *easel) {
			e.SetLineWidth(2)
			e.SetLineDash([]vg.Length{6, 4}, 6) // a gap first: 4 off, then seven of 6 with 4 between, 6 left over for the eighth
			e.Stroke(vg.Path{{Type: vg.MoveComp, Pos: vg.Point{X: 10, Y: 20}}, {Type: vg.LineComp, Pos: vg.Point{X: 90, Y: 20}}})
		}, 8 * 12 * 4, 1},
		{"a hair is still seen", func(e *easel) {
			e.SetLineWidth(0.01)
			e.Stroke(vg.Path{{Type: vg.MoveComp, Pos: vg.Point{X: 10, Y: 20}}, {Type: vg.LineComp, Pos: vg.Point{X: 60, Y: 20}}})
		}, 100 * thinnest, 0.5},
		{"a line of no width is not drawn", func(e *easel) {
			e.SetLineWidth(0)
			e.Stroke(box(10, 10, 20, 20))
		}, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := newEasel(200, 200, 2, color.White)
			e.SetColor(nil)
			tt.draw(e)
			near(t, "ink", e.black(), tt.want, tt.within)
		})
	}
}

// The origin is at the lower left, and turning, moving and stretching go one after the other.
func TestEaselPlaces(t *testing.T) {
	for _, tt := range []struct {
		name                     string
		draw                     func(*easel)
		left, top, right, bottom int
	}{
		{"lower left", func(e *easel) { e.Fill(box(0, 0, 10, 10)) }, 0, 180, 19, 199},
		{"moved", func(e *easel) { e.Translate(vg.Point{X: 20, Y: 30}); e.Fill(box(0, 0, 10, 10)) }, 40, 120, 59, 139},
		{"turned left", func(e *easel) {
			e.Translate(vg.Point{X: 50, Y: 50})
			e.Rotate(math.Pi / 2)
			e.Fill(box(0, 0, 20, 10))
		}, 80, 60, 99, 99},
		{"stretched", func(e *easel) { e.Scale(2, 3); e.Fill(box(0, 0, 10, 10)) }, 0, 140, 39, 199},
		{"brought back", func(e *easel) {
			e.Push()
			e.Translate(vg.Point{X: 20, Y: 30})
			e.SetColor(color.White)
			e.Pop()
			e.Fill(box(0, 0, 10, 10))
		}, 0, 180, 19, 199},
		{"an image", func(e *easel) {
			from := newEasel(4, 8, 1, color.Black)
			e.DrawImage(vg.Rectangle{Min: vg.Point{X: 10, Y: 10}, Max: vg.Point{X: 30, Y: 50}}, from.image)
		}, 20, 100, 59, 179},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := newEasel(200, 200, 2, color.White)
			tt.draw(e)
			left, top, right, bottom := e.reach()
			if left != tt.left || top != tt.top || right != tt.right || bottom != tt.bottom {
				t.Errorf("ink from %d, %d to %d, %d; want %d, %d to %d, %d", left, top, right, bottom, tt.left, tt.top, tt.right, tt.bottom)
			}
		})
	}
}

// Letters stand on their line and take the width that the layout was told they take.
func TestEaselLetters(t *testing.T) {
	f := face.Regular(40)
	e := newEasel(600, 200, 2, color.White)
	const text = "H1H" // letters with a round foot hang a little below the line
	e.FillString(f, vg.Point{X: 20, Y: 30}, text)
	left, top, right, bottom := e.reach()
	// An H has room of its own left and right, about a tenth of the size.
	near(t, "width", float64(right-left+1), 2*float64(f.Width(text)), 18)
	if bottom != 199-60 {
		t.Errorf("the letters stand on row %d, want %d", bottom, 199-60)
	}
	// Capitals of this face are .729 of the size high; from the font's own table.
	near(t, "height", float64(bottom-top+1), 0.729*80, 2)

	t.Run("an unknown sign and no size leave the rest alone", func(t *testing.T) {
		e := newEasel(100, 100, 1, color.White)
		e.FillString(face.Regular(0), vg.Point{X: 10, Y: 10}, "H")
		if got := e.black(); got != 0 {
			t.Errorf("%.1f pixels of ink", got)
		}
	})
	t.Run("upright text keeps its ink when turned", func(t *testing.T) {
		flat, turned := newEasel(300, 300, 1, color.White), newEasel(300, 300, 1, color.White)
		flat.FillString(f, vg.Point{X: 50, Y: 100}, "1.842")
		turned.Translate(vg.Point{X: 150, Y: 50})
		turned.Rotate(math.Pi / 2)
		turned.FillString(f, vg.Point{}, "1.842")
		near(t, "ink", turned.black(), flat.black(), 0.01*flat.black())
	})
}

func BenchmarkEaselLetters(b *testing.B) {
	e := newEasel(900, 700, 1.33, color.White)
	f := face.Regular(9)
	for b.Loop() {
		e.FillString(f, vg.Point{X: 20, Y: 30}, "installed height 1.812")
	}
}
