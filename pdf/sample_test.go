package pdf_test

import (
	"fmt"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf"
)

// The samples are invented.

// bench puts readings into a record.
type bench struct {
	t    testing.TB
	unit unit.Symbol
	rec  *record.Record
}

func (b *bench) q(decimal string) unit.Quantity {
	b.t.Helper()
	q, err := unit.Of(decimal, b.unit)
	if err != nil {
		b.t.Fatalf("%q: %v", decimal, err)
	}
	return q
}

func (b *bench) ref(decimal string) *unit.Quantity {
	q := b.q(decimal)
	return &q
}

func (b *bench) read(at record.Position, kind record.Kind, coil int, decimal string, through ...record.Taken) {
	b.rec.Setup.Readings = append(b.rec.Setup.Readings, record.Reading{
		At: at, Kind: kind, Coil: coil, N: 1, Quantity: b.q(decimal), Correction: through, Gauge: "g1",
		Method: record.Typed, By: "R. Tarn", When: "2026-03-02T10:00:00Z",
		Over: evaluate.Trim(kind, evaluate.OverNow(b.rec, at)),
	})
}

func (b *bench) shims(at record.Position, stack ...record.Shim) {
	v := record.Valve{At: at, Stack: stack}
	if len(stack) == 0 {
		v.NoShim = "none"
	}
	b.rec.Setup.Valves = append(b.rec.Setup.Valves, v)
}

func (b *bench) shim(decimal string, under record.Under) record.Shim {
	return record.Shim{Thickness: b.q(decimal), Under: under}
}

// rules are the shop's rules in inches or millimetres.
func (b *bench) rules() record.Rules {
	r := record.Rules{Decision: record.Plain}
	if b.unit == unit.In {
		r.Agree, r.SealLeast, r.RetainerLeast = b.q("0.003"), b.q("0.050"), b.q("0.050")
		r.SetHeights, r.RatedOver = b.q("0.005"), b.q("0.800")
		r.Sizes = []unit.Quantity{b.q("0.015"), b.q("0.030"), b.q("0.060")}
		return r
	}
	r.Agree, r.SealLeast, r.RetainerLeast = b.q("0.08"), b.q("1.27"), b.q("1.27")
	r.SetHeights, r.RatedOver = b.q("0.13"), b.q("20.00")
	r.Sizes = []unit.Quantity{b.q("0.25"), b.q("0.50"), b.q("1.00")}
	return r
}

