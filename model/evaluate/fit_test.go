package evaluate_test

import (
	"slices"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// sized is nested with parts that go together: every hole is .010 or more over what goes into it. Invented.
func sized(t testing.TB) *record.Record {
	t.Helper()
	r := nested(t)
	q := func(read string) *unit.Quantity { return ptr(in(t, read)) }
	register := func(coil int, read string) record.Register { return record.Register{Coil: coil, Diameter: in(t, read)} }
	r.Head.Material = record.Aluminium
	r.Setup.Needs = record.Needs{Boss: q("0.565"), Pocket: q("1.650"), Centres: q("1.900")}
	s := &r.Parts.Springs[0]
	s.Coils[0].Outside, s.Coils[0].Inside = q("1.550"), q("1.150")
	s.Coils[1].Outside, s.Coils[1].Inside = q("1.100"), q("0.800")
	r.Parts.Retainers[0].Outside = q("1.600")
	r.Parts.Retainers[0].Registers = []record.Register{register(1, "1.140"), register(2, "0.790")}
	r.Parts.Retainers[0].Stem, r.Parts.Retainers[0].Angle, r.Parts.Retainers[0].Groove = q("0.342"), "10", record.SingleGroove
	for i := range r.Parts.Locks {
		r.Parts.Locks[i].Stem, r.Parts.Locks[i].Angle, r.Parts.Locks[i].Groove = q("0.342"), "10", record.SingleGroove
	}
	l := &r.Parts.Locators[0]
	l.Bore, l.Outside, l.Cup, l.Registers = q("0.570"), q("1.640"), q("1.560"), []record.Register{register(1, "1.140"), register(2, "0.790")}
	r.Parts.Seals[0].Outside = q("0.640")
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		p := r.PackageOf(role)
		p.Seal = "seal"
		r.Put(p)
	}
	v := &r.Parts.Valves[0]
	v.Stem, v.Angle, v.Groove = q("0.3415"), "10", record.SingleGroove
	return r
}

// fitKeys are the fits that were found on 1 in, notes with a question mark.
func fitKeys(v evaluate.Valve) []string {
	var keys []string
	for _, f := range v.Findings {
		if key, ok := strings.CutPrefix(f.Key, "fit-"); ok {
			if f.Note {
				key += "?"
			}
			keys = append(keys, key)
		}
	}
	return keys
}

