package record

import "keeperbook/model/unit"

// PartOfStack is what may be in a reading beside what was to be read: parts between a gauge's faces,
// and what the gauge shows when there is nothing between them.
type PartOfStack string

// The parts of a stack, with the letters of the worked lines.
const (
	Lid          PartOfStack = "lid"           // e, the retainer above its outer land
	Floor        PartOfStack = "floor"         // f, the locator under the outer coil
	Jaws         PartOfStack = "jaws"          // s, soft jaw faces or plates
	RetainerStep PartOfStack = "retainer-step" // r of the coil that was read
	LocatorStep  PartOfStack = "locator-step"  // q of the coil that was read
	ZeroOffset   PartOfStack = "zero-offset"   // what the gauge shows at nought, in every reading on it
)

// PartsOfStack lists them in the order they are asked for.
var PartsOfStack = []PartOfStack{Lid, Floor, Jaws, RetainerStep, LocatorStep, ZeroOffset}

// Signed reports whether the amount of a part may be less than nought: a recessed land, a gauge that
// shows less than nought at nought.
func (p PartOfStack) Signed() bool { return p == LocatorStep || p == ZeroOffset }

// Zeroing says whether the gauge was set to nought on a part, which then is not in the reading.
type Zeroing string

// The two ways.
const (
	Zeroed    Zeroing = "zeroed"
	NotZeroed Zeroing = "not-zeroed"
)

// Taken is one part that stood in the stack. Not zeroed, it is taken off the reading; zeroed, it is
// only mentioned. A part stands once in a setting, so nothing is taken off twice.
type Taken struct {
	Part   PartOfStack   `json:"part"`
	Amount unit.Quantity `json:"amount"`
	Zero   Zeroing       `json:"zero"`
	Gauge  string        `json:"gauge,omitempty"` // id of what measured the part; absent: nobody said
}
