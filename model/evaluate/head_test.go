package evaluate_test

import (
	"strconv"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

var exhaust = record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}

func TestSummary(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(r *record.Record)
		want   string
		next   string
	}{
		{"over", func(*record.Record) {}, "Tightest of 2 measured: 1 in, .020 over its least margin", ""},
		{"short", func(r *record.Record) { shim(t, r, "0.054") }, "Tightest of 2 measured: 1 in, short by .004", ""},
		{"binds", func(r *record.Record) { shim(t, r, "0.130") }, "Tightest of 2 measured: 1 in, binds", ""},
		{"one missing", func(r *record.Record) { drop(r, exhaust, record.BaseHeight) },
			"Tightest of 1 measured: 1 in, .020 over its least margin; 1 missing", "1 ex, base height"},
		{"base heights come before shims", func(r *record.Record) {
			r.Put(record.Valve{At: intake})
			drop(r, exhaust, record.BaseHeight)
		}, "Nothing measured yet on 2 valves", "1 ex, base height"},
		{"head only", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			drop(r, exhaust, record.LiftChecking)
			shim(t, r, "0.040")
		}, "No lift measured on the engine yet; least lift limit: 1 in, up to .710 (inner coil near bind)", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := nested(t)
			c.change(r)
			ev := evaluate.Evaluate(r)
			p := evaluate.Words(r.Setup.Units)
			if got := p.Line(ev.Summary); got != c.want {
				t.Errorf("summary %q, want %q", got, c.want)
			}
			if got := p.Line(ev.NextLine()); got != c.next {
				t.Errorf("next %q, want %q", got, c.next)
			}
		})
	}
}

func TestSetHeights(t *testing.T) {
	r := nested(t)
	r.Head.Cylinders = []string{"1", "2"}
	second := record.Position{Cylinder: "2", Role: record.Intake, N: 1}
	r.Put(record.Valve{At: second, NoShim: "none"})
	add(t, r, second, record.BaseHeight, 0, "1.881")
	ev := evaluate.Evaluate(r)
	p := evaluate.Words(r.Setup.Units)
	want := "Installed heights of the intakes lie .011 apart (1 in 1.870, 2 in 1.881); the rule for a set is ±.005."
	if len(ev.Findings) != 1 || p.Line(ev.Findings[0].Line) != want {
		t.Errorf("findings %v, want %q", ev.Findings, want)
	}
	drop(r, second, record.BaseHeight)
	add(t, r, second, record.BaseHeight, 0, "1.880") // ± .005 apart is .010, and that much is in order
	if ev := evaluate.Evaluate(r); len(ev.Findings) != 0 {
		t.Errorf("at the rule: %v", ev.Findings)
	}
}

func TestDeviation(t *testing.T) {
	r := nested(t)
	shim(t, r, "0.054")
	r.Put(record.Deviation{ID: "d", At: intake, Finding: "bind", Reason: "agreed with the builder"})
	v := first(r)
	if v.Findings[0].Accepted == nil || v.Findings[0].Accepted.Reason != "agreed with the builder" {
		t.Errorf("accepted: %v", v.Findings[0].Accepted)
	}
	if v.Verdict != evaluate.Short {
		t.Errorf("an accepted deviation changed the verdict to %v", v.Verdict)
	}
}

