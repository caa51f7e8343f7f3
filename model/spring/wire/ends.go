package wire

import (
	"math"

	"keeperbook/model/unit"
)

// End is how the ends of a spring are made (Shigley Table 10-1).
type End int

// The four kinds of ends. Valve springs are squared and ground.
const (
	Plain End = iota
	PlainGround
	Squared
	SquaredGround
)

// Estimate is a height at which a spring is solid by its geometry, not by a reading: wire, coating and
// the grind of the ends differ. A margin on it is never called within.
type Estimate unit.Length

// Dead returns how many turns do not give way.
func (e End) Dead() float64 { return [...]float64{0, 1, 2, 2}[e] }

// Active returns the turns that give way, of all of them; Total is its inverse.
func (e End) Active(total float64) float64 { return total - e.Dead() }

// Total is described at [End.Active].
func (e End) Total(active float64) float64 { return active + e.Dead() }

// wires returns how many thicknesses of wire the closed spring and the pitch of the open one have more than
// turns: what grinding takes off and dead turns add.
func (e End) wires() (solid, free float64) {
	solid = [...]float64{1, 0, 1, 0}[e]
	free = [...]float64{1, 0, 3, 2}[e]
	return solid, free
}

// Solid returns the height at which every turn lies on the next: d (Nt + 1) with ends as cut, d Nt with
// ends ground.
func (e End) Solid(wire unit.Length, total float64) Estimate {
	more, _ := e.wires()
	return Estimate(length(metres(wire) * (total + more)))
}

// Pitch returns the distance from one active turn to the next of a spring at its free height:
// (L0 − d)/Na, L0/(Na + 1), (L0 − 3d)/Na and (L0 − 2d)/Na. Free is its inverse. A gap between turns is the
// pitch less the wire.
func (e End) Pitch(wire, free unit.Length, active float64) unit.Length {
	_, more := e.wires()
	return length((metres(free) - more*metres(wire)) / e.pitches(active))
}

// Free is described at [End.Pitch].
func (e End) Free(wire, pitch unit.Length, active float64) unit.Length {
	_, more := e.wires()
	return length(metres(pitch)*e.pitches(active) + more*metres(wire))
}

// pitches is how many pitches the free height has; ground plain ends have one more than active turns.
func (e End) pitches(active float64) float64 {
	if e == PlainGround {
		return active + 1
	}
	return active
}

// Solid returns the height at which every turn is closed, with ends of a kind on it. In a cone a turn lies
// partly inside the next, √(d² − (ΔD/2)²) above it where the diameter changes by ΔD from one to the other;
// turns that clear each other take no height at all.
func (s Spring) Solid(e End) Estimate {
	d, active, sunk := metres(s.wire), 0.0, 0.0
	for _, one := range s.sections {
		step := (one.large - one.small) / (2 * one.turns)
		active += one.turns
		sunk += one.turns * (d - math.Sqrt(max(d*d-step*step, 0)))
	}
	return e.Solid(s.wire, e.Total(active)) - Estimate(length(sunk))
}
