package record

import "keeperbook/model/unit"

// Source says how a number came to be known.
type Source string

// The sources. An estimate never proves a margin.
const (
	Measured  Source = "measured"  // by this shop, with a gauge
	Supplied  Source = "supplied"  // by the maker, the builder or another shop
	Estimated Source = "estimated" // worked out from something else
)

// Bind is the height of a coil or an assembly at solid, as the scale said it, with what stood in
// the stack when it was taken.
type Bind struct {
	Reading    unit.Quantity `json:"reading"`
	Correction []Taken       `json:"correction,omitempty"`
	Source     Source        `json:"source"`
	Gauge      string        `json:"gauge,omitempty"`
	By         string        `json:"by,omitempty"`
	At         Stamp         `json:"at,omitempty"`
	Lot        *Lot          `json:"lot,omitempty"` // of a type: it is the mean of several springs, none of them the one fitted
}

// Lot is what is known of a type of spring from some of them. The bind of another one differs from
// their mean by s·√(1 + 1/n): by what springs differ, and by what the mean of n springs does not know
// (s²/n, JCGM 100:2008, 4.2.3, from memory).
type Lot struct {
	Count  int           `json:"count"`  // n, springs that were measured; two at least
	Spread unit.Quantity `json:"spread"` // s, their standard deviation, with n − 1
}

// Coil is one coil of a spring, outermost first. A flat-wire damper is a coil with its own bind and land.
type Coil struct {
	Name string `json:"name"`           // outer, inner, damper, or the shop's own word
	Bind *Bind  `json:"bind,omitempty"` // of the type, where no single spring was measured
}

// Assembly is the spring measured as one: its bind holds on a valve only where both ends carried the
// very retainer and locator that the valve has.
type Assembly struct {
	Bind     Bind   `json:"bind"`
	Retainer string `json:"retainer,omitempty"` // id of the retainer at the upper end, absent: bare
	Locator  string `json:"locator,omitempty"`  // id of the locator at the lower end, absent: bare
}

// Spring is a spring type of the shop's own list.
type Spring struct {
	ID        string         `json:"id"`
	Name      string         `json:"name"`
	Coils     []Coil         `json:"coils"` // one to four, outermost first
	Assembly  *Assembly      `json:"assembly,omitempty"`
	Rate      *unit.Quantity `json:"rate,omitempty"`      // of the whole spring, as supplied
	RatedLift *unit.Quantity `json:"ratedLift,omitempty"` // the most lift its maker gives it
	Note      string         `json:"note,omitempty"`
}

// SpringPiece is one spring in the hand, known by the tag on its bag.
type SpringPiece struct {
	Tag       string      `json:"tag"`
	Spring    string      `json:"spring"` // id of the type
	Batch     string      `json:"batch,omitempty"`
	Condition Condition   `json:"condition,omitempty"`
	Binds     []PieceBind `json:"binds,omitempty"`
	Note      string      `json:"note,omitempty"`
}

// PieceBind is the bind of one coil of a single spring.
type PieceBind struct {
	Coil int  `json:"coil"` // 1 is the outermost
	Bind Bind `json:"bind"`
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

// Retainer holds the spring's upper end.
type Retainer struct {
	ID       string          `json:"id"`
	Name     string          `json:"name"`
	Material string          `json:"material,omitempty"`
	Lid      *unit.Quantity  `json:"lid,omitempty"`   // thickness above its outer land
	Steps    []unit.Quantity `json:"steps,omitempty"` // from the outer land down to the land of coil 2, 3, …, cumulative
	Gauge    string          `json:"gauge,omitempty"` // id of what measured lid and steps; absent: as sold
	Note     string          `json:"note,omitempty"`
}

// Groove says how locks and stem meet.
type Groove string

// Single-groove locks grip the stem; multi-groove locks butt and let the valve turn.
const (
	SingleGroove Groove = "single"
	MultiGroove  Groove = "multi"
)

// Locks are the two keepers of a valve.
type Locks struct {
	ID     string         `json:"id"`
	Name   string         `json:"name"`
	Offset *unit.Quantity `json:"offset,omitempty"` // how much higher they set the retainer; negative is lower
	Angle  string         `json:"angle,omitempty"`  // degrees, as sold
	Groove Groove         `json:"groove,omitempty"`
	Note   string         `json:"note,omitempty"`
}

// Locator is the cup or seat that the spring's lower end stands on.
type Locator struct {
	ID    string          `json:"id"`
	Name  string          `json:"name"`
	Floor *unit.Quantity  `json:"floor,omitempty"` // thickness under the outer coil
	Steps []unit.Quantity `json:"steps,omitempty"` // rise of the land of coil 2, 3, … over the outer land; negative where recessed
	Gauge string          `json:"gauge,omitempty"` // id of what measured floor and steps; absent: as sold
	Note  string          `json:"note,omitempty"`
}

// SealSeat says what a valve stem seal stands on.
type SealSeat string

// A seal stands on the guide, or is one piece with the locator and so rises with the shims.
const (
	OnGuide   SealSeat = "guide"
	OnLocator SealSeat = "locator"
)

// Seal is a valve stem seal.
type Seal struct {
	ID   string   `json:"id"`
	Name string   `json:"name"`
	Sits SealSeat `json:"sits"`
	Note string   `json:"note,omitempty"`
}

// ValvePart is a valve as a part.
type ValvePart struct {
	ID       string         `json:"id"`
	Name     string         `json:"name"`
	Material string         `json:"material,omitempty"`
	Head     *unit.Quantity `json:"head,omitempty"`   // diameter of its head
	Stem     *unit.Quantity `json:"stem,omitempty"`   // diameter of its stem
	Length   *unit.Quantity `json:"length,omitempty"` // overall
	Mass     string         `json:"mass,omitempty"`   // as weighed or supplied, with its unit
	Note     string         `json:"note,omitempty"`
}
