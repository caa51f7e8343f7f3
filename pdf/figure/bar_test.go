package figure_test

import (
	"image/color"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

// bar returns where the post and the mark of a margin over a least margin of .060 stand, the fill
// between them, and the fill of the mark.
func bar(t *testing.T, margin unit.Length, proven bool) (post, mark vg.Length, between, in color.Color) {
	t.Helper()
	v := evaluate.Valve{
		Margin: computed(margin), Least: measured(thou(60)), Coils: []evaluate.Coil{{Proven: proven}},
	}
	b, ok := figure.NewBar(v)
	if !ok {
		t.Fatal("no bar for a valve with margin and least margin")
	}
	var c recorder.Canvas
	b.Draw(&c, vg.Point{X: 60, Y: 12}, paper())
	var now color.Color
	var fills []color.Color
	var shapes []vg.Path
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.SetColor:
			now = a.Color
		case *recorder.Fill:
			fills, shapes = append(fills, now), append(shapes, a.Path)
		case *recorder.Stroke:
			if len(a.Path) == 2 && a.Path[0].Pos.X == a.Path[1].Pos.X {
				post = a.Path[0].Pos.X // the last upright is the post
			}
		}
		if f, ok := a.(*recorder.Fill); ok {
			for _, part := range f.Path {
				if p := part.Pos; part.Type != vg.CloseComp && (p.X < 0 || p.X > 60 || p.Y < 0 || p.Y > 12) {
					t.Errorf("a margin of %d: the bar leaves its field at %v", margin, p)
				}
			}
		}
	}
	low, high := vg.Length(1e9), vg.Length(-1e9)
	for _, part := range shapes[1][:4] {
		low, high = min(low, part.Pos.X), max(high, part.Pos.X)
	}
	return post, (low + high) / 2, fills[0], fills[1]
}

func TestTheMarkStandsWhereTheMarginIs(t *testing.T) {
	ink, fill, ground := paper().Ink, paper().Fill, paper().Paper
	post, mark, _, in := bar(t, thou(60), true)
	if post != mark || in != ink {
		t.Errorf("a margin on its limit stands at %v, the post at %v", mark, post)
	}
	_, short, between, _ := bar(t, thou(30), true)
	if short >= post || between != ink {
		t.Errorf("a short margin stands at %v with %v between, the post at %v", short, between, post)
	}
	_, wide, between, _ := bar(t, thou(90), true)
	if wide <= post || between != fill {
		t.Errorf("a wide margin stands at %v with %v between, the post at %v", wide, between, post)
	}
	// As far over the limit as under it.
	if d := (wide - post) - (post - short); d > 1e-9 || d < -1e-9 {
		t.Errorf("the bar is not linear: %v, %v, %v", short, post, wide)
	}
	if _, _, _, in := bar(t, thou(90), false); in != ground {
		t.Error("an estimate does not look like one")
	}
	bar(t, -thou(500), true)
	bar(t, thou(5000), true)
}

func TestNoBarWithoutBothNumbers(t *testing.T) {
	known, none := computed(thou(70)), evaluate.Figure{}
	for _, v := range []evaluate.Valve{
		{Margin: none, Least: known}, {Margin: known, Least: none}, {Margin: known, Least: measured(0)}, {},
	} {
		if _, ok := figure.NewBar(v); ok {
			t.Errorf("a bar for margin %v and least %v", v.Margin, v.Least)
		}
	}
}

