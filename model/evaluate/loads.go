package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// curveKey tells the curves of a set-up apart: springs of a type on the same steps share one.
type curveKey struct {
	spring *record.Spring
	piece  *record.SpringPiece
	steps  [maxInner]unit.Length
}

// maxInner is how many coils a spring may have inside the outermost one.
const maxInner = 3

// springOn is the curve of the spring that a valve carries, on its steps, or why there is none.
func (b *bench) springOn(v *Valve, f *fitted) *springCurve {
	if f.spring == nil || len(f.spring.Coils) == 0 || len(f.spring.Coils) > maxInner+1 {
		return &springCurve{why: say.New("load.no-spring")}
	}
	n := len(f.spring.Coils) - 1
	steps := make([]unit.Length, n)
	all, inner := stackHeights(f.Stack)
	key := curveKey{spring: f.spring, piece: f.piece}
	for i := range steps {
		e, unsaid := stepsOf(f, &Coil{Index: i + 2})
		if len(unsaid) > 0 {
			return &springCurve{why: say.New("load.steps-unsaid")}
		}
		steps[i] = e.retainer + e.locator - (all - inner)
		key.steps[i] = steps[i]
	}
	c := b.doubt.curves[key]
	if c == nil {
		made := b.curveOn(testsOf(f.spring, f.piece), steps)
		made.of = say.New("bind.of-type", f.spring.Name)
		if f.piece != nil {
			made.of = say.New("bind.of-piece", f.piece.Tag)
		}
		c = &made
		b.doubt.curves[key] = c
	}
	return c
}

// loads gives a valve the loads of its spring: on the seat, at full lift, and the rate between them.
func (b *bench) loads(v *Valve, f *fitted) {
	b.seatMeasured(v)
	c := b.springOn(v, f)
	v.curveWhy = c.why
	v.graph = graphed{b: b, c: c, seat: f.pack.SeatLoad, lift: f.pack.OpenLoad}
	under := b.underCoils(f, c)
	if c.up != nil && v.Height.Known {
		v.SeatComputed = b.loadAt(v, under, c, c.back, "seat-load", Figure{})
	}
	b.moveMeasured(v, under, c)
	b.inForce(v)
	if c.up == nil || !v.Height.Known {
		return
	}
	lift := b.engineLift(v)
	if !lift.Known {
		return
	}
	v.OpenLoad = b.loadAt(v, under, c, c.up, "open-load", lift)
	v.graph.open = v.Height.Value - lift.Value
	v.mostLoad = v.OpenLoad
	if lift.Value != v.Lift.Value {
		v.mostLoad = b.loadAt(v, under, c, c.up, "open-load", v.Lift)
	}
	if v.OpenLoad.Known && lift.Value > 0 {
		if k, err := c.up.Secant(v.Height.Value, v.Height.Value-lift.Value); err == nil {
			v.Rate = k
			v.OpenLoad = v.OpenLoad.also(func() say.Line { return say.New("work.load.rate", k, v.Height.Value, v.Height.Value-lift.Value) })
		}
		b.swings(v, f, lift.Value)
	}
}

// engineLift is the lift that the engine sees: running springs let the train give.
func (b *bench) engineLift(v *Valve) Figure {
	if v.LiftKind == record.LiftChecking {
		if t := b.take(v.At, record.LiftRunning, 0); t.Known {
			return t.Figure
		}
	}
	return v.Lift
}

// swings adds to the open load's working how far each coil whose wire is known is from what it bears without end. The
// load of a spring of one coil is the one in force; of a coil in a nest it is that of its geometry.
func (b *bench) swings(v *Valve, f *fitted, lift unit.Length) {
	if len(v.Coils) != len(f.spring.Coils) {
		return // the spring counts as one, and what each coil carries is not known
	}
	for i := range f.spring.Coils {
		c, at := &f.spring.Coils[i], &v.Coils[i]
		w, ok := woundOf(c)
		if !ok || !at.Height.Known {
			continue
		}
		seat, open := v.SeatLoad.Value, v.OpenLoad.Value
		if len(f.spring.Coils) > 1 {
			var err [2]error
			seat, err[0] = w.spring.Load(w.free - at.Height.Value)
			open, err[1] = w.spring.Load(w.free - at.Height.Value + lift)
			if err[0] != nil || err[1] != nil {
				continue
			}
		}
		of := ofCoil("open-load", at, len(f.spring.Coils) > 1)
		if said, ok := w.fatigue(c, of, seat, open, b.setup.Units.Load); ok {
			v.OpenLoad = v.OpenLoad.also(func() say.Line { return said })
		}
	}
}

// loadAt is the load of a curve at the height in force less a lift.
func (b *bench) loadAt(v *Valve, under coilTerms, c *springCurve, on *curve.Curve, key string, lift Figure) Load {
	height := v.Height
	h := height.Value - lift.Value
	value, err := on.At(h)
	if err != nil {
		if v.loadWhy.Zero() {
			v.loadWhy = line(err)
		}
		return Load{}
	}
	mark := Computed
	if c.estimate || height.Mark == Estimate || lift.Known && lift.Mark == Estimate {
		mark = Estimate
	}
	l := knownLoad(value.Load, mark, func() say.Line { return say.New("work.load", name(key), c.of, h, value.Load, b.loadUnit()) })
	l.Beyond, l.Stale = value.Beyond, height.Stale
	l = l.also(func() say.Line { return b.between(c, on, h, value) })
	if on == c.up && c.apart != nil {
		if alone, err := c.apart.At(h); err == nil {
			l = l.also(func() say.Line { return b.difference(value.Load - alone.Load) })
		}
	}
	if mark == Estimate {
		return l
	}
	return l.onDemand(b, func() budget.Sum {
		sum, ok := height.sum()
		if !ok {
			return nil
		}
		if lift.Known {
			off, ok := lift.sum()
			if !ok {
				return nil
			}
			sum = less(sum, off)
		}
		all, err := on.Terms(h, under.heights(sum)...)
		if err != nil {
			return nil
		}
		return all
	})
}

// between says where a load lies among the points that were taken, and how fast it rises there.
func (b *bench) between(c *springCurve, on *curve.Curve, h unit.Length, v curve.Value) say.Line {
	low, tall := on.Points()
	switch {
	case c.estimate:
		return say.New("work.load.geometry", v.Rate)
	case v.Beyond:
		return say.New("work.load.beyond", low, tall, v.Rate)
	}
	return say.New("work.load.within", low, tall, v.Rate)
}

// difference says what a spring carries more as one than its coils do alone: friction between them, or a fault in one of
// the tests. It is in no load.
func (b *bench) difference(more unit.Load) say.Line {
	if more < 0 {
		return say.New("work.load.less", -more, b.loadUnit())
	}
	return say.New("work.load.more", more, b.loadUnit())
}

// inForce picks the seat load that counts: the one measured on the head where it still holds, else the computed.
func (b *bench) inForce(v *Valve) {
	v.SeatLoad = v.SeatComputed
	if v.SeatMeasured.Known && !v.SeatMeasured.Stale && !v.onHead.apart {
		v.SeatLoad = v.SeatMeasured
	}
}