// Each way in which parts do not go together, by the smallest change that brings it about; what is meant is common
// practice, with no published source.
func TestFits(t *testing.T) {
	q := func(read string) *unit.Quantity { return ptr(in(t, read)) }
	least := func(read string) *record.Clearance { return &record.Clearance{Least: q(read)} }
	most := func(read string) *record.Clearance { return &record.Clearance{Most: q(read)} }
	for _, c := range []struct {
		name   string
		change func(r *record.Record)
		want   string // keys of fits
		said   string
	}{
		{"all go together", func(*record.Record) {}, "", ""},
		{"the locator does not go over the boss", func(r *record.Record) { r.Setup.Needs.Boss = q("0.630") },
			"boss", "1 in: the bore of the locator is .570 and the guide boss is .630, .060 too large; use parts that go together."},
		{"it just does", func(r *record.Record) { r.Parts.Locators[0].Bore = q("0.565") }, "", ""},
		{"the spring does not go into its pocket", func(r *record.Record) { r.Setup.Needs.Pocket = q("1.545") }, "pocket pocket", "the spring pocket is 1.545 and the spring is 1.550"},
		{"nor into the rim", func(r *record.Record) { r.Parts.Locators[0].Cup = q("1.540") }, "cup", "the rim of the locator is 1.540"},
		{"neighbours touch", func(r *record.Record) { r.Setup.Needs.Centres = q("1.580") }, "neighbour", "the distance of neighbouring pockets is 1.580 and the retainer is 1.600"},
		{"a register too large for the inner coil", func(r *record.Record) { r.Parts.Retainers[0].Registers[1].Diameter = in(t, "0.805") },
			"retainer", "the inside of the inner coil is .800 and the retainer's register is .805, .005 too large"},
		{"the same at the locator", func(r *record.Record) { r.Parts.Locators[0].Registers[0].Diameter = in(t, "1.155") }, "locator", "inside of the outer coil is 1.150"},
		{"a beehive stands with its large end on the locator", func(r *record.Record) {
			s := &r.Parts.Springs[0].Coils[0]
			s.Form, s.Wire, s.Inside = record.Beehive, &record.Wire{Section: record.Ovate, Radial: q("0.200")}, q("0.900")
			r.Parts.Retainers[0].Registers = nil
			r.Parts.Springs[0].Coils[1].Outside = nil
		}, "", ""},
		{"coils rub", func(r *record.Record) { r.Parts.Springs[0].Coils[1].Outside = q("1.160") }, "coils", "outside of the inner coil is 1.160"},
		{"a damper is there to rub", func(r *record.Record) {
			c := &r.Parts.Springs[0].Coils[1]
			c.Outside, c.Acts = q("1.160"), record.Damps
		}, "", ""},
		{"the seal is too wide", func(r *record.Record) { r.Parts.Seals[0].Outside = q("0.820") }, "seal", "the seal is .820"},
		{"a rule of the shop: too little", func(r *record.Record) { r.Setup.Rules.Fits = &record.Fits{Retainer: least("0.015")} },
			"retainer retainer", "1 in: the inside of the outer coil of 1.150 leaves .010 around the retainer's register of 1.140, less than the .015 that the shop's rule asks for."},
		{"at the rule is enough", func(r *record.Record) { r.Setup.Rules.Fits = &record.Fits{Retainer: least("0.010")} }, "", ""},
		{"a rule of the shop: too much", func(r *record.Record) { r.Setup.Rules.Fits = &record.Fits{Boss: most("0.004")} },
			"boss", "leaves .005 around the guide boss of .565, more than the .004 that the shop's rule allows."},
		{"another lock angle", func(r *record.Record) { r.Parts.Locks[0].Angle = "7" },
			"angle", "1 in: the valve has a lock angle of 10°, the locks one of 7°; locks let go in a taper of another angle, use parts of one."},
		{"ten degrees however written", func(r *record.Record) { r.Parts.Locks[0].Angle = "10.0" }, "", ""},
		{"an angle nobody met", func(r *record.Record) {
			r.Parts.Locks[0].Angle, r.Parts.Retainers[0].Angle, r.Parts.Valves[0].Angle = "9", "9", "9"
		}, "angle-unmet?", "a lock angle of 9° is none that this shop has met"},
		{"locks as sold", func(r *record.Record) {
			r.Parts.Locks[0].Offset, r.Setup.Rules.LockOffsets = q("0.050"), record.DefaultRules(unit.In).LockOffsets
		}, "", ""},
		{"an offset nobody met", func(r *record.Record) {
			r.Parts.Locks[0].Offset, r.Setup.Rules.LockOffsets = q("0.060"), record.DefaultRules(unit.Mm).LockOffsets
		}, "offset-unmet?", "1 in: locks with an offset of .060 are none that this shop has met"},
		{"a boss as cut", func(r *record.Record) {
			r.Setup.Needs.Boss, r.Setup.Rules.Bosses = q("0.562"), record.DefaultRules(unit.In).Bosses
		}, "", ""},
		{"a boss nobody met", func(r *record.Record) {
			r.Setup.Needs.Boss, r.Setup.Rules.Bosses = q("0.540"), record.DefaultRules(unit.In).Bosses
		}, "boss-unmet?", "1 in: a guide boss of .540 is none that this shop has met"},
		{"another stem", func(r *record.Record) { r.Parts.Locks[0].Stem = q("0.311") }, "stem", "the valve is for a stem of .3415, the locks for one of .311"},
		{"another groove", func(r *record.Record) { r.Parts.Locks[0].Groove = record.MultiGroove }, "groove", "the valve has a single groove, the locks several grooves"},
		{"a flat damper on titanium", func(r *record.Record) {
			r.Parts.Retainers[0].Material = "Titanium alloy"
			c := &r.Parts.Springs[0].Coils[1]
			c.Acts, c.Wire = record.Damps, &record.Wire{Section: record.Flat}
		}, "titanium", "1 in: a flat-wire damper wears a retainer of titanium; use one of steel."},
		{"straight on aluminium", func(r *record.Record) {
			p := r.PackageOf(record.Intake)
			p.Locator = ""
			r.Put(p)
		}, "aluminium?", "no locator is named"},
		{"nothing is known of sizes", func(r *record.Record) {
			r.Parts.Springs[0].Coils[0].Outside, r.Parts.Springs[0].Coils[0].Inside, r.Parts.Locks[0].Angle = nil, nil, ""
		}, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := sized(t)
			c.change(r)
			v := first(r)
			if got := strings.Join(fitKeys(v), " "); got != c.want {
				t.Errorf("found %q, want %q: %s", got, c.want, said(v))
			}
			if c.want != "" && !strings.HasSuffix(c.want, "?") && v.Verdict != evaluate.Unfit {
				t.Errorf("verdict %v", v.Verdict)
			}
			wantSaid(t, v, c.said)
		})
	}
}

