package evaluate_test

import (
	"errors"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// tested is what a tester said of a spring through a lid of 0.095 in: heights and loads in turns.
func tested(t testing.TB, read ...string) *record.Loads {
	l := &record.Loads{
		Source: record.Measured, Correction: []record.Taken{{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed}},
	}
	for i := 0; i < len(read); i += 2 {
		load, err := unit.Of(read[i+1], unit.Lbf)
		if err != nil {
			t.Fatal(err)
		}
		l.Points = append(l.Points, record.Point{Height: in(t, read[i]), Load: load})
	}
	return l
}

// By hand: the lowest load was taken at 1.205 − .095 = 1.110, and the tallest at 1.895 − .095 = 1.800. A coil that
// is solid above the one, or stands free below the other, was not there.
func TestDoubtPart(t *testing.T) {
	bare := func(read string) *record.Bind { return &record.Bind{Reading: in(t, read), Source: record.Measured} }
	coil := func(c record.Coil) record.Noun {
		c.Name = "inner"
		return record.Spring{ID: "s", Name: "nest 12", Coils: []record.Coil{{Name: "outer"}, c}}
	}
	piece := func(p record.SpringPiece) record.Noun { p.Tag = "bag 7"; return p }
	points := tested(t, "1.895", "131", "1.205", "420")
	estimate := bare("1.200")
	estimate.Source = record.Estimated
	free := func(read string) *unit.Quantity { q := in(t, read); return &q }

	tests := []struct {
		name string
		noun record.Noun
		says string // "" where nothing is wrong
	}{
		{"solid just where the last load was taken", coil(record.Coil{Loads: points, Bind: bare("1.110")}), ""},
		{"solid above a load", coil(record.Coil{Loads: points, Bind: bare("1.1101")}), "nest 12, inner coil: The spring is said to be solid at"},
		{"solid above by the scale only", coil(record.Coil{Loads: points, Bind: &record.Bind{Reading: in(t, "1.204"), Source: record.Measured, Correction: points.Correction}}), ""},
		{"solid by an estimate", coil(record.Coil{Loads: points, Bind: estimate}), ""},
		{"no bind", coil(record.Coil{Loads: points}), ""},
		{"one point", coil(record.Coil{Loads: tested(t, "1.205", "420"), Bind: bare("1.200")}), ""},
		{"a lid as thick as the spring is tall", coil(record.Coil{Loads: tested(t, "1.895", "131", "0.095", "420")}), "A load was taken at a height of"},
		{"taller than with nothing on it", coil(record.Coil{Loads: points, Free: free("1.800")}), "nest 12, inner coil is said to carry"},
		{"free a hair above the tallest load", coil(record.Coil{Loads: points, Free: free("1.801")}), ""},
		{"nothing borne at the free height", coil(record.Coil{Loads: tested(t, "1.895", "0", "1.205", "420"), Free: free("1.800")}), ""},
		{"an assembly solid above a load", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Loads: points, Bind: bare("1.111")}}, "nest 12: The spring is said to be solid at"},
		{"an assembly", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Loads: points, Bind: bare("1.100")}}, ""},
		{"an assembly without loads", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Bind: bare("1.100")}}, ""},
		{"a coil of a single spring", piece(record.SpringPiece{
			Loads: []record.PieceLoads{{Coil: 2, Loads: *points}}, Binds: []record.PieceBind{{Coil: 1, Bind: *bare("1.9")}, {Coil: 2, Bind: *bare("1.111")}},
		}), "bag 7, coil 2: The spring is said to be solid at"},
		{"a single spring with a bind of another coil", piece(record.SpringPiece{
			Loads: []record.PieceLoads{{Coil: 2, Loads: *points}}, Binds: []record.PieceBind{{Coil: 1, Bind: *bare("1.111")}},
		}), ""},
		{"a single spring as one, taller than it stands", piece(record.SpringPiece{
			Loads: []record.PieceLoads{{Loads: *points}}, Free: free("1.700"),
		}), "bag 7 is said to carry"},
		{"an inner coil is shorter than the spring stands", piece(record.SpringPiece{
			Loads: []record.PieceLoads{{Coil: 2, Loads: *points}}, Free: free("1.700"),
		}), ""},
		{"another noun", record.Seal{}, ""},
		{"nothing", nil, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := evaluate.DoubtPart(test.noun)
			if test.says == "" {
				if err != nil {
					t.Fatal(err)
				}
				return
			}
			var e *say.Error
			if !errors.As(err, &e) || e.Code != say.Invalid || e.Field != "loads" || !strings.Contains(err.Error(), test.says) {
				t.Errorf("%v, want %s", err, test.says)
			}
		})
	}
}

// A load on the head is of the whole valve, and stale once anything under it changes.
func TestLoadsOnTheHead(t *testing.T) {
	r := nested(t)
	load, err := unit.Of("131", unit.Lbf)
	if err != nil {
		t.Fatal(err)
	}
	reading := record.Reading{At: intake, Kind: record.SeatLoad, N: 1, Quantity: load}
	if err := evaluate.Doubt(r, reading); err != nil {
		t.Error(err)
	}
	reading.Coil = 1
	if evaluate.Doubt(r, reading) == nil {
		t.Error("the load of one coil on the head was taken")
	}
	over := evaluate.OverNow(r, intake)
	kept, check := evaluate.Trim(record.SeatLoad, over), evaluate.Trim(record.CheckHeight, over)
	if kept == nil || len(kept.Stack) != len(check.Stack) || kept.Locks != check.Locks || kept.Valve != check.Valve {
		t.Errorf("measured over %+v, a check height over %+v", kept, check)
	}
}
