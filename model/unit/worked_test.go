package unit_test

import (
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/unit"
)

func TestWorked(t *testing.T) {
	for _, c := range []struct {
		length   unit.Length
		in       unit.Symbol
		decimals int
		read     string
		value    int64
	}{
		{198_882, unit.In, 5, "0.00078", 198_120}, // 0.000783 in
		{198_882, unit.In, 6, "0.000783", 198_882},
		{198_882, unit.In, 9, "0.000783", 198_882}, // an inch holds six
		{-198_882, unit.In, 4, "-0.0008", -203_200},
		{198_882, unit.Mm, 4, "0.0199", 199_000},
		{125, unit.Mm, 6, "0.000012", 120}, // half to even
		{0, unit.In, 3, "0.000", 0},
		{1842 * unit.Thou, unit.In, 0, "2", int64(2 * unit.Inch)},
	} {
		q := unit.Worked(c.length, c.in, c.decimals)
		if q.Read != c.read || q.Typed != c.read || q.Value != c.value || q.Unit != c.in {
			t.Errorf("%d to %d decimals of %s: %+v, want %s", c.length, c.decimals, c.in, q, c.read)
		}
	}
	if q := unit.Worked(unit.Limit, unit.Mm, 2); !q.Zero() {
		t.Errorf("a metre is %+v", q)
	}
	// As if it had been typed: the decimal reads back as the value.
	t.Run("reads back", rapid.MakeCheck(func(t *rapid.T) {
		l := unit.Length(rapid.Int64Range(-int64(unit.Limit)+1, int64(unit.Limit)-1).Draw(t, "l"))
		in := rapid.SampledFrom([]unit.Symbol{unit.In, unit.Mm}).Draw(t, "in")
		q := unit.Worked(l, in, rapid.IntRange(0, 9).Draw(t, "decimals"))
		if q.Zero() {
			return // rounded up to the limit
		}
		if v, err := unit.Value(q.Read, q.Unit); err != nil || v != q.Value {
			t.Fatalf("%s %s is %d, not %d: %v", q.Read, q.Unit, v, q.Value, err)
		}
	}))
}

func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		length unit.Length
		in     unit.Symbol
		digits int
		want   int
	}{
		{198_882, unit.In, 2, 5}, {198_882, unit.In, 3, 6}, {198_882, unit.In, 4, 6},
		{-198_882, unit.In, 2, 5}, {198_882, unit.Mm, 2, 3},
		{254_000, unit.In, 2, 4}, {253_999, unit.In, 1, 4}, {unit.Inch, unit.In, 1, 0}, {unit.Inch, unit.In, 2, 1},
		{0, unit.In, 2, 6}, {0, unit.Mm, 2, 7},
	} {
		if got := unit.Decimals(c.length, c.in, c.digits); got != c.want {
			t.Errorf("%d digits of %d in %s take %d decimals, want %d", c.digits, c.length, c.in, got, c.want)
		}
	}
}
