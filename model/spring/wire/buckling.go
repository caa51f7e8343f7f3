package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Support is α, how the ends of a spring are held against tipping (Shigley Table 10-2).
type Support float64

// The supports of the handbook. Squared and ground ends between plates are what a valve spring has.
const (
	Plates     Support = .5
	OnePivot   Support = .707 // the other end on a plate
	TwoPivots  Support = 1
	OneEndFree Support = 2 // the other end on a plate
)

// Buckling returns the deflection at which a spring of these measures buckles,
// y = L0 C₁ [1 − √(1 − C₂/λ²)] with C₁ = E/(2 (E − G)), C₂ = 2π² (E − G)/(2G + E), λ = α L0/D (Shigley §10-5,
// eq. 10-10; EN 13906-1 writes the same otherwise). Stable is true where it never does. Neither a locator nor a
// nested spring that holds it sideways is in it.
//
// It refuses (say.Invalid) lengths and moduli that are not above nought, and E not above G.
func Buckling(free, mean unit.Length, e, g Stress, alpha Support) (y unit.Length, stable bool, err error) {
	if err := bends(mean, e, g, alpha); err != nil {
		return 0, false, err
	}
	if free <= 0 {
		return 0, false, say.Fail(say.Invalid, "spring.free", free)
	}
	c1 := float64(e / (2 * (e - g)))
	c2 := float64(2 * math.Pi * math.Pi * (e - g) / (2*g + e))
	lambda := float64(alpha) * float64(free) / float64(mean)
	root := 1 - c2/(lambda*lambda)
	if root < 0 {
		return 0, true, nil
	}
	return length(metres(free) * c1 * (1 - math.Sqrt(root))), false, nil
}

// Stable returns the free height under which a spring never buckles, (π D/α) √(2 (E − G)/(2G + E)) (Shigley
// eq. 10-12). It refuses what [Buckling] refuses.
func Stable(mean unit.Length, e, g Stress, alpha Support) (unit.Length, error) {
	if err := bends(mean, e, g, alpha); err != nil {
		return 0, err
	}
	return length(math.Pi * metres(mean) / float64(alpha) * math.Sqrt(float64(2*(e-g)/(2*g+e)))), nil
}

func bends(mean unit.Length, e, g Stress, alpha Support) error {
	switch {
	case mean <= 0:
		return say.Fail(say.Invalid, "spring.diameter", mean)
	case !above(float64(g)), !above(float64(e)), e <= g:
		return say.Fail(say.Invalid, "spring.moduli")
	case !above(float64(alpha)):
		return say.Fail(say.Invalid, "spring.support")
	}
	return nil
}
