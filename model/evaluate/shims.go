package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// shimInput is what a shim counts as, and whether it takes room from inner coils too.
type shimInput struct {
	x     *budget.Input
	under record.Under
}

// shimInputs are the inputs of a stack: one for each shim that somebody measured, and one and the same
// for all that nobody did, since they may well be of one batch and off the same way.
func (b *bench) shimInputs(stack []record.Shim) []shimInput {
	if len(stack) == 0 {
		return nil
	}
	all := make([]shimInput, len(stack))
	for i := range stack {
		s := &stack[i]
		all[i].under = s.Under
		if b.gauges[s.Gauge] == nil {
			all[i].x = b.soldShim()
			continue
		}
		on := b.instrument(s.Gauge, record.Micrometer)
		all[i].x = &budget.Input{Name: say.New("sure.shim", s.Thickness), Gauge: on.gauge, Pool: on.pool, N: 1}
	}
	return all
}

// soldShim is within the shop's tolerance of its size, anywhere alike. Without a tolerance nothing can be
// told, and budget refuses with a sentence that names it.
func (b *bench) soldShim() *budget.Input {
	if b.doubt.sold == nil {
		t, _ := lengthOf(b.setup.Rules.ShimTolerance)
		b.doubt.sold = &budget.Input{Name: say.New("sure.sold"), Tolerance: t}
		b.note(b.doubt.sold, about{sold: true})
	}
	return b.doubt.sold
}

// shimTerms adds the shims that a number grows or shrinks with: all of them, or those under the locator,
// or those under the outer coil only.
func (f *fitted) shimTerms(sum budget.Sum, c float64, counts func(record.Under) bool) budget.Sum {
	for _, s := range f.shims {
		if counts(s.under) {
			sum = append(sum, budget.Term{C: c, X: s.x})
		}
	}
	return sum
}

func anyShim(record.Under) bool          { return true }
func underLocator(u record.Under) bool   { return u == record.UnderLocator }
func underOuterOnly(u record.Under) bool { return u != record.UnderLocator }
