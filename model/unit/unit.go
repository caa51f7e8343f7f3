// Package unit holds exact quantities: what was typed, what it was read as, and its whole number.
//
// A [Length] counts tenths of a nanometre, so that every inch reading to 0.000001 in and every
// millimetre reading to 0.0000001 mm is a whole number and limits compare as integers
// (1 in = 25.4 mm exactly, NIST SP 811). A [Load] counts millinewtons.
//
// The package is a leaf: it knows columns of a table, never records.
package unit

// Length is a length in tenths of a nanometre.
type Length int64

// The lengths that readings are made of.
const (
	Thou  Length = 254_000     // 0.001 in
	Inch  Length = 254_000_000 // 25.4 mm exactly
	MM    Length = 10_000_000  // one millimetre
	Limit Length = 1_000 * MM  // no reading on a cylinder head is a metre long
)

// Load is a force in millinewtons.
type Load int64

// Rate is a spring rate in millinewtons a metre.
type Rate int64

// Pressure is a pressure in millipascals.
type Pressure int64

// Mass is a mass in micrograms.
type Mass int64

// Modulus is a modulus of elasticity in pascals.
type Modulus int64

// Symbol is the unit that a quantity was read in, as it is printed.
type Symbol string

// The units that entries take.
const (
	In       Symbol = "in"
	Mm       Symbol = "mm"
	Lbf      Symbol = "lbf"
	N        Symbol = "N"
	Kgf      Symbol = "kgf"
	LbfPerIn Symbol = "lbf/in"
	NPerMm   Symbol = "N/mm"
	Psi      Symbol = "psi"
	KPa      Symbol = "kPa"
	Bar      Symbol = "bar"
	Gram     Symbol = "g"
	Ounce    Symbol = "oz"
	GPa      Symbol = "GPa"
	Mpsi     Symbol = "Mpsi"
)

// Quantity is one reading with its four parts: nothing of it is ever rebuilt from another.
//
// Value counts tenths of a nanometre, millinewtons, millinewtons a metre, millipascals,
// micrograms or, of a modulus, pascals, as Unit says. A Quantity with an empty Unit is no reading at all.
type Quantity struct {
	Typed string `json:"typed"` // as it came from the keyboard, the gauge or the file
	Read  string `json:"read"`  // the decimal it was read as, trailing zeros kept
	Unit  Symbol `json:"unit"`  // the unit it was read in
	Value int64  `json:"value"` // the exact value, rounded once where the unit has no whole number
}

// Length returns the value of a quantity read in inches or millimetres.
func (q Quantity) Length() Length { return Length(q.Value) }

// Zero reports whether there is no reading.
func (q Quantity) Zero() bool { return q.Unit == "" }
