package wear

import (
	"math"

	"keeperbook/model/say"
)

// Lost is a share of a load that was lost, with its expanded uncertainty (k = 2). Below nought something was gained.
type Lost struct {
	Share, U float64
}

// LossOf returns (F₀ − F)/F₀ of two loads at the same height, with standard uncertainties that have nothing in common. It
// fails (say.Invalid) with loads that are not above nought.
func LossOf(load, baseline Check) (Lost, error) {
	if !(load.Load > 0 && baseline.Load > 0) || math.IsInf(load.Load+baseline.Load, 1) {
		return Lost{}, say.Fail(say.Invalid, "wear.number")
	}
	left := load.Load / baseline.Load
	return Lost{1 - left, 2 * left * math.Hypot(load.U/load.Load, baseline.U/baseline.Load)}, nil
}

// AtHeight returns the load at the height of the baseline of one that was found at another height: a spring squeezed further
// carries more by its rate. A valve that sank is not a spring that lost load.
func AtHeight(load, rate, height, baseline float64) float64 { return load + rate*(height-baseline) }
