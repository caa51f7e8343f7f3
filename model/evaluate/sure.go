package evaluate

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// rests is what a figure rests on: the sum of inputs that it is, made when somebody asks for it where
// nothing is decided on it.
type rests struct {
	b    *bench
	sum  budget.Sum
	make func() budget.Sum

	worked *worked // nil until the uncertainty was worked out to be kept
}

// worked is the uncertainty of a figure, or why none can be told.
type worked struct {
	budget budget.Budget
	err    error
}

// on returns the figure resting on a sum of inputs.
func (f Figure) on(b *bench, sum budget.Sum) Figure {
	f.rests = &rests{b: b, sum: sum}
	return f
}

// onDemand is the same for a figure that nothing is decided on. What makes the sum must only read: an
// evaluation is read from several places at once.
func (f Figure) onDemand(b *bench, make func() budget.Sum) Figure {
	f.rests = &rests{b: b, make: make}
	return f
}

// like returns the figure resting on what another one does.
func (f Figure) like(other Figure) Figure {
	f.rests = other.rests
	return f
}

// unsure returns the figure without anything that could be said of how sure it is.
func (f Figure) unsure() Figure {
	f.rests = nil
	return f
}

// sum returns the inputs of a figure; false for one that was chosen, estimated or moved, and where what it rests
// on cannot be told.
func (f Figure) sum() (budget.Sum, bool) {
	switch {
	case !f.Known || f.rests == nil:
		return nil, false
	case f.rests.make != nil:
		sum := f.rests.make()
		return sum, sum != nil
	}
	return f.rests.sum, true
}

// less returns the inputs of one figure less another's, with room for a few more.
func less(sum, off budget.Sum) budget.Sum {
	const more = 4
	all := append(make(budget.Sum, 0, len(sum)+len(off)+more), sum...)
	for _, t := range off {
		all = append(all, budget.Term{C: -t.C, X: t.X})
	}
	return all
}

// Sure returns the uncertainty of a figure. It fails where none can be told: of an estimate, of what was
// chosen, and where a gauge is not described and the rules assume nothing of its kind.
func (f Figure) Sure() (budget.Budget, error) {
	sum, ok := f.sum()
	if !ok {
		return budget.Budget{}, say.Fail(say.Invalid, "sure.none")
	}
	if w := f.rests.worked; w != nil {
		return w.budget, w.err
	}
	return sum.Budget()
}

// work keeps the uncertainty of a figure that will be asked for again.
func (f Figure) work() Figure {
	if f.rests != nil && f.rests.worked == nil {
		r, w := *f.rests, worked{}
		w.budget, w.err = f.Sure()
		r.worked = &w
		f.rests = &r
	}
	return f
}

// U returns the expanded uncertainty that stands behind the ±, rounded up to the unit; false where none
// can be told.
func (f Figure) U() (unit.Length, bool) {
	b, err := f.Sure()
	if err != nil {
		return 0, false
	}
	return upward(b.Expanded), true
}

// upward rounds up to the unit, and caps what is beyond every length, so that two of them still add up.
func upward(x float64) unit.Length {
	if !(x < float64(math.MaxInt64/4)) {
		return math.MaxInt64 / 4
	}
	return unit.Length(math.Ceil(x))
}
