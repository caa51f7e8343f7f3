package unit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/unit"
)

func value(t *testing.T, read string, s unit.Symbol) int64 {
	t.Helper()
	v, err := unit.Value(read, s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestMean(t *testing.T) {
	for _, tt := range []struct {
		of   []unit.Length
		want unit.Length
	}{
		{nil, 0},
		{[]unit.Length{7}, 7},
		{[]unit.Length{1, 2}, 2}, // 1.5 to the even neighbour
		{[]unit.Length{2, 3}, 2}, // 2.5
		{[]unit.Length{-1, -2}, -2},
		{[]unit.Length{1, 1, 2}, 1},
		{[]unit.Length{1842 * unit.Thou, 1836 * unit.Thou}, 1839 * unit.Thou},
		{[]unit.Length{math.MaxInt64, math.MaxInt64}, math.MaxInt64}, // the sum does not overflow
	} {
		if got := unit.Mean(tt.of); got != tt.want {
			t.Errorf("mean of %v: got %d, want %d", tt.of, got, tt.want)
		}
	}
}

// The mean lies between the least and the greatest, and moves as its readings do.
func TestMeanMovesWithItsReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := rapid.SliceOfN(rapid.Map(rapid.Int64Range(-1e10, 1e10), func(v int64) unit.Length { return unit.Length(v) }), 1, 20).Draw(t, "of")
		by := unit.Length(rapid.Int64Range(-5e9, 5e9).Draw(t, "by")) * 2 // even, so that halves keep their side
		m := unit.Mean(of)
		least, most, moved := of[0], of[0], make([]unit.Length, len(of))
		for i, l := range of {
			least, most, moved[i] = min(least, l), max(most, l), l+by
		}
		if m < least || m > most {
			t.Fatalf("%d is outside %d … %d", m, least, most)
		}
		if got := unit.Mean(moved); got != m+by {
			t.Fatalf("moved by %d: got %d, want %d", by, got, m+by)
		}
	})
}

// Common practice, no published source: an uncorrected lid of .095 in adds 39.9 lbf at 420 lbf/in,
// and a step of .095 in brings an inner coil of 210 lbf/in from 280 lbf to about 300 lbf.
func TestRateTimes(t *testing.T) {
	step := unit.Length(value(t, "0.095", unit.In))
	if got := unit.Inches.LoadIn(unit.Rate(value(t, "420", unit.LbfPerIn)).Times(step)); got != "39.9" {
		t.Errorf("420 lbf/in × .095 in: got %s lbf", got)
	}
	inner := unit.Load(value(t, "280", unit.Lbf)) + unit.Rate(value(t, "210", unit.LbfPerIn)).Times(step)
	if got := unit.Inches.LoadIn(inner); got != "299.9" {
		t.Errorf("280 lbf + 210 lbf/in × .095 in: got %s lbf", got) // 299.95, less than a rounded rate's millinewton
	}
	// In whole units of the SI the product is whole: 50 N/mm over 3 mm is 150 N.
	if got := unit.Rate(value(t, "50", unit.NPerMm)).Times(3 * unit.MM); got != 150_000 {
		t.Errorf("50 N/mm × 3 mm: got %d mN", got)
	}
	if got := unit.Rate(1).Times(-5_000_000_000); got != 0 {
		t.Errorf("half a millinewton goes to the even one: got %d", got)
	}
}

// Common practice, no published source: 15 psi on the head of a 2.02 in valve take 48.1 lbf.
func TestPressureOnCircle(t *testing.T) {
	p := unit.Pressure(value(t, "15", unit.Psi))
	d := unit.Length(value(t, "2.02", unit.In))
	got := p.OnCircle(d)
	if text := unit.Inches.LoadIn(got); text != "48.1" {
		t.Errorf("got %s lbf, want 48.1", text)
	}
	// An independent way: floating point agrees within the half millinewton of one rounding.
	want := float64(p) / 1e3 * math.Pi / 4 * math.Pow(float64(d)/1e10, 2) // N
	if diff := math.Abs(float64(got)/1e3 - want); diff > 0.0005001 {
		t.Errorf("got %d mN, %.6f N by floating point", got, want)
	}
	// Twice the diameter has four times the force, to within the rounding of both.
	if one, two := p.OnCircle(d), p.OnCircle(2*d); two-4*one > 2 || 4*one-two > 2 {
		t.Errorf("%d mN on d, %d mN on 2 d", one, two)
	}
}
