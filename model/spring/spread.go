package spring

import (
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Spread is how far the loads of a set lie apart.
type Spread struct {
	Mean  unit.Load   // rounded once, half to even
	Range unit.Load   // the greatest less the least
	Off   []unit.Load // each less the mean, in their order
	Worst int         // the one furthest from the mean, the first of equals
}

// SpreadOf compares the loads of a set, taken at one height or each at its own installed height. None are
// refused (say.Invalid).
func SpreadOf(loads []unit.Load) (Spread, error) {
	if len(loads) == 0 {
		return Spread{}, say.Fail(say.Invalid, "spring.none")
	}
	sum := unit.Load(0)
	for _, l := range loads {
		sum += l
	}
	s := Spread{
		Mean:  round(float64(sum) / float64(len(loads))),
		Range: slices.Max(loads) - slices.Min(loads),
		Off:   make([]unit.Load, len(loads)),
	}
	for i, l := range loads {
		s.Off[i] = l - s.Mean
		if max(s.Off[i], -s.Off[i]) > max(s.Off[s.Worst], -s.Off[s.Worst]) {
			s.Worst = i
		}
	}
	return s, nil
}
