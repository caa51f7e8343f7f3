package plan_test

import (
	"testing"

	"keeperbook/model/plan"
)

// heads are the made-up heads that are timed: with shims to spare, and with just about enough of them.
var heads = []struct {
	name            string
	valves, springs int
	stock           []int
}{
	{"16 valves, 20 springs, shims to spare", 16, 20, []int{48, 48, 48}},
	{"16 valves, 20 springs, scarce shims", 16, 20, []int{16, 8, 6}},
	{"32 valves, 40 springs, shims to spare", 32, 40, []int{96, 96, 96}},
	{"32 valves, 40 springs, scarce shims", 32, 40, []int{32, 16, 12}},
	{"32 valves, 40 springs, very scarce shims", 32, 40, []int{32, 16, 10}},
}

// BenchmarkSolve counts deviations in thousandths of a newton, the hardest way; every objective proven.
func BenchmarkSolve(b *testing.B) {
	for _, h := range heads {
		b.Run(h.name, func(b *testing.B) {
			nodes, seed := 0, int64(0)
			for b.Loop() {
				seed++
				p, err := plan.Solve(newHead(seed%8, h.valves, h.springs, 1, h.stock...).Problem, plan.Options{})
				if err != nil || p.Outcome != plan.Proven {
					b.Fatal(err, p)
				}
				nodes += p.Nodes
			}
			b.ReportMetric(float64(nodes)/float64(b.N), "assignments/op")
		})
	}
}

// BenchmarkSpread has no targets; nobody promises a time.
func BenchmarkSpread(b *testing.B) {
	nodes, proven, seed := 0, 0, int64(0)
	for b.Loop() {
		seed++
		p, err := plan.Solve(newHead(seed%8, 16, 20, plan.LoadStep, 18, 12, 8).without().Problem, plan.Options{})
		if err != nil || len(p.Rows) == 0 {
			b.Fatal(err, p)
		}
		if nodes += p.Nodes; p.Outcome == plan.Proven {
			proven++
		}
	}
	b.ReportMetric(float64(nodes)/float64(b.N), "assignments/op")
	b.ReportMetric(float64(proven)/float64(b.N), "proven/op")
}
