package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/say"
)

// Chance returns the probability that every coil keeps its least margin, at least; false where the
// uncertainty of one cannot be told. Several coils count as if they had nothing in common.
func (v *Valve) Chance() (float64, bool) {
	each := make([]float64, 0, 4)
	for i := range v.Coils {
		c := &v.Coils[i]
		b, err := c.Margin.Sure()
		if err != nil || !c.Least.Known {
			return 0, false
		}
		each = append(each, budget.Above(b, c.Margin.Value, c.Least.Value))
	}
	if len(each) == 0 {
		return 0, false
	}
	return budget.Together(each...), true
}

// ChanceLine says the same in words, rounded down; the zero Line where it cannot be told.
func (v *Valve) ChanceLine() say.Line {
	p, ok := v.Chance()
	switch {
	case !ok:
		return say.Line{}
	case p >= 0.999:
		return say.New("chance.sure")
	case p < 0.01:
		return say.New("chance.none")
	}
	return say.New("chance.of", int(100*p))
}
