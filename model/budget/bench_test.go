package budget_test

import (
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/unit"
)

// nested returns the two coils' margins of every valve of a head, ten inputs each.
func nested(valves int) []budget.Sum {
	b := newBench()
	read := func(gauge string, n int, nu float64) *budget.Input {
		return &budget.Input{Gauge: b.gauges[gauge], Pool: b.pools[gauge], N: n, Own: budget.Scatter{Squares: nu * 1e10, Nu: nu}}
	}
	var all []budget.Sum
	for range valves {
		base, lid := read("H", 2, 1), read("C", 1, 0)
		lift, step := read("D", 3, 2), read("C", 1, 0)
		shims := []*budget.Input{read("M", 1, 0), read("M", 1, 0), read("M", 1, 0)}
		lot := budget.Lot{S: .001 * inch, Nu: 15, N: 16}
		outer, inner := read("C", 1, 0), &budget.Input{Gauge: b.gauges["C"], Lot: lot}
		for _, bind := range []*budget.Input{outer, inner} {
			sum := budget.Sum{{1, base}, {-1, lid}, {-1, lift}, {-1, bind}}
			if bind == outer {
				sum = append(sum, budget.Term{C: 1, X: lid})
			} else {
				sum = append(sum, budget.Term{C: -1, X: step})
			}
			for _, s := range shims {
				sum = append(sum, budget.Term{C: -1, X: s})
			}
			all = append(all, sum)
		}
	}
	return all
}

func BenchmarkHead(b *testing.B) {
	head := nested(64)
	b.ReportAllocs()
	for b.Loop() {
		for _, sum := range head {
			one, err := sum.Budget()
			if err != nil {
				b.Fatal(err)
			}
			if _, err := budget.GuardOf[unit.Length](one, budget.Guarded95); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkRows(b *testing.B) {
	sum := nested(1)[1]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := sum.Rows(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStudent(b *testing.B) {
	for name, nu := range map[string]float64{"few": 4, "some": 40, "many": 400} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				budget.Student(0.975, nu)
			}
		})
	}
}

func BenchmarkDisagree(b *testing.B) {
	pool := budget.Pool{S: .001 * inch, Nu: 18}
	for b.Loop() {
		budget.Disagree(.001*inch, pool, 608*unit.Thou, 615*unit.Thou, 613*unit.Thou)
	}
}

func BenchmarkRangeLimit(b *testing.B) {
	for b.Loop() {
		budget.RangeLimit(3, 18)
	}
}
