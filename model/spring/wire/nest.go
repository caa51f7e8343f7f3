package wire

import (
	"cmp"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Nested is one spring of several that stand inside one another between two flat plates.
type Nested struct {
	Free unit.Length // free height
	Rate unit.Rate
}

// Share returns how far the tallest of nested springs gives way under a load on all of them together, and
// what each then carries, in their order. A shorter one carries nothing until the plates reach it. Rates are
// taken as constant, and no spring as solid.
//
// It refuses (say.Invalid) no springs, a load below nought, and a rate or a free height that is not above nought.
func Share(f unit.Load, springs ...Nested) (unit.Length, []unit.Load, error) {
	if len(springs) == 0 {
		return 0, nil, say.Fail(say.Invalid, "spring.no-coil", 1)
	}
	if f < 0 {
		return 0, nil, say.Fail(say.Invalid, "spring.pulled", f)
	}
	for _, s := range springs {
		if s.Free <= 0 || s.Rate <= 0 {
			return 0, nil, say.Fail(say.Invalid, "spring.nested", s.Rate, s.Free)
		}
	}
	tallest := slices.MaxFunc(springs, func(a, b Nested) int { return cmp.Compare(a.Free, b.Free) }).Free
	// The plates come down on one spring after the other; with those reached, δ = (P + Σ k (tallest − free))/Σ k.
	down := slices.SortedFunc(slices.Values(springs), func(a, b Nested) int { return cmp.Compare(b.Free, a.Free) })
	k, offset, delta := 0.0, 0.0, 0.0
	for i, s := range down {
		k += stiff(s.Rate)
		offset += stiff(s.Rate) * metres(tallest-s.Free)
		delta = (newtons(f) + offset) / k
		if i+1 < len(down) && delta <= metres(tallest-down[i+1].Free) {
			break
		}
	}
	loads := make([]unit.Load, len(springs))
	for i, s := range springs {
		loads[i] = load(stiff(s.Rate) * max(delta-metres(tallest-s.Free), 0))
	}
	return length(delta), loads, nil
}
