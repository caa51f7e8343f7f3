package seal

import "keeperbook/model/say"

// Ink is a signature drawn by hand: strokes, each of dots that lines join. A dot lies in a field that is [InkWide] wide and
// [InkHigh] high, from its upper left corner; a stroke of one dot is a point.
type Ink []Stroke

// Stroke is what was drawn between touching and leaving the field.
type Stroke []Dot

// Dot is a place in the field.
type Dot struct{ X, Y int }

// The field of a signature drawn by hand, six times as wide as high, as the place for it on a sheet is.
const (
	InkWide = 6000
	InkHigh = 1000
)

// mostDots is how many dots a signature may have; one of ten seconds at 60 a second has 600.
const mostDots = 4000

// Check refuses (say.Invalid) what is no drawing: a dot outside the field, a stroke without one, or more than anybody draws.
func (k Ink) Check() error {
	n := 0
	for _, s := range k {
		n += len(s)
		for _, d := range s {
			if d.X < 0 || d.X > InkWide || d.Y < 0 || d.Y > InkHigh {
				return say.Fail(say.Invalid, "seal.ink")
			}
		}
		if len(s) == 0 {
			return say.Fail(say.Invalid, "seal.ink")
		}
	}
	if n > mostDots {
		return say.Fail(say.Invalid, "seal.ink-much", mostDots)
	}
	return nil
}
