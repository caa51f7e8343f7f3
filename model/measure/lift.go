package measure

import (
	"math/big"

	"keeperbook/model/unit"
)

// CardLift is the lift that a cam card promises, lobe × ratio − lash, rounded once to the unit. It is
// an estimate: rocker geometry and deflection are not in it. ratio is a rocker ratio such as 3/2.
func CardLift(lobe unit.Length, ratio *big.Rat, lash unit.Length) unit.Length {
	product := new(big.Rat).Mul(new(big.Rat).SetInt64(int64(lobe)), ratio)
	return unit.Round(product) - lash
}

// Bias is how much a load reads wrong on a scale that stands off by a length: k·e too high through a lid
// that was left in, k·(r + q) too low for an inner coil tested without its steps.
func Bias(rate unit.Rate, off unit.Length) unit.Load { return rate.Times(off) }

// BoostLoss is what pressure on the head of a closed valve takes off its seat load: p·πd²/4.
func BoostLoss(pressure unit.Pressure, head unit.Length) unit.Load { return pressure.OnCircle(head) }
