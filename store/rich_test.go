package store

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

const noon record.Stamp = "2026-03-02T12:00:00Z"

func clock() record.Stamp { return noon }

func options() Options { return Options{Clock: clock} }

func inch(text string, tenths int64) unit.Quantity {
	return unit.Quantity{Typed: text, Read: text, Unit: unit.In, Value: tenths}
}

func q(text string, tenths int64) *unit.Quantity {
	v := inch(text, tenths)
	return &v
}

func lbf(text string, mN int64) *unit.Quantity {
	return &unit.Quantity{Typed: text, Read: text, Unit: unit.Lbf, Value: mN}
}

func grams(text string, ug int64) *unit.Quantity {
	return &unit.Quantity{Typed: text, Read: text, Unit: unit.Gram, Value: ug}
}

// newBook makes a book in a folder of the test and closes it when the test ends.
func newBook(t testing.TB) *Book {
	t.Helper()
	b, err := Create(context.Background(), filepath.Join(t.TempDir(), "bench.keeperbook"), options())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

// keep keeps edits and fails the test where they are refused.
func keep(t testing.TB, b *Book, token, setup string, edits ...record.Edit) Kept {
	t.Helper()
	k, err := b.Keep(context.Background(), record.Action{Token: token, Setup: setup, By: "Tamsin", At: noon, Edits: edits})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// keepRecord keeps everything a record holds.
func keepRecord(t testing.TB, b *Book, r *record.Record) {
	t.Helper()
	keep(t, b, "record "+r.Setup.ID, "", editsOf(r)...)
}

// height is a base height at a valve, n thousandths of an inch.
func height(p record.Position, thou int) record.Reading {
	return record.Reading{
		At: p, Kind: record.BaseHeight, N: 1, Quantity: inch(fmt.Sprintf("%d", thou), int64(thou)*int64(unit.Thou)),
		Method: record.Typed, By: "Tamsin", When: noon,
	}
}

// small is a head of two valves with an open set-up and no readings.
func small(id string) *record.Record {
	return &record.Record{
		Shop:   record.Shop{Name: "Harbour Lane Heads"},
		Owner:  &record.Owner{ID: "O-" + id, Name: "Orla Penhale"},
		Engine: record.Engine{ID: "E-" + id, Owner: "O-" + id, Name: "Single"},
		Head: record.Head{
			ID: "H-" + id, Engine: "E-" + id, Tag: "head " + id, Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1,
		},
		Setup: record.Setup{
			ID: "S-" + id, Head: "H-" + id, Kind: record.AsBuilt, Begun: noon, By: "Tamsin", State: record.Open,
			Units: record.Units{Length: unit.In, Load: unit.Lbf}, Rules: record.Rules{Decision: record.Plain},
		},
	}
}

// rich is a record that fills every field of every noun, in the order that Record gives.
func rich() *record.Record {
	in1, ex1 := record.Position{Cylinder: "1", Role: record.Intake, N: 1}, record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}
	in2, ex2 := record.Position{Cylinder: "3", Role: record.Intake, N: 1}, record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	taken := []record.Taken{
		{Part: record.Lid, Amount: inch(".095", 24_130_000), Zero: record.NotZeroed, Gauge: "G-4"},
		{Part: record.ZeroOffset, Amount: inch("-.001", -254_000), Zero: record.NotZeroed},
	}
	bind := record.Bind{
		Reading: inch("1.155", 293_370_000), Correction: taken, Source: record.Measured, Gauge: "G-1", By: "Tamsin", At: noon,
	}
	mean := bind
	mean.Lot = &record.Lot{Count: 3, Spread: inch(".001", 254_000)}
	loads := record.Loads{
		Points: []record.Point{{Height: inch("1.895", 481_330_000), Load: *lbf("131", 582_717), Back: lbf("127", 564_924)}, {
			Height: inch("1.295", 328_930_000), Load: *lbf("382", 1_699_221),
		}},
		Correction: taken, Source: record.Measured, Gauge: "G-1", Heights: "G-9", By: "Tamsin", At: noon,
	}
	means := loads
	means.Lot = &record.Lot{Count: 3, Spread: *lbf("2", 8896)}
	room := &record.Clearance{Least: q(".005", 1_270_000), Most: q(".020", 5_080_000)}
	return &record.Record{
		Shop:  record.Shop{Name: "Harbour Lane Heads", Place: "Saltmere", Phone: "5550100"},
		Owner: &record.Owner{ID: "O-1", Name: "Orla <Penhale> & \"Sons\" ﷐"},
		Engine: record.Engine{
			ID: "E-1", Owner: "O-1", Name: "Straight two", Firing: []string{"1", "3"}, Note: "found seized in the barn",
		},
		Head: record.Head{
			ID: "H-1", Engine: "E-1", Tag: "Bank A", Casting: "CX 4471", WorkOrder: "WO-118", Cylinders: []string{"1", "3"},
			Intakes: 1, Exhausts: 1, Front: "timing cover", Order: []record.Position{ex1, in1, in2, ex2}, Note: "dowel missing", Material: record.Iron,
		},
		Setup: record.Setup{
			ID: "S-1", Head: "H-1", Kind: record.AsBuilt, Begun: noon, By: "Tamsin", State: record.Open, Note: "second go",
			Replaces: "S-0", Units: record.Units{Length: unit.In, Load: unit.Lbf},
			Rules: record.Rules{
				Decision: record.Guarded95, Agree: inch(".003", 762_000), SealLeast: inch(".050", 12_700_000),
				RetainerLeast: inch(".060", 15_240_000), SetHeights: inch(".005", 1_270_000), RatedOver: inch(".800", 203_200_000),
				Sizes:         []unit.Quantity{inch(".015", 3_810_000), inch(".030", 7_620_000)},
				Assumed:       []record.Assumed{{Kind: record.Caliper, S: inch(".001", 254_000), Step: inch(".0005", 127_000)}},
				ShimTolerance: q(".002", 508_000),
				AssumedLoad:   &record.AssumedLoad{S: *lbf("1", 4448), Step: *lbf("1", 4448)},
				SeatLoads:     &record.Within{Load: *lbf("5", 22_241), Percent: "3"}, LoadLost: &record.Lost{Watch: "5", Replace: "10"},
				Fits: &record.Fits{
					Boss: room, Pocket: room, Cup: room, Locator: room, Retainer: room, Coils: room, Seal: room, Neighbour: room,
				},
				LockAngles: []string{"7", "10"}, LockOffsets: []unit.Quantity{inch("-.050", -12_700_000)},
				Bosses: []unit.Quantity{inch(".565", 143_510_000)},
			},
			Needs: record.Needs{
				Use: "circuit", RunLength: "20 min", Held: "6200", Reached: "6800", OverRev: "none",
				Boost:  &unit.Quantity{Typed: "15", Read: "15", Unit: unit.Psi, Value: 103_421_359},
				Lifter: "solid", LifterSays: "350 lbf over the nose", CamSays: "check at .020", Oil: "own bottle",
				Parts: "the customer's", Targets: "130 and 380 by the cam's maker", Recheck: "after 10 hours",
				LifterMost: lbf("420", 1_868_253), CamMost: lbf("400", 1_779_289), Pocket: q("1.640", 416_560_000),
				Boss: q(".565", 143_510_000), Centres: q("1.950", 495_300_000),
			},
			Packages: []record.Package{{
				Role: record.Intake, Spring: "SP-1", Retainer: "RT-1", Locks: "LK-1", Locator: "LC-1", Seal: "SL-1", Valve: "VP-1",
				Least: []record.Least{{Coil: 1, Margin: inch(".060", 15_240_000), From: "shop rule"}}, Most: q(".080", 20_320_000),
				Card: &record.Card{
					Lobe: inch(".400", 101_600_000), Ratio: "1.6", Lash: inch(".016", 4_064_000), At: record.Hot, From: "card",
				},
				Lash: &record.Lash{Target: inch(".016", 4_064_000), At: record.Hot}, Nearest: "guide",
				SeatLoad: &record.Band{Least: lbf("120", 533_787), Most: lbf("140", 622_751), Target: lbf("130", 578_269), From: "card"},
				OpenLoad: &record.Band{Most: lbf("400", 1_779_289)},
			}, {Role: record.Exhaust, Spring: "SP-1"}},
			Valves: []record.Valve{
				{At: ex1, NoShim: "none", Note: "seat pitted"},
				{
					At: in1, Stack: []record.Shim{{Thickness: inch(".030", 7_620_000), Under: record.UnderLocator, Gauge: "G-5", Note: "hardened"}},
					Spring: "bag 7", Retainer: "RT-2", Locks: "LK-1", Locator: "LC-1", Seal: "SL-1", Valve: "VP-1",
				},
			},
			Readings: []record.Reading{
				{
					At: ex1, Coil: 2, Kind: record.BindReading, N: 1, Quantity: inch(" .985 ", 250_190_000), Correction: taken,
					Gauge: "G-1", Method: record.Sent, By: "Tamsin", When: noon, Piece: "bag 8", Note: "slow",
				},
				{At: in1, Kind: record.BaseHeight, N: 1, Quantity: inch("1842", 467_868_000), Method: record.Typed, By: "Tamsin", When: noon},
				{
					At: in1, Kind: record.BaseHeight, N: 2, Quantity: inch("1.843*", 468_122_000), Method: record.Typed, By: "Tamsin", When: noon,
					Struck: &record.Strike{Reason: "chip under it", By: "Tamsin", When: noon},
				},
				{
					At: in1, Kind: record.CheckHeight, N: 1, Quantity: inch("1.812", 460_248_000), Gauge: "G-2",
					Method: record.HandedIn, By: "Piran", When: noon,
					Over: &record.Over{
						Stack: []record.Shim{{Thickness: inch(".030", 7_620_000), Under: record.UnderLocator, Gauge: "G-6"}}, Locks: "LK-2",
						Offset: 12_700_000, Retainer: "RT-1", Locator: "LC-1", Valve: "VP-1", Seat: 254_000,
					},
				},
				{
					At: in1, Kind: record.SeatLoad, N: 1, Quantity: *lbf("133", 591_613), Height: q("1.907", 484_378_000), Heights: "G-10",
					Correction: taken, Gauge: "G-1", Method: record.Typed, By: "Piran", When: noon, Piece: "bag 7",
				},
			},
			Shared:   []record.Shared{{Kind: record.LiftChecking, Role: record.Intake, From: in1}},
			SeatWork: []record.SeatWork{{ID: "W-1", At: in2, Depth: inch(".004", 1_016_000), By: "Tamsin", When: noon}},
			Deviations: []record.Deviation{{ID: "D-1", At: ex2, Finding: "seal.short", Reason: "customer's wish", By: "Tamsin", When: noon,
				Found: []record.Found{{Verdict: "short", Beyond: new(unit.Length(1_016_000)), Line: "too near the seal"}}}},
			Checks: []record.Check{{ID: "C-1", What: "leak test", Done: record.DoneHere, Who: "Piran", Note: "dry"}},
		},
		Parts: record.Parts{
			Springs: []record.Spring{{
				ID: "SP-1", Name: "nested", Rate: &unit.Quantity{Typed: "420", Read: "420", Unit: unit.LbfPerIn, Value: 73_553_253},
				RatedLift: q(".700", 177_800_000), Note: "blue dab",
				Coils: []record.Coil{{
					Name: "outer", Bind: &mean, Loads: &means, Acts: record.Carries, Form: record.Beehive, Outside: q("1.540", 391_160_000),
					Small: q("1.300", 330_200_000), Inside: q(".890", 226_060_000), Active: "4.25", Total: "6.25", Conical: "2",
					Ends: record.SquaredGround, Free: q("2.1", 533_400_000), Mass: grams("71.5", 71_500_000),
					Wire: &record.Wire{
						Section: record.Ovate, Diameter: q(".190", 48_260_000), Radial: q(".205", 52_070_000), Material: "chrome-silicon",
						G: &unit.Quantity{Typed: "77.2", Read: "77.2", Unit: unit.GPa, Value: 77_200_000_000}, GFrom: "handbook", Surface: record.Peened,
					},
				}, {Name: "inner"}},
				Assembly: &record.Assembly{Bind: &bind, Retainer: "RT-3", Locator: "LC-2", Loads: &means}, Mass: grams("92.5", 92_500_000),
			}, {ID: "SP-2", Name: "spare", Coils: []record.Coil{{Name: "outer"}}}},
			Pieces: []record.SpringPiece{
				{
					Tag: "bag 7", Spring: "SP-2", Batch: "B4", Condition: record.RunIn,
					Binds: []record.PieceBind{{Coil: 1, Bind: record.Bind{Reading: inch("1.06", 269_240_000), Source: record.Supplied, Gauge: "G-3"}}}, Note: "x",
					Loads: []record.PieceLoads{{Loads: loads, Retainer: "RT-4", Locator: "LC-3"}, {Coil: 1, Loads: loads}}, Free: q("2.095", 532_130_000),
				},
				{Tag: "bag 8", Spring: "SP-1"},
			},
			Retainers: []record.Retainer{
				{ID: "RT-1", Name: "steel", Material: "steel", Lid: q(".095", 24_130_000), Steps: []unit.Quantity{inch(".060", 15_240_000)}, Gauge: "G-7", Note: "n",
					Outside: q("1.450", 368_300_000), Registers: []record.Register{{Coil: 1, Diameter: inch("1.120", 284_480_000)}},
					Stem: q(".3415", 86_741_000), Angle: "10", Groove: record.MultiGroove},
				{ID: "RT-2", Name: "other"}, {ID: "RT-3", Name: "fixture's"}, {ID: "RT-4", Name: "tester's"},
			},
			Locks: []record.Locks{
				{ID: "LK-1", Name: "plain", Offset: q("-.050", -12_700_000), Angle: "10", Groove: record.SingleGroove, Note: "n", Stem: q(".3415", 86_741_000)},
				{ID: "LK-2", Name: "raised"},
			},
			Locators: []record.Locator{
				{ID: "LC-1", Name: "cup", Floor: q(".060", 15_240_000), Steps: []unit.Quantity{inch("-.010", -2_540_000)}, Gauge: "G-8", Note: "n",
					Registers: []record.Register{{Coil: 2, Diameter: inch(".880", 223_520_000)}}, Cup: q("1.560", 396_240_000),
					Outside: q("1.630", 414_020_000), Bore: q(".572", 145_288_000)},
				{ID: "LC-2", Name: "fixture's"}, {ID: "LC-3", Name: "tester's"},
			},
			Seals:  []record.Seal{{ID: "SL-1", Name: "band", Sits: record.OnGuide, Note: "n", Outside: q(".560", 142_240_000), Height: q(".450", 114_300_000)}},
			Valves: []record.ValvePart{{ID: "VP-1", Name: "2.02", Material: "steel", Head: q("2.02", 513_080_000), Stem: q(".3415", 86_741_000), Length: q("5.31", 1_348_740_000), Mass: "112 g", Note: "n", Groove: record.MultiGroove, Angle: "10"}},
		},
		Gauges: []record.Gauge{
			{ID: "G-0", Name: "gauge block", Kind: record.Micrometer},
			{
				ID: "G-1", Name: "tester", Kind: record.SpringTester, Number: "4", Setting: taken, Note: "n", Step: q(".001", 254_000),
				Calibration: &record.Calibration{
					U: inch(".0008", 203_200), K: "2", Date: "2025-10-06", Due: "2026-10-06", Certificate: "C-9", By: "a gauge room",
				},
				Repeat: &record.Repeat{S: inch(".0006", 152_400), Freedom: "18", Study: "ST-1", People: 2},
				LoadScale: &record.LoadScale{
					Step: lbf("1", 4448), Calibration: &record.Calibration{U: *lbf("1.5", 6672), K: "2"},
					Repeat: &record.Repeat{S: *lbf(".8", 3559), Freedom: "12"},
					Weights: &record.Weights{
						Points: []record.Weighing{{Applied: *lbf("100", 444_822), Shown: *lbf("101", 449_270)}}, Degree: 1, Gravity: "9.81",
						Date: "2025-10-06", By: "Piran",
					},
				},
			},
			{ID: "G-10", Name: "height gauge", Kind: record.HeightGauge},
			{ID: "G-2", Name: "height gauge", Kind: record.HeightGauge}, {ID: "G-3", Name: "caliper", Kind: record.Caliper},
			// Named by the setting of another gauge, by shims on a valve and under a reading, by parts, and by
			// the setting of the one that measured those.
			{ID: "G-4", Name: "micrometer", Kind: record.Micrometer}, {ID: "G-5", Name: "micrometer", Kind: record.Micrometer},
			{ID: "G-6", Name: "micrometer", Kind: record.Micrometer}, {ID: "G-7", Name: "depth gauge", Kind: record.DepthGauge},
			{ID: "G-8", Name: "depth gauge", Kind: record.DepthGauge, Setting: []record.Taken{
				{Part: record.Floor, Amount: inch(".060", 15_240_000), Zero: record.Zeroed, Gauge: "G-0"},
			}},
			{ID: "G-9", Name: "caliper", Kind: record.Caliper},
		},
	}
}
