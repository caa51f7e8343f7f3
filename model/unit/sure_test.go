package unit_test

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/unit"
)

// Whoever has only the page comes to the same as who has the exact numbers: the printed number less or with
// its printed ± lies on the same side of the limit, and of nought.
func TestPrintedSpreadSaysTheSame(t *testing.T) {
	exactly := func(t *rapid.T, text string) *big.Rat {
		x, ok := new(big.Rat).SetString(strings.Replace(text, "−", "-", 1))
		if !ok {
			t.Fatalf("%q is no number", text)
		}
		return x
	}
	rapid.Check(t, func(t *rapid.T) {
		style, one := unit.Inches, unit.Inch
		if rapid.Bool().Draw(t, "mm") {
			style, one = unit.Millimetres, unit.MM
		}
		// Limits are entered, and have few decimals.
		limit := rapid.Int64Range(0, 200).Draw(t, "limit") * int64(one) / 1000
		u := rapid.Int64Range(0, int64(one)/50).Draw(t, "U")
		// Margins near where it matters.
		near := rapid.SampledFrom([]int64{limit, limit - u, limit + u, u, 0}).Draw(t, "near")
		m := near + rapid.Int64Range(-int64(one)/1000, int64(one)/1000).Draw(t, "off")
		s := unit.Sure{This: unit.Length(m), U: unit.Length(u), Limit: unit.Length(limit)}
		this, _ := style.Show(s)
		spread, _ := style.Show(unit.Spread(s))
		x, y, l := exactly(t, this), exactly(t, spread), big.NewRat(limit, int64(one))
		less, more := new(big.Rat).Sub(x, y), new(big.Rat).Add(x, y)
		if (less.Cmp(l) >= 0) != (m-u >= limit) || (more.Cmp(l) >= 0) != (m+u >= limit) || (less.Sign() > 0) != (m-u > 0) {
			t.Fatalf("%s ± %s says something else of %s than %d ± %d of %d", this, spread, l.FloatString(4), m, u, limit)
		}
		if y.Cmp(big.NewRat(u, int64(one))) < 0 {
			t.Fatalf("± %s is less than %d", spread, u)
		}
	})
}
