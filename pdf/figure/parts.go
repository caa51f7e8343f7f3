package figure

import (
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Parts are the heights of the parts in a valve's stack. Nil is not known, and is left out of a drawing.
type Parts struct {
	Lid           *unit.Length    // retainer above its outer land
	Floor         *unit.Length    // locator under the outer coil
	RetainerSteps []unit.Length   // from the outer land down to the land of coil 2, 3, …
	LocatorSteps  []unit.Length   // rise of the land of coil 2, 3, … over the outer land
	SealOn        record.SealSeat // "" where there is no seal
	Nearest       string          // what the retainer comes closest to
}

// PartsOf returns the parts of a position: those of the valve's own, else those of its role's package.
func PartsOf(r *record.Record, at record.Position) Parts {
	return Parts{}
}
