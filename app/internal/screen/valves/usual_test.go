package valves_test

import (
	"testing"

	"keeperbook/model/record"
)

// A new head goes on with the gauge that such readings were taken on last in another, and says so over the
// column; a column that was told otherwise, or has readings of its own, is left alone. Shims are as sold until
// somebody says that they were measured.
func TestGaugeOfTheHeadBefore(t *testing.T) {
	r := newRig(t, four())
	r.must(r.bench.Keep(r.ctx, shifted(t, "0.001"), record.Gauge{ID: "m", Name: "micrometer 3", Kind: record.Micrometer}))
	r.on("1 in", "base")
	r.ReadThrough(r.Ways()[1])
	r.types("1.938⏎")
	r.on("1 in", "shims")
	r.ReadThrough(r.Ways()[2])
	r.types("30⏎")

	next := four()
	next.Tag = "next"
	s := rigOn(t, r.desk, r.time, next)
	s.on("1 in", "base")
	if got := s.State().Columns[s.State().Cursor.Column].Title; got != "base −.095 − .001" {
		t.Errorf("the column is called %q", got)
	}
	s.types("1.940⏎")
	s.wantCell("1 in", "base", "1.844")
	s.on("1 in", "shims")
	s.types("30⏎")
	rec := s.bench.Record()
	if got := rec.Setup.Readings[0].Gauge; got != "g" || len(rec.Gauges) != 1 {
		t.Errorf("read on %q, the record has %d gauges", got, len(rec.Gauges))
	}
	if got := rec.ValveAt(rec.Head.Positions()[0]).Stack[0].Gauge; got != "" {
		t.Errorf("a shim that nobody spoke of was measured on %q", got)
	}
	s.on("1 ex", "base")
	s.ReadThrough(s.Ways()[0])
	s.types("1.850⏎")
	s.wantCell("1 ex", "base", "1.850")
	s.on("1 in", "lift") // no reading of its kind was ever taken
	if got := s.State().Columns[s.State().Cursor.Column].Title; got != "lift" {
		t.Errorf("the column is called %q", got)
	}
}
