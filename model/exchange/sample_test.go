package exchange

import (
	"fmt"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// sample is a small record of an invented head in which every reference is used.
func sample() record.Record {
	at := record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}
	lid := record.Taken{Part: record.Lid, Amount: of("0.095", unit.In), Zero: record.NotZeroed, Gauge: "g2"}
	bind := record.Bind{Reading: of("1.155", unit.In), Correction: []record.Taken{lid}, Source: record.Measured, Gauge: "g1", By: "AB", At: "2026-03-01T08:00:00Z"}
	mean := bind
	mean.Lot = &record.Lot{Count: 3, Spread: of("0.0010", unit.In)}
	fixture := record.Gauge{
		ID: "g1", Name: "bind fixture", Kind: record.Fixture, Step: some("0.001", unit.In),
		Setting: []record.Taken{lid, {Part: record.ZeroOffset, Amount: of("-0.001", unit.In), Zero: record.NotZeroed}},
		Repeat:  &record.Repeat{S: of("0.0006", unit.In), Freedom: "18", Study: "elsewhere", People: 2},
	}
	micrometer := record.Gauge{
		ID: "g2", Name: "micrometer", Kind: record.Micrometer, Step: some("0.0001", unit.In),
		Calibration: &record.Calibration{U: of("0.0002", unit.In), K: "2", Date: "2025-12-01", Due: "2026-12-01", Certificate: "C-7", By: "a gauge room"},
	}
	return record.Record{
		Shop:   record.Shop{Name: "Bench Four", Place: "Harbour Lane"},
		Owner:  &record.Owner{ID: "o1", Name: "R. Example"},
		Engine: record.Engine{ID: "e1", Owner: "o1", Name: "straight twin", Firing: []string{"1", "3"}},
		Head:   record.Head{ID: "h1", Engine: "e1", Tag: "T-7", Cylinders: []string{"1", "3"}, Intakes: 1, Exhausts: 1},
		Setup: record.Setup{
			ID: "s1", Head: "h1", Kind: record.AsBuilt, Begun: "2026-03-01T08:00:00Z", By: "AB", State: record.Open,
			Units: record.Units{Length: unit.In, Load: unit.Lbf},
			Rules: record.Rules{
				Decision: record.Guarded, Agree: of("0.003", unit.In), SealLeast: of("0.050", unit.In), RetainerLeast: of("0.050", unit.In),
				SetHeights: of("0.005", unit.In), RatedOver: of("0.800", unit.In), Sizes: []unit.Quantity{of("0.015", unit.In)},
				Assumed:       []record.Assumed{{Kind: record.DialIndicator, S: of("0.0010", unit.In), Step: of("0.001", unit.In)}},
				ShimTolerance: some("0.002", unit.In),
			},
			Packages: []record.Package{{
				Role: record.Exhaust, Spring: "sp1", Retainer: "r1", Locks: "k1", Locator: "c1", Seal: "g1", Valve: "v1",
				Least: []record.Least{{Coil: 1, Margin: of("0.060", unit.In)}},
				Card:  &record.Card{Lobe: of("0.400", unit.In), Ratio: "1.6", Lash: of("0.018", unit.In), At: record.Hot},
			}},
			Valves: []record.Valve{{
				At: at, Spring: "A-1", Retainer: "r1",
				Stack: []record.Shim{{Thickness: of("0.030", unit.In), Under: record.UnderLocator, Gauge: "g2"}, {Thickness: of("0.015", unit.In), Under: record.UnderOuter}},
			}},
			Readings: []record.Reading{
				{At: at, Kind: record.BaseHeight, N: 1, Quantity: of("1.842", unit.In), Method: record.Typed, By: "AB", When: "2026-03-01T08:05:00Z"},
				{At: at, Kind: record.BaseHeight, N: 2, Quantity: of("1.843", unit.In), Method: record.Typed, By: "AB", When: "2026-03-01T08:06:00Z"},
				{
					At: at, Coil: 1, Kind: record.BindReading, N: 1, Quantity: of("1.155", unit.In), Correction: []record.Taken{lid}, Gauge: "g1",
					Method: record.Sent, By: "AB", When: "2026-03-01T08:07:00Z", Piece: "A-1",
				},
				{
					At: at, Kind: record.CheckHeight, N: 1, Quantity: of("1.797", unit.In), Method: record.Typed, By: "AB", When: "2026-03-01T08:08:00Z",
					Over: &record.Over{Stack: []record.Shim{{Thickness: of("0.030", unit.In), Under: record.UnderLocator, Gauge: "g2"}}, Locks: "k1", Offset: 1, Retainer: "r1", Locator: "c1", Valve: "v1"},
				},
			},
			Shared:     []record.Shared{{Kind: record.LiftChecking, Role: record.Exhaust, From: at}},
			SeatWork:   []record.SeatWork{{ID: "w1", At: at, Depth: of("0.004", unit.In), By: "AB", When: "2026-03-01T08:09:00Z"}},
			Deviations: []record.Deviation{{ID: "d1", At: at, Finding: "seal", Reason: "agreed", By: "AB", When: "2026-03-01T08:10:00Z"}},
			Checks:     []record.Check{{ID: "c1", What: "leak test", Done: record.NotDoneHere}},
		},
		Parts: record.Parts{
			Springs:   []record.Spring{{ID: "sp1", Name: "plain single", Coils: []record.Coil{{Name: "outer", Bind: &mean}}, Assembly: &record.Assembly{Bind: bind, Retainer: "r1", Locator: "c1"}}},
			Pieces:    []record.SpringPiece{{Tag: "A-1", Spring: "sp1", Binds: []record.PieceBind{{Coil: 1, Bind: bind}}}},
			Retainers: []record.Retainer{{ID: "r1", Name: "steel", Gauge: "g2"}},
			Locks:     []record.Locks{{ID: "k1", Name: "plain"}},
			Locators:  []record.Locator{{ID: "c1", Name: "cup", Gauge: "g2"}},
			Seals:     []record.Seal{{ID: "g1", Name: "guide seal", Sits: record.OnGuide}},
			Valves:    []record.ValvePart{{ID: "v1", Name: "exhaust"}},
		},
		Gauges: []record.Gauge{fixture, micrometer},
	}
}

