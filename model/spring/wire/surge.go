package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Mass returns the mass of the active turns in kilograms, m = ρ π² d² D Na/4 (Shigley §10-8), each turn with
// its own diameter.
func (s Spring) Mass(density Density) float64 {
	all := 0.0
	for _, e := range s.sections {
		all += e.turns * (e.small + e.large) / 2
	}
	return float64(density) * math.Pi * math.Pi * math.Pow(metres(s.wire), 2) / 4 * all
}

// ActiveMass returns what the active turns have of a weighed spring, weighed × Na/Nt; in any unit. For a
// nest, weigh each coil.
func ActiveMass(weighed, active, total float64) float64 { return weighed * active / total }

// BetweenPlates returns the first frequency in hertz at which a spring surges between two plates that hold
// its ends, f = ½ √(k/m), and OneFree that of one with a free end, ¼ √(k/m) (Shigley §10-8). k is the
// tangent rate where the spring stands, m its active mass in kilograms.
func BetweenPlates(k unit.Rate, mass float64) float64 { return math.Sqrt(stiff(k)/mass) / 2 }

// OneFree is described at [BetweenPlates].
func OneFree(k unit.Rate, mass float64) float64 { return BetweenPlates(k, mass) / 2 }

// Carrying returns the first frequency in hertz of a spring that stands on one end and carries a mass on the
// other, as a spring does while its valve is off the seat: β tan β = m/M, ω = β √(k/m) (texts on vibration).
// Both masses are in kilograms; with no mass on it the spring's end is free.
func Carrying(k unit.Rate, mass, carried float64) float64 {
	// β tan β rises from nought without end on the way from 0 to π/2, so halving finds the root.
	low, high := 0.0, math.Pi/2
	for range 60 {
		if beta := (low + high) / 2; beta*math.Sin(beta)*carried < mass*math.Cos(beta) {
			low = beta
		} else {
			high = beta
		}
	}
	return high * math.Sqrt(stiff(k)/mass) / (2 * math.Pi)
}

// links is how many pieces the chain of [Spring.Surge] has. The error falls with its square; with this
// many it is below a millionth.
const links = 1000

// Surge returns the first frequency in hertz of the open turns between plates under a load, by a chain of
// masses and springs along the wire: a turn of diameter D has mass in proportion to D and gives way in
// proportion to D³, so that a cone has no formula. A closed turn holds as a plate does. It fails where
// [Spring.Deflection] does, and refuses a density that is no number above nought (say.Invalid).
func (s Spring) Surge(f unit.Load, density Density) (float64, error) {
	if !above(float64(density)) {
		return 0, say.Fail(say.Invalid, "spring.density")
	}
	if err := s.bears(f); err != nil {
		return 0, err
	}
	chain := s.chain(newtons(f), density)
	// The end of the chain stands still at every frequency of its own. Below the first it never came back
	// through rest, above it did (Sturm's theorem), so halving finds it.
	low, high := 0.0, 1.0
	for !crosses(chain, high) {
		low, high = high, 2*high
	}
	for range 60 {
		if middle := (low + high) / 2; crosses(chain, middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high / (2 * math.Pi), nil
}

// link is a piece of wire: its mass in kg, and how far it gives way under a newton, in m.
type link struct{ mass, soft float64 }

func (s Spring) chain(f float64, density Density) (chain []link) {
	c, area := s.soft(), math.Pi*math.Pow(metres(s.wire), 2)/4
	for _, e := range s.sections {
		share, largest := e.open(c, f)
		if share == 0 {
			continue
		}
		each := e.turns * share / links
		for i := range links {
			along := (float64(i) + .5) / links
			if e.falls {
				along = 1 - along
			}
			d := e.small + (largest-e.small)*along
			chain = append(chain, link{
				mass: float64(density) * area * math.Pi * d * each,
				soft: c * math.Pow(d, 3) * each,
			})
		}
	}
	return chain
}

// crosses reports whether the chain, held at its beginning and swung with ω, comes back through rest by
// its end.
func crosses(chain []link, omega float64) bool {
	u, force := 0.0, 1.0
	for _, l := range chain {
		u += force * l.soft / 2
		force -= omega * omega * l.mass * u
		u += force * l.soft / 2
		if u <= 0 {
			return true
		}
	}
	return false
}
