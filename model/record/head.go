package record

import "keeperbook/model/say"

// Stamp is a moment in UTC as RFC 3339 with whole seconds, "2026-03-02T14:05:00Z".
type Stamp string

// Day returns the date part of the moment.
func (s Stamp) Day() say.Day {
	if len(s) < 10 {
		return say.Day(s)
	}
	return say.Day(s[:10])
}

// Date is a day as it stands on a certificate, "2026-03-02". It has no time and no zone.
type Date string

// Shown is the day as sentences show it.
func (d Date) Shown() say.Day { return say.Day(d) }

// Shop is who keeps the book, as it stands on a sheet.
type Shop struct {
	Name  string `json:"name"`
	Place string `json:"place,omitempty"`
	Phone string `json:"phone,omitempty"`
}

// Owner is whose engines they are. Name is what may stand on a sheet; how to reach them is a
// [Contact], which is kept apart so that it can be erased.
type Owner struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// Contact is personal data of an owner. It is never part of a record, an export or the history.
type Contact struct {
	Owner string
	Phone string
	Mail  string
	Place string
}

// Engine is one engine of an owner.
type Engine struct {
	ID     string   `json:"id"`
	Owner  string   `json:"owner,omitempty"` // id of the owner
	Name   string   `json:"name"`
	Firing []string `json:"firing,omitempty"` // firing order in the labels of its cylinders
	Note   string   `json:"note,omitempty"`
}

// Role is what a valve does.
type Role string

// The two roles.
const (
	Intake  Role = "in"
	Exhaust Role = "ex"
)

// Head is one bank of an engine.
type Head struct {
	ID        string     `json:"id"`
	Engine    string     `json:"engine"` // id of the engine
	Tag       string     `json:"tag"`    // what the shop calls it, stamped or on its label
	Casting   string     `json:"casting,omitempty"`
	WorkOrder string     `json:"workOrder,omitempty"`
	Cylinders []string   `json:"cylinders"` // the shop's own labels from the front: 1 3 5 7; 1 to 16
	Intakes   int        `json:"intakes"`   // intake valves of a cylinder, 1 to 3
	Exhausts  int        `json:"exhausts"`  // exhaust valves of a cylinder, 1 to 3
	Front     string     `json:"front,omitempty"`
	Order     []Position `json:"order,omitempty"` // valves from the front; absent: cylinder by cylinder, intakes first
	Note      string     `json:"note,omitempty"`

	Material HeadMaterial `json:"material,omitempty"`
}

// HeadMaterial is what a head is cast of: a spring or a thin shim straight on aluminium digs in.
type HeadMaterial string

// The materials of heads.
const (
	Iron      HeadMaterial = "iron"
	Aluminium HeadMaterial = "aluminium"
)

// Position names one valve of a head.
type Position struct {
	Cylinder string `json:"cylinder"` // label
	Role     Role   `json:"role"`
	N        int    `json:"n"` // 1 to 3, counted from the front within the cylinder and role
}

// Positions returns the valves in the order of the head.
func (h *Head) Positions() []Position {
	if len(h.Order) > 0 {
		return h.Order
	}
	var all []Position
	for _, c := range h.Cylinders {
		for n := 1; n <= h.Intakes; n++ {
			all = append(all, Position{c, Intake, n})
		}
		for n := 1; n <= h.Exhausts; n++ {
			all = append(all, Position{c, Exhaust, n})
		}
	}
	return all
}

// Label returns the name of a valve as the bench says it: "3 ex", or "3 ex 2" where the cylinder
// has several of that role, or the position is of a second one that it does not have.
func (h *Head) Label(p Position) string {
	label := p.Cylinder + " " + string(p.Role)
	if p.N > 1 || p.Role == Intake && h.Intakes > 1 || p.Role == Exhaust && h.Exhausts > 1 {
		label += " " + string(rune('0'+p.N))
	}
	return label
}
