package record_test

import (
	"errors"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func in(t testing.TB, read string, s unit.Symbol) unit.Quantity {
	t.Helper()
	q, err := unit.Of(read, s)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func lbf(t testing.TB, read string) unit.Quantity { return in(t, read, unit.Lbf) }

func someLbf(t testing.TB, read string) *unit.Quantity {
	q := lbf(t, read)
	return &q
}

// tested is what a tester said of a spring: heights and loads in turns.
func tested(t testing.TB, read ...string) *record.Loads {
	l := &record.Loads{Source: record.Measured}
	for i := 0; i < len(read); i += 2 {
		l.Points = append(l.Points, record.Point{Height: of(t, read[i]), Load: lbf(t, read[i+1])})
	}
	return l
}

func TestDoubtLoads(t *testing.T) {
	spring := func(l *record.Loads) record.Noun {
		return record.Spring{ID: "s", Name: "nest 12", Coils: []record.Coil{{Name: "outer"}, {Name: "inner", Loads: l}}}
	}
	changed := func(change func(*record.Loads)) record.Noun {
		l := tested(t, "1.800", "131", "1.200", "382")
		change(l)
		return spring(l)
	}
	coil := func(c record.Coil) record.Noun {
		return record.Spring{ID: "s", Name: "nest 12", Coils: []record.Coil{c}}
	}
	tester := func(w record.Weights) record.Noun {
		return record.Gauge{ID: "g", Name: "tester 7", Kind: record.SpringTester, LoadScale: &record.LoadScale{Weights: &w}}
	}
	scale := func(l record.LoadScale) record.Noun {
		return record.Gauge{ID: "g", Name: "tester 7", Kind: record.SpringTester, LoadScale: &l}
	}
	weights := func(read ...string) []record.Weighing {
		var all []record.Weighing
		for i := 0; i < len(read); i += 2 {
			all = append(all, record.Weighing{Applied: lbf(t, read[i]), Shown: lbf(t, read[i+1])})
		}
		return all
	}
	rules := func(change func(*record.Rules)) record.Noun {
		r := record.DefaultRules(unit.In)
		change(&r)
		return record.Setup{ID: "s", Rules: r}
	}
	reading := func(kind record.Kind, q unit.Quantity, change func(*record.Reading)) record.Noun {
		r := record.Reading{Kind: kind, Quantity: q}
		change(&r)
		return r
	}
	nothing := func(*record.Reading) {}
	g := in(t, "77.2", unit.GPa)

	tests := []struct {
		name  string
		noun  record.Noun
		says  string // the sentence, or its part that matters; "" where nothing is wrong
		field string
	}{
		{"two points", spring(tested(t, "1.800", "131", "1.200", "382")), "", ""},
		{"points in any order", spring(tested(t, "1.200", "382", "1.800", "131", "1.500", "250")), "", ""},
		{"one point, of two that will come", spring(tested(t, "1.800", "131")), "", ""},
		{"two at one height", spring(tested(t, "1.800", "131", "1.200", "382", "1.800", "133")), "Two loads of nest 12 were taken at the same height of 1.800 in: 131 lbf and 133 lbf.", "loads"},
		{"two at one height in two units", changed(func(l *record.Loads) { l.Points[1].Height = in(t, "45.72", unit.Mm) }), "same height", "loads"},
		{"a load that falls", spring(tested(t, "1.800", "131", "1.500", "130", "1.200", "382")), "131 lbf at 1.800 in, 130 lbf at 1.500 in", "loads"},
		{"a load that stays", spring(tested(t, "1.800", "131", "1.500", "131")), "does not rise", "loads"},
		{"a load that falls in other units", changed(func(l *record.Loads) { l.Points[1].Load = in(t, "582", unit.N) }), "582 N at 1.200 in", "loads"},
		{"a height of nought", spring(tested(t, "0", "131")), "at a height of 0 in, which is not above nought", "loads"},
		{"a load of nought at the free height", spring(tested(t, "2.100", "0", "1.800", "131")), "", ""},
		{"a load below nought", spring(tested(t, "1.800", "-1")), "A load of nest 12 is -1 lbf", "loads"},
		{"the releasing stroke", changed(func(l *record.Loads) { l.Points[0].Back = someLbf(t, "125") }), "", ""},
		{"friction that pushes", changed(func(l *record.Loads) { l.Points[0].Back = someLbf(t, "132") }), "At 1.800 in the load of nest 12 is 131 lbf on the compressing stroke and 132 lbf on the releasing one", "loads"},
		{"less than nothing on the way back", changed(func(l *record.Loads) { l.Points[0].Back = someLbf(t, "-1") }), "is -1 lbf, which is below nought", "loads"},
		{"means of three springs", changed(func(l *record.Loads) { l.Lot = &record.Lot{Count: 3, Spread: lbf(t, "2")} }), "", ""},
		{"means of one spring", changed(func(l *record.Loads) { l.Lot = &record.Lot{Count: 1, Spread: lbf(t, "2")} }), "The loads of nest 12 are said to come from 1 springs", "lot"},
		{"means that differ by less than nothing", changed(func(l *record.Loads) { l.Lot = &record.Lot{Count: 3, Spread: lbf(t, "-2")} }), "said to differ by -2 lbf", "lot"},
		{"an assembly without a bind", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Loads: tested(t, "1.800", "131")}}, "", ""},
		{"an assembly whose load falls", record.Spring{Name: "nest 12", Assembly: &record.Assembly{Loads: tested(t, "1.800", "131", "1.2", "130")}}, "does not rise", "loads"},

		{"a single spring", record.SpringPiece{Tag: "bag 7", Loads: []record.PieceLoads{{Loads: *tested(t, "1.800", "131"), Retainer: "r"}, {Coil: 2, Loads: *tested(t, "1.7", "30")}}}, "", ""},
		{"a single spring that is a lot", record.SpringPiece{Tag: "bag 7", Loads: []record.PieceLoads{{Loads: record.Loads{Lot: &record.Lot{Count: 3}}}}}, "Spring bag 7 is a single spring, so its loads come from no lot", "lot"},
		{"a single coil on a locator", record.SpringPiece{Tag: "bag 7", Loads: []record.PieceLoads{{Coil: 2, Locator: "c"}}}, "Coil 2 of spring bag 7 was tested alone", "loads"},
		{"a single spring whose load falls", record.SpringPiece{Tag: "bag 7", Loads: []record.PieceLoads{{Loads: *tested(t, "1.800", "131", "1.2", "130")}}}, "The load of bag 7 does not rise", "loads"},
		{"a free height of nought", record.SpringPiece{Tag: "bag 7", Free: some(t, "0")}, "The free height of bag 7 is 0 in, which is not above nought", "free"},

		{"a coil of which nothing is known", coil(record.Coil{}), "", ""},
		{"a coil of which all is known", coil(record.Coil{
			Outside: some(t, "1.540"), Small: some(t, "1.300"), Inside: some(t, "0.890"), Active: "4.25", Total: "6.25", Conical: "2",
			Free: some(t, "2.1"), Wire: &record.Wire{Diameter: some(t, "0.205"), Radial: some(t, "0.205"), G: &g},
		}), "", ""},
		{"wider inside than out", coil(record.Coil{Outside: some(t, "1.1"), Inside: some(t, "1.2")}), "nest 12 is said to be 1.2 in inside and 1.1 in outside", "coils"},
		{"wider at the small end", coil(record.Coil{Outside: some(t, "1.1"), Small: some(t, "1.2")}), "1.2 in at its small end", "coils"},
		{"wire as thick as half the coil", coil(record.Coil{Outside: some(t, "0.400"), Wire: &record.Wire{Diameter: some(t, "0.2")}}), "wound of wire of 0.2 in to a diameter of 0.400 in", "coils"},
		{"flat wire, tall and thin", coil(record.Coil{Outside: some(t, "0.400"), Wire: &record.Wire{Diameter: some(t, "0.3"), Radial: some(t, "0.03")}}), "", ""},
		{"wire as thick as half the small end", coil(record.Coil{Small: some(t, "0.400"), Wire: &record.Wire{Diameter: some(t, "0.2")}}), "to a diameter of 0.400 in", "coils"},
		{"no wire", coil(record.Coil{Wire: &record.Wire{Diameter: some(t, "0")}}), "The wire of nest 12 is 0 in", "coils"},
		{"no modulus", coil(record.Coil{Wire: &record.Wire{G: &unit.Quantity{Read: "0", Unit: unit.GPa}}}), "The modulus G of nest 12 is 0 GPa", "coils"},
		{"turns that are a word", coil(record.Coil{Active: "four"}), `The turns of nest 12 are said to be "four"`, "coils"},
		{"more active turns than turns", coil(record.Coil{Active: "6.5", Total: "6.25"}), "6.5 active turns of 6.25 in all", "coils"},
		{"more conical turns than active ones", coil(record.Coil{Active: "4", Conical: "10"}), "10 turns in its cone and 4 active turns", "coils"},
		{"a spring without mass", record.Spring{Name: "nest 12", Mass: &unit.Quantity{Read: "0", Unit: unit.Gram}}, "The mass of nest 12 is 0 g", "mass"},

		{"another lock angle is a finding", record.Retainer{Name: "steel", Angle: "10", Groove: record.MultiGroove, Outside: some(t, "1.2"), Stem: some(t, "0.3415")}, "", ""},
		{"a retainer of no size", record.Retainer{Name: "steel", Outside: some(t, "0")}, "The outside diameter of steel is 0 in", "outside"},
		{"a register of no size", record.Retainer{Name: "steel", Registers: []record.Register{{Coil: 1, Diameter: of(t, "0")}}}, "A register of steel is 0 in", "registers"},
		{"locks for no stem", record.Locks{Name: "7 degree", Stem: some(t, "0")}, "The stem that 7 degree is made for is 0 in", "stem"},
		{"a locator", record.Locator{Name: "cup", Cup: some(t, "1.55"), Outside: some(t, "1.62"), Bore: some(t, "0.572")}, "", ""},
		{"a rim with nothing outside", record.Locator{Name: "cup", Cup: some(t, "1.62"), Outside: some(t, "1.62")}, "cup is said to be 1.62 in inside and 1.62 in outside", "cup"},
		{"a locator's register of no size", record.Locator{Name: "cup", Registers: []record.Register{{Coil: 1, Diameter: of(t, "0")}}}, "A register of cup is 0 in", "registers"},
		{"a bore of no size", record.Locator{Name: "cup", Bore: some(t, "-0.5")}, "The bore of cup is -0.5 in", "bore"},
		{"a seal of no height", record.Seal{Name: "band", Height: some(t, "0")}, "The height of band is 0 in", "height"},

		{"a load scale", scale(record.LoadScale{Step: someLbf(t, "1"), Calibration: &record.Calibration{U: lbf(t, "1.5"), K: "2"}, Repeat: &record.Repeat{S: lbf(t, "0.8"), Freedom: "12"}}), "", ""},
		{"a load step of nought", scale(record.LoadScale{Step: someLbf(t, "0")}), "The step of tester 7 is 0 lbf", "loadScale"},
		{"a load's coverage factor of nought", scale(record.LoadScale{Calibration: &record.Calibration{K: "0"}}), "The coverage factor of tester 7", "loadScale"},
		{"loads on a caliper", record.Gauge{Name: "caliper 6", Kind: record.Caliper, LoadScale: &record.LoadScale{}}, "caliper 6 is no spring tester", "loadScale"},
		{"one weight, of three that will come", tester(record.Weights{Points: weights("100", "101")}), "", ""},
		{"weights", tester(record.Weights{Points: weights("300", "304", "0", "-1", "100", "101", "100", "100"), Degree: 2, Gravity: "9.81", Date: "2026-03-02"}), "", ""},
		{"a weight below nought", tester(record.Weights{Points: weights("-1", "0")}), "A weight on tester 7 is said to be -1 lbf", "loadScale"},
		{"a greater weight that shows less", tester(record.Weights{Points: weights("200", "199", "100", "201")}), "tester 7 showed 201 lbf under 100 lbf, and only 199 lbf under 200 lbf", "loadScale"},
		{"a cubic", tester(record.Weights{Degree: 3}), "a curve of degree 3", "loadScale"},
		{"gravity of another planet", tester(record.Weights{Gravity: "3.71"}), `is said to be "3.71"`, "loadScale"},
		{"gravity in feet", tester(record.Weights{Gravity: "32.174"}), `is said to be "32.174"`, "loadScale"},
		{"gravity at the edges", tester(record.Weights{Gravity: "9.76"}), "", ""},
		{"weighed on no day", tester(record.Weights{Date: "2026-02-30"}), "names the day \"2026-02-30\"", "loadScale"},
		{"weighed in the future", tester(record.Weights{Date: "2026-03-04"}), "which is still to come", "loadScale"},

		{"seat loads within nothing less", rules(func(r *record.Rules) { r.SeatLoads.Load = lbf(t, "-5") }), "within -5 lbf of their mean", "seatLoads"},
		{"more than all of it", rules(func(r *record.Rules) { r.SeatLoads.Percent = "101" }), `A rule says "101" percent`, "seatLoads"},
		{"a percentage that is a word", rules(func(r *record.Rules) { r.LoadLost.Watch = "few" }), `A rule says "few" percent`, "loadLost"},
		{"replaced before it is watched", rules(func(r *record.Rules) { r.LoadLost = &record.Lost{Watch: "10", Replace: "5"} }), "watch a spring from 10 percent", "loadLost"},
		{"10 is more than 9", rules(func(r *record.Rules) { r.LoadLost = &record.Lost{Watch: "9", Replace: "10"} }), "", ""},
		{"an assumed step of loads of nought", rules(func(r *record.Rules) { r.AssumedLoad.Step = lbf(t, "0") }), "The step of spring tester is 0 lbf", "assumedLoad"},
		{"an assumed scatter of loads below nought", rules(func(r *record.Rules) { r.AssumedLoad.S = lbf(t, "-1") }), "Readings on spring tester are said to scatter by -1 lbf", "assumedLoad"},
		{"an angle that is a word", rules(func(r *record.Rules) { r.LockAngles = []string{"7", "steep"} }), `locks have "steep" degrees`, "lockAngles"},
		{"a boss of no size", rules(func(r *record.Rules) { r.Bosses = []unit.Quantity{of(t, "0")} }), "The diameter of a guide boss is 0 in", "bosses"},
		{"a clearance", rules(func(r *record.Rules) {
			r.Fits = &record.Fits{Cup: &record.Clearance{Least: some(t, "-0.002"), Most: some(t, "0.020")}}
		}), "", ""},
		{"a clearance the wrong way round", rules(func(r *record.Rules) {
			r.Fits = &record.Fits{Coils: &record.Clearance{Least: some(t, "0.020"), Most: some(t, "0.010")}}
		}), "0.020 in at least and 0.010 in at most", "fits"},
		{"needs", record.Setup{Needs: record.Needs{Pocket: some(t, "1.64"), Boss: some(t, "0.565"), Centres: some(t, "1.95"), LifterMost: someLbf(t, "420"), CamMost: someLbf(t, "400")}}, "", ""},
		{"no pocket", record.Setup{Needs: record.Needs{Pocket: some(t, "0")}}, "The diameter of the spring pockets is 0 in", "needs"},
		{"a lifter that bears nothing", record.Setup{Needs: record.Needs{LifterMost: someLbf(t, "0")}}, "The most open load for the lifters is 0 lbf", "needs"},

		{"a band", record.Package{SeatLoad: &record.Band{Least: someLbf(t, "120"), Target: someLbf(t, "130"), Most: someLbf(t, "140")}, OpenLoad: &record.Band{Most: someLbf(t, "400")}}, "", ""},
		{"the same load thrice", record.Package{SeatLoad: &record.Band{Least: someLbf(t, "130"), Target: someLbf(t, "130"), Most: someLbf(t, "130")}}, "", ""},
		{"a target under the least", record.Package{SeatLoad: &record.Band{Least: someLbf(t, "120"), Target: someLbf(t, "110")}}, "Of what is wanted of the seat load, 110 lbf is less than 120 lbf", "seatLoad"},
		{"a target over the most", record.Package{OpenLoad: &record.Band{Target: someLbf(t, "410"), Most: someLbf(t, "400")}}, "of the open load, 400 lbf is less than 410 lbf", "openLoad"},
		{"a band the wrong way round", record.Package{OpenLoad: &record.Band{Least: someLbf(t, "410"), Most: someLbf(t, "400")}}, "400 lbf is less than 410 lbf", "openLoad"},
		{"a band in two units", record.Package{OpenLoad: &record.Band{Least: someLbf(t, "300"), Most: ptr(in(t, "1400", unit.N))}}, "", ""},
		{"a load that is wanted below nought", record.Package{SeatLoad: &record.Band{Least: someLbf(t, "-1")}}, "The seat load is wanted to be -1 lbf", "seatLoad"},

		{"a load on the head", reading(record.SeatLoad, lbf(t, "131"), nothing), "", ""},
		{"a load at a height through a lid", reading(record.SeatLoad, lbf(t, "131"), func(r *record.Reading) {
			r.Height, r.Heights, r.Correction = some(t, "1.895"), "g", []record.Taken{{Part: record.Lid}}
		}), "", ""},
		{"a load in inches", reading(record.SeatLoad, of(t, "1.842"), nothing), "The seat load on the head is entered as 1.842 in", "quantity"},
		{"a height in pounds", reading(record.BaseHeight, lbf(t, "131"), nothing), "The base height is entered as 131 lbf", "quantity"},
		{"a height at a height", reading(record.BaseHeight, of(t, "1.842"), func(r *record.Reading) { r.Height = some(t, "1.8") }), "which only a load has", "height"},
		{"a correction of a load", reading(record.SeatLoad, lbf(t, "131"), func(r *record.Reading) { r.Correction = []record.Taken{{Part: record.Lid}} }), "comes off the height that it was taken at", "correction"},
		{"a height read on a gauge that is not there", reading(record.SeatLoad, lbf(t, "131"), func(r *record.Reading) { r.Heights = "g" }), "names what the height was read on", "heights"},
		{"a load at no height", reading(record.SeatLoad, lbf(t, "131"), func(r *record.Reading) { r.Height = some(t, "0") }), "The height at which the seat load on the head was taken is 0 in", "height"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := record.Doubt(test.noun, noon)
			if test.says == "" {
				if err != nil {
					t.Fatal(err)
				}
				return
			}
			var e *say.Error
			if !errors.As(err, &e) {
				t.Fatalf("%v, want %s", err, test.says)
			}
			if e.Code != say.Invalid || e.Field != test.field || !strings.Contains(err.Error(), test.says) {
				t.Errorf("%s at %q: %s, want at %q: %s", e.Code, e.Field, err, test.field, test.says)
			}
		})
	}
}

