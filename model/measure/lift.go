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

// LidBias is how much too high a load reads on a scale that shows the spring longer than it is, by a
// lid of this thickness that was not taken off: k·e.
func LidBias(rate unit.Rate, lid unit.Length) unit.Load { return rate.Times(lid) }

// StepBias is how much too low an inner coil's load reads when it was tested without the steps that
// compress it further in the head: k·(r + q).
func StepBias(rate unit.Rate, steps unit.Length) unit.Load { return rate.Times(steps) }

// BoostLoss is what pressure on the head of a closed valve takes off its seat load: p·πd²/4.
func BoostLoss(pressure unit.Pressure, head unit.Length) unit.Load { return pressure.OnCircle(head) }
