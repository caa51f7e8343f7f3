package evaluate

import "keeperbook/model/budget"

// coilTerms are what the parts of a curve stand on beyond the outermost coil's height, in the order that
// [curve.Curve.Terms] asks for.
type coilTerms []budget.Sum

// underCoils writes down the steps under each coil, and the shims that it does not stand on. Of a spring that was
// tested as one on other steps, each coil that stands elsewhere here counts on these steps and on those.
func (b *bench) underCoils(f *fitted, c *springCurve) coilTerms {
	if c.up == nil || c.estimate {
		return nil
	}
	here := func(coil int) budget.Sum { return b.stepTerms(f.shimTerms(nil, 1, underOuterOnly), -1, f, coil) }
	all := coilTerms{nil}
	if !c.whole {
		for i := 1; i < len(c.coils); i++ {
			all = append(all, here(i+1))
		}
		return all
	}
	tester := &fitted{retainer: c.stood.retainer, locator: c.stood.locator}
	for _, coil := range c.moved {
		all = append(all, here(coil), b.stepTerms(nil, -1, tester, coil))
	}
	return all
}

// heights are the heights of the parts of a curve where the outermost coil's rests on this sum.
func (t coilTerms) heights(outer budget.Sum) []budget.Sum {
	all := make([]budget.Sum, len(t))
	for i, own := range t {
		all[i] = append(less(outer, nil), own...)
	}
	return all
}
