package record

import "keeperbook/model/unit"

// Spring is a spring type of the shop's own list.
type Spring struct {
	ID        string         `json:"id"`
	Name      string         `json:"name"`
	Coils     []Coil         `json:"coils"` // one to four, outermost first
	Assembly  *Assembly      `json:"assembly,omitempty"`
	Rate      *unit.Quantity `json:"rate,omitempty"`      // of the whole spring, as supplied
	RatedLift *unit.Quantity `json:"ratedLift,omitempty"` // the most lift its maker gives it
	Note      string         `json:"note,omitempty"`
	Mass      *unit.Quantity `json:"mass,omitempty"` // of the whole spring
}

// Coil is one coil of a spring, outermost first. A flat-wire damper is a coil with its own bind and land.
// What is absent nobody measured; what its maker or a catalogue says may stand here too.
type Coil struct {
	Name  string `json:"name"`           // outer, inner, damper, or the shop's own word
	Bind  *Bind  `json:"bind,omitempty"` // of the type, where no single spring was measured
	Loads *Loads `json:"loads,omitempty"`

	Acts    Acts           `json:"acts,omitempty"`
	Form    Form           `json:"form,omitempty"`
	Outside *unit.Quantity `json:"outside,omitempty"` // outside diameter, of a cone or a beehive that of its large end
	Small   *unit.Quantity `json:"small,omitempty"`   // outside diameter at the small end of a cone or a beehive
	Inside  *unit.Quantity `json:"inside,omitempty"`  // inside diameter, the least of the coil
	Wire    *Wire          `json:"wire,omitempty"`
	Active  string         `json:"active,omitempty"`  // turns that give way, a decimal
	Total   string         `json:"total,omitempty"`   // all turns, a decimal
	Conical string         `json:"conical,omitempty"` // of a beehive: how many of the active turns lie in its cone, a decimal
	Ends    Ends           `json:"ends,omitempty"`
	Free    *unit.Quantity `json:"free,omitempty"` // free height
	Mass    *unit.Quantity `json:"mass,omitempty"`
}

// Acts says what a coil is there for.
type Acts string

// A coil carries, or it damps by rubbing on another one and carries what it carries beside.
const (
	Carries Acts = "carries"
	Damps   Acts = "damps"
)

// Form is the shape of a coil from the side.
type Form string

// The forms of valve springs. A beehive is a cylinder with a cone on it.
const (
	Cylindrical Form = "cylindrical"
	Conical     Form = "conical"
	Beehive     Form = "beehive"
)

// Forms lists them in the order they are asked for.
var Forms = []Form{Cylindrical, Conical, Beehive}

// Ends is how the ends of a coil are made.
type Ends string

// The four kinds of ends of the handbooks. Valve springs are squared and ground.
const (
	PlainEnds     Ends = "plain"
	PlainGround   Ends = "plain-ground"
	Squared       Ends = "squared"
	SquaredGround Ends = "squared-ground"
)

// EndsKinds lists them in the order they are asked for.
var EndsKinds = []Ends{SquaredGround, Squared, PlainGround, PlainEnds}

// Wire is what a coil is wound of.
type Wire struct {
	Section  Section        `json:"section,omitempty"`
	Diameter *unit.Quantity `json:"diameter,omitempty"` // of round wire; of other wire its size along the axis of the spring
	Radial   *unit.Quantity `json:"radial,omitempty"`   // of ovate and flat wire: its size towards the axis
	Material string         `json:"material,omitempty"` // a key of the steels that package wire lists, such as chrome-silicon, or the shop's own word
	G        *unit.Quantity `json:"g,omitempty"`        // shear modulus; handbooks differ by 2 to 5 %
	GFrom    string         `json:"gFrom,omitempty"`    // whose G it is: handbook, maker, found from the spring's own rate
	Surface  Surface        `json:"surface,omitempty"`
}

// Section is the shape of a wire that is cut across.
type Section string

// The sections of wire. The formulas are for round wire; springs of other wire are known by their points.
const (
	Round Section = "round"
	Ovate Section = "ovate"
	Flat  Section = "flat"
)

// Sections lists them in the order they are asked for.
var Sections = []Section{Round, Ovate, Flat}

// Surface is how the surface of a wire was treated.
type Surface string

// The surfaces that fatigue limits are asked for. For nitrided wire the published ones do not hold.
const (
	Unpeened Surface = "unpeened"
	Peened   Surface = "peened"
	Nitrided Surface = "nitrided"
)

// Surfaces lists them in the order they are asked for.
var Surfaces = []Surface{Unpeened, Peened, Nitrided}

// Assembly is the spring measured as one. Its bind holds on a valve only where both ends carried the
// very retainer and locator that the valve has; its loads belong to their steps.
type Assembly struct {
	Bind     *Bind  `json:"bind,omitempty"`
	Retainer string `json:"retainer,omitempty"` // id of the retainer at the upper end, absent: bare
	Locator  string `json:"locator,omitempty"`  // id of the locator at the lower end, absent: bare
	Loads    *Loads `json:"loads,omitempty"`
}

// SpringPiece is one spring in the hand, known by the tag on its bag.
type SpringPiece struct {
	Tag       string         `json:"tag"`
	Spring    string         `json:"spring"` // id of the type
	Batch     string         `json:"batch,omitempty"`
	Condition Condition      `json:"condition,omitempty"`
	Binds     []PieceBind    `json:"binds,omitempty"`
	Note      string         `json:"note,omitempty"`
	Loads     []PieceLoads   `json:"loads,omitempty"`
	Free      *unit.Quantity `json:"free,omitempty"` // height as it stands, of its tallest coil
}

// PieceBind is the bind of one coil of a single spring.
type PieceBind struct {
	Coil int  `json:"coil"` // 1 is the outermost
	Bind Bind `json:"bind"`
}

// PieceLoads are the loads of one coil of a single spring, or of all of it tested as one.
type PieceLoads struct {
	Coil     int    `json:"coil,omitempty"` // 1 is the outermost; absent: the spring as one
	Loads    Loads  `json:"loads"`
	Retainer string `json:"retainer,omitempty"` // of a spring tested as one: id of the retainer at the upper end, absent: bare
	Locator  string `json:"locator,omitempty"`  // and of the locator at the lower end
}

// Condition is the state of a spring when it goes on.
type Condition string

// The conditions of a spring.
const (
	New        Condition = "new"
	RunIn      Condition = "run-in"
	HeatCycled Condition = "heat-cycled"
	Used       Condition = "used"
)

// Conditions lists them in the order they are asked for.
var Conditions = []Condition{New, RunIn, HeatCycled, Used}
