package record

import "keeperbook/model/unit"

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

// Lot is what is known of a type of spring from some of them. The bind, or the loads, of another one
// differ from their mean by s·√(1 + 1/n): by what springs differ, and by what the mean of n springs does
// not know (s²/n, JCGM 100:2008, 4.2.3, from memory).
type Lot struct {
	Count  int           `json:"count"`  // n, springs that were measured; two at least
	Spread unit.Quantity `json:"spread"` // s, their standard deviation, with n − 1: of a bind a length, of loads a load
}
