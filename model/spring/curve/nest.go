package curve

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Coil is one coil of a nested spring: its curve, tested alone, and how much less room it has than the
// outermost one. That is rj + qj, less the shims that lie under the outer coil alone; nought for the
// outermost.
type Coil struct {
	Curve *Curve
	Less  unit.Length
}

// Together adds up coils that were tested alone, each at its own height: F = Σ Fj(H − less_j). The
// curve reaches as far as all of them do.
//
// It refuses (say.Invalid) none at all, a coil without a curve, the curve of a spring that was tested as
// one (it holds its inner coils already), a step no smaller than the coil is tall, and coils whose
// points have no height in common.
func Together(coils ...Coil) (*Curve, error) {
	if len(coils) == 0 {
		return nil, say.Fail(say.Invalid, "spring.no-coil", 1)
	}
	parts := make([]part, 0, len(coils))
	for i, coil := range coils {
		switch {
		case coil.Curve == nil:
			return nil, say.Fail(say.Invalid, "spring.no-coil", i+1)
		case coil.Curve.whole:
			return nil, say.Fail(say.Invalid, "spring.twice")
		}
		moved, err := coil.Curve.moved(i+1, coil.Less, 1)
		if err != nil {
			return nil, err
		}
		parts = append(parts, moved...)
	}
	return join(parts)
}

// moved returns the parts of a curve on a step.
func (c *Curve) moved(coil int, less unit.Length, sign float64) ([]part, error) {
	parts := make([]part, 0, len(c.parts))
	for _, p := range c.parts {
		if tall := p.points[len(p.points)-1].Height; less >= tall || less <= -tall {
			return nil, say.Fail(say.Invalid, "spring.step", coil, less, tall)
		}
		parts = append(parts, part{p.piece, p.less + less, p.sign * sign, coil})
	}
	return parts, nil
}
