package unit_test

import (
	"math/big"
	"strings"
	"testing"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// The factors are exact by definition: NIST SP 811, Guide for the Use of the SI, Appendix B. The
// pressure and the rate are worked out here from inch and pound-force, in fractions.
func TestValueByExactFractions(t *testing.T) {
	inch := fraction(t, "0.0254")             // m, exact
	pound := fraction(t, "4.448221615260500") // N, exact
	tests := []struct {
		read   string
		unit   unit.Symbol
		factor *big.Rat // of the unit, in the whole number's unit
		want   int64    // by hand where the product is whole, else from the rounded fraction
	}{
		{"1", unit.In, mul(inch, "10000000000"), 254_000_000},
		{"2.005", unit.In, mul(inch, "10000000000"), 509_270_000},
		{"0.000001", unit.In, mul(inch, "10000000000"), 254},
		{"-0.050", unit.In, mul(inch, "10000000000"), -12_700_000},
		{"1", unit.Mm, fraction(t, "10000000"), 10_000_000},
		{"0.0000001", unit.Mm, fraction(t, "10000000"), 1},
		{"25.4", unit.Mm, fraction(t, "10000000"), 254_000_000},
		{"1", unit.Lbf, mul(pound, "1000"), 4448},
		{"131", unit.Lbf, mul(pound, "1000"), 582_717},
		{"1", unit.N, fraction(t, "1000"), 1000},
		{"1", unit.Kgf, fraction(t, "9806.65"), 9807},
		{"2", unit.Kgf, fraction(t, "9806.65"), 19_613},
		{"1", unit.LbfPerIn, quo(mul(pound, "1000"), inch), 175_127}, // 175.126835246476 N/m
		{"420", unit.LbfPerIn, quo(mul(pound, "1000"), inch), 73_553_271},
		{"1", unit.NPerMm, fraction(t, "1000000"), 1_000_000},
		{"1", unit.Psi, quo(mul(pound, "1000"), mulRat(inch, inch)), 6_894_757}, // 6894.75729316836 Pa
		{"1", unit.KPa, fraction(t, "1000000"), 1_000_000},
		{"1", unit.Bar, fraction(t, "100000000"), 100_000_000},
		{"92.5", unit.Gram, fraction(t, "1000000"), 92_500_000},
		{"1", unit.Ounce, fraction(t, "28349523.125"), 28_349_523},
		{"16", unit.Ounce, fraction(t, "28349523.125"), 453_592_370}, // a pound of 453.59237 g
		{"77.2", unit.GPa, fraction(t, "1000000000"), 77_200_000_000},
		{"1", unit.Mpsi, quo(mul(pound, "1000000"), mulRat(inch, inch)), 6_894_757_293}, // 6894757293.16836 Pa
	}
	for _, tt := range tests {
		t.Run(tt.read+" "+string(tt.unit), func(t *testing.T) {
			got, err := unit.Value(tt.read, tt.unit)
			if err != nil {
				t.Fatal(err)
			}
			if got != tt.want {
				t.Errorf("got %d, want %d", got, tt.want)
			}
			exact := new(big.Rat).Mul(fraction(t, tt.read), tt.factor)
			off := exact.Sub(exact, big.NewRat(got, 1))
			if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
				t.Errorf("%d is further than half a unit from the fraction", got)
			}
			if tt.unit.Dimension() == unit.OfLength && off.Sign() != 0 {
				t.Errorf("a length is not exact: off by %v", off)
			}
		})
	}
}

// A half is rounded to the even neighbour, once.
func TestValueRoundsHalfToEven(t *testing.T) {
	for read, want := range map[string]int64{
		"0.0005": 0, "0.0015": 2, "0.0025": 2, "0.0035": 4, "0.00250001": 3, "-0.0015": -2, "-0.0025": -2,
	} {
		if got, err := unit.Value(read, unit.N); err != nil || got != want {
			t.Errorf("%s N: got %d, %v, want %d mN", read, got, err, want)
		}
	}
}

func TestValueRefuses(t *testing.T) {
	tests := []struct {
		read string
		unit unit.Symbol
		key  string
	}{
		{"", unit.In, "unit.plain"},
		{"-", unit.In, "unit.plain"},
		{".", unit.In, "unit.plain"},
		{"1.", unit.In, "unit.plain"},
		{"+1", unit.In, "unit.plain"},
		{"1,842", unit.In, "unit.plain"},
		{"1e3", unit.In, "unit.plain"},
		{"1_000", unit.N, "unit.plain"},
		{"1/2", unit.In, "unit.plain"},
		{" 1", unit.In, "unit.plain"},
		{"1.8421234", unit.In, "unit.decimals"},
		{"46.78912345", unit.Mm, "unit.decimals"},
		{"1000", unit.Mm, "unit.large"},
		{"-1000", unit.Mm, "unit.large"},
		{"39.370079", unit.In, "unit.large"},
		{"100000", unit.N, "unit.large"},
		{"10000", unit.Gram, "unit.large"},
		{"1000", unit.GPa, "unit.large"},
		{strings.Repeat("9", 40), unit.Lbf, "unit.large"},
		{strings.Repeat("9", 5000), unit.Lbf, "unit.long"},
		{"1", "", "unit.symbol"},
		{"1", "furlong", "unit.symbol"},
	}
	for _, tt := range tests {
		t.Run(tt.key, func(t *testing.T) {
			_, err := unit.Value(tt.read, tt.unit)
			wantRefusal(t, err, tt.key)
		})
	}
	for read, u := range map[string]unit.Symbol{"999.9999999": unit.Mm, "39.370078": unit.In, "99999.9": unit.N} {
		if _, err := unit.Value(read, u); err != nil {
			t.Errorf("just inside the limit: %v", err)
		}
	}
}

func TestOf(t *testing.T) {
	q, err := unit.Of("1.842", unit.In)
	if want := (unit.Quantity{Typed: "1.842", Read: "1.842", Unit: unit.In, Value: 467_868_000}); err != nil || q != want {
		t.Errorf("got %+v, %v", q, err)
	}
	if q, err := unit.Of("x", unit.In); err == nil || !q.Zero() {
		t.Errorf("got %+v, %v", q, err)
	}
}

func fraction(t *testing.T, text string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		t.Fatalf("%q is no fraction", text)
	}
	return r
}

func mul(x *big.Rat, by string) *big.Rat {
	y, _ := new(big.Rat).SetString(by)
	return new(big.Rat).Mul(x, y)
}

func mulRat(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
func quo(x, y *big.Rat) *big.Rat    { return new(big.Rat).Quo(x, y) }

// wantRefusal holds an error against the key of its sentence. Every sentence stands in the
// catalogue and fills all its places.
func wantRefusal(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !asError(err, &e) {
		t.Fatalf("got %v, want the refusal %s", err, key)
	}
	if e.Code != say.Invalid || e.Line.Key != key {
		t.Errorf("got %s %s (%v), want %s", e.Code, e.Line.Key, err, key)
	}
	if text := err.Error(); strings.Contains(text, "{") || strings.HasPrefix(text, "unit.") {
		t.Errorf("no whole sentence: %s", text)
	}
}
