package evaluate

import (
	"math/big"

	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// lift fills the net lift used for bind: measured on checking springs where there is one (the greatest
// of the three kinds), else on running springs, which give under load and so count as an estimate
// here, else from the cam card.
func (b *bench) lift(v *Valve, f *fitted) {
	if t := b.take(v.At, record.LiftChecking, 0); t.Known {
		v.Lift, v.LiftKind = t.Figure, record.LiftChecking
		b.apartFinding(v, t.apart)
		return
	}
	if t := b.take(v.At, record.LiftRunning, 0); t.Known {
		v.Lift, v.LiftKind = t.Figure, record.LiftRunning
		v.Lift.Mark = Estimate
		v.Lift = v.Lift.unsure().also(func() say.Line { return say.New("work.lift-running") })
		return
	}
	c := f.pack.Card
	if c == nil {
		return
	}
	ratio, ok := new(big.Rat).SetString(c.Ratio)
	if !ok {
		return
	}
	l := measure.CardLift(c.Lobe.Length(), ratio, c.Lash.Length())
	v.Lift = known(l, Estimate, func() say.Line {
		return say.New("work.card", c.Lobe, say.Number(c.Ratio), c.Lash, say.New("lash."+string(c.At)), l)
	})
}

// liftMeasured reports whether the lift may prove a margin.
func (v *Valve) liftMeasured() bool { return v.Lift.Known && v.Lift.Mark != Estimate }
