package figure_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

const lbf = unit.Load(4448)

// straight is the graph of an invented spring of 400 lbf/in: 120 lbf at 1.900 in, read by a tester down to 1.200 in,
// drawn on to 1.150 in, solid at 1.100 in.
func straight() evaluate.LoadGraph {
	g := evaluate.LoadGraph{
		Of: say.New("bind.of-type", "A"), Units: record.Units{Length: unit.In, Load: unit.Lbf},
		Bind: evaluate.Bound{Known: true, Height: thou(1100)},
	}
	for h := 1150.0; h <= 1900; h += 10 {
		p := evaluate.GraphPoint{Height: thou(h), Load: lbf * unit.Load(120+0.4*(1900-h)), Beyond: h < 1200}
		g.All.Points = append(g.All.Points, p)
		if int(h)%100 == 0 {
			g.All.Tested = append(g.All.Tested, p)
		}
	}
	at := func(h float64) evaluate.GraphMark {
		return evaluate.GraphMark{Height: thou(h), Load: evaluate.Load{Known: true, Value: lbf * unit.Load(120+0.4*(1900-h))}}
	}
	g.Seat, g.Open = at(1850), at(1250)
	g.Seat.Least, g.Seat.Most = 130*lbf, 150*lbf
	return g
}

// plotted is what was drawn, with the dash of each line.
type plotted struct {
	drawing
	dashes [][]vg.Length
}

func loadCurve(g evaluate.LoadGraph, w, h vg.Length) (d plotted) {
	var c recorder.Canvas
	words := words(unit.Style{Length: g.Units.Length})
	figure.NewLoadCurve(g, words).Draw(&c, vg.Point{X: w, Y: h}, paper())
	var dash []vg.Length
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.SetLineDash:
			dash = a.Dashes
		case *recorder.Stroke:
			d.lines, d.dashes = append(d.lines, a.Path), append(d.dashes, dash)
		case *recorder.Fill:
			d.fills = append(d.fills, a.Path)
		case *recorder.FillString:
			d.texts = append(d.texts, *a)
		}
	}
	return d
}

// width is that of a text in its letters.
func width(f recorder.FillString, text string) vg.Length {
	face := paper().Regular
	if f.Font.Weight != face.Font.Weight {
		face = paper().Bold
	}
	face.Font.Size = f.Font.Size
	return face.Width(text)
}

// spot is where the middle of a number of a scale stands.
func (d plotted) spot(t *testing.T, number string) vg.Point {
	t.Helper()
	for _, f := range d.texts {
		if f.String == number {
			return vg.Point{X: f.Point.X + width(f, number)/2, Y: f.Point.Y + 0.36*9}
		}
	}
	t.Fatalf("%s stands nowhere", number)
	return vg.Point{}
}

// Closed and open stand where both scales say that they are, read off the numbers that are printed.
func TestLoadCurveStandsOnItsScales(t *testing.T) {
	d := loadCurve(straight(), 520, 220)
	tall, short := d.spot(t, "1.8"), d.spot(t, "1.3")
	low, high := d.spot(t, "100"), d.spot(t, "300")
	marks := d.middles(0)
	if len(marks) != 2 {
		t.Fatalf("%d marks, want closed and open", len(marks))
	}
	for i, want := range []struct{ height, load float64 }{{1.850, 140}, {1.250, 380}} {
		x := float64(tall.X) + float64(short.X-tall.X)*(1.8-want.height)/0.5
		y := float64(low.Y) + float64(high.Y-low.Y)*(want.load-100)/200
		if math.Abs(float64(marks[i].X)-x) > 0.5 || math.Abs(float64(marks[i].Y)-y) > 0.5 {
			t.Errorf("mark %d stands at %v, its numbers at %.1f, %.1f", i, marks[i], x, y)
		}
	}
}

// The line is whole between the tester's points and dashed beyond them, and only there.
func TestLoadCurveIsDashedBeyond(t *testing.T) {
	d := loadCurve(straight(), 520, 220)
	short := d.spot(t, "1.2").X
	whole, dashed := 0, 0
	for i, l := range d.lines {
		if len(l) < 3 {
			continue // scales, crosses, brackets
		}
		for _, c := range l {
			switch beyond := c.Pos.X > short+0.5; {
			case len(d.dashes[i]) > 0:
				dashed++
				if c.Pos.X < short-0.5 {
					t.Errorf("dashed at %v, where the tester read", c.Pos)
				}
			case c.Type != vg.ArcComp && beyond && c.Pos.X < short+12 && len(l) > 10:
				t.Errorf("whole at %v, where nobody read", c.Pos)
			default:
				whole++
			}
		}
	}
	if whole == 0 || dashed == 0 || !d.says("Dashed: beyond the tester's points.") {
		t.Errorf("%d whole, %d dashed", whole, dashed)
	}
	g := straight()
	g.All.Points = slices.DeleteFunc(g.All.Points, func(p evaluate.GraphPoint) bool { return p.Beyond })
	if d := loadCurve(g, 520, 220); d.says("Dashed: beyond the tester's points.") {
		t.Error("nothing is beyond, and it is said all the same")
	}
}

// Nothing runs out of the picture, on paper as in a narrow window, and no two texts lie on each other.
func TestLoadCurveKeepsToItsRoom(t *testing.T) {
	for _, size := range []vg.Point{{X: 520, Y: 200}, {X: 420, Y: 190}} {
		d := loadCurve(straight(), size.X, size.Y)
		for i, f := range d.texts {
			x, w := f.Point.X, width(f, f.String)
			if x < -0.1 || x+w > size.X+0.1 || f.Point.Y < -0.1 || f.Point.Y > size.Y {
				t.Errorf("%q runs out of %v at %v", f.String, size, f.Point)
			}
			for _, o := range d.texts[i+1:] {
				apart := x+w <= o.Point.X || o.Point.X+width(o, o.String) <= x || math.Abs(float64(f.Point.Y-o.Point.Y)) >= 8
				if !apart {
					t.Errorf("%q lies on %q", f.String, o.String)
				}
			}
		}
		for _, l := range d.lines {
			for _, c := range l {
				if c.Pos.X < -0.1 || c.Pos.X > size.X+0.1 || c.Pos.Y < -0.1 || c.Pos.Y > size.Y+0.1 {
					t.Errorf("a line runs out of %v at %v", size, c.Pos)
				}
			}
		}
	}
	if d := loadCurve(straight(), 60, 30); len(d.texts) == 0 || len(d.lines) > 0 {
		t.Error("where there is no room, that is not said")
	}
}