func ptr[T any](v T) *T { return &v }

// The usual rules have the loads of the bench they are for, and fits that common practice leaves open.
func TestDefaultRulesForLoads(t *testing.T) {
	for length, load := range map[unit.Symbol]unit.Symbol{unit.In: unit.Lbf, unit.Mm: unit.N} {
		r := record.DefaultRules(length)
		if r.SeatLoads.Load.Unit != load || r.AssumedLoad.S.Unit != load || r.AssumedLoad.Step.Unit != load {
			t.Errorf("%s: %+v, %+v", length, r.SeatLoads, r.AssumedLoad)
		}
		if r.SeatLoads.Percent != "3" || *r.LoadLost != (record.Lost{Watch: "5", Replace: "10"}) || r.Fits != nil {
			t.Errorf("%s: %+v", length, r)
		}
		if len(r.LockAngles) != 3 || len(r.LockOffsets) != 2 || r.LockOffsets[0].Unit != length || len(r.Bosses) != 3 || r.Bosses[0].Unit != length {
			t.Errorf("%s: %+v", length, r)
		}
	}
}

// A load is typed in the set-up's own unit, and every other reading is a length.
func TestOnlySeatLoadsAreLoads(t *testing.T) {
	u := record.Units{Length: unit.Mm, Load: unit.Kgf}
	for _, kind := range record.Kinds {
		want := unit.Mm
		if kind == record.SeatLoad {
			want = unit.Kgf
		}
		if got := record.ColumnOf(kind, u); got.Unit != want || kind.IsLoad() != (want == unit.Kgf) || !got.Comma {
			t.Errorf("%s: %+v", kind, got)
		}
	}
}
