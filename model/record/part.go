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

// Retainer holds the spring's upper end.
type Retainer struct {
	ID       string          `json:"id"`
	Name     string          `json:"name"`
	Material string          `json:"material,omitempty"`
	Lid      *unit.Quantity  `json:"lid,omitempty"`   // thickness above its outer land
	Steps    []unit.Quantity `json:"steps,omitempty"` // from the outer land down to the land of coil 2, 3, …, cumulative
	Gauge    string          `json:"gauge,omitempty"` // id of what measured lid and steps; absent: as sold
	Note     string          `json:"note,omitempty"`

	Outside   *unit.Quantity `json:"outside,omitempty"`   // its greatest diameter
	Registers []Register     `json:"registers,omitempty"` // what centres the coils
	Stem      *unit.Quantity `json:"stem,omitempty"`      // diameter of the stem it is made for
	Angle     string         `json:"angle,omitempty"`     // of its taper in degrees, as sold: that of its locks
	Groove    Groove         `json:"groove,omitempty"`    // of the locks it is made for, where it takes one kind only
}

// Register is the diameter that centres one coil from within.
type Register struct {
	Coil     int           `json:"coil"` // 1 is the outermost
	Diameter unit.Quantity `json:"diameter"`
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
	Stem   *unit.Quantity `json:"stem,omitempty"` // diameter of the stem they are made for
}

// Locator is the cup or seat that the spring's lower end stands on.
type Locator struct {
	ID    string          `json:"id"`
	Name  string          `json:"name"`
	Floor *unit.Quantity  `json:"floor,omitempty"` // thickness under the outer coil
	Steps []unit.Quantity `json:"steps,omitempty"` // rise of the land of coil 2, 3, … over the outer land; negative where recessed
	Gauge string          `json:"gauge,omitempty"` // id of what measured floor and steps; absent: as sold
	Note  string          `json:"note,omitempty"`

	Registers []Register     `json:"registers,omitempty"` // what centres the coils from within
	Cup       *unit.Quantity `json:"cup,omitempty"`       // inside diameter of its rim, in which the outermost coil stands
	Outside   *unit.Quantity `json:"outside,omitempty"`   // its greatest diameter, which goes into the pocket
	Bore      *unit.Quantity `json:"bore,omitempty"`      // which goes over the guide boss
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

	Outside *unit.Quantity `json:"outside,omitempty"` // its greatest diameter, inside the innermost coil
	Height  *unit.Quantity `json:"height,omitempty"`  // of its top over what it sits on
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
	Groove   Groove         `json:"groove,omitempty"` // what locks its stem is cut for
	Angle    string         `json:"angle,omitempty"`  // of the locks it is made for in degrees, as sold
}
