package unit_test

import (
	"math/big"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/unit"
)

// anyColumn draws a column of any unit and kind, with and without comma, nominal and cell above.
func anyColumn() *rapid.Generator[unit.Column] {
	units := []unit.Symbol{
		unit.In, unit.Mm, unit.Lbf, unit.N, unit.Kgf, unit.LbfPerIn, unit.NPerMm, unit.Psi, unit.KPa, unit.Bar,
		unit.Gram, unit.Ounce, unit.GPa, unit.Mpsi, "",
	}
	return rapid.Custom(func(t *rapid.T) unit.Column {
		c := unit.Column{
			Unit:  rapid.SampledFrom(units).Draw(t, "unit"),
			Kind:  rapid.SampledFrom([]unit.Kind{unit.Plain, unit.Height, unit.Signed}).Draw(t, "kind"),
			Comma: rapid.Bool().Draw(t, "comma"),
		}
		if q, err := unit.Of("4.840", rapid.SampledFrom(units).Draw(t, "nominal")); err == nil {
			c.Nominal = q
			c.Above = []unit.Quantity{q}
		}
		return c
	})
}

// anyEntry draws texts that look like entries, and texts that do not.
func anyEntry() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringMatching(`[+−-]?[0-9]{0,5}[.,]?[0-9]{0,7} ?(in|"|thou|mm|lbf|N|kg|psi)?\*?`),
		rapid.StringMatching(`([0-9]x)?[.,0-9]{1,5}([+,][.,0-9]{1,5}){0,3}( mm)?`),
		rapid.String(),
	)
}

// Whatever is typed, an entry is either refused with a sentence or is its own value, exactly.
func TestParseIsExactOrRefuses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkEntry(t, anyColumn().Draw(t, "column"), anyEntry().Draw(t, "text"))
	})
}

type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

func checkEntry(t failer, c unit.Column, text string) {
	t.Helper()
	whole := func(q unit.Quantity) {
		v, err := unit.Value(q.Read, q.Unit)
		if err != nil || v != q.Value {
			t.Fatalf("%q: %+v is not its own value: %d, %v", text, q, v, err)
		}
		if q.Unit.Dimension() != c.Unit.Dimension() {
			t.Fatalf("%q in a column of %s: %+v", text, c.Unit, q)
		}
	}
	refused := func(err error) {
		if s := err.Error(); strings.Contains(s, "{") && !strings.Contains(text, "{") || strings.HasPrefix(s, "unit.") {
			t.Fatalf("%q: no whole sentence: %s", text, s)
		}
	}
	if e, err := unit.Parse(c, text); err != nil {
		refused(err)
	} else {
		whole(e.Quantity)
		if e.Quantity.Typed != text {
			t.Fatalf("%q was kept as %q", text, e.Quantity.Typed)
		}
		if c.Kind != unit.Signed && e.Quantity.Value < 0 {
			t.Fatalf("%q: %+v is below nought", text, e.Quantity)
		}
	}
	if shims, none, err := unit.ParseStack(c, text); err != nil {
		refused(err)
	} else {
		if none == (len(shims) > 0) {
			t.Fatalf("%q: none %v and %v", text, none, shims)
		}
		for _, q := range shims {
			whole(q)
		}
	}
	if steps, err := unit.ParseSteps(c, text); err != nil {
		refused(err)
	} else {
		for _, q := range steps {
			whole(q)
		}
	}
}

// What a cell shows can be typed into it and means the same.
func TestUnderstoodReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyColumn().Draw(t, "column")
		// Most entries are refused; of some, one is read.
		e, err := unit.Parse(c, anyEntry().Draw(t, "text"))
		for n := 0; err != nil && n < 20; n++ {
			e, err = unit.Parse(c, anyEntry().Draw(t, "text"))
		}
		if err != nil {
			return
		}
		again, err := unit.Parse(c, e.Understood)
		if c.Comma && e.Quantity.Unit.Dimension() != unit.OfLength && len(unit.Choices(err)) == 2 {
			return // 1,250 lbf is asked about
		}
		if err != nil {
			t.Fatalf("%q: %v", e.Understood, err)
		}
		if again.Quantity.Read != e.Quantity.Read || again.Quantity.Unit != e.Quantity.Unit || again.Understood != e.Understood {
			t.Fatalf("%q: %+v, then %+v", e.Understood, e, again)
		}
	})
}

