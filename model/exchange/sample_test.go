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
	tester := record.Gauge{
		ID: "g3", Name: "spring tester", Kind: record.SpringTester, Step: some("0.001", unit.In),
		LoadScale: &record.LoadScale{
			Step:        some("1", unit.Lbf),
			Calibration: &record.Calibration{U: of("1.5", unit.Lbf), K: "2", Date: "2025-12-03"},
			Repeat:      &record.Repeat{S: of("0.8", unit.Lbf), Freedom: "12", People: 1},
			Weights: &record.Weights{
				Degree: 1, Gravity: "9.81", Date: "2025-12-03", By: "AB",
				Points: []record.Weighing{{Applied: of("0", unit.Lbf), Shown: of("-1", unit.Lbf)}, {Applied: of("100", unit.Lbf), Shown: of("101", unit.Lbf)}},
			},
		},
	}
	loads := record.Loads{
		Points: []record.Point{
			{Height: of("1.895", unit.In), Load: of("131", unit.Lbf), Back: some("127", unit.Lbf)},
			{Height: of("1.295", unit.In), Load: of("382", unit.Lbf)},
		},
		Correction: []record.Taken{lid}, Source: record.Measured, Gauge: "g3", Heights: "g2", By: "AB", At: "2026-03-01T08:02:00Z",
	}
	means := loads
	means.Lot = &record.Lot{Count: 3, Spread: of("1.6", unit.Lbf)}
	outer := record.Coil{
		Name: "outer", Bind: &mean, Loads: &means, Acts: record.Carries, Form: record.Beehive, Outside: some("1.290", unit.In),
		Small: some("1.060", unit.In), Inside: some("0.700", unit.In), Active: "4.5", Total: "6.5", Conical: "2", Ends: record.SquaredGround,
		Free: some("2.100", unit.In), Mass: some("92.5", unit.Gram),
		Wire: &record.Wire{
			Section: record.Ovate, Diameter: some("0.160", unit.In), Radial: some("0.180", unit.In), Material: "chrome-silicon",
			G: some("77.2", unit.GPa), GFrom: "a handbook", Surface: record.Nitrided,
		},
	}
	return record.Record{
		Shop:   record.Shop{Name: "Bench Four", Place: "Harbour Lane"},
		Owner:  &record.Owner{ID: "o1", Name: "R. Example"},
		Engine: record.Engine{ID: "e1", Owner: "o1", Name: "straight twin", Firing: []string{"1", "3"}},
		Head:   record.Head{ID: "h1", Engine: "e1", Tag: "T-7", Cylinders: []string{"1", "3"}, Intakes: 1, Exhausts: 1, Material: record.Aluminium},
		Setup: record.Setup{
			ID: "s1", Head: "h1", Kind: record.AsBuilt, Begun: "2026-03-01T08:00:00Z", By: "AB", State: record.Open,
			Units: record.Units{Length: unit.In, Load: unit.Lbf},
			Rules: record.Rules{
				Decision: record.Guarded, Agree: of("0.003", unit.In), SealLeast: of("0.050", unit.In), RetainerLeast: of("0.050", unit.In),
				SetHeights: of("0.005", unit.In), RatedOver: of("0.800", unit.In), Sizes: []unit.Quantity{of("0.015", unit.In)},
				Assumed:       []record.Assumed{{Kind: record.DialIndicator, S: of("0.0010", unit.In), Step: of("0.001", unit.In)}},
				ShimTolerance: some("0.002", unit.In),
				AssumedLoad:   &record.AssumedLoad{S: of("1.0", unit.Lbf), Step: of("1", unit.Lbf)},
				SeatLoads:     &record.Within{Load: of("5", unit.Lbf), Percent: "3"},
				LoadLost:      &record.Lost{Watch: "5", Replace: "10"},
				Fits:          &record.Fits{Pocket: &record.Clearance{Least: some("0.030", unit.In)}},
				LockAngles:    []string{"7", "10"}, LockOffsets: []unit.Quantity{of("-0.050", unit.In)}, Bosses: []unit.Quantity{of("0.565", unit.In)},
			},
			Needs: record.Needs{
				LifterMost: some("420", unit.Lbf), CamMost: some("400", unit.Lbf), Pocket: some("1.640", unit.In), Boss: some("0.565", unit.In),
				Centres: some("1.950", unit.In),
			},
			Packages: []record.Package{{
				Role: record.Exhaust, Spring: "sp1", Retainer: "r1", Locks: "k1", Locator: "c1", Seal: "g1", Valve: "v1",
				Least:    []record.Least{{Coil: 1, Margin: of("0.060", unit.In)}},
				Card:     &record.Card{Lobe: of("0.400", unit.In), Ratio: "1.6", Lash: of("0.018", unit.In), At: record.Hot},
				SeatLoad: &record.Band{Least: some("120", unit.Lbf), Target: some("130", unit.Lbf), Most: some("140", unit.Lbf), From: "the card"},
				OpenLoad: &record.Band{Most: some("400", unit.Lbf)},
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
				{
					At: at, Kind: record.SeatLoad, N: 1, Quantity: of("133", unit.Lbf), Height: some("1.892", unit.In), Correction: []record.Taken{lid},
					Gauge: "g3", Heights: "g2", Method: record.Typed, By: "AB", When: "2026-03-01T08:09:00Z", Piece: "A-1",
				},
			},
			Shared:     []record.Shared{{Kind: record.LiftChecking, Role: record.Exhaust, From: at}},
			SeatWork:   []record.SeatWork{{ID: "w1", At: at, Depth: of("0.004", unit.In), By: "AB", When: "2026-03-01T08:09:00Z"}},
			Deviations: []record.Deviation{{ID: "d1", At: at, Finding: "seal", Reason: "agreed", By: "AB", When: "2026-03-01T08:10:00Z"}},
			Checks:     []record.Check{{ID: "c1", What: "leak test", Done: record.NotDoneHere}},
		},
		Parts: record.Parts{
			Springs:   []record.Spring{{ID: "sp1", Name: "plain single", Coils: []record.Coil{outer}, Assembly: &record.Assembly{Bind: &bind, Retainer: "r1", Locator: "c1", Loads: &loads}, Mass: some("3.26", unit.Ounce)}},
			Pieces:    []record.SpringPiece{{Tag: "A-1", Spring: "sp1", Binds: []record.PieceBind{{Coil: 1, Bind: bind}}, Loads: []record.PieceLoads{{Loads: loads, Retainer: "r1", Locator: "c1"}, {Coil: 1, Loads: loads}}, Free: some("2.095", unit.In)}},
			Retainers: []record.Retainer{{ID: "r1", Name: "steel", Gauge: "g2", Outside: some("1.250", unit.In), Registers: []record.Register{{Coil: 1, Diameter: of("0.690", unit.In)}}, Stem: some("0.3415", unit.In), Angle: "10", Groove: record.SingleGroove}},
			Locks:     []record.Locks{{ID: "k1", Name: "plain", Angle: "7", Groove: record.SingleGroove, Stem: some("0.3415", unit.In)}},
			Locators:  []record.Locator{{ID: "c1", Name: "cup", Gauge: "g2", Registers: []record.Register{{Coil: 1, Diameter: of("0.695", unit.In)}}, Cup: some("1.310", unit.In), Outside: some("1.450", unit.In), Bore: some("0.572", unit.In)}},
			Seals:     []record.Seal{{ID: "g1", Name: "guide seal", Sits: record.OnGuide, Outside: some("0.560", unit.In), Height: some("0.450", unit.In)}},
			Valves:    []record.ValvePart{{ID: "v1", Name: "exhaust", Groove: record.SingleGroove, Angle: "7"}},
		},
		Gauges: []record.Gauge{fixture, micrometer, tester},
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
	bind := reading
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
			reading.Kind, reading.Quantity, reading.Correction = kind, bind.Quantity, bind.Correction
			if kind.IsLoad() {
				reading.Quantity, reading.Correction = of("133", unit.Lbf), nil
			}
			for coil := range map[bool]int{true: 3, false: 1}[kind == record.BindReading] {
				reading.Coil = coil
				r.Setup.Readings = append(r.Setup.Readings, reading)
			}
		}
	}
	r.Setup.Shared[0].From.N = 1
	return r, f
}
