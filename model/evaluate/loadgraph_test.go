package evaluate_test

import (
	"slices"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// graphOf is the graph of 1 in.
func graphOf(t *testing.T, r *record.Record) evaluate.LoadGraph {
	t.Helper()
	v := first(r)
	g, ok := v.LoadGraph()
	if !ok {
		t.Fatal("no graph of a spring that was tested")
	}
	return g
}

func curveOf(t *testing.T, bind unit.Length, read ...string) *curve.Curve {
	t.Helper()
	var points []curve.Point
	for _, p := range bareTest(t, read...).Points {
		points = append(points, curve.Point{Height: p.Height.Length(), Load: unit.Load(p.Load.Value)})
	}
	c, err := curve.New(points, bind)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// What is drawn is the curve: at every height its very load, and beyond where that is.
func TestLoadGraphIsTheCurve(t *testing.T) {
	r := loaded(t)
	read := []string{"2.100", "160", "1.800", "255", "1.500", "362", "1.200", "480"}
	r.Parts.Springs[0].Coils = r.Parts.Springs[0].Coils[:1]
	r.Parts.Springs[0].Coils[0].Loads = bareTest(t, read...)
	g := graphOf(t, r)
	c := curveOf(t, g.Bind.Height, read...)
	solid, beyond := 0, 0
	for _, p := range g.All.Points {
		v, err := c.At(p.Height)
		if err != nil || v.Load != p.Load || v.Beyond != p.Beyond {
			t.Fatalf("at %d drawn %+v, the curve says %+v, %v", p.Height, p, v, err)
		}
		if p.Beyond {
			beyond++
		} else {
			solid++
		}
	}
	if solid < 50 || beyond < 4 {
		t.Errorf("%d points between those of the tester and %d beyond", solid, beyond)
	}
	if !slices.IsSortedFunc(g.All.Points, func(a, b evaluate.GraphPoint) int { return int(a.Height - b.Height) }) {
		t.Error("the points do not go up")
	}
	for _, p := range append(g.All.Tested, evaluate.GraphPoint{Height: g.Seat.Height, Load: g.Seat.Load.Value}) {
		if !slices.Contains(g.All.Points, evaluate.GraphPoint{Height: p.Height, Load: p.Load}) {
			t.Errorf("the line does not go through %+v", p)
		}
	}
	if len(g.All.Tested) != 4 || len(g.Coils) != 0 {
		t.Errorf("%d points of the tester, %d coils apart", len(g.All.Tested), len(g.Coils))
	}
}

// Of a nest each coil is drawn on its own, and what they carry adds up to the whole.
func TestLoadGraphOfANest(t *testing.T) {
	r := loaded(t)
	seatBand(t, r, band(t, "290", ""))
	v := first(r)
	g, _ := v.LoadGraph()
	if len(g.Coils) != 2 || len(g.All.Tested) != 0 {
		t.Fatalf("%d coils apart, %d points of a test as one that nobody made", len(g.Coils), len(g.All.Tested))
	}
	load := func(l evaluate.GraphLine, h unit.Length) unit.Load {
		for _, p := range l.Points {
			if p.Height == h {
				return p.Load
			}
		}
		t.Fatalf("%s is not drawn at %d", l.Name, h)
		return 0
	}
	at := g.Seat.Height
	sum := load(g.Coils[0], at) + load(g.Coils[1], at)
	if d := sum - load(g.All, at); d < -1 || d > 1 {
		t.Errorf("the coils carry %d, the spring %d", sum, load(g.All, at))
	}
	if at != v.Height.Value || g.Seat.Load.Value != v.SeatLoad.Value || g.Seat.Least != unit.Load(lbf(t, "290").Value) || g.Seat.Most != 0 {
		t.Errorf("the seat is drawn as %+v", g.Seat)
	}
	// The inner coil is .095 in less tall, and what the tester read of it stands so much higher over the outer.
	if got, want := g.Coils[1].Tested[0].Height, in(t, "2.195").Length(); got != want {
		t.Errorf("the inner coil's first point at %d, want %d", got, want)
	}
	for _, c := range v.Coils {
		if over := v.Height.Value - c.Height.Value; g.Bind.Height < c.Bind.Value+over {
			t.Errorf("solid at %d, and the %s is at %d", g.Bind.Height, c.Name, c.Bind.Value+over)
		}
	}
}

// Tested as one on other steps, its readings are not those of the curve; untested, all of it is beyond.
func TestLoadGraphSaysWhatNobodyRead(t *testing.T) {
	moved := loaded(t)
	moved.Parts.Springs[0].Coils[0].Loads = nil
	moved.Parts.Springs[0].Assembly = &record.Assembly{Loads: bareTest(t, "2.100", "229", "1.200", "688")}
	g := graphOf(t, moved)
	if !g.Moved || len(g.All.Tested) != 0 {
		t.Errorf("moved %t, with %d points of the tester", g.Moved, len(g.All.Tested))
	}
	alone, ok := evaluate.SpringGraph(moved, &moved.Parts.Springs[0], nil)
	if !ok || alone.Moved || len(alone.All.Tested) != 2 || alone.Seat.Load.Known {
		t.Errorf("alone on the ends it was tested on: %t, moved %t, %d points", ok, alone.Moved, len(alone.All.Tested))
	}
	untested := nested(t)
	v := first(untested)
	if _, ok := v.LoadGraph(); ok {
		t.Error("a graph of a spring that nobody knows")
	}
	if _, ok := evaluate.SpringGraph(untested, &untested.Parts.Springs[0], nil); ok {
		t.Error("a graph of a type that nobody knows")
	}
}
