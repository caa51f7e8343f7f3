package record

import "keeperbook/model/unit"

// Kind says what a reading is of.
type Kind string

// The kinds of readings, in bench order.
const (
	SeatDepth     Kind = "seat-depth"     // datum down to the spring's seat, where no height gauge fits
	RetainerDepth Kind = "retainer-depth" // datum down to the retainer's top, the same
	BaseHeight    Kind = "base"           // Hb: locator in place, no shim
	SealGap       Kind = "seal"           // retainer's lowest point to the seal's top, valve closed, no shim
	Room          Kind = "room"           // retainer to what it comes closest to on opening, valve closed
	CheckHeight   Kind = "check"          // Hc: measured after assembly
	SeatLoad      Kind = "seat-load"      // Fs: on the head after assembly, valve closed; the only kind that is a load
	LiftChecking  Kind = "lift"           // L on checking springs, after lash, at the retainer
	LiftRunning   Kind = "lift-running"   // L on running springs
	BindReading   Kind = "bind"           // S of the spring on this position, per coil
	Tip           Kind = "tip"            // stem tip over the spring seat or a datum
	LashFound     Kind = "lash-found"     // lash as found
	LashShim      Kind = "lash-shim"      // thickness of the lash shim found
	LashLeft      Kind = "lash-left"      // lash as left
)

// Kinds lists the kinds in bench order.
var Kinds = []Kind{
	SeatDepth, RetainerDepth, BaseHeight, SealGap, Room, CheckHeight, SeatLoad, LiftChecking, LiftRunning, BindReading,
	Tip, LashFound, LashShim, LashLeft,
}

// IsLoad reports whether readings of the kind are loads. All others are lengths.
func (k Kind) IsLoad() bool { return k == SeatLoad }

// Method says how a number came into the book.
type Method string

// The ways a number comes in.
const (
	Typed    Method = "typed"       // by hand, from a gauge that was read
	Sent     Method = "sent"        // by a gauge that types
	HandedIn Method = "supplied"    // by the builder, the customer or another shop
	FromFile Method = "from-a-file" // out of a file of readings
)

// Reading is what a gauge said at one position. A second reading of the same thing is another
// Reading with the next N; their mean is used. A reading is replaced or struck, never rewritten.
type Reading struct {
	At         Position      `json:"at"`
	Coil       int           `json:"coil"` // 1 is the outermost; 0 where it is of no coil
	Kind       Kind          `json:"kind"`
	N          int           `json:"n"` // 1, 2, … repeats
	Quantity   unit.Quantity `json:"quantity"`
	Correction []Taken       `json:"correction,omitempty"` // copy of the setting it was taken under
	Gauge      string        `json:"gauge,omitempty"`      // id
	Method     Method        `json:"method"`
	By         string        `json:"by"`
	When       Stamp         `json:"when"`
	Over       *Over         `json:"over,omitempty"`  // what it was measured over
	Piece      string        `json:"piece,omitempty"` // of a bind or a load: tag of the spring that was read
	Note       string        `json:"note,omitempty"`
	Struck     *Strike       `json:"struck,omitempty"`

	Height  *unit.Quantity `json:"height,omitempty"`  // of a load: the height it was taken at, as read; the correction is of it. Absent: the installed height
	Heights string         `json:"heights,omitempty"` // id of what that height was read on; absent: the tester's own scale
}

// Over is what a reading was measured over. A reading is stale when the same is not there now;
// whether it is, is found by comparing, so that an undo restores it.
type Over struct {
	Stack    []Shim      `json:"stack,omitempty"`    // of a check height
	Locks    string      `json:"locks,omitempty"`    // id
	Offset   unit.Length `json:"offset,omitempty"`   // of the locks, exact
	Retainer string      `json:"retainer,omitempty"` // id
	Locator  string      `json:"locator,omitempty"`  // id
	Valve    string      `json:"valve,omitempty"`    // id
	Seat     unit.Length `json:"seat,omitempty"`     // seat work done on this valve by then, exact
}

// Strike says why a reading does not count any more.
type Strike struct {
	Reason string `json:"reason,omitempty"`
	By     string `json:"by"`
	When   Stamp  `json:"when"`
}
