package figure_test

import (
	"math"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/life"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/model/wear"
	"keeperbook/pdf/figure"
)

const pound = float64(lbf)

// Marks, trend and limits stand where the numbers of the scales say that they do.
func TestLossesStandOnTheirScales(t *testing.T) {
	g := life.Graph{
		Of: "3 ex", Unit: unit.Lbf, Along: say.New("run.hours"), Watch: 220 * pound, Replace: 210 * pound,
		Marks: []life.Mark{{X: 0, Load: 230 * pound, U: pound}, {X: 50, Load: 220 * pound, U: pound}, {X: 100, Load: 210 * pound, U: pound}},
	}
	for x := 0.0; x <= 100; x += 50 {
		g.Band = append(g.Band, life.BandAt{X: x, Band: wear.Band{At: (230 - x/5) * pound, Low: (228 - x/5) * pound, High: (232 - x/5) * pound}})
	}
	var c recorder.Canvas
	figure.NewLosses(g, words(unit.Style{Length: unit.In})).Draw(&c, vg.Point{X: 480, Y: 240}, paper())
	number := map[string]vg.Point{}
	var marks []vg.Point
	var band vg.Path
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.FillString:
			number[a.String] = a.Point
		case *recorder.Fill:
			if band == nil {
				band = a.Path
				continue
			}
			marks = append(marks, middle(a.Path))
		}
	}
	if len(marks) != 3 {
		t.Fatalf("%d marks", len(marks))
	}
	// Mark and number of one load stand at one height, as far as a number's middle does.
	for i, load := range []string{"230", "220", "210"} {
		at, ok := number[load]
		if !ok {
			t.Fatalf("no number %s in %v", load, number)
		}
		if d := math.Abs(float64(marks[i].Y - at.Y - 9*.36)); d > .1 {
			t.Errorf("%s lbf stands %.2f points off", load, d)
		}
	}
	if x := marks[1].X - (marks[0].X+marks[2].X)/2; math.Abs(float64(x)) > 1e-6 {
		t.Errorf("50 is not in the middle of 0 and 100 by %g", x)
	}
	for word, load := range map[string]string{"watch": "220", "replace": "210"} {
		if d := math.Abs(float64(number[word].Y - number[load].Y)); d > .1 {
			t.Errorf("%s is not at %s lbf", word, load)
		}
	}
	// Where there is no room nothing is drawn that cannot be read.
	var small recorder.Canvas
	figure.NewLosses(g, words(unit.Style{Length: unit.In})).Draw(&small, vg.Point{X: 60, Y: 30}, paper())
	for _, a := range small.Actions {
		if _, ok := a.(*recorder.Fill); ok {
			t.Error("something was filled without room")
		}
	}
}
