package search_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/search"
	"keeperbook/model/plan/internal/table"
)

// A knapsack is a head too: every item is a valve that takes as many shims as it weighs, or none and
// then costs its profit.
func TestKnapsack(t *testing.T) {
	checkfile.Each(t, "testdata/check/knapsack.txt", func(t *testing.T, r checkfile.Row) {
		numbers := func(column string) (all []int64) {
			for _, word := range strings.Fields(r.Text(column)) {
				n, err := strconv.ParseInt(word, 10, 64)
				if err != nil {
					t.Fatal(err)
				}
				all = append(all, n)
			}
			return all
		}
		weights, profits := numbers("weights"), numbers("profits")
		n := len(weights)
		tb := &table.Table{Valves: n, Springs: n, Use: [][]int64{{0}}, Stock: numbers("capacity"), Step: 1}
		all := int64(0)
		for i, w := range weights {
			tb.Home, tb.Group = append(tb.Home, i), append(tb.Group, -1)
			tb.Use = append(tb.Use, []int64{w})
			at := int32(i)
			tb.Columns = append(tb.Columns,
				table.Column{Valve: at, Spring: at, Dev: profits[i]}, table.Column{Valve: at, Spring: at, Stack: at + 1})
			all += profits[i]
		}
		plan, claim, why := search.Least(tb, table.Weights{Dev: 1}, 10_000)
		if why == nil || proof.Check(tb, claim, why) != nil {
			t.Fatal("not proven")
		}
		if got := all - claim.Below; got != numbers("best")[0] {
			t.Errorf("profit %d", got)
		}
		var taken []int64
		for i, id := range plan {
			if tb.Columns[id].Stack > 0 {
				taken = append(taken, int64(i+1))
			}
		}
		if want := numbers("taken"); !slices.Equal(taken, want) {
			t.Errorf("took %v, want %v", taken, want)
		}
	})
}
