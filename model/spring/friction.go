package spring

import (
	"strconv"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Strokes returns the load of a coil with a rubbing damper on either stroke, F + Ff while it is compressed
// and F − Ff while it is released. The seat load is what the releasing stroke leaves: the valve has just
// closed. Friction that holds the coil altogether leaves nothing. A friction below nought is refused
// (say.Invalid). Common practice, no published source.
func Strokes(load, friction unit.Load) (compressing, releasing unit.Load, err error) {
	if friction < 0 {
		return 0, 0, say.Fail(say.Invalid, "spring.friction", friction)
	}
	return load + friction, max(load-friction, 0), nil
}

// Friction returns what a damper rubs with, half of the difference between the loads of the two strokes at one
// height, and the load without it, their mean; both rounded half to even. It refuses a greater load on the
// releasing stroke (say.Invalid).
func Friction(compressing, releasing unit.Load) (load, friction unit.Load, err error) {
	if releasing > compressing {
		return 0, 0, say.Fail(say.Invalid, "spring.strokes", compressing, releasing)
	}
	return round(float64(compressing+releasing) / 2), round(float64(compressing-releasing) / 2), nil
}

// decimal writes a number for a sentence.
func decimal(x float64) say.Number { return say.Number(strconv.FormatFloat(x, 'g', 6, 64)) }