// six is a pushrod head of twelve valves with nested springs: 3 ex is short, 4 ex lacks its base height,
// 6 in has no lift, 2 in a lift of the shims under the outer coil only.
func six(t testing.TB) *record.Record {
	b := &bench{t: t, unit: unit.In, rec: &record.Record{
		Shop:   record.Shop{Name: "Tarn & Fell Cylinder Heads", Place: "3 Weir Street, Aldmouth", Phone: "0555 0142"},
		Owner:  &record.Owner{ID: "o1", Name: "J. Merrow"},
		Engine: record.Engine{ID: "e1", Name: "Blue tractor, straight six", Firing: []string{"1", "5", "3", "6", "2", "4"}},
		Head: record.Head{ID: "h1", Engine: "e1", Tag: "BT-6", Casting: "A 771", WorkOrder: "2026-118",
			Cylinders: []string{"1", "2", "3", "4", "5", "6"}, Intakes: 1, Exhausts: 1, Front: "water outlet"},
	}}
	r := b.rec
	r.Setup = record.Setup{ID: "s-0007", Head: "h1", Kind: record.AsBuilt, Replaces: "s-0006", Begun: "2026-03-02T08:00:00Z",
		By: "R. Tarn", State: record.Open, Note: "Fast road cam. Springs from the customer.",
		Units: record.Units{Length: unit.In, Load: unit.Lbf}, Rules: b.rules(),
		Needs: record.Needs{Use: "fast road", Held: "4500", Reached: "5800", Lifter: "solid, flat", Oil: "splash",
			Parts: "customer's", Recheck: "after 500 miles, by the owner"},
		SeatWork:   []record.SeatWork{{ID: "w1", At: record.Position{Cylinder: "1", Role: record.Intake, N: 1}, Depth: b.q("0.004"), By: "R. Tarn", When: "2026-03-01T09:00:00Z"}},
		Deviations: []record.Deviation{{ID: "d1", At: record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}, Finding: "bind", Reason: "thinner shim on order; not to be run before it is in", By: "R. Tarn", When: "2026-03-02T16:00:00Z"}},
		Checks: []record.Check{
			{ID: "c1", What: "crack check", Done: record.DoneHere, Who: "P. Fell", Note: "dye, no findings"},
			{ID: "c2", What: "piston to valve", Done: record.NotDoneHere, Who: "the engine builder"},
		},
	}
	lid := []record.Taken{{Part: record.Lid, Amount: b.q("0.095"), Zero: record.NotZeroed}}
	bind := func(decimal string) *record.Bind {
		return &record.Bind{Reading: b.q(decimal), Correction: lid, Source: record.Measured, Gauge: "g2", By: "R. Tarn"}
	}
	r.Parts = record.Parts{
		Springs: []record.Spring{{ID: "sp", Name: "Nest 37", Coils: []record.Coil{
			{Name: "outer", Bind: bind("1.155")}, {Name: "damper", Bind: bind("1.030")}, {Name: "inner", Bind: bind("1.048")},
		}, RatedLift: b.ref("0.700")}},
		Pieces: []record.SpringPiece{{Tag: "07", Spring: "sp", Batch: "B-12", Condition: record.RunIn, Note: "paint: two white"},
			{Tag: "08", Spring: "sp", Batch: "B-12", Condition: record.Used}},
		Retainers: []record.Retainer{{ID: "rt", Name: "Steel 95", Material: "steel", Lid: b.ref("0.095"), Steps: []unit.Quantity{b.q("0.060"), b.q("0.095")}}},
		Locks:     []record.Locks{{ID: "lk", Name: "7° standard", Offset: b.ref("0.000"), Angle: "7", Groove: record.SingleGroove}},
		Locators:  []record.Locator{{ID: "lc", Name: "Cup 60", Floor: b.ref("0.060")}},
		Seals:     []record.Seal{{ID: "se", Name: "Viton cap", Sits: record.OnGuide}},
		Valves:    []record.ValvePart{{ID: "vi", Name: "Intake 1.880", Stem: b.ref("0.3415")}, {ID: "ve", Name: "Exhaust 1.600", Material: "stainless"}},
	}
	r.Gauges = []record.Gauge{
		{ID: "g1", Name: "Height micrometer", Kind: record.HeightGauge, Number: "H-2"},
		{ID: "g2", Name: "Bind fixture", Kind: record.Fixture, Number: "F-1", Setting: lid, Note: "checked against a 1.000 in block each morning"},
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		p := record.Package{Role: role, Spring: "sp", Retainer: "rt", Locks: "lk", Locator: "lc", Seal: "se", Valve: "vi"}
		if role == record.Exhaust {
			p.Valve = "ve"
		}
		for c := 1; c <= 3; c++ {
			p.Least = append(p.Least, record.Least{Coil: c, Margin: b.q("0.060"), From: "spring maker's sheet"})
		}
		r.Setup.Packages = append(r.Setup.Packages, p)
	}
	for i, at := range r.Head.Positions() {
		stack := []record.Shim{b.shim("0.030", record.UnderLocator)}
		if at.Cylinder == "2" && at.Role == record.Intake {
			stack = append(stack, b.shim("0.015", record.UnderOuter))
		}
		b.shims(at, stack...)
		if at.Cylinder != "4" || at.Role != record.Exhaust {
			b.read(at, record.BaseHeight, 0, fmt.Sprintf("%.3f", 1.842+0.001*float64(i%4)))
		}
		b.read(at, record.SealGap, 0, fmt.Sprintf("%.3f", 0.700+0.002*float64(i%3)))
		if i%2 == 0 {
			b.read(at, record.CheckHeight, 0, fmt.Sprintf("%.3f", 1.811+0.001*float64(i%4)))
		}
		lift := "0.612"
		if at.Role == record.Exhaust {
			lift = "0.604"
		}
		if at.Cylinder == "3" && at.Role == record.Exhaust {
			lift = "0.709"
		}
		if at.Cylinder != "6" || at.Role != record.Intake {
			b.read(at, record.LiftChecking, 0, lift)
		}
	}
	r.Setup.Valves[0].Spring = "07"
	return r
}

