package evaluate

import (
	"keeperbook/model/measure"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// mostShims is how many shims a stack is suggested with; more of them creep and seat badly (common
// practice, no published source).
const mostShims = 3

// workBack works back from bind, margin and lift to the installed height to aim for and the shims
// that make it: T = L + max(Sj + rj + qj + cj), shims under the locator = Hb − T less what already lies
// under the outer coil only.
func (b *bench) workBack(v *Valve, f fitted) {
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
	v.Target = known(t, mark, say.New("work.target",
		plus(v.Lift.Value, coils[g].Bind, coils[g].Steps, coils[g].Least), t, coilName(v.Coils[g].Name)))
	if len(coils) > 1 {
		v.Target.Working = append(v.Target.Working, say.New("work.as-one", measure.AssemblyBind(coils)))
	}
	if !v.Base.Known {
		return
	}
	need := v.Base.Value - t
	all, inner := stackHeights(f.Stack)
	if extra := all - inner; extra > 0 {
		// Shims under the outer coil only are there already and take nothing from an inner coil.
		outer := v.Base.Value - extra - v.Lift.Value - coils[0].Bind - coils[0].Least
		need = outer
		for _, c := range coils[1:] {
			need = min(need, v.Base.Value-v.Lift.Value-c.Bind-c.Steps-c.Least)
		}
	}
	v.ShimNeeded = known(need, mark, is(name("shim-needed"), minus(v.Base.Value, v.Base.Value-need), need))
	if need < 0 {
		v.Remedies = remedies(-need)
		return
	}
	sizes := make([]unit.Length, len(b.setup.Rules.Sizes))
	for i, s := range b.setup.Rules.Sizes {
		sizes[i] = s.Length()
	}
	if stack, sum := measure.NearestStack(need, sizes, mostShims); len(stack) > 0 {
		terms := make([]any, len(stack))
		for i, s := range stack {
			terms[i] = s
		}
		v.ShimNeeded.Working = append(v.ShimNeeded.Working,
			say.New("work.stack", plus(terms[0], terms[1:]...), sum, need-sum))
	}
}

// remedies are what the trade does where the spring stands too low even without a shim, in numbers.
func remedies(by unit.Length) []say.Line {
	return []say.Line{
		say.New("remedy.offset", by), say.New("remedy.valve", by), say.New("remedy.pocket", by),
	}
}