func some(read string, s unit.Symbol) *unit.Quantity {
	q := of(read, s)
	return &q
}

func sampleFigures() record.Figures {
	return record.Figures{
		Summary: "tightest: 1 ex", Columns: []record.Column{{Key: "base", Title: "base", Unit: "in"}},
		Rows: []record.Row{{Valve: "1 ex", Cells: []string{"1.842"}}},
	}
}

// big is a record of 64 valves: sixteen cylinders with two of each, every kind of reading once and
// bind for three coils.
func big() (record.Record, record.Figures) {
	r, f := sample(), record.Figures{Summary: "tightest: 1 ex"}
	r.Head.Cylinders, r.Head.Intakes, r.Head.Exhausts = nil, 2, 2
	for i := range 16 {
		r.Head.Cylinders = append(r.Head.Cylinders, fmt.Sprint(i+1))
	}
	for _, key := range []string{"base", "seal", "shims", "height", "lift", "open", "bind", "margin"} {
		f.Columns = append(f.Columns, record.Column{Key: key, Title: key, Unit: "in"})
	}
	valve, reading := r.Setup.Valves[0], r.Setup.Readings[2]
	r.Setup.Valves, r.Setup.Readings = nil, nil
	for _, at := range r.Head.Positions() {
		valve.At, reading.At = at, at
		r.Setup.Valves = append(r.Setup.Valves, valve)
		row := record.Row{Valve: r.Head.Label(at)}
		for range f.Columns {
			row.Cells = append(row.Cells, "1.842")
		}
		f.Rows = append(f.Rows, row)
		for _, kind := range record.Kinds {
			reading.Kind = kind
			for coil := range map[bool]int{true: 3, false: 1}[kind == record.BindReading] {
				reading.Coil = coil
				r.Setup.Readings = append(r.Setup.Readings, reading)
			}
		}
	}
	r.Setup.Shared[0].From.N = 1
	return r, f
}
