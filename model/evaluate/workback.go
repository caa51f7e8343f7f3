package evaluate

import (
	"keeperbook/model/measure"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// MostShims is how many shims a stack is suggested with; more of them creep and seat badly (common
// practice, no published source).
const MostShims = 3

// workBack works back from bind, margin and lift to the installed height to aim for and the shims
// that make it: T = L + max(Sj + rj + qj + cj), shims under the locator = Hb − T less what already lies
// under the outer coil only.
func (b *bench) workBack(v *Valve, f *fitted) {
	if !v.Lift.Known || len(v.Coils) == 0 {
		return
	}
	coils := make([]measure.Coil, len(v.Coils))
	for i := range v.Coils {
		c := &v.Coils[i]
		steps, unsaid := stepsOf(f, c)
		if !c.Bind.Known || !c.Least.Known || len(unsaid) > 0 {
			return
		}
		coils[i] = measure.Coil{Bind: c.Bind.Value, Steps: steps.retainer + steps.locator, Least: c.Least.Value}
	}
	t, g := measure.WorkBack(v.Lift.Value, coils)
	mark := Computed
	if v.Lift.Mark == Estimate || v.Coils[g].Bind.Mark == Estimate {
		mark = Estimate
	}
	v.Target = known(t, mark, func() say.Line {
		return say.New("work.target",
			plus(v.Lift.Value, coils[g].Bind, coils[g].Steps, coils[g].Least), t, coilName(v.Coils[g].Name))
	})
	v.Target = b.onAim(v.Target, v, f, g, false)
	if len(coils) > 1 {
		v.Target = v.Target.also(func() say.Line { return say.New("work.as-one", measure.AssemblyBind(coils)) })
	}
	if !v.Base.Known {
		return
	}
	need := v.Base.Value - t
	all, inner := stackHeights(f.Stack)
	if extra := all - inner; extra > 0 {
		// Shims under the outer coil only are there already and take nothing from an inner coil.
		outer := v.Base.Value - extra - v.Lift.Value - coils[0].Bind - coils[0].Least
		need, g = outer, 0
		for i, c := range coils[1:] {
			if one := v.Base.Value - v.Lift.Value - c.Bind - c.Steps - c.Least; one < need {
				need, g = one, i+1
			}
		}
	}
	v.ShimNeeded = known(need, mark, func() say.Line {
		return is(name("shim-needed"), minus(v.Base.Value, v.Base.Value-need), need)
	})
	v.ShimNeeded = b.onAim(v.ShimNeeded, v, f, g, true)
	if need < 0 {
		v.Remedies = remedies(-need)
		return
	}
	v.ShimNeeded = v.ShimNeeded.also(func() say.Line { return nearest(need, b.setup.Rules.Sizes) })
}

// onAim returns the height to aim for, or the shim that is needed for it, resting on what it comes from: lift,
// bind and steps of the coil that asks for most, and of a shim the base height and what lies under the
// outer coil only.
func (b *bench) onAim(fig Figure, v *Valve, f *fitted, coil int, shim bool) Figure {
	c := &v.Coils[coil]
	lift, measured := v.Lift.sum()
	bind, proven := c.Bind.sum()
	base, based := v.Base.sum()
	if fig.Mark == Estimate || !measured || !proven || shim && !based {
		return fig
	}
	if !shim {
		return fig.on(b, b.stepTerms(append(less(lift, nil), bind...), 1, f, c.Index))
	}
	sum := b.stepTerms(append(less(base, lift), less(nil, bind)...), -1, f, c.Index)
	if c.Index == 1 {
		sum = f.shimTerms(sum, -1, underOuterOnly)
	}
	return fig.on(b, sum)
}

// nearest suggests the stack of the shop's sizes that comes nearest to the shim needed, the zero Line
// where none is that thin.
func nearest(need unit.Length, sizes []unit.Quantity) say.Line {
	lengths := make([]unit.Length, len(sizes))
	for i, s := range sizes {
		lengths[i] = s.Length()
	}
	stack, sum := measure.NearestStack(need, lengths, MostShims)
	if len(stack) == 0 {
		return say.Line{}
	}
	terms := make([]any, len(stack))
	for i, s := range stack {
		terms[i] = s
	}
	return say.New("work.stack", plus(terms[0], terms[1:]...), sum, need-sum)
}

// remedies are what the trade does where the spring stands too low even without a shim, in numbers.
func remedies(by unit.Length) []say.Line {
	return []say.Line{
		say.New("remedy.offset", by), say.New("remedy.valve", by), say.New("remedy.pocket", by),
	}
}
