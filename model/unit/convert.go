package unit

import "math/big"

// perUnit is how many of the whole number's units one of the symbol's is: tenths of a nanometre,
// millinewtons, millinewtons a metre, millipascals, micrograms, pascals of a modulus. All are exact by definition (NIST SP 811,
// Appendix B): 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 kgf = 9.80665 N,
// 1 oz = 28.349523125 g (avoirdupois).
var perUnit = map[Symbol]*big.Rat{
	In:       rat("254000000"),
	Mm:       rat("10000000"),
	Lbf:      rat("4448.2216152605"),
	N:        rat("1000"),
	Kgf:      rat("9806.65"),
	LbfPerIn: new(big.Rat).Quo(rat("4448.2216152605"), rat("0.0254")),
	NPerMm:   rat("1000000"),
	Psi:      new(big.Rat).Quo(rat("4448.2216152605"), rat("0.00064516")),
	KPa:      rat("1000000"),
	Bar:      rat("100000000"),
	Gram:     rat("1000000"),
	Ounce:    rat("28349523.125"),
	GPa:      rat("1000000000"),
	Mpsi:     new(big.Rat).Quo(rat("4448221.6152605"), rat("0.00064516")),
}

func rat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("unit: not a number: " + text)
	}
	return r
}

// roundEven rounds to the nearest whole number, halves to the even one.
func roundEven(x *big.Rat) *big.Int {
	num, den := x.Num(), x.Denom()
	quo, rem := new(big.Int).DivMod(num, den, new(big.Int)) // 0 ≤ rem < den
	switch twice := new(big.Int).Lsh(rem, 1).Cmp(den); {
	case twice > 0, twice == 0 && quo.Bit(0) == 1:
		quo.Add(quo, big.NewInt(1))
	}
	return quo
}
