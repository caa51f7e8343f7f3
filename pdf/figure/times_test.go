package figure_test

import (
	"math"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

// Days stand as far apart as they are, bars are as high as what was run, and each kind of mark has a shape of its own.
func TestTimesStandOnTheirDays(t *testing.T) {
	all := life.Times{
		From: "2025-01-01", Until: "2026-01-01", Promised: "2026-01-01", Checks: []record.Date{"2025-07-02"},
		Days: []life.RunDay{{Day: "2025-03-01", Cycles: 1000}, {Day: "2025-04-01", Cycles: 2000, Over: true}, {Day: "2025-05-02", Cycles: 1000}},
	}
	var c recorder.Canvas
	figure.NewTimes(all, words(unit.Style{Length: unit.In})).Draw(&c, vg.Point{X: 600, Y: 120}, paper())
	var bars []vg.Path
	var fills []vg.Path
	outlines := 0
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.Stroke:
			if len(a.Path) == 2 && a.Path[0].Pos.X == a.Path[1].Pos.X && a.Path[1].Pos.Y > a.Path[0].Pos.Y {
				bars = append(bars, a.Path)
			}
			if len(a.Path) == 5 {
				outlines++
			}
		case *recorder.Fill:
			fills = append(fills, a.Path)
		}
	}
	if len(bars) != 3 || len(fills) != 2 || outlines != 1 {
		t.Fatalf("%d bars, %d filled, %d open", len(bars), len(fills), outlines)
	}
	high := func(p vg.Path) vg.Length { return p[1].Pos.Y - p[0].Pos.Y }
	if math.Abs(float64(high(bars[1])-2*high(bars[0]))) > 1e-9 || high(bars[0]) != high(bars[2]) {
		t.Errorf("%v, %v, %v high", high(bars[0]), high(bars[1]), high(bars[2]))
	}
	// 31 days after the first and 31 before the last.
	if d := bars[1][0].Pos.X - (bars[0][0].Pos.X+bars[2][0].Pos.X)/2; math.Abs(float64(d)) > 1e-6 {
		t.Errorf("%v off the middle", d)
	}
	// The check stands in the middle of the year: 182 of 365 days.
	mid := middle(fills[1])
	if d := float64(mid.X) - (9 + (600-18)*182./365); math.Abs(d) > 1 {
		t.Errorf("the check stands %.1f points off", d)
	}
	// Days that cannot be read, and no room, are said.
	for _, one := range []struct {
		times life.Times
		size  vg.Point
	}{{life.Times{From: "soon"}, vg.Point{X: 600, Y: 120}}, {all, vg.Point{X: 60, Y: 30}}} {
		var small recorder.Canvas
		figure.NewTimes(one.times, words(unit.Style{Length: unit.In})).Draw(&small, one.size, paper())
		for _, a := range small.Actions {
			if _, ok := a.(*recorder.Fill); ok {
				t.Error("something was filled")
			}
		}
	}
}

// Those that matter are heavy and named, their names do not touch, and the limits of the shop are ruled where their share is.
func TestLossesOfAll(t *testing.T) {
	g := life.GraphAll{Along: say.New("run.laps"), Watch: .05, Replace: .10}
	for of, share := range map[string]float64{"1 in": .01, "2 ex": .09, "3 ex": .0901} {
		g.Lines = append(g.Lines, life.LossLine{Of: of, Marked: share > .05, At: []life.LossAt{{}, {X: 100, Share: share}}})
	}
	var c recorder.Canvas
	figure.NewLossesAll(g, words(unit.Style{Length: unit.In})).Draw(&c, vg.Point{X: 480, Y: 240}, paper())
	place := map[string]vg.Point{}
	lines := 0
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.FillString:
			place[a.String] = a.Point
		case *recorder.Stroke:
			lines++
		}
	}
	if _, ok := place["1 in"]; ok {
		t.Error("a spring that holds is named")
	}
	if d := math.Abs(float64(place["2 ex"].Y - place["3 ex"].Y)); d < 9 {
		t.Errorf("two names are %.1f points apart", d)
	}
	for word, numbers := range map[string][2]string{"watch": {"4", "6"}, "replace": {"10", "10"}} {
		low, high := place[numbers[0]], place[numbers[1]]
		if low.Y == 0 || math.Abs(float64(place[word].Y-(low.Y+high.Y)/2)) > .1 {
			t.Errorf("%s is at %v, its numbers at %v and %v", word, place[word], low, high)
		}
	}
}
