package figure_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

func residuals(g evaluate.WeightGraph, w, h vg.Length) (texts []recorder.FillString, marks []vg.Point) {
	var c recorder.Canvas
	figure.NewResiduals(g, words(unit.Style{Length: unit.In})).Draw(&c, vg.Point{X: w, Y: h}, paper())
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.FillString:
			texts = append(texts, *a)
		case *recorder.Fill:
			marks = append(marks, middle(a.Path))
		}
	}
	return texts, marks
}

// middle is the middle of what a closed line goes around.
func middle(p vg.Path) vg.Point {
	const far = 1e9
	low, high := vg.Point{X: far, Y: far}, vg.Point{X: -far, Y: -far}
	for _, c := range p {
		for _, at := range append([]vg.Point{c.Pos}, c.Control...) {
			if c.Type == vg.ArcComp {
				low.X, low.Y = min(low.X, at.X-c.Radius), min(low.Y, at.Y-c.Radius)
				high.X, high.Y = max(high.X, at.X+c.Radius), max(high.Y, at.Y+c.Radius)
				continue
			}
			if c.Type != vg.CloseComp {
				low.X, low.Y, high.X, high.Y = min(low.X, at.X), min(low.Y, at.Y), max(high.X, at.X), max(high.Y, at.Y)
			}
		}
	}
	return vg.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
}

// Marks stand where the numbers of the scales say that they do: .5 lbf over at 100 lbf, .25 under at 200.
func TestResidualsStandOnTheirScales(t *testing.T) {
	g := evaluate.WeightGraph{Units: record.Units{Length: unit.In, Load: unit.Lbf}, All: []evaluate.Residual{
		{Applied: 100 * lbf, Left: lbf / 2, U: lbf / 4}, {Applied: 200 * lbf, Left: -lbf / 4, U: lbf / 4}, {Applied: 300 * lbf, Left: 0},
	}}
	texts, marks := residuals(g, 360, 200)
	number := func(text string) vg.Point {
		at := slices.IndexFunc(texts, func(f recorder.FillString) bool { return f.String == text })
		if at < 0 {
			t.Fatalf("no number %q in %v", text, texts)
		}
		return vg.Point{X: texts[at].Point.X + width(texts[at], text)/2, Y: texts[at].Point.Y}
	}
	if len(marks) != 3 {
		t.Fatalf("%d marks", len(marks))
	}
	for i, weight := range []string{"100", "200", "300"} {
		if d := marks[i].X - number(weight).X; d > 0.2 || d < -0.2 {
			t.Errorf("the mark of %s is %v off its number", weight, d)
		}
	}
	up, zero := marks[0].Y-marks[2].Y, marks[1].Y-marks[2].Y
	if up <= 0 || zero >= 0 || math.Abs(float64(up/zero)+2) > 0.01 {
		t.Errorf("they stand %v and %v off the line of nought", up, zero)
	}
	if scale := number("+0.4").Y - number("0").Y; math.Abs(float64(scale*1.25-up)) > 0.2 {
		t.Errorf(".5 lbf is %v on the scale and %v at its mark", scale, up)
	}
}

// All of them on the curve, one weight, and no room.
func TestResidualsAtTheEdges(t *testing.T) {
	units := record.Units{Length: unit.Mm, Load: unit.N}
	all := []evaluate.Residual{{Applied: 100_000}, {Applied: 200_000}}
	for _, n := range []int{1, 2} {
		texts, marks := residuals(evaluate.WeightGraph{Units: units, All: all[:n]}, 360, 200)
		if len(marks) != n || marks[0].Y != marks[n-1].Y {
			t.Errorf("%d weights: marks at %v", n, marks)
		}
		for _, f := range texts {
			if strings.Contains(f.String, "NaN") || strings.Contains(f.String, "Inf") {
				t.Errorf("says %q", f.String)
			}
		}
	}
	if texts, marks := residuals(evaluate.WeightGraph{Units: units, All: all}, 60, 40); len(marks) > 0 || len(texts) == 0 {
		t.Errorf("without room: %d marks, %d texts", len(marks), len(texts))
	}
}
