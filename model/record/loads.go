package record

import "keeperbook/model/unit"

// Loads is what a spring tester said of one coil, or of a spring tested as one: loads at heights, taken
// in one go, under one setting. Nothing is taken off here; the numbers are the scales' own.
type Loads struct {
	Points     []Point `json:"points"`               // one at least, in any order; a curve takes two
	Correction []Taken `json:"correction,omitempty"` // what is in every height beside the spring
	Source     Source  `json:"source"`
	Gauge      string  `json:"gauge,omitempty"`   // id of the tester that showed the loads
	Heights    string  `json:"heights,omitempty"` // id of what the heights were read on; absent: the tester's own scale
	By         string  `json:"by,omitempty"`
	At         Stamp   `json:"at,omitempty"`
	Lot        *Lot    `json:"lot,omitempty"` // of a type: its points are means of several springs
}

// Point is one load at one height, read on the compressing stroke after the spring was pressed two or
// three times.
type Point struct {
	Height unit.Quantity  `json:"height"`
	Load   unit.Quantity  `json:"load"`
	Back   *unit.Quantity `json:"back,omitempty"` // load at the same height on the releasing stroke: half the difference is friction
}
