package wear

import (
	"math"
	"slices"
)

// leastSet is the fewest springs of which one can be told to be out of the set.
const leastSet = 6

// farOut is the modified z from which one is (B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, 1993; from
// memory), and normal the median absolute deviation of a normal distribution in standard deviations.
const (
	farOut = 3.5
	normal = 0.6745
)

// OutOfSet tells which values fall out of their set, by their modified z = 0.6745 (x − median)/MAD. u is the standard
// uncertainty of each value and expanded the uncertainty of a difference from the set. Alone the rule would point at a spring
// in every seventh sound set of eight, so a MAD below what u alone would make is taken to be that, and a value must also be off
// by more than expanded. Fewer than six values tell nothing.
func OutOfSet(values []float64, u, expanded float64) []bool {
	out := make([]bool, len(values))
	if len(values) < leastSet {
		return out
	}
	middle := median(values)
	off := make([]float64, len(values))
	for i, x := range values {
		off[i] = math.Abs(x - middle)
	}
	mad := max(median(off), normal*u)
	for i, d := range off {
		out[i] = d > expanded && normal*d > farOut*mad
	}
	return out
}

// median is the middle value, or the mean of the two in the middle.
func median(values []float64) float64 {
	s := slices.Sorted(slices.Values(values))
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}
