package unit

import "math/big"

// Mean returns the mean of lengths, rounded once, half to even; zero for none.
func Mean(all []Length) Length {
	if len(all) == 0 {
		return 0
	}
	sum := new(big.Int)
	for _, l := range all {
		sum.Add(sum, big.NewInt(int64(l)))
	}
	return Length(roundEven(new(big.Rat).SetFrac(sum, big.NewInt(int64(len(all))))).Int64())
}

// Times returns the load that a spring of this rate gains over a length, rounded once, half to even.
func (r Rate) Times(l Length) Load {
	x := new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(int64(r)), big.NewInt(int64(l))))
	return Load(roundEven(x.Quo(x, perMetre)).Int64())
}

// OnCircle returns the force of the pressure on a circle of this diameter, p π d²/4, such as the
// head of a valve; rounded once, half to even.
func (p Pressure) OnCircle(diameter Length) Load {
	d := new(big.Rat).Quo(big.NewRat(int64(diameter), 1), perMetre)
	area := new(big.Rat).Mul(d, d)
	area.Mul(area, pi)
	area.Quo(area, big.NewRat(4, 1))
	return Load(roundEven(area.Mul(area, big.NewRat(int64(p), 1))).Int64())
}

var (
	perMetre = rat("10000000000") // tenths of a nanometre
	// pi to fifty decimals: more than any length and pressure within the limits can tell from π.
	pi = rat("3.14159265358979323846264338327950288419716939937510")
)
