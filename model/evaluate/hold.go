package evaluate

import (
	"errors"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// guard is what is kept back from the limit of a figure.
type guard struct {
	budget.Guard[unit.Length]
	budget budget.Budget
	err    error // how sure the figure is cannot be told
}

// guardOf returns what the rule of the set-up keeps back from a limit of this figure. Plain numbers need
// no budget, and most of the work is in those.
func (b *bench) guardOf(f Figure) guard {
	if b.doubt.rule == budget.Plain {
		return guard{}
	}
	var g guard
	if g.budget, g.err = f.Sure(); g.err == nil {
		g.Guard, g.err = budget.GuardOf[unit.Length](g.budget, b.doubt.rule)
	}
	return g
}

// Why a number is neither within its limit nor beyond it.
const (
	tooNear   = "near"     // the limit lies within the guard
	tooFew    = "repeat"   // within, but on too few repeats
	noBudget  = "unsure"   // how sure it is cannot be told
	estimated = "estimate" // it rests on an estimate
)

// held is what is said of a number and the least that is asked for.
type held struct {
	verdict Verdict // Binds, Short, Unproven, Within
	why     string  // of Unproven
	guard   guard
}

// hold holds a figure against the least it must be. A number that is no more than an estimate is held
// as it stands: it may be bad news and proves nothing good.
func (b *bench) hold(f Figure, least unit.Length) held {
	if f.Mark == Estimate {
		if f.Value < least {
			return held{verdict: Short}
		}
		return held{verdict: Unproven, why: estimated}
	}
	h := held{verdict: Within, guard: b.guardOf(f)}
	if h.guard.err != nil {
		// Nobody knows how far it may be off: it is held as an estimate is.
		if f.Value < least {
			return held{verdict: Short}
		}
		return held{verdict: Unproven, why: noBudget, guard: h.guard}
	}
	switch h.guard.AtLeast(f.Value, least) {
	case budget.Outside:
		h.verdict = Short
	case budget.Unproven:
		h.verdict, h.why = Unproven, tooNear
	case budget.Repeat:
		h.verdict, h.why = Unproven, tooFew
	}
	return h
}

// binds reports whether a margin is nought or less, or may be under a rule that keeps something back.
func (b *bench) binds(margin Figure, g guard) bool {
	if margin.Value <= 0 {
		return true
	}
	return b.doubt.rule != budget.Plain && margin.Mark != Estimate && g.err == nil && budget.Binds(g.budget, margin.Value)
}

// printed is the number of a finding: with its ± where the rule looks at it.
func (h held) printed(f Figure, least unit.Length) any {
	if h.guard.budget.Std == 0 {
		return unit.Beside{This: f.Value, Other: least}
	}
	s := unit.Sure{This: f.Value, U: upward(h.guard.budget.Expanded), Limit: least}
	return say.New("expr.sure", s, unit.Spread(s))
}

// ending ends the sentence of a number that is not decided with why it is not, and with what would help.
func (h held) ending(sentence say.Line, f Figure, least unit.Length) say.Line {
	switch h.why {
	case tooNear:
		return say.New("unproven.near", sentence, unit.Up(least+h.guard.W-f.Value), f.Decides())
	case tooFew:
		return say.New(f.tooFewKey(), sentence, f.tooFew())
	case noBudget:
		var e *say.Error
		if errors.As(h.guard.err, &e) {
			return say.New("unproven.unsure", sentence, e.Line)
		}
	}
	return say.New("unproven.estimate", sentence)
}
