package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Stress is a stress, a strength or a modulus in pascals.
type Stress float64

// The units of handbooks. 1 psi is 1 lbf on a square inch (NIST SP 811, Appendix B).
const (
	MPa  Stress = 1e6
	GPa  Stress = 1e9
	KPSI Stress = 1000 * 4.4482216152605 / 0.00064516
	MPSI Stress = 1000 * KPSI
)

// Density is a density in kg/m³.
type Density float64

// The densities of spring steel that the two traditions calculate with.
const (
	SteelEN       Density = 7850                             // EN 13906-1
	SteelHandbook Density = .284 * 0.45359237 / 1.6387064e-5 // 0.284 lb/in³, Shigley
)

// Metres, newtons and newtons a metre are what the formulas work in.
func metres(l unit.Length) float64 { return float64(l) * 1e-10 }
func newtons(l unit.Load) float64  { return float64(l) * 1e-3 }
func stiff(r unit.Rate) float64    { return float64(r) * 1e-3 }

// What comes out is rounded once, half to even.
func length(m float64) unit.Length { return unit.Length(math.RoundToEven(m * 1e10)) }
func load(n float64) unit.Load     { return unit.Load(math.RoundToEven(n * 1e3)) }
func rate(k float64) unit.Rate     { return unit.Rate(math.RoundToEven(k * 1e3)) }

// above reports whether x is a finite number above nought.
func above(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// checkWire refuses a wire and a mean diameter that make no coil.
func checkWire(wire, mean unit.Length) error {
	switch {
	case wire <= 0:
		return say.Fail(say.Invalid, "spring.wire", wire)
	case mean <= wire, mean >= unit.Limit:
		return say.Fail(say.Invalid, "spring.mean", mean, wire)
	}
	return nil
}