func TestFigures(t *testing.T) {
	r := nested(t)
	drop(r, exhaust, record.LiftChecking)
	ev := evaluate.Evaluate(r)
	fig := ev.Figures(evaluate.Words(r.Setup.Units), r.Setup.Units)
	want := map[string][2]string{
		"verdict": {"within", "up to .720"}, "base": {"1.900", "1.900"}, "shims": {".030", ".030"},
		"calc": {"1.870", "1.870"}, "check": {"", ""}, "lift": {".700", ""}, "coil": {"inner", "inner"},
		"open": {"1.075", ""}, "bind": {".985", ".985"}, "margin": {".090", ""}, "u": {"±.0053", ""}, "least": {".070", ".070"}, "up-to": {".720", ".720"},
	}
	if len(fig.Columns) != len(want) {
		t.Errorf("columns %v", fig.Columns)
	}
	for i, c := range fig.Columns {
		for j, row := range fig.Rows {
			if row.Cells[i] != want[c.Key][j] {
				t.Errorf("%s of %s is %q, want %q", c.Key, row.Valve, row.Cells[i], want[c.Key][j])
			}
		}
	}
	// In millimetres the same record shows other numbers and the same verdicts.
	r.Setup.Units.Length = unit.Mm
	mm := ev.Figures(evaluate.Words(r.Setup.Units), r.Setup.Units)
	if got := mm.Rows[0].Cells[1]; got != "48.26" {
		t.Errorf("base in millimetres %q, want 48.26", got)
	}
	if mm.Rows[0].Cells[0] != "within" {
		t.Errorf("verdict in millimetres %q", mm.Rows[0].Cells[0])
	}
}

// sixtyFour is a head of 16 cylinders with four valves each, nested springs, everything measured.
func sixtyFour(t testing.TB) *record.Record {
	r := nested(t)
	r.Head.Cylinders, r.Head.Intakes, r.Head.Exhausts = nil, 2, 2
	r.Setup.Valves, r.Setup.Readings = nil, nil
	for c := 1; c <= 16; c++ {
		r.Head.Cylinders = append(r.Head.Cylinders, strconv.Itoa(c))
	}
	for _, at := range r.Head.Positions() {
		r.Setup.Valves = append(r.Setup.Valves, record.Valve{At: at, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderLocator}}})
		for kind, read := range map[record.Kind]string{record.BaseHeight: "1.900", record.LiftChecking: "0.700", record.CheckHeight: "1.871", record.SealGap: "0.800"} {
			r.Setup.Readings = append(r.Setup.Readings, record.Reading{
				At: at, Kind: kind, N: 1, Quantity: in(t, read), Over: evaluate.Trim(kind, evaluate.OverNow(r, at)),
			})
		}
	}
	return r
}

// gaugedSixtyFour is the same with every reading, shim, part and bind on a gauge, the binds of lots, and springs
// of which both coils were tested and loads are asked for.
func gaugedSixtyFour(t testing.TB) *record.Record {
	r := sixtyFour(t)
	r.Gauges = shop(t).Gauges
	on := map[record.Kind]string{record.BaseHeight: "H", record.CheckHeight: "H", record.LiftChecking: "D", record.SealGap: "C"}
	for i := range r.Setup.Readings {
		r.Setup.Readings[i].Gauge = on[r.Setup.Readings[i].Kind]
	}
	for i := range r.Setup.Valves {
		r.Setup.Valves[i].Stack[0].Gauge = "M"
	}
	r.Parts.Retainers[0].Gauge = "C"
	for i := range r.Parts.Springs[0].Coils {
		r.Parts.Springs[0].Coils[i].Bind.Gauge, r.Parts.Springs[0].Coils[i].Bind.Lot = "C", &record.Lot{Count: 9, Spread: in(t, "0.001")}
	}
	coils := r.Parts.Springs[0].Coils
	coils[0].Loads = bareTest(t, "2.000", "160", "1.700", "260", "1.400", "362", "1.100", "470")
	coils[1].Loads = bareTest(t, "1.900", "69", "1.600", "132", "1.300", "196", "1.000", "262")
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		p := r.PackageOf(role)
		p.SeatLoad, p.OpenLoad = band(t, "200", "320"), band(t, "500", "700")
		r.Put(p)
	}
	return r
}

func BenchmarkEvaluate64(b *testing.B) {
	for _, rule := range record.Decisions {
		b.Run(string(rule), func(b *testing.B) {
			r := gaugedSixtyFour(b)
			r.Setup.Rules.Decision = rule
			b.ReportAllocs()
			for b.Loop() {
				evaluate.Evaluate(r)
			}
		})
	}
}

func BenchmarkFigures64(b *testing.B) {
	r := sixtyFour(b)
	ev := evaluate.Evaluate(r)
	p := evaluate.Words(r.Setup.Units)
	for b.Loop() {
		ev.Figures(p, r.Setup.Units)
	}
}
