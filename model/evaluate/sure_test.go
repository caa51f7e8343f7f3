package evaluate_test

import (
	"math"
	"strings"
	"testing"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// shop is the record of a valve with the gauges of a small shop: step, U of the certificate with k = 2,
// pooled s and its degrees of freedom. Everything that is measured on it names its gauge.
func shop(t testing.TB) *record.Record {
	t.Helper()
	r := nested(t)
	r.Setup.Rules = record.DefaultRules(unit.In)
	r.Setup.Readings, r.Setup.Valves = nil, nil
	gauge := func(id, name string, kind record.GaugeKind, step, u, s, freedom string) {
		r.Gauges = append(r.Gauges, record.Gauge{
			ID: id, Name: name, Kind: kind, Step: ptr(in(t, step)),
			Calibration: &record.Calibration{U: in(t, u), K: "2", Due: "2027-01-31", Certificate: "C-" + id},
			Repeat:      &record.Repeat{S: in(t, s), Freedom: freedom},
		})
	}
	gauge("H", "height gauge", record.HeightGauge, "0.0005", "0.0010", "0.0008", "24")
	gauge("M", "micrometer", record.Micrometer, "0.00005", "0.0002", "0.0001", "19")
	gauge("D", "dial indicator", record.DialIndicator, "0.001", "0.0008", "0.0010", "18")
	gauge("C", "caliper", record.Caliper, "0.0005", "0.0010", "0.0006", "24")
	return r
}

// on keeps a reading with its gauge.
func on(t testing.TB, r *record.Record, at record.Position, kind record.Kind, coil int, gauge, read string, correction ...record.Taken) {
	t.Helper()
	add(t, r, at, kind, coil, read, correction...)
	last := lastOf(r, at, kind, coil)
	last.Gauge, last.When = gauge, "2026-03-02T10:00:00Z"
}

// through is the correction for a lid that the caliper measured; none for "-" and for nothing.
func through(t testing.TB, lid string) []record.Taken {
	if lid == "" || lid == "-" {
		return nil
	}
	return []record.Taken{{Part: record.Lid, Amount: in(t, whole(lid)), Zero: record.NotZeroed, Gauge: "C"}}
}

// whole puts the nought before the point that check files leave out.
func whole(read string) string {
	if strings.HasPrefix(read, ".") {
		return "0" + read
	}
	return read
}

// shopRow builds the record of a check's row.
func shopRow(t testing.TB, row checkfile.Row) *record.Record {
	t.Helper()
	r := shop(t)
	r.Gauges[indexOf(r, "H")].Repeat.Freedom, r.Gauges[indexOf(r, "D")].Repeat.Freedom = row.Text("freedom_h"), row.Text("freedom_d")
	retainer, spring := &r.Parts.Retainers[0], &r.Parts.Springs[0]
	retainer.Gauge, retainer.Steps, retainer.Lid = "C", nil, ptr(in(t, "0.0950"))
	for _, s := range strings.Fields(row.Text("steps")) {
		retainer.Steps = append(retainer.Steps, in(t, whole(s)))
	}
	binds, lids := strings.Fields(row.Text("binds")), strings.Fields(row.Text("bind_lid"))
	spring.Coils = spring.Coils[:len(binds)]
	p := r.PackageOf(record.Intake)
	p.Least = p.Least[:len(binds)]
	for i := range binds {
		spring.Coils[i].Bind = nil
		p.Least[i].Margin = in(t, whole(row.Text("least_in")))
		on(t, r, intake, record.BindReading, i+1, "C", whole(binds[i]), through(t, lids[i])...)
	}
	r.Put(p)
	v := record.Valve{At: intake}
	for _, s := range strings.Fields(row.Text("shims")) {
		v.Stack = append(v.Stack, record.Shim{Thickness: in(t, whole(s)), Under: record.UnderLocator, Gauge: "M"})
	}
	r.Put(v)
	for _, b := range strings.Fields(row.Text("base")) {
		on(t, r, intake, record.BaseHeight, 0, "H", b, through(t, row.Text("base_lid"))...)
	}
	for _, l := range strings.Fields(row.Text("lift")) {
		on(t, r, intake, record.LiftChecking, 0, "D", whole(l))
	}
	return r
}

func TestSure(t *testing.T) {
	const inch = float64(unit.Inch)
	checkfile.Each(t, "testdata/check/sure.txt", func(t *testing.T, row checkfile.Row) {
		number := func(column string) float64 {
			x, _ := row.Rat(column).Float64()
			return x
		}
		near := func(what string, got, want, within float64) {
			t.Helper()
			if !(math.Abs(got-want) <= within) {
				t.Errorf("%s: %.12g, want %.12g", what, got, want)
			}
		}
		r := shopRow(t, row)
		v := first(r)
		c := v.Coils[int(number("coil"))-1]
		if want := row.Length("margin_in"); c.Margin.Value != want {
			t.Fatalf("margin %s, want %s", shown(c.Margin), unit.Inches.LengthIn(want))
		}
		b, err := c.Margin.Sure()
		if err != nil {
			t.Fatal(err)
		}
		near("u", b.Std/inch, number("u_in"), 2e-12)
		near("ν", b.Nu, number("nu"), 2e-6*number("nu"))
		near("U", b.Expanded/inch, number("expanded_in"), 2e-11)
		if u, ok := c.Margin.U(); !ok || float64(u) < b.Expanded || float64(u) > b.Expanded+1 {
			t.Errorf("U %d is not %g rounded up", u, b.Expanded)
		}
		p, ok := v.Chance()
		near("the chance", p, number("chance"), 1e-7)
		if !ok {
			t.Error("no chance is known")
		}
		for rule, column := range map[record.Decision]string{record.Guarded: "guarded", record.Guarded95: "guarded_95"} {
			r.Setup.Rules.Decision = rule
			if got := first(r).Verdict.String(); got != "verdict."+row.Text(column) {
				t.Errorf("%s: %s, want %s", rule, got, row.Text(column))
			}
		}
		r.Setup.Rules.Decision = record.Guarded
		wantSaid(t, first(r), row.Text("said"))
	})
}