// A length that is shown without rounding is read back as it was, in both units.
func TestShownLengthReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inch := unit.Length(rapid.Int64Range(-99_999, 99_999).Draw(t, "ten-thousandths")) * unit.Thou / 10
		e, err := unit.Parse(offset, unit.Inches.LengthIn(inch))
		if err != nil || e.Quantity.Length() != inch {
			t.Fatalf("%d: %+v, %v", inch, e, err)
		}
		mm := unit.Length(rapid.Int64Range(-999_999, 999_999).Draw(t, "microns")) * unit.MM / 1000
		e, err = unit.Parse(offsetMM, unit.Millimetres.LengthIn(mm))
		if err != nil || e.Quantity.Length() != mm {
			t.Fatalf("%d: %+v, %v", mm, e, err)
		}
	})
}

// The same length in millimetres is 25.4 times the number in inches, to the last tenth of a nanometre.
func TestInchesAndMillimetresAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 39_000_000).Draw(t, "millionths")
		inches := new(big.Rat).SetFrac64(n, 1_000_000)
		millimetres := new(big.Rat).Mul(inches, big.NewRat(254, 10))
		a, err := unit.Parse(gap, inches.FloatString(6)+" in")
		if err != nil {
			t.Fatal(err)
		}
		b, err := unit.Parse(gapMM, millimetres.FloatString(7))
		if err != nil {
			t.Fatal(err)
		}
		if a.Quantity.Value != b.Quantity.Value || a.Quantity.Value != n*254 {
			t.Fatalf("%+v and %+v", a.Quantity, b.Quantity)
		}
	})
}

// Thousandths without a mark are a thousand to the inch.
func TestThousandthsAndInchesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 9_999).Draw(t, "thousandths")
		a, err := unit.Parse(gap, strconv.Itoa(n))
		if err != nil {
			t.Fatal(err)
		}
		b, err := unit.Parse(gap, big.NewRat(int64(n), 1000).FloatString(3))
		if err != nil {
			t.Fatal(err)
		}
		if a.Quantity.Value != b.Quantity.Value || a.Quantity.Read != b.Quantity.Read {
			t.Fatalf("%+v and %+v", a.Quantity, b.Quantity)
		}
	})
}

// Two lengths shown against each other stand in their own order, and are equal only where they are.
func TestAgainstShowsTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := unit.Length(rapid.Int64Range(-1e9, 1e9).Draw(t, "a"))
		b := a + unit.Length(rapid.Int64Range(-1e5, 1e5).Draw(t, "apart"))
		for _, s := range []unit.Style{unit.Inches, unit.Millimetres, {Length: unit.Mm, Comma: true}} {
			left, right := s.Against(a, b)
			if got, want := number(t, left).Cmp(number(t, right)), big.NewRat(int64(a), 1).Cmp(big.NewRat(int64(b), 1)); got != want {
				t.Fatalf("%d against %d shows %s and %s", a, b, left, right)
			}
		}
	})
}

func number(t *rapid.T, shown string) *big.Rat {
	r, ok := new(big.Rat).SetString(strings.NewReplacer("−", "-", ",", ".").Replace(shown))
	if !ok {
		t.Fatalf("%q is no number", shown)
	}
	return r
}

// FuzzParse looks for entries that are neither exact nor refused with a sentence.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"1842", "1842.5", "1.842", "1.836*", "2", "46.79 mm", `1.842"`, `"`, "+2", "−3", "+.002", ".030+.015", "2x15", "2×.015",
		"15,30", "none", "0", "1,200.5", "1.200", "½", "１８４２", "1e9", "\x00", "1.8\xff", "9999999999999999999999x1", "- 5", "x", "+", "*",
	} {
		f.Add(text, uint8(0), uint8(0), false)
		f.Add(text, uint8(1), uint8(1), true)
		f.Add(text, uint8(2), uint8(2), true)
	}
	units := []unit.Symbol{unit.In, unit.Mm, unit.Lbf, unit.NPerMm, unit.Psi}
	f.Fuzz(func(t *testing.T, text string, u, kind uint8, comma bool) {
		c := unit.Column{Unit: units[int(u)%len(units)], Kind: unit.Kind(kind % 3), Comma: comma}
		if q, err := unit.Of("1.840", c.Unit); err == nil && len(text)%2 == 0 {
			c.Nominal, c.Above = q, []unit.Quantity{q}
		}
		checkEntry(t, c, text)
	})
}
