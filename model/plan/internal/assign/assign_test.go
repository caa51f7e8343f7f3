package assign_test

import (
	"math/rand"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/plan/internal/assign"
)

// every tries all assignments and returns the least cost, how many have it, and whether there is any.
func every(n, m int, cost []int64) (least int64, count int, some bool) {
	used := make([]bool, m)
	var try func(i int, sum int64)
	try = func(i int, sum int64) {
		if i == n {
			switch {
			case !some || sum < least:
				least, count, some = sum, 1, true
			case sum == least:
				count++
			}
			return
		}
		for j := range m {
			if c := cost[i*m+j]; !used[j] && c != assign.None {
				used[j] = true
				try(i+1, sum+c)
				used[j] = false
			}
		}
	}
	try(0, 0)
	return least, count, some
}

// check holds an answer against its own duals: they prove that it is the cheapest, or that there is none.
func check(t interface{ Fatalf(string, ...any) }, a *assign.Cheapest, n, m int, cost []int64, total int64, ok bool) {
	sum := int64(0)
	for _, u := range a.U {
		sum += u
	}
	for _, v := range a.V {
		if sum += v; v > 0 {
			t.Fatalf("a column must be taken: %v", a.V)
		}
	}
	for i := range n {
		for j := range m {
			c := cost[i*m+j]
			if c == assign.None {
				continue
			}
			if !ok {
				c = 0
			}
			if a.U[i]+a.V[j] > c {
				t.Fatalf("row %d, column %d: %d + %d exceed %d", i, j, a.U[i], a.V[j], c)
			}
		}
	}
	if !ok {
		if sum <= 0 {
			t.Fatalf("no assignment, and no reason: %v %v", a.U, a.V)
		}
		return
	}
	if sum != total {
		t.Fatalf("costs %d, its duals %d", total, sum)
	}
	taken := make([]bool, m)
	for i, j := range a.Column {
		if taken[j] || cost[i*m+j] == assign.None {
			t.Fatalf("columns %v", a.Column)
		}
		taken[j] = true
		total -= cost[i*m+j]
	}
	if total != 0 {
		t.Fatalf("the columns %v do not add up", a.Column)
	}
}

func TestExamples(t *testing.T) {
	checkfile.Each(t, "testdata/check/examples.txt", func(t *testing.T, r checkfile.Row) {
		var cost []int64
		lines := strings.Split(r.Text("costs"), "/")
		for _, line := range lines {
			for _, word := range strings.Fields(line) {
				c, err := strconv.ParseInt(word, 10, 64)
				if err != nil {
					t.Fatal(err)
				}
				cost = append(cost, c)
			}
		}
		n := len(lines)
		var a assign.Cheapest
		total, ok := a.Solve(n, n, cost)
		check(t, &a, n, n, cost, total, ok)
		if want := r.Rat("optimum").Num().Int64(); total != want {
			t.Errorf("costs %d, want %d", total, want)
		}
		first := slices.Clone(a.Column)
		if want := strings.Fields(r.Text("columns")); len(want) > 0 {
			for i, j := range first {
				if strconv.Itoa(j) != want[i] {
					t.Errorf("columns %v, want %v", first, want)
				}
			}
		}
		if _, count, _ := every(n, n, cost); int64(count) != r.Rat("optima").Num().Int64() {
			t.Errorf("%d optima", count)
		}
		// Of several optima it is always the same one.
		for range 3 {
			var b assign.Cheapest
			if b.Solve(n, n, cost); !slices.Equal(b.Column, first) {
				t.Errorf("columns %v, before %v", b.Column, first)
			}
		}
	})
}

func TestProducts(t *testing.T) {
	checkfile.Each(t, "testdata/check/products.txt", func(t *testing.T, r checkfile.Row) {
		n := int(r.Rat("n").Num().Int64())
		cost := make([]int64, n*n)
		for i := range n {
			for j := range n {
				cost[i*n+j] = int64((i + 1) * (j + 1))
			}
		}
		var a assign.Cheapest
		total, ok := a.Solve(n, n, cost)
		check(t, &a, n, n, cost, total, ok)
		if want := r.Rat("optimum").Num().Int64(); total != want {
			t.Errorf("costs %d, want %d", total, want)
		}
	})
}

// One solver goes through many problems, each starting from the prices of the one before.
func TestAgainstTryingEverything(t *testing.T) {
	none := 0
	var a assign.Cheapest
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "rows")
		m := rapid.IntRange(max(1, n-1), 6).Draw(t, "columns")
		cost := make([]int64, n*m)
		for i := range cost {
			if cost[i] = int64(rapid.IntRange(-9, 12).Draw(t, "cost")); cost[i] > 9 {
				cost[i] = assign.None
			}
		}
		total, ok := a.Solve(n, m, cost)
		check(t, &a, n, m, cost, total, ok)
		want, _, some := every(n, m, cost)
		if ok != some || ok && total != want {
			t.Fatalf("%d %t, want %d %t", total, ok, want, some)
		}
		may := make([][]int32, n)
		for i := range n {
			for j := range m {
				if cost[i*m+j] != assign.None {
					may[i] = append(may[i], int32(j))
				}
			}
		}
		column, size := assign.Match(m, may)
		if (size == n) != some {
			t.Fatalf("%d of %d rows matched, an assignment: %t", size, n, some)
		}
		taken := map[int]bool{}
		for i, j := range column {
			if j >= 0 && (taken[j] || !slices.Contains(may[i], int32(j))) {
				t.Fatalf("matched %v", column)
			}
			if j >= 0 {
				taken[j] = true
			}
		}
		if len(taken) != size {
			t.Fatalf("%d rows matched, said %d", len(taken), size)
		}
		if !some {
			none++
		}
	})
	if none == 0 && !testing.Short() { // a short run draws too seldom to say
		t.Error("every problem had an assignment")
	}
}

// A matching leaves out as few rows as the cheapest assignment must, on graphs too large to try.
func TestMatchLarge(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	whole := 0
	for range 200 {
		n, m := 30, 34
		cost, may := make([]int64, n*m), make([][]int32, n)
		for i := range n {
			for j := range m {
				if cost[i*m+j] = assign.None; r.Intn(12) == 0 {
					cost[i*m+j], may[i] = int64(r.Intn(100)), append(may[i], int32(j))
				}
			}
		}
		var a assign.Cheapest
		total, ok := a.Solve(n, m, cost)
		check(t, &a, n, m, cost, total, ok)
		if _, size := assign.Match(m, may); (size == n) != ok {
			t.Fatalf("%d of %d rows matched, an assignment: %t", size, n, ok)
		}
		if ok {
			whole++
		}
	}
	if whole == 0 || whole == 200 {
		t.Errorf("%d of 200 graphs have a whole matching", whole)
	}
}

func BenchmarkCheapest(b *testing.B) {
	r := rand.New(rand.NewSource(1))
	n, m := 32, 40
	cost := make([]int64, n*m)
	for i := range cost {
		cost[i] = int64(r.Intn(1_000_000))
	}
	var a assign.Cheapest
	for b.Loop() {
		a.Solve(n, m, cost)
		cost[r.Intn(n*m)] = int64(r.Intn(1_000_000))
	}
}
