package figure_test

import (
	"fmt"
	"image/color"
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

// trial is a study of invented readings in thousandths, by people in turn; those in struck were struck.
func trial(people int, struck []int, thousandths ...float64) *record.Study {
	s := &record.Study{ID: "study", What: "one valve", Unit: unit.In}
	for i, n := range thousandths {
		r := record.StudyReading{By: string(rune('A' + i%people)), Quantity: unit.Worked(thou(n), unit.In, 4)}
		if slices.Contains(struck, i) {
			r.Struck = &record.Strike{Reason: "slipped"}
		}
		s.Readings = append(s.Readings, r)
	}
	return s
}

func spread(s *record.Study, w, h vg.Length) drawing {
	var c recorder.Canvas
	figure.NewSpread(evaluate.StudyOf(s), words(unit.Style{Length: s.Unit})).Draw(&c, vg.Point{X: w, Y: h}, paper())
	var d drawing
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.Stroke:
			d.lines = append(d.lines, a.Path)
		case *recorder.Fill:
			d.fills = append(d.fills, a.Path)
		case *recorder.FillString:
			d.texts = append(d.texts, *a)
		case *recorder.SetColor:
			d.colours = append(d.colours, a.Color)
		}
	}
	return d
}

// middles are the middles of marks of one outline, by the number of its corners; 0 is round.
func (d drawing) middles(corners int) (all []vg.Point) {
	for _, p := range d.fills {
		low, high, n, round := vg.Point{X: 1e9, Y: 1e9}, vg.Point{X: -1e9, Y: -1e9}, 0, false
		see := func(q vg.Point) {
			low, high = vg.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}, vg.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
		}
		for _, c := range p {
			switch c.Type {
			case vg.MoveComp, vg.LineComp:
				n++
				see(c.Pos)
			case vg.ArcComp:
				round = true
				low, high = c.Pos, c.Pos
			}
		}
		if round && corners == 0 || !round && n == corners {
			all = append(all, vg.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2})
		}
	}
	return all
}

// height reads the scale beside the drawing: where a length stands on the canvas.
func (d drawing) height(t *testing.T, l unit.Length) float64 {
	t.Helper()
	var at []float64
	var of []unit.Length
	for _, f := range d.texts {
		if q, err := unit.Of("0"+strings.TrimPrefix(f.String, "1"), unit.In); err == nil && strings.HasPrefix(f.String, "1.8") {
			at, of = append(at, float64(f.Point.Y)), append(of, unit.Inch+q.Length())
		}
	}
	if len(at) < 2 {
		t.Fatal("the scale has no two numbers")
	}
	last := len(at) - 1
	return at[0] + (at[last]-at[0])*float64(l-of[0])/float64(of[last]-of[0])
}

// The lines stand where the scale says that mean and mean ± s are. By hand: 2, 4, 3, 3 over 1.840 have the
// mean 3 and s = √(2/3).
func TestSpreadStandsOnItsScale(t *testing.T) {
	d := spread(trial(1, nil, 1842, 1844, 1843, 1843), 500, 300)
	middle := 0.36 * 9 // text stands on its line, and the number's middle is on the mark
	mean, s := thou(1843), unit.Length(math.Round(math.Sqrt(2.0/3)*float64(unit.Thou)))
	for name, l := range map[string]unit.Length{"mean": mean, "mean + s": mean + s, "mean − s": mean - s} {
		want := d.height(t, l) + middle
		found := slices.ContainsFunc(d.lines, func(p vg.Path) bool {
			return len(p) == 2 && p[0].Pos.Y == p[1].Pos.Y && math.Abs(float64(p[0].Pos.Y)-want) < 0.05 && p[1].Pos.X-p[0].Pos.X > 300
		})
		if !found || !d.says(name) {
			t.Errorf("no line for %s at %.1f", name, want)
		}
	}
}

