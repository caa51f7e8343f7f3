package record

import "keeperbook/model/unit"

// Rules are the shop's rules as they stood when a set-up was begun. Each is common practice, from
// memory, with no published source; the makers' limits come first.
type Rules struct {
	Decision      Decision        `json:"decision"`
	Agree         unit.Quantity   `json:"agree"`         // a check height this far from the computed one still agrees
	SealLeast     unit.Quantity   `json:"sealLeast"`     // retainer to seal at full lift
	RetainerLeast unit.Quantity   `json:"retainerLeast"` // retainer to whatever it comes closest to, at full lift
	SetHeights    unit.Quantity   `json:"setHeights"`    // installed heights of a role within ± of each other
	RatedOver     unit.Quantity   `json:"ratedOver"`     // lift over which a spring rated for it is asked for
	Sizes         []unit.Quantity `json:"sizes"`         // thicknesses of shims that the shop buys; each is measured before it is used

	Assumed       []Assumed      `json:"assumed,omitempty"`       // of gauges of which nobody found out more
	ShimTolerance *unit.Quantity `json:"shimTolerance,omitempty"` // a shim that nobody measured is within ± of its size

	AssumedLoad *AssumedLoad    `json:"assumedLoad,omitempty"` // of spring testers of which nobody found out more
	SeatLoads   *Within         `json:"seatLoads,omitempty"`   // seat loads of a role lie within ± of their mean
	LoadLost    *Lost           `json:"loadLost,omitempty"`    // of the seat load of a spring in service
	Fits        *Fits           `json:"fits,omitempty"`        // common practice has no figures: a shop sets its own or none
	LockAngles  []string        `json:"lockAngles,omitempty"`  // of locks in degrees, as met
	LockOffsets []unit.Quantity `json:"lockOffsets,omitempty"` // of locks, as sold
	Bosses      []unit.Quantity `json:"bosses,omitempty"`      // diameters of guide bosses, as met
}

// Assumed is how well a kind of gauge is taken to read where one of them has no study, or no step. A
// number that rests on it says so. It counts with 8 degrees of freedom, for nobody knows such a figure
// to better than a quarter of itself (JCGM 100:2008, G.4.2, from memory).
type Assumed struct {
	Kind GaugeKind     `json:"kind"`
	S    unit.Quantity `json:"s"`    // standard deviation of one reading
	Step unit.Quantity `json:"step"` // digital step, or the smallest part that is read
}

// AssumedLoad is how well a spring tester is taken to show loads where it has no study, or no step, on the
// terms of [Assumed].
type AssumedLoad struct {
	S    unit.Quantity `json:"s"`
	Step unit.Quantity `json:"step"`
}

// Within is how far loads may lie from their mean: a load or a share of the mean, whichever is the greater.
type Within struct {
	Load    unit.Quantity `json:"load"`
	Percent string        `json:"percent"` // a decimal
}

// Lost is from what loss of load on a spring is watched and replaced, in percent of what it had.
type Lost struct {
	Watch   string `json:"watch"`   // a decimal
	Replace string `json:"replace"` // a decimal
}

// Fits are the clearances of parts that go into one another, each the difference of two diameters but for
// Neighbour, which is a gap. What is absent is not judged.
type Fits struct {
	Boss      *Clearance `json:"boss,omitempty"`      // locator bore over guide boss
	Pocket    *Clearance `json:"pocket,omitempty"`    // pocket over spring, or over the locator that is in it
	Cup       *Clearance `json:"cup,omitempty"`       // rim of the locator over spring
	Locator   *Clearance `json:"locator,omitempty"`   // inside of a coil over the locator's register
	Retainer  *Clearance `json:"retainer,omitempty"`  // inside of a coil over the retainer's register
	Coils     *Clearance `json:"coils,omitempty"`     // inside of a coil over the next one; not where one of them damps
	Seal      *Clearance `json:"seal,omitempty"`      // inside of the innermost coil over the seal
	Neighbour *Clearance `json:"neighbour,omitempty"` // springs, or retainers, of neighbouring valves
}

// Clearance is the least and the most room between two parts.
type Clearance struct {
	Least *unit.Quantity `json:"least,omitempty"`
	Most  *unit.Quantity `json:"most,omitempty"`
}