// TestPartsOfAPosition: the valve's own part goes before the package's, and what is not named is not known.
func TestPartsOfAPosition(t *testing.T) {
	q := func(n float64) unit.Quantity { return unit.Quantity{Unit: unit.In, Value: int64(thou(n))} }
	lid, other, floor := q(95), q(140), q(60)
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	r := &record.Record{
		Setup: record.Setup{
			Packages: []record.Package{{Role: record.Intake, Retainer: "a", Locator: "l", Seal: "s"}},
			Valves:   []record.Valve{{At: record.Position{Cylinder: "2", Role: record.Intake, N: 1}, Retainer: "b", Locator: "gone"}},
		},
		Parts: record.Parts{
			Retainers: []record.Retainer{{ID: "a", Lid: &lid, Steps: []unit.Quantity{q(95)}}, {ID: "b", Lid: &other}},
			Locators:  []record.Locator{{ID: "l", Floor: &floor, Steps: []unit.Quantity{q(-20)}}},
			Seals:     []record.Seal{{ID: "s", Sits: record.OnLocator}},
		},
	}
	p := figure.PartsOf(r, at)
	if p.Lid == nil || *p.Lid != thou(95) || *p.Floor != thou(60) || p.SealOn != record.OnLocator ||
		p.RetainerSteps[0] != thou(95) || p.LocatorSteps[0] != -thou(20) {
		t.Errorf("the package's parts are %+v", p)
	}
	at.Cylinder = "2"
	if p := figure.PartsOf(r, at); *p.Lid != thou(140) || len(p.RetainerSteps) != 0 || p.Floor != nil {
		t.Errorf("the valve's own parts are %+v", p)
	}
	at.Role = record.Exhaust
	if p := figure.PartsOf(r, at); p.Lid != nil || p.Floor != nil || p.SealOn != "" {
		t.Errorf("a role without a package has %+v", p)
	}
}

// sure is a valve of which everything was measured, on gauges that nobody named, with numbers guarded.
func sure(t *testing.T, scatter string) evaluate.Valve {
	t.Helper()
	q := func(read string) unit.Quantity {
		x, err := unit.Of(read, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	bind := record.Bind{Reading: q("1.060"), Source: record.Measured}
	r := &record.Record{
		Head:  record.Head{ID: "h", Cylinders: []string{"1"}, Intakes: 1},
		Setup: record.Setup{ID: "s", Units: record.Units{Length: unit.In, Load: unit.Lbf}, Rules: record.DefaultRules(unit.In)},
		Parts: record.Parts{Springs: []record.Spring{{ID: "sp", Coils: []record.Coil{{Name: "outer", Bind: &bind}}}}},
	}
	for i := range r.Setup.Rules.Assumed {
		r.Setup.Rules.Assumed[i].S = q(scatter)
	}
	r.Put(record.Package{Role: record.Intake, Spring: "sp", Least: []record.Least{{Coil: 1, Margin: q("0.060")}}})
	r.Put(record.Valve{At: at, NoShim: "none"})
	r.Put(record.Reading{At: at, Kind: record.BaseHeight, N: 1, Quantity: q("1.840")})
	r.Put(record.Reading{At: at, Kind: record.LiftChecking, N: 1, Quantity: q("0.700")})
	return evaluate.Evaluate(r).Valves[0]
}

// The whiskers stand as far from the mark as U is on the scale of the bar; what would stand beyond it is left out.
func TestWhiskers(t *testing.T) {
	for scatter, both := range map[string]bool{"0.001": true, "0.008": true, "0.030": false} {
		v := sure(t, scatter)
		u, ok := v.Margin.U()
		b, drawn := figure.NewBar(v)
		if !ok || !drawn {
			t.Fatalf("scatter %s: U known %t, bar %t", scatter, ok, drawn)
		}
		var c recorder.Canvas
		b.Draw(&c, vg.Point{X: 120, Y: 12}, paper())
		var uprights []vg.Length
		for _, a := range c.Actions {
			if s, ok := a.(*recorder.Stroke); ok && len(s.Path) == 2 && s.Path[0].Pos.X == s.Path[1].Pos.X {
				uprights = append(uprights, s.Path[0].Pos.X)
			}
		}
		// Bind, the post, and the two ends.
		if both != (len(uprights) == 4) {
			t.Fatalf("scatter %s: uprights at %v", scatter, uprights)
		}
		if !both {
			continue
		}
		nought, post, low, high := uprights[0], uprights[1], uprights[2], uprights[3]
		scale := float64(post-nought) / float64(thou(60))
		for _, end := range []struct {
			at   vg.Length
			want unit.Length
		}{{low, thou(80) - u}, {high, thou(80) + u}} {
			if got := float64(end.at-nought) / scale; got < float64(end.want)-1 || got > float64(end.want)+1 {
				t.Errorf("scatter %s: a whisker at %g, want %d", scatter, got, end.want)
			}
		}
	}
}
