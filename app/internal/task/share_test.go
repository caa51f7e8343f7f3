package task_test

import (
	"context"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// What is of one valve or of one spring is not taken for a role; what the valves have alike is.
func TestShareRefusesWhatIsOfOneValve(t *testing.T) {
	ctx, b := context.Background(), emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	at := b.Record().Head.Positions()[0]
	for _, kind := range []record.Kind{record.CheckHeight, record.SeatLoad, record.BindReading} {
		if err := b.Share(ctx, kind, at); say.CodeOf(err) != say.Invalid || len(b.Record().Setup.Shared) != 0 {
			t.Errorf("%s: %v, shared %v", kind, err, b.Record().Setup.Shared)
		}
	}
	if err := b.Share(ctx, record.BaseHeight, at); err != nil || len(b.Record().Setup.Shared) != 1 {
		t.Errorf("base: %v, shared %v", err, b.Record().Setup.Shared)
	}
}
