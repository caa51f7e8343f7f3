package record_test

import (
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What stands between two lands is in a height and in a bind, and in nothing else; what a gauge shows at
// nought is in everything.
func TestSettingFor(t *testing.T) {
	var g record.Gauge
	for _, p := range record.PartsOfStack {
		g.Setting = append(g.Setting, record.Taken{Part: p, Amount: of(t, "0.010"), Zero: record.NotZeroed})
	}
	few := map[record.Kind][]record.PartOfStack{
		record.BaseHeight:    record.PartsOfStack,
		record.CheckHeight:   record.PartsOfStack,
		record.BindReading:   record.PartsOfStack,
		record.SeatLoad:      record.PartsOfStack, // of the height it was taken at
		record.SeatDepth:     {record.Floor, record.ZeroOffset},
		record.RetainerDepth: {record.Lid, record.ZeroOffset},
	}
	for _, kind := range record.Kinds {
		want, ok := few[kind]
		if !ok {
			want = []record.PartOfStack{record.ZeroOffset}
		}
		got := g.SettingFor(kind)
		if len(got) != len(want) {
			t.Errorf("%s goes through %v, want %v", kind, got, want)
			continue
		}
		for i := range got {
			if got[i].Part != want[i] {
				t.Errorf("%s goes through %v, want %v", kind, got, want)
			}
		}
	}
	if got := (&record.Gauge{}).SettingFor(record.BindReading); got != nil {
		t.Errorf("an empty setting gives %v", got)
	}
}

// The rules that a set-up begins with know every kind of gauge, in the unit they are in.
func TestDefaultRulesKnowEveryGauge(t *testing.T) {
	for _, length := range []unit.Symbol{unit.In, unit.Mm} {
		r := record.DefaultRules(length)
		if r.Decision != record.Guarded {
			t.Errorf("%s: a new set-up decides by %s", length, r.Decision)
		}
		if r.ShimTolerance == nil || r.ShimTolerance.Unit != length || r.ShimTolerance.Value <= 0 {
			t.Errorf("%s: shims within %v", length, r.ShimTolerance)
		}
		if len(r.Assumed) != len(record.GaugeKinds) {
			t.Fatalf("%s: %d kinds, want %d", length, len(r.Assumed), len(record.GaugeKinds))
		}
		for i, a := range r.Assumed {
			if a.Kind != record.GaugeKinds[i] || a.S.Unit != length || a.Step.Unit != length || a.S.Value <= 0 {
				t.Errorf("%s: %+v", length, a)
			}
		}
	}
	// Millimetres are the inches rounded as a metric shop does, not figures of their own.
	in, mm := record.DefaultRules(unit.In), record.DefaultRules(unit.Mm)
	for i := range in.Assumed {
		if a, b := float64(in.Assumed[i].S.Value), float64(mm.Assumed[i].S.Value); a/b < 0.67 || a/b > 1.5 {
			t.Errorf("%s scatters by %v and by %v", in.Assumed[i].Kind, in.Assumed[i].S, mm.Assumed[i].S)
		}
	}
}