// What fits in inches fits in millimetres of the same lengths, and in the same order.
func TestFitsKnowNoUnits(t *testing.T) {
	r := sized(t)
	r.Setup.Needs.Boss, r.Parts.Locks[0].Angle = ptr(in(t, "0.630")), "7"
	before := fitKeys(first(r))
	boss, err := unit.Of("16.002", unit.Mm) // .630 in
	if err != nil {
		t.Fatal(err)
	}
	r.Setup.Needs.Boss = &boss
	r.Setup.Units.Length = unit.Mm
	if after := fitKeys(first(r)); !slices.Equal(before, after) || len(after) != 2 {
		t.Errorf("in inches %q, in millimetres %q", before, after)
	}
}

// What is to be looked at differs with how locks hold; common practice, with no published source.
func TestGrooveNotes(t *testing.T) {
	r := sized(t)
	r.Parts.Locks[1].Groove = record.MultiGroove
	p := r.PackageOf(record.Exhaust)
	p.Locks = "plus-50"
	r.Put(p)
	var got []string
	for _, l := range evaluate.Evaluate(r).Notes {
		if strings.HasPrefix(l.Key, "note.groove") {
			got = append(got, evaluate.Words(r.Setup.Units).Line(l))
		}
	}
	want := []string{
		"Single-groove locks (intakes) grip the stem: there is a gap between their halves, and the valve does not turn in them. Look at the gap on every valve.",
		"Multi-groove locks (exhausts) butt against each other and let the valve turn. Look on every valve that their halves meet.",
	}
	if !slices.Equal(got, want) {
		t.Errorf("said %q", got)
	}
}

// What all valves of a role have alike is listed once, as long as nobody accepted it on one of them; the verdict is
// each valve's own.
func TestSharedMisfit(t *testing.T) {
	r := sized(t)
	r.Head.Intakes = 2
	second := record.Position{Cylinder: "1", Role: record.Intake, N: 2}
	r.Setup.Needs.Boss = ptr(in(t, "0.630"))
	listed := func() []string {
		ev := evaluate.Evaluate(r)
		if ev.Valves[0].Verdict != evaluate.Unfit || ev.Valves[1].Verdict != evaluate.Unfit {
			t.Errorf("verdicts %v, %v", ev.Valves[0].Verdict, ev.Valves[1].Verdict)
		}
		var all []string
		for v, f := range ev.Listed() {
			if f.Key == "fit-boss" && v.Role == record.Intake {
				all = append(all, evaluate.Words(r.Setup.Units).Line(f.Line))
			}
		}
		return all
	}
	const said = "the bore of the locator is .570 and the guide boss is .630, .060 too large; use parts that go together."
	if got := listed(); !slices.Equal(got, []string{"all intakes: " + said}) {
		t.Errorf("said %q", got)
	}
	r.Setup.Deviations = []record.Deviation{{ID: "d", At: second, Finding: "fit-boss", Reason: "tried"}}
	if got := listed(); len(got) != 2 || got[0] == got[1] {
		t.Errorf("with one accepted, said %q", got)
	}
	r.Setup.Deviations = nil
	other := r.Parts.Locators[0]
	other.ID, other.Bore = "narrow", ptr(in(t, "0.560"))
	r.Parts.Locators = append(r.Parts.Locators, other)
	r.Put(record.Valve{At: second, Locator: "narrow"})
	if got := listed(); len(got) != 2 {
		t.Errorf("with another locator on one of them, said %q", got)
	}
}

// What was not measured is named, and what is not there is not; with all sizes known nothing is left out.
func TestFitsNotLookedAt(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(r *record.Record)
		want   []string
	}{
		{"all measured", func(*record.Record) {}, nil},
		{"the boss", func(r *record.Record) { r.Setup.Needs.Boss = nil },
			[]string{"How parts go together (intakes, exhausts): guide boss against bore of the locator. Not measured: guide boss."}},
		{"the seal of one role", func(r *record.Record) {
			r.Parts.Seals[1].Outside = nil
			p := r.PackageOf(record.Exhaust)
			p.Seal = "one-piece"
			r.Put(p)
		}, []string{"How parts go together (exhausts): seal against inside of the inner coil. Not measured: seal."}},
		{"no seal", func(r *record.Record) {
			for _, role := range []record.Role{record.Intake, record.Exhaust} {
				p := r.PackageOf(role)
				p.Seal = ""
				r.Put(p)
			}
		}, nil},
		{"no rim, no registers", func(r *record.Record) { r.Parts.Locators[0].Cup, r.Parts.Locators[0].Registers = nil, nil }, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := sized(t)
			c.change(r)
			var got []string
			for _, l := range evaluate.Evaluate(r).Unlooked {
				got = append(got, evaluate.Words(r.Setup.Units).Line(l))
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("said %q", got)
			}
		})
	}
}
