package table_test

import (
	"cmp"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/plan/internal/table"
)

// One number for all objectives puts plans in the order that the objectives do, one after the other.
func TestCompositeKeepsTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, most := rapid.IntRange(1, 64).Draw(t, "valves"), rapid.Int64Range(1, 12).Draw(t, "shims under a spring")
		w := (&table.Table{Valves: n}).Composite(most)
		score := func() table.Score {
			return table.Score{
				Sum: rapid.Int64Range(0, 5).Draw(t, "sum"), Shims: rapid.Int64Range(0, int64(n)*most).Draw(t, "shims"),
				Moves: rapid.Int64Range(0, int64(n)).Draw(t, "moves"),
			}
		}
		a, b := score(), score()
		want := cmp.Or(cmp.Compare(a.Sum, b.Sum), cmp.Compare(a.Shims, b.Shims), cmp.Compare(a.Moves, b.Moves))
		if got := cmp.Compare(a.Composite(w), b.Composite(w)); got != want {
			t.Fatalf("%+v and %+v compare as %d, want %d", a, b, got, want)
		}
	})
}

func TestScore(t *testing.T) {
	tb := &table.Table{
		Valves: 3, Springs: 3, Use: [][]int64{{0, 0}, {2, 1}}, Stock: []int64{3, 1}, Home: []int{0, -1, 1}, Group: []int{0, -1, 0}, Groups: 1, Step: 4,
		Columns: []table.Column{
			{Valve: 0, Spring: 0, Stack: 1, Value: 90}, {Valve: 1, Spring: 2, Stack: 0, Dev: 3}, {Valve: 2, Spring: 1, Stack: 1, Value: 81},
		},
	}
	s := tb.Score([]int32{0, 1, 2})
	if s.Worst != 3 || s.Sum != 6 || s.Shims != 6 || s.Moves != 1 || s.Enough() || s.Left[0] != -1 || s.Left[1] != -1 || s.Spread[0] != 3 {
		t.Errorf("%+v", s)
	}
}
