package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Surface is how the surface of the wire was treated.
type Surface int

// The surfaces that limits are asked for.
const (
	Unpeened Surface = iota
	Peened
	Nitrided // super-clean wire, nitrided and peened
)

// Limit is a pair of shear stresses, amplitude about a mean, that a spring bears without end.
type Limit struct{ Amplitude, Mean Stress }

// Zimmerli returns what steel wire under 3/8 in bears without end, whatever its kind and strength: 35 kpsi
// about 55 unpeened, 57.5 about 77.5 peened (F. P. Zimmerli, 1957, after Shigley §10-9). 57.5 kpsi is
// 396.4 MPa; the 398 that is widely printed is wrong.
//
// For nitrided wire of super-clean steel nobody found these limits, and thicker wire was not tested: both are
// refused (say.NotFound).
func Zimmerli(s Surface, wire unit.Length) (Limit, error) {
	if thick := 375 * unit.Thou; wire >= thick {
		return Limit{}, say.Fail(say.NotFound, "spring.thick", wire, thick)
	}
	switch s {
	case Unpeened:
		return Limit{35 * KPSI, 55 * KPSI}, nil
	case Peened:
		return Limit{57.5 * KPSI, 77.5 * KPSI}, nil
	}
	return Limit{}, say.Fail(say.NotFound, "spring.nitrided")
}

// Swing returns the stress amplitude and the mean stress of a spring between two loads, with one factor on
// both. It fails where [Spring.Stress] does.
func (s Spring) Swing(seat, open unit.Load, k Factor) (amplitude, mean Stress, err error) {
	low, err := s.Stress(seat, k)
	if err != nil {
		return 0, 0, err
	}
	high, err := s.Stress(open, k)
	if err != nil {
		return 0, 0, err
	}
	return Stress(math.Abs(float64(high-low))) / 2, (high + low) / 2, nil
}

// Criterion says how the amplitude that is borne shrinks as the mean grows towards the strength.
type Criterion int

// The criteria of the handbook (Shigley §10-9). Sines's mean stress does not count in torsion.
const (
	Goodman Criterion = iota // amplitude/Sse + mean/Ssu = 1
	Gerber                   // amplitude/Sse + (mean/Ssu)² = 1
	Sines                    // amplitude = Sse
)

// Reversed returns the amplitude that is borne without a mean, Sse, where a limit lies on the criterion's
// line. ssu is the torsional strength, about 0.67 Sut (Shigley eq. 10-30).
func (l Limit) Reversed(c Criterion, ssu Stress) Stress {
	switch r := l.Mean / ssu; c {
	case Goodman:
		return l.Amplitude / (1 - r)
	case Gerber:
		return l.Amplitude / (1 - r*r)
	}
	return l.Amplitude
}

// Safety returns by how much amplitude and mean may grow together before the spring no longer bears them
// without end. It refuses (say.Invalid) an amplitude that is not above nought, a mean below nought, and a
// strength no greater than the limit's own mean, for which the line has no sense.
func (l Limit) Safety(c Criterion, amplitude, mean, ssu Stress) (float64, error) {
	if !above(float64(amplitude)) || !(mean >= 0) || math.IsInf(float64(mean), 1) || !above(float64(ssu)) || ssu <= l.Mean {
		return 0, say.Fail(say.Invalid, "spring.swing")
	}
	sse := float64(l.Reversed(c, ssu))
	a, m, su := float64(amplitude), float64(mean), float64(ssu)
	switch c {
	case Goodman:
		return 1 / (a/sse + m/su), nil
	case Gerber: // the positive root of n a/Sse + (n m/Ssu)² = 1, in a form that stands a mean of nought
		return 2 / (a/sse + math.Sqrt(a*a/(sse*sse)+4*m*m/(su*su))), nil
	}
	return sse / a, nil
}
