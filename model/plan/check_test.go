package plan_test

import (
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/plan"
	"keeperbook/model/unit"
)

func numbers(t *testing.T, text string) (all []int) {
	t.Helper()
	for _, word := range strings.Fields(text) {
		n, err := strconv.Atoi(word)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, n)
	}
	return all
}

// makes counts the stacks of a thickness, and returns the fewest shims of one.
func makes(sizes []plan.Shim, most plan.Most, want unit.Length) (ways, fewest int) {
	for _, s := range plan.Stacks(sizes, most) {
		if s.Total != want {
			continue
		}
		if ways++; ways == 1 || s.Shims < fewest {
			fewest = s.Shims
		}
	}
	return ways, fewest
}

func TestStacks(t *testing.T) {
	checkfile.Each(t, "testdata/check/stacks.txt", func(t *testing.T, r checkfile.Row) {
		sizes := []plan.Shim{{Thick: 15, Count: 9}, {Thick: 30, Count: 9}, {Thick: 60, Count: 9}}
		want := numbers(t, r.Text("want_thou"))[0]
		ways, fewest := makes(sizes, plan.Most{Shims: 9, Total: 120}, unit.Length(want))
		if w, f := numbers(t, r.Text("ways"))[0], numbers(t, r.Text("fewest"))[0]; ways != w || fewest != f {
			t.Errorf("%d ways with %d shims at least, want %d and %d", ways, fewest, w, f)
		}
	})
	stock := func(t *testing.T, r checkfile.Row, count int) (sizes []plan.Shim) {
		for _, thick := range numbers(t, r.Text("sizes")) {
			sizes = append(sizes, plan.Shim{Thick: unit.Length(thick), Count: count})
		}
		return sizes
	}
	checkfile.Each(t, "testdata/check/sums.txt", func(t *testing.T, r checkfile.Row) {
		want := numbers(t, r.Text("want"))[0]
		ways, _ := makes(stock(t, r, 1), plan.Most{Shims: 12, Total: 60}, unit.Length(want))
		if want := numbers(t, r.Text("ways"))[0]; ways != want {
			t.Errorf("%d ways, want %d", ways, want)
		}
	})
	checkfile.Each(t, "testdata/check/unreachable.txt", func(t *testing.T, r checkfile.Row) {
		sizes, largest := stock(t, r, 12), numbers(t, r.Text("largest"))[0]
		// As many in a row as the least size is thick, and every thickness beyond them can be made too.
		for want := largest; want <= largest+numbers(t, r.Text("sizes"))[0]; want++ {
			if ways, _ := makes(sizes, plan.Most{Shims: 12, Total: 60}, unit.Length(want)); (ways > 0) != (want > largest) {
				t.Errorf("%d can be made in %d ways", want, ways)
			}
		}
	})
}
