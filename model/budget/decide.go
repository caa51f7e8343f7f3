package budget

import (
	"math"

	"keeperbook/model/say"
)

// Rule is how a number is held against its limit.
type Rule string

// The rules. Each keeps a guard w back from the limit.
const (
	Plain     Rule = "plain"      // w = 0: the numbers as they stand
	Guarded   Rule = "guarded"    // w = U: the printed ± reproduces the verdict
	Guarded95 Rule = "guarded-95" // w = t₀.₉₅,ν · u: at least 95 in 100 (ISO 14253-1:2017, from memory)
)

// LeastNu is how many effective degrees of freedom a number needs to be called within: with fewer, its
// scatter is known from so few repeats that the right word is to measure again. A rule of this
// program, no published source.
const LeastNu = 5

// Word is what may be said of a number and a limit.
type Word int

// The words, from worst to best.
const (
	Outside  Word = iota // beyond the limit by more than the guard
	Unproven             // too near to say
	Repeat               // within, but on too few repeats: measure again
	Within               // inside the limit by at least the guard
)

// Whole is a quantity that counts in whole units, such as a length or a load.
type Whole interface{ ~int64 }

// Guard is what a rule keeps back from limits, in whole units, so that only whole numbers are compared.
type Guard[T Whole] struct {
	W      T
	Repeat bool // there are fewer than [LeastNu] degrees of freedom
}

// GuardOf returns the guard of a rule, rounded up to the unit.
func GuardOf[T Whole](b Budget, rule Rule) (Guard[T], error) {
	g := Guard[T]{Repeat: b.Nu < LeastNu}
	switch rule {
	case Plain:
	case Guarded:
		g.W = up[T](b.Expanded)
	case Guarded95:
		g.W = up[T](b.OneSided())
	default:
		return g, say.Fail(say.Invalid, "budget.rule", string(rule))
	}
	return g, nil
}

// far is a guard beyond which nothing is within anything; two of them still add up.
const far = math.MaxInt64 / 4

// up rounds up to a whole unit.
func up[T Whole](x float64) T {
	if !(x < far) {
		return far
	}
	return T(math.Ceil(x))
}

// AtLeast holds a number against a least one: within from least + w on, outside below least − w.
func (g Guard[T]) AtLeast(x, least T) Word {
	switch {
	case x < least-g.W:
		return Outside
	case x < least+g.W:
		return Unproven
	case g.Repeat:
		return Repeat
	}
	return Within
}

// AtMost holds a number against a greatest one: within up to most − w, outside above most + w.
func (g Guard[T]) AtMost(x, most T) Word { return g.AtLeast(-x, -most) }

// Narrow reports whether a window is narrower than the guard at both its ends takes: nothing can be
// within it, however well it is made.
func (g Guard[T]) Narrow(least, most T) bool { return most-least < 2*g.W }

// Binds reports whether a margin does not rule out that the coils touch, M − U ≤ 0, whatever the rule.
func Binds[T Whole](b Budget, margin T) bool { return margin <= up[T](b.Expanded) }

// Above returns the probability that the length is above a limit, from where it was measured:
// T_ν((x − limit)/u), a conformance probability after JCGM 106:2012, 7.
func Above[T Whole](b Budget, x, limit T) float64 {
	switch d := float64(x - limit); {
	case b.Std > 0:
		return Below(d/b.Std, b.Nu)
	case d < 0:
		return 0
	}
	return 1
}

// Inside returns the probability that the length is between two limits.
func Inside[T Whole](b Budget, x, least, most T) float64 {
	return Above(b, x, least) - Above(b, x, most)
}

// Together returns the least probability with which all of several numbers are good: 1 − Σ(1 − p),
// whatever they have in common (Boole's inequality).
func Together(each ...float64) float64 {
	all := 1.0
	for _, p := range each {
		all -= 1 - p
	}
	return max(all, 0)
}
