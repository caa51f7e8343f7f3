package unit

import "math/big"

// Round returns the length nearest to a number of tenths of a nanometre, halves to the even one. It
// is for products and means, which are rounded once and only there.
func Round(x *big.Rat) Length { return Length(roundEven(x).Int64()) }
