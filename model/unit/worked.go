package unit

import "math/big"

// Worked returns the quantity of a length that was worked out, as if it had been typed: rounded half to
// even to so many decimals of the unit, or to as many as that holds. Its value is that of the decimal,
// so that all four parts agree. A length beyond [Limit] gives no quantity.
func Worked(l Length, s Symbol, decimals int) Quantity {
	decimals = min(decimals, s.places())
	cut := roundEven(new(big.Rat).Mul(l.in(s), tenTo(decimals)))
	read := new(big.Rat).Quo(new(big.Rat).SetInt(cut), tenTo(decimals)).FloatString(decimals)
	q, err := Of(read, s)
	if err != nil {
		return Quantity{}
	}
	return q
}

// Decimals returns how many decimals of the unit it takes to write so many significant digits of a length:
// five for two digits of 0.00078 in. It is at most what the unit holds, and that for nought.
func Decimals(l Length, s Symbol, digits int) int {
	size := new(big.Rat).Abs(l.in(s))
	n := 0
	for n < s.places() && new(big.Rat).Mul(size, tenTo(n)).Cmp(tenTo(digits-1)) < 0 {
		n++
	}
	return n
}

// in returns how many of a unit of length it is.
func (l Length) in(s Symbol) *big.Rat { return big.NewRat(int64(l), int64(Style{Length: s}.one())) }

func tenTo(n int) *big.Rat {
	return new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil))
}