// Everybody has a mark of an outline of their own, in the key, at every reading, and at their mean; the
// readings stand in their order from left to right.
func TestSpreadByShape(t *testing.T) {
	d := spread(trial(3, nil, 1842, 1843, 1844, 1842, 1843, 1845, 1841, 1844, 1844), 600, 300)
	for who, corners := range map[string]int{"A": 0, "C": 3} {
		marks := d.middles(corners)
		if len(marks) != 5 {
			t.Errorf("%s has %d marks, want three readings, one in the key and one for the mean", who, len(marks))
		}
	}
	if boxes := d.middles(4); len(boxes) < 5 {
		t.Errorf("B has %d marks", len(boxes))
	}
	round := d.middles(0)[2:]
	if !slices.IsSortedFunc(round, func(a, b vg.Point) int { return int(a.X - b.X) }) {
		t.Errorf("the readings of A stand at %v", round)
	}
	for _, want := range []string{"A, mean 1.84167", "B, mean 1.84333", "C, mean 1.84433"} {
		if !d.says(want) {
			t.Errorf("the key lacks %q", want)
		}
	}
}

// A struck reading is there, pale and crossed through, and counts in no line; an outlying one has its number.
func TestSpreadOfWhatIsDoubtful(t *testing.T) {
	readings := []float64{1842, 1843, 1842, 1842, 1841, 1842, 1843, 1842, 1862}
	d := spread(trial(1, nil, readings...), 500, 300)
	bold := slices.ContainsFunc(d.texts, func(f recorder.FillString) bool {
		return f.String == "9" && f.Font.Weight == paper().Bold.Font.Weight
	})
	if !bold {
		t.Error("the outlying reading has no number")
	}
	struck := spread(trial(1, []int{8}, readings...), 500, 300)
	if n := len(struck.middles(0)); n != 10 {
		t.Errorf("%d marks with the one in the key, want 10", n)
	}
	slashed := slices.ContainsFunc(struck.lines, func(p vg.Path) bool {
		return len(p) == 2 && p[0].Pos.X < p[1].Pos.X && p[0].Pos.Y < p[1].Pos.Y
	})
	if !slashed || !struck.says("A, mean 1.84212") {
		t.Error("the struck reading is not crossed through, or counts")
	}
}

func trials() map[string]*record.Study {
	long := make([]float64, 120)
	for i := range long {
		long[i] = 1842 + float64(i%7)
	}
	return map[string]*record.Study{
		"none": trial(1, nil), "one": trial(1, nil, 1842), "all struck": trial(1, []int{0, 1}, 1842, 1850),
		"the same": trial(1, nil, 1842, 1842, 1842), "nine people": trial(9, []int{4}, long[:30]...), "long": trial(3, nil, long...),
		"far apart": trial(2, nil, 1, 9000, 2, 9001),
	}
}

func TestSpreadIsInsideTheFrame(t *testing.T) {
	for name, s := range trials() {
		for _, size := range []vg.Point{{X: 523, Y: 300}, {X: 420, Y: 220}, {X: 900, Y: 500}} {
			d := spread(s, size.X, size.Y)
			inside := func(what string, q vg.Point) {
				if q.X < -0.5 || q.Y < -0.5 || q.X > size.X+0.5 || q.Y > size.Y+0.5 {
					t.Errorf("%s at %.0f × %.0f: %s at %.1f, %.1f", name, size.X, size.Y, what, q.X, q.Y)
				}
			}
			for _, path := range append(slices.Clone(d.lines), d.fills...) {
				for _, part := range path {
					if part.Type != vg.CloseComp {
						inside("a line", part.Pos)
					}
				}
			}
			for _, f := range d.texts {
				letters := paper().Regular
				if f.Font.Weight != letters.Font.Weight {
					letters = paper().Bold
				}
				inside(fmt.Sprintf("%q", f.String), f.Point)
				inside(fmt.Sprintf("the end of %q", f.String), f.Point.Add(vg.Point{X: letters.Width(f.String)}))
			}
		}
	}
}

func TestSpreadSaysNothingByHue(t *testing.T) {
	for name, s := range trials() {
		for _, c := range spread(s, 523, 330).colours {
			if _, grey := c.(color.Gray); !grey {
				t.Fatalf("%s: a colour of %v", name, c)
			}
		}
	}
}