// gauged is the head of six with its numbers guarded: the height gauge was studied and is past due, the
// fixture has no certificate, and nobody said what measured the retainer's steps. A spring tester has a certificate
// and weights for its loads. The shop asks for some clearances.
func gauged(t testing.TB) *record.Record {
	r := six(t)
	r.Setup.Rules = record.DefaultRules(unit.In)
	b := &bench{t: t, unit: unit.In, rec: r}
	r.Setup.Rules.Fits = &record.Fits{
		Pocket: &record.Clearance{Least: b.ref("0.030")}, Cup: &record.Clearance{Least: b.ref("0.005"), Most: b.ref("0.020")},
		Coils: &record.Clearance{Most: b.ref("0.060")},
	}
	r.Gauges[0].Step = b.ref("0.0005")
	r.Gauges[0].Calibration = &record.Calibration{U: b.q("0.0010"), K: "2", Date: "2025-02-20", Due: "2026-02-20", Certificate: "W-118", By: "Weir Metrology"}
	r.Gauges[0].Repeat = &record.Repeat{S: b.q("0.0008"), Freedom: "24", People: 3}
	r.Gauges[1].Step = b.ref("0.001")
	lbf := func(read string) unit.Quantity {
		q, err := unit.Of(read, unit.Lbf)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	step := lbf("0.5")
	r.Gauges = append(r.Gauges, record.Gauge{ID: "tester", Name: "spring tester 7", Kind: record.SpringTester, LoadScale: &record.LoadScale{
		Step: &step, Calibration: &record.Calibration{U: lbf("0.8"), K: "2", Date: "2026-01-10", Due: "2027-01-10", Certificate: "W-131"},
		Weights: &record.Weights{Date: "2026-02-01", Points: []record.Weighing{
			{Applied: lbf("50"), Shown: lbf("50.5")}, {Applied: lbf("100"), Shown: lbf("101.0")}, {Applied: lbf("200"), Shown: lbf("201.5")},
		}},
	}})
	for i := range r.Parts.Springs[0].Coils {
		r.Parts.Springs[0].Coils[i].Bind.Lot = &record.Lot{Count: 4, Spread: b.q("0.002")}
	}
	return r
}

// many is a metric head of any size with single springs, all within.
func many(t testing.TB, cylinders, in, ex int) *record.Record {
	b := &bench{t: t, unit: unit.Mm, rec: &record.Record{
		Shop:   record.Shop{Name: "Tarn & Fell Cylinder Heads"},
		Engine: record.Engine{ID: "e2", Name: "Twin cam"},
		Head:   record.Head{ID: "h2", Engine: "e2", Tag: "TC-" + fmt.Sprint(cylinders), Intakes: in, Exhausts: ex},
	}}
	r := b.rec
	for c := 1; c <= cylinders; c++ {
		r.Head.Cylinders = append(r.Head.Cylinders, fmt.Sprint(c))
	}
	r.Setup = record.Setup{ID: "s-0100", Head: "h2", Kind: record.AsFound, Begun: "2026-04-01T08:00:00Z", By: "P. Fell",
		State: record.Open, Units: record.Units{Length: unit.Mm, Load: unit.N}, Rules: b.rules()}
	r.Parts = record.Parts{
		Springs: []record.Spring{{ID: "sp", Name: "Single 34", Coils: []record.Coil{{Name: "outer",
			Bind: &record.Bind{Reading: b.q("23.10"), Source: record.Measured}}}}},
		Retainers: []record.Retainer{{ID: "rt", Name: "Top", Lid: b.ref("2.30")}},
		Locators:  []record.Locator{{ID: "lc", Name: "Plate", Floor: b.ref("1.00")}},
		Seals:     []record.Seal{{ID: "se", Name: "Cap", Sits: record.OnGuide}},
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		r.Setup.Packages = append(r.Setup.Packages, record.Package{Role: role, Spring: "sp", Retainer: "rt", Locator: "lc", Seal: "se",
			Least: []record.Least{{Coil: 1, Margin: b.q("1.50"), From: "shop rule"}},
			Lash:  &record.Lash{Target: b.q("0.25"), At: record.Cold}})
	}
	for i, at := range r.Head.Positions() {
		b.shims(at, b.shim("0.50", record.UnderLocator))
		b.read(at, record.BaseHeight, 0, fmt.Sprintf("%.2f", 34.80+0.01*float64(i%7)))
		b.read(at, record.SealGap, 0, "10.40")
		b.read(at, record.CheckHeight, 0, fmt.Sprintf("%.2f", 34.29+0.01*float64(i%7)))
		b.read(at, record.LiftChecking, 0, "8.40")
		b.read(at, record.LashFound, 0, fmt.Sprintf("%.2f", 0.22+0.02*float64(i%4)))
		b.read(at, record.LashShim, 0, "2.80")
	}
	return r
}

// empty is a head of which nothing was measured.
func empty(t testing.TB) *record.Record {
	r := many(t, 4, 1, 1)
	r.Setup.Readings, r.Setup.Valves, r.Setup.Packages = nil, nil, nil
	r.Parts, r.Head.Tag, r.Shop = record.Parts{}, "", record.Shop{}
	return r
}

// sheet works a record out into a sheet.
func sheet(r *record.Record, paper pdf.Paper) pdf.Sheet { return sheetIn("en", r, paper) }

func sheetIn(language string, r *record.Record, paper pdf.Paper) pdf.Sheet {
	ev := evaluate.Evaluate(r)
	words := evaluate.WordsIn(language, r.Setup.Units)
	return pdf.Sheet{
		Record: r, Evaluation: ev, Figures: ev.Figures(words, r.Setup.Units), Paper: paper, Words: words,
		Fingerprint: "5f1de09a7c3b44218e60d2aa91f7c05be4437710ab9cd2e8f6013b5a77c1d904",
	}
}
