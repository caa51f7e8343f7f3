package unit

// Dimension is what kind of quantity a unit measures.
type Dimension string

// The dimensions that entries have. The empty one belongs to a symbol that is no unit.
const (
	OfLength   Dimension = "length"
	OfLoad     Dimension = "load"
	OfRate     Dimension = "rate"
	OfPressure Dimension = "pressure"
	OfMass     Dimension = "mass"
	OfModulus  Dimension = "modulus" // of elasticity; a stress is in the same units
)

// Dimension returns what the unit measures, "" where the symbol is no unit of this package.
func (s Symbol) Dimension() Dimension {
	switch s {
	case In, Mm:
		return OfLength
	case Lbf, N, Kgf:
		return OfLoad
	case LbfPerIn, NPerMm:
		return OfRate
	case Psi, KPa, Bar:
		return OfPressure
	case Gram, Ounce:
		return OfMass
	case GPa, Mpsi:
		return OfModulus
	}
	return ""
}

// No reading reaches these. They are far beyond any valve spring, and far inside what a whole
// number holds, so that sums never overflow.
const (
	loadLimit     = 100_000_000       // mN: 100 kN, about 22 500 lbf
	rateLimit     = 10_000_000_000    // mN/m: 10 000 N/mm, about 57 000 lbf/in
	pressureLimit = 10_000_000_000    // mPa: 100 bar, about 1450 psi
	massLimit     = 10_000_000_000    // µg: 10 kg
	modulusLimit  = 1_000_000_000_000 // Pa: 1000 GPa, five times steel's
)

// limit returns the value that a reading of this dimension stays under, and its name as printed.
func (d Dimension) limit() (int64, string) {
	switch d {
	case OfLoad:
		return loadLimit, "100 kN"
	case OfRate:
		return rateLimit, "10000 N/mm"
	case OfPressure:
		return pressureLimit, "100 bar"
	case OfMass:
		return massLimit, "10 kg"
	case OfModulus:
		return modulusLimit, "1000 GPa"
	}
	return int64(Limit), "1000 mm"
}

// places returns how many decimals a reading in this unit may have: as many as its whole number
// still counts exactly for a length (0.000001 in, 0.0000001 mm), and nine for the others, which
// are rounded anyway.
func (s Symbol) places() int {
	switch s {
	case In:
		return 6
	case Mm:
		return 7
	}
	return 9
}
