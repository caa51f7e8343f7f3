package evaluate_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// zero is what a gauge shows at nought.
func zero(t testing.TB, read string) record.Taken {
	return record.Taken{Part: record.ZeroOffset, Amount: in(t, read), Zero: record.NotZeroed}
}

// Worked by hand: what a gauge shows at nought is in every reading on it, and comes off once.
func TestZeroOffset(t *testing.T) {
	lid := record.Taken{Part: record.Lid, Amount: in(t, "0.095"), Zero: record.NotZeroed}
	lift := func(v evaluate.Valve) evaluate.Figure { return v.Lift }
	base := func(v evaluate.Valve) evaluate.Figure { return v.Base }
	outer := func(v evaluate.Valve) evaluate.Figure { return v.Coils[0].Bind }
	tests := []struct {
		name   string
		kind   record.Kind
		coil   int
		read   string
		parts  []record.Taken
		figure func(evaluate.Valve) evaluate.Figure
		want   string
		says   string
	}{
		{"a height", record.BaseHeight, 0, "1.843", []record.Taken{zero(t, "0.001")}, base, "1.842", "base height 1.842 ⟵ 1.843 − .001"},
		{"less than nought at nought", record.BaseHeight, 0, "1.843", []record.Taken{zero(t, "-0.001")}, base, "1.844", "base height 1.844 ⟵ 1.843 + .001"},
		{"a lift", record.LiftChecking, 0, "0.702", []record.Taken{zero(t, "0.002")}, lift, ".700", "lift on checking springs .700 ⟵ .702 − .002"},
		{"a bind through the lid", record.BindReading, 1, "1.156", []record.Taken{lid, zero(t, "0.001")}, outer, "1.060", "bind height 1.060 ⟵ 1.156 − .095 − .001"},
		{"set to nought since", record.BaseHeight, 0, "1.842", []record.Taken{{Part: record.ZeroOffset, Amount: in(t, "0.001"), Zero: record.Zeroed}}, base, "1.842", "base height 1.842 (gauge zeroed on zero offset)"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := nested(t)
			drop(r, intake, test.kind)
			add(t, r, intake, test.kind, test.coil, test.read, test.parts...)
			v := first(r)
			if got := shown(test.figure(v)); got != test.want {
				t.Errorf("%s, want %s", got, test.want)
			}
			wantSaid(t, v, test.says)
		})
	}
}

// A reading keeps what was so when it was taken: repeats of before and after a change of the setting are
// each corrected by their own, and the gauge's setting of today is looked at by none.
func TestASettingChangesNoReading(t *testing.T) {
	r := nested(t)
	drop(r, intake, record.BaseHeight)
	add(t, r, intake, record.BaseHeight, 0, "1.843", zero(t, "0.001"))
	add(t, r, intake, record.BaseHeight, 0, "1.846", zero(t, "0.002"))
	for i := range r.Setup.Readings {
		r.Setup.Readings[i].Gauge = "height"
	}
	r.Gauges = []record.Gauge{{ID: "height", Setting: []record.Taken{zero(t, "0.050")}}}
	v := first(r)
	if got := shown(v.Base); got != "1.843" {
		t.Errorf("the mean of 1.842 and 1.844 is %s", got)
	}
	wantSaid(t, v, "base height 1.842 ⟵ 1.843 − .001", "base height 1.844 ⟵ 1.846 − .002", "base height: mean of 2 readings = 1.843")
}

// Whatever is read, a gauge that shows z at nought and reads q + z says what one that shows nothing and
// reads q says; and in the difference of two depths on one gauge its zero offset cancels.
func TestZeroOffsetIsInEveryKind(t *testing.T) {
	inches := func(thou int) string {
		return fmt.Sprintf("%s%d.%03d", map[bool]string{true: "-"}[thou < 0], abs(thou)/1000, abs(thou)%1000)
	}
	rapid.Check(t, func(rt *rapid.T) {
		// What is at nought on the height scale of a tester is in the height of a load, not in the load.
		lengths := slices.DeleteFunc(slices.Clone(record.Kinds), record.Kind.IsLoad)
		kind := rapid.SampledFrom(lengths).Draw(rt, "kind")
		q, z := rapid.IntRange(100, 2500).Draw(rt, "q"), rapid.IntRange(-50, 50).Draw(rt, "z")
		lid := record.Taken{Part: record.Lid, Amount: in(t, "0.095"), Zero: rapid.SampledFrom([]record.Zeroing{record.Zeroed, record.NotZeroed}).Draw(rt, "lid")}
		through := &record.Gauge{Setting: []record.Taken{lid}}
		says := func(read string, setting ...record.Taken) unit.Length {
			r := nested(t)
			drop(r, intake, kind)
			coil := 0
			if kind == record.BindReading {
				coil = 1
			}
			add(t, r, intake, kind, coil, read, append(through.SettingFor(kind), setting...)...)
			f := evaluate.Taken(r, kind, coil)[0]
			if !f.Known {
				rt.Fatalf("%s is not known", kind)
			}
			return f.Value
		}
		plain, offset := says(inches(q)), says(inches(q+z), zero(t, inches(z)))
		if plain != offset {
			rt.Errorf("%s of %d with %d at nought comes to %d, without to %d", kind, q, z, offset, plain)
		}
		depths := func(z int) string {
			r := nested(t)
			drop(r, intake, record.BaseHeight)
			gauge := &record.Gauge{Setting: []record.Taken{zero(t, inches(z))}}
			for kind, read := range map[record.Kind]int{record.SeatDepth: 2500 + q, record.RetainerDepth: q} {
				add(t, r, intake, kind, 0, inches(read+z), gauge.SettingFor(kind)...)
			}
			return shown(first(r).Base)
		}
		if got := depths(z); got != "2.400" || got != depths(0) {
			rt.Errorf("the difference of two depths with %d at nought is %s", z, got)
		}
	})
}

func abs(n int) int { return max(n, -n) }

// A lift is held against the room as it is, not as the gauge shows it.
func TestDoubtTakesTheZeroOffsetOff(t *testing.T) {
	r := nested(t)
	room := first(r).Height
	reading := record.Reading{At: intake, Kind: record.LiftChecking, N: 2, Quantity: in(t, shown(room))}
	if evaluate.Doubt(r, reading) == nil {
		t.Error("a lift as long as the room was taken")
	}
	reading.Correction = []record.Taken{zero(t, "0.005")}
	if err := evaluate.Doubt(r, reading); err != nil {
		t.Error(err)
	}
}
