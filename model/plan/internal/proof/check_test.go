package proof_test

import (
	"maps"
	"math/rand"
	"slices"
	"testing"

	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/search"
	"keeperbook/model/plan/internal/table"
)

// random is a small table with scarce shims; with groups where there are no targets.
func random(r *rand.Rand, groups int) *table.Table {
	n, m := 4+r.Intn(3), 7
	t := &table.Table{Valves: n, Springs: m, Use: [][]int64{{0, 0}, {1, 0}, {2, 0}, {0, 1}, {1, 1}}, Step: 2, Groups: groups}
	t.Stock = []int64{int64(1 + r.Intn(n)), int64(r.Intn(n))}
	for j := range m {
		t.Home = append(t.Home, j%(n+1)-1)
	}
	for i := range n {
		t.Group = append(t.Group, i%2)
		if groups == 0 {
			t.Group[i] = -1
		}
	}
	for i := range n {
		for j := range m {
			for s := range t.Use {
				if r.Intn(3) == 0 {
					continue
				}
				c := table.Column{Valve: int32(i), Spring: int32(j), Stack: int32(s), Value: int64(100 + r.Intn(40) + 30*s)}
				if groups == 0 {
					c.Dev = int64(r.Intn(30) + 10*(4-s))
				}
				t.Columns = append(t.Columns, c)
			}
		}
	}
	return t
}

// proofs solves random tables until there are enough proofs of some size.
func proofs(t *testing.T, want int, each func(tb *table.Table, c proof.Claim, n *proof.Node)) {
	t.Helper()
	r := rand.New(rand.NewSource(3))
	for found, tried := 0, 0; found < want; tried++ {
		if tried > 20*want {
			t.Fatalf("only %d proofs of some size", found)
		}
		tb := random(r, 2*(tried%2))
		s := search.New(tb, search.Options{Nodes: 10_000}).Run()
		if s.SecondWhy == nil || s.SecondWhy.Split == proof.Whole {
			continue
		}
		found++
		each(tb, s.Second, s.SecondWhy)
	}
}

func all(n *proof.Node, do func(*proof.Node)) {
	if n != nil {
		do(n)
		all(n.Less, do)
		all(n.More, do)
	}
}

// What the search says holds, and the very same cases do not show more than that.
func TestHolds(t *testing.T) {
	cases := 0
	proofs(t, 60, func(tb *table.Table, c proof.Claim, n *proof.Node) {
		if err := proof.Check(tb, c, n); err != nil {
			t.Fatal(err)
		}
		all(n, func(*proof.Node) { cases++ })
		more := c
		more.Below++
		if proof.Check(tb, more, n) == nil {
			t.Error("it shows that the best plan does not exist")
		}
	})
	t.Logf("%d cases", cases)
}

// A proof with one thing wrong in it is refused, or what is wrong did not matter: then what it claims is
// true all the same, and what is not true it does not show. Each kind of damage must have been seen.
func TestDamageIsSeen(t *testing.T) {
	damages := map[string]func(r *rand.Rand, n *proof.Node) bool{
		"a case is missing": func(_ *rand.Rand, n *proof.Node) bool {
			some := n.More != nil
			n.More = nil
			return some
		},
		"a case is not bounded": func(_ *rand.Rand, n *proof.Node) bool {
			some := n.Bound != nil
			n.Bound = nil
			return some
		},
		"a valve costs more": func(r *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Rows[r.Intn(len(n.Bound.Rows))] += 1 << 30
			return true
		},
		"a spring must be used": func(r *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Springs[r.Intn(len(n.Bound.Springs))] = 1
			return true
		},
		"a shim is paid for": func(r *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Prices[r.Intn(len(n.Bound.Prices))] = -1
			return true
		},
		"numbers overflow": func(r *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Rows[r.Intn(len(n.Bound.Rows))] = 1 << 62
			return true
		},
		"a scale overflows": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Scale = 1 << 62
			return true
		},
		"a scale below nought": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Scale = -n.Bound.Scale - 1
			return true
		},
		"of another table": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Bound == nil {
				return false
			}
			n.Bound.Rows = n.Bound.Rows[1:]
			return true
		},
		"a split that there is none of": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Split <= proof.Again {
				return false
			}
			n.Split += 9
			return true
		},
		"a size that there is none of": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Split == proof.Uses {
				n.Size = 99
			}
			return n.Size == 99
		},
		"a group that there is none of": func(_ *rand.Rand, n *proof.Node) bool {
			if n.Split == proof.Lowest || n.Split == proof.Highest {
				n.At = 99
			}
			return n.At == 99
		},
	}
	seen := map[string]int{}
	r := rand.New(rand.NewSource(5))
	for _, name := range slices.Sorted(maps.Keys(damages)) {
		damage := damages[name]
		proofs(t, 12, func(tb *table.Table, c proof.Claim, n *proof.Node) {
			var nodes []*proof.Node
			all(n, func(n *proof.Node) { nodes = append(nodes, n) })
			// Somewhere, or as near to the root as it can be.
			nodes = nodes[r.Intn(2)*r.Intn(len(nodes)):]
			if slices.ContainsFunc(nodes, func(n *proof.Node) bool { return damage(r, n) }) && proof.Check(tb, c, n) != nil {
				seen[name]++
			}
			if c.Below++; proof.Check(tb, c, n) == nil {
				t.Errorf("%s, and it shows that the best plan does not exist", name)
			}
		})
		if seen[name] == 0 {
			t.Errorf("%s, and nobody sees it", name)
		}
	}
}

// Claims that nothing could be checked in are refused.
func TestClaims(t *testing.T) {
	tb := random(rand.New(rand.NewSource(1)), 0)
	for name, c := range map[string]proof.Claim{
		"too much": {Limit: 1 << 40, Below: 1 << 62},
		"too dear": {Limit: 1 << 40, Below: 1, Weights: table.Weights{Dev: 1 << 58}},
	} {
		if proof.Check(tb, c, &proof.Node{}) == nil {
			t.Errorf("%s: it holds", name)
		}
	}
	if proof.Check(tb, proof.Claim{Limit: 1 << 40, Below: 1}, nil) == nil {
		t.Error("nothing proves it")
	}
}
