package record

import (
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Service says when in the life of a set-up springs were checked.
type Service string

// When they may be.
const (
	CheckedNew   Service = "new"      // before the engine ran
	CheckedRunIn Service = "run-in"   // after the first heat, from which a loss is mostly counted
	CheckedLater Service = "in-use"   // in service
	CheckedEnd   Service = "taken-up" // when the set-up was taken apart
)

// Services lists them in the order in which they come.
var Services = []Service{CheckedNew, CheckedRunIn, CheckedLater, CheckedEnd}

// Sight is something that was seen on a spring or beside it.
type Sight string

// What may be seen, all of it common practice.
const (
	Nick         Sight = "nick"
	Rust         Sight = "rust"
	Crack        Sight = "crack"
	BrokenCoil   Sight = "broken"
	Polish       Sight = "polish"        // where coils touch, or where the spring rubs
	EndTip       Sight = "end-tip"       // worn or sharp
	NotSquare    Sight = "not-square"    // the spring leans
	DamperGroove Sight = "damper-groove" // cut by the damper into the coil
	RetainerWear Sight = "retainer-wear" // where the spring or the locks sit
	LockWear     Sight = "lock-wear"     // pulled in, or frayed
	HeatColour   Sight = "heat-colour"   // straw to blue
	SealDamage   Sight = "seal-damage"   // cut or loose
	LocatorWear  Sight = "locator-wear"  // or dug into the head
	NothingOnIt  Sight = "nothing"       // it was looked at, and there was nothing
)

// Sights lists them in the order they are asked for.
var Sights = []Sight{
	Nick, Rust, Crack, BrokenCoil, Polish, EndTip, NotSquare, DamperGroove, RetainerWear, LockWear, HeatColour, SealDamage, LocatorWear,
	NothingOnIt,
}

// SpringCheck is what was found on the springs of a head in service on one day. It belongs to the book and is in no Record: a
// set-up that was signed stays what it was.
type SpringCheck struct {
	ID      string         `json:"id"`
	Head    string         `json:"head"`  // id
	Setup   string         `json:"setup"` // id of the one in service
	Day     Date           `json:"day"`
	Service Service        `json:"service"`
	Gauge   string         `json:"gauge,omitempty"` // id of the tester that loads were read on
	Valves  []CheckedValve `json:"valves,omitempty"`
	NextDay Date           `json:"nextDay,omitempty"` // of the next check, as promised
	NextIn  string         `json:"nextIn,omitempty"`  // or after so many more runs of a kind, a decimal
	NextOf  RunKind        `json:"nextOf,omitempty"`
	By      string         `json:"by"`
	Note    string         `json:"note,omitempty"`
}

// CheckedValve is what was found at one valve. What is absent was not looked at.
type CheckedValve struct {
	At     Position       `json:"at"`
	Load   *unit.Quantity `json:"load,omitempty"`   // on the seat
	Height *unit.Quantity `json:"height,omitempty"` // at which the load was read; absent: the installed height of the set-up
	Free   *unit.Quantity `json:"free,omitempty"`   // free length
	Found  *unit.Quantity `json:"found,omitempty"`  // lash as found
	Left   *unit.Quantity `json:"left,omitempty"`   // lash as left
	Seen   []Sight        `json:"seen,omitempty"`
	Note   string         `json:"note,omitempty"`
}

// ItemKind is the item's.
func (SpringCheck) ItemKind() ItemKind { return SpringCheckItem }

// Key is unique within the book.
func (c SpringCheck) Key() string { return c.ID }

func doubtSpringCheck(c SpringCheck, now Stamp) *say.Error {
	if err := doubtLifeDay(c.Day, now); err != nil {
		return err
	}
	if !slices.Contains(Services, c.Service) {
		return invalid("record.check-service", string(c.Service)).About("service")
	}
	if c.NextDay != "" {
		if _, ok := c.NextDay.day(); !ok || c.NextDay <= c.Day {
			return invalid("record.check-next", string(c.NextDay), string(c.Day)).About("nextDay")
		}
	}
	if (c.NextIn == "") != (c.NextOf == "") || c.NextIn != "" && (!positive(c.NextIn) || !slices.Contains(RunKinds, c.NextOf)) {
		return invalid("record.check-next-in", c.NextIn).About("nextIn")
	}
	seen := map[Position]bool{}
	for _, v := range c.Valves {
		if seen[v.At] {
			return invalid("record.check-twice", v.At.String()).About("valves")
		}
		seen[v.At] = true
		if v.Load != nil && v.Load.Value <= 0 {
			return invalid("record.check-load", v.At.String()).About("valves")
		}
		for _, s := range v.Seen {
			if !slices.Contains(Sights, s) {
				return invalid("record.check-sight", string(s)).About("valves")
			}
		}
		if len(v.Seen) > 1 && slices.Contains(v.Seen, NothingOnIt) {
			return invalid("record.check-nothing", v.At.String()).About("valves")
		}
	}
	return nil
}
