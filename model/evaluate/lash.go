package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// tipAndLash fills the tip height and, where lash is set by shims, the shim that brings it to its
// target.
func (b *bench) tipAndLash(v *Valve, f *fitted) {
	tip := b.predict(b.take(v.At, record.Tip, 0), v.At, measure.Move.Tip)
	v.Tip = tip.Figure
	b.staleTaken(v, record.Tip, tip)
	found := b.predict(b.take(v.At, record.LashFound, 0), v.At, measure.Move.Lash)
	v.LashFound = found.Figure
	b.staleTaken(v, record.LashFound, found)
	left := b.predict(b.take(v.At, record.LashLeft, 0), v.At, measure.Move.Lash)
	v.LashLeft = left.Figure
	b.staleTaken(v, record.LashLeft, left)

	old := b.take(v.At, record.LashShim, 0)
	if found.Known && old.Known && f.pack.Lash != nil {
		target := f.pack.Lash.Target
		shim := measure.LashShim(old.Value, found.Value, target.Length())
		v.LashShim = known(shim, Computed, func() say.Line {
			return is(name("lash-shim"), minus(plus(old.Value, found.Value), target), shim)
		})
		was, known := old.sum()
		if now, ok := found.sum(); ok && known {
			v.LashShim = v.LashShim.onDemand(b, func() budget.Sum { return append(less(was, nil), now...) })
		}
	}
}
