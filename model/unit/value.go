package unit

import (
	"math/big"

	"keeperbook/model/say"
)

// longest number that is looked at, in characters. The longest sensible one has a dozen.
const longest = 64

// Of returns the quantity of a plain decimal that was read in a unit: Of("1.842", In).
//
// Errors are those of [Value].
func Of(read string, s Symbol) (Quantity, error) {
	v, err := Value(read, s)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{Typed: read, Read: read, Unit: s, Value: v}, nil
}

// Value returns the exact value of a plain decimal in a unit, rounded once, half to even: tenths
// of a nanometre, millinewtons, millinewtons a metre, millipascals, micrograms or pascals of a modulus.
//
// A plain decimal is an optional minus, digits, and optionally a point with digits after it.
// Anything else, a symbol that is no unit, more decimals than the unit holds exactly (six of an
// inch, seven of a millimetre) and a size that nothing on a cylinder head has are refused
// (say.Invalid).
func Value(read string, s Symbol) (int64, error) {
	dim := s.Dimension()
	if dim == "" {
		return 0, say.Fail(say.Invalid, "unit.symbol", shown(string(s)), symbols)
	}
	if len(read) > longest {
		return 0, tooLong(read)
	}
	d, ok := plain(read)
	if !ok {
		return 0, say.Fail(say.Invalid, "unit.plain", shown(read))
	}
	return d.value(s)
}

// value is Value of digits that were looked at already.
func (d decimal) value(s Symbol) (int64, error) {
	if most := s.places(); len(d.frac) > most {
		return 0, say.Fail(say.Invalid, "unit.decimals", d.String()+" "+string(s), len(d.frac), most)
	}
	n := roundEven(new(big.Rat).Mul(d.rat(), perUnit[s]))
	limit, name := s.Dimension().limit()
	if n.CmpAbs(big.NewInt(limit)) >= 0 {
		return 0, say.Fail(say.Invalid, "unit.large", d.String()+" "+string(s), name)
	}
	return n.Int64(), nil
}

// symbols is the list of units that a refusal offers.
const symbols = "in, mm, lbf, N, kgf, lbf/in, N/mm, psi, kPa, bar, g, oz, GPa, Mpsi"
