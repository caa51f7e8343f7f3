package wire

import (
	"math"

	"keeperbook/model/unit"
)

// Growth returns by how much the outside of a cylinder grows when it is pressed solid with its ends free to
// turn, ΔD = 0.1 (m² − 0.8 m d − 0.2 d²)/D, m being the pitch of the free spring (EN 13906-1, from memory). Held
// ends let it grow by about half of that. A spring that fits its cup or its neighbour at the free height may
// not fit it there.
func Growth(wire, mean, pitch unit.Length) unit.Length {
	d, big, m := metres(wire), metres(mean), metres(pitch)
	return length(.1 * (m*m - .8*m*d - .2*d*d) / big)
}

// LeastGaps returns how much room EN 13906-1 wants left between all active turns together in a cylinder under
// its greatest steady load, n (0.0015 D²/d + 0.1 d) (from memory; for a load that swings it asks for more).
func LeastGaps(wire, mean unit.Length, active float64) unit.Length {
	d, big := metres(wire), metres(mean)
	return length(active * (.0015*big*big/d + .1*d))
}

// ActiveFor returns the active turns that give a cylinder a rate, Na = G d⁴/(8 D³ k), the inverse of
// [Spring.Rate].
func ActiveFor(k unit.Rate, wire, mean unit.Length, g Stress) float64 {
	return float64(g) * math.Pow(metres(wire), 4) / (8 * math.Pow(metres(mean), 3) * stiff(k))
}
