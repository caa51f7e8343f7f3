package budget_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/unit"
)

// estimates reads inputs such as "1×25/18, -575×.029/2": sensitivity × standard uncertainty / ν.
func estimates(t *testing.T, text string) (sum budget.Sum) {
	t.Helper()
	for _, part := range strings.Split(text, ",") {
		var x [3]float64
		for i, word := range strings.FieldsFunc(strings.TrimSpace(part), func(r rune) bool { return r == '×' || r == '/' }) {
			v, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatal(err)
			}
			x[i] = v
		}
		sum = append(sum, budget.Term{C: x[0], X: &budget.Input{Estimate: budget.Estimate{U: x[1], Nu: x[2]}}})
	}
	return sum
}

func TestCombined(t *testing.T) {
	for _, file := range []string{"combined", "combined-relative", "combined-digits"} {
		checkfile.Each(t, "testdata/check/"+file+".txt", func(t *testing.T, r checkfile.Row) {
			b, err := estimates(t, r.Text("inputs")).Budget()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "u", b.Std, number(r, "u"), number(r, "u_tolerance"))
			near(t, "ν", b.Nu, number(r, "nu"), number(r, "nu_tolerance"))
			if file == "combined-digits" {
				return
			}
			nu := number(r, "nu_taken")
			if math.Floor(b.Nu+.01) != nu {
				t.Errorf("ν %g is not cut down to %g", b.Nu, nu)
			}
			k := budget.Student(number(r, "p"), nu)
			near(t, "t", k, number(r, "t"), .005)
			near(t, "U", k*b.Std, number(r, "expanded"), number(r, "expanded_tolerance"))
		})
	}
}

func TestCoverage(t *testing.T) {
	checkfile.Each(t, "testdata/check/coverage.txt", func(t *testing.T, r checkfile.Row) {
		const u = 1_000_000
		k := unit.Length(number(r, "k") * u)
		p := budget.Inside(budget.Of(u, math.Inf(1)), 0, -k, k)
		near(t, "percent", 100*p, number(r, "percent"), number(r, "tolerance"))
	})
}

// whole makes a whole number of a decimal, in millionths.
func whole(x float64) unit.Length { return unit.Length(math.Round(x * 1e6)) }

func TestConformance(t *testing.T) {
	infinite := math.Inf(1)
	checkfile.Each(t, "testdata/check/conformance.txt", func(t *testing.T, r checkfile.Row) {
		b := budget.Of(number(r, "u")*1e6, infinite)
		p := budget.Inside(b, whole(number(r, "measured")), whole(number(r, "least")), whole(number(r, "most")))
		near(t, "p", p, number(r, "p"), number(r, "tolerance"))
	})
	checkfile.Each(t, "testdata/check/guard.txt", func(t *testing.T, r checkfile.Row) {
		b := budget.Of(1e6, infinite)
		near(t, "p", budget.Above(b, whole(number(r, "w")), 0), number(r, "p"), number(r, "tolerance"))
	})
	checkfile.Each(t, "testdata/check/rejection.txt", func(t *testing.T, r checkfile.Row) {
		limit, from, p := number(r, "limit"), number(r, "from"), number(r, "p")
		above := func(x float64) float64 {
			return budget.Above(budget.Of(number(r, "relative")*x*1e6, infinite), whole(x), whole(limit))
		}
		if above(from) < p || above(from-.1) >= p {
			t.Errorf("at %g proved with %g, a tenth below with %g", from, above(from), above(from-.1))
		}
	})
}
