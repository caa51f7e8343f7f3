package evaluate

import (
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What is assumed of a kind is one guess, so that two testers without a study are wrong together: of their loads
// one, and of their heights another.
func TestAssumedOfAKindIsOneGuess(t *testing.T) {
	r := &record.Record{Gauges: []record.Gauge{
		{ID: "A", Name: "tester A", Kind: record.SpringTester}, {ID: "B", Name: "tester B", Kind: record.SpringTester},
	}}
	r.Setup.Units = record.Units{Length: unit.In, Load: unit.Lbf}
	r.Setup.Rules = record.DefaultRules(unit.In)
	b := layOut(r)
	a, other := b.scaleOf("A"), b.scaleOf("B")
	if a.gauge == other.gauge || a.pool == nil || a.pool != other.pool {
		t.Errorf("load scales: %+v and %+v", a.instrument, other.instrument)
	}
	heights := b.instrument("A", record.SpringTester)
	if heights.pool == a.pool || heights.pool != b.instrument("B", record.SpringTester).pool {
		t.Error("heights and loads are one guess, or the heights of two testers are two")
	}
	if !a.stepAssumed || !a.scatterAssumed || a.step.Unit != unit.Lbf || heights.step.Unit != unit.In {
		t.Errorf("assumed are %+v and %+v", a.step, heights.step)
	}
}
