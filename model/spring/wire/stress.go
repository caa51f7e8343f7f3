package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Factor is what the curvature of the wire and the direct shear make of the stress, from the index C.
type Factor func(c float64) float64

// Wahl is K = (4C − 1)/(4C − 4) + 0.615/C (Shigley eq. 10-4).
func Wahl(c float64) float64 { return (4*c-1)/(4*c-4) + .615/c }

// Bergstrasser is K = (4C + 2)/(4C − 3) (Shigley eq. 10-5), which EN 13906-1 writes (w + 0.5)/(w − 0.75).
func Bergstrasser(c float64) float64 { return (4*c + 2) / (4*c - 3) }

// Stress returns the shear stress in the wire under a load, τ = K 8 F D/(π d³) (Shigley eq. 10-7), where it is
// greatest: in the largest turn that is still open. It fails where [Spring.Deflection] does.
func (s Spring) Stress(f unit.Load, k Factor) (Stress, error) {
	if err := s.bears(f); err != nil {
		return 0, err
	}
	return s.stress(newtons(f), k), nil
}

func (s Spring) stress(f float64, k Factor) Stress {
	d, mean := metres(s.wire), s.largest(f)
	return Stress(k(mean/d) * 8 * f * mean / (math.Pi * math.Pow(d, 3)))
}

// Bears returns the load under which the wire sees a stress while all turns are open, the inverse of
// [Spring.Stress] there. It refuses a stress that is no number above nought (say.Invalid), and says so where
// turns close before (say.NotFound).
func (s Spring) Bears(t Stress, k Factor) (unit.Load, error) {
	if !above(float64(t)) {
		return 0, say.Fail(say.Invalid, "spring.stress")
	}
	f := load(float64(t / s.stress(1, k)))
	if closes, known := s.Closes(); known && f > closes {
		return 0, say.Fail(say.NotFound, "spring.closes", closes)
	}
	return f, nil
}
