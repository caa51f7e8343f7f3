package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Verdict is what is said of a valve or of one finding. The worst comes first, so that the least
// Verdict of several is their verdict together.
type Verdict int

// The verdicts, worst first.
const (
	Binds      Verdict = iota // the coils touch or may: stop, do not turn the engine
	Short                     // less than the least allowed
	Over                      // more than the most allowed
	Unfit                     // parts that do not go together
	Disagrees                 // check height and computed height differ by more than the rule
	Stale                     // something under it changed after it was measured
	Missing                   // not measured yet
	Unproven                  // cannot be decided on what is known
	WithinUpTo                // within up to a lift that nobody measured yet
	Within                    // at least the least allowed
)

// String returns the key of the verdict's word in the catalogue: "verdict.within".
func (v Verdict) String() string {
	return "verdict." + [...]string{
		"binds", "short", "over", "unfit", "disagrees", "stale", "missing", "unproven", "up-to", "within",
	}[v]
}

// Line returns the verdict's word.
func (v Verdict) Line() say.Line { return say.New(v.String()) }

// Mark says what kind of number a figure is.
type Mark string

// The marks. A figure without one was measured on this very valve.
const (
	Computed  Mark = "computed"  // worked out from readings
	Estimate  Mark = "estimate"  // from the card or a supplied number: proves nothing
	Borrowed  Mark = "borrowed"  // measured once for the role, on another valve
	Predicted Mark = "predicted" // a reading moved by what was changed since, or is not the same on this valve
)

// Figure is one number with the way it came about, which [Figure.Working] writes for screen and sheet
// alike, and with what it rests on, from which [Figure.U] and [Figure.Parts] say how sure it is.
type Figure struct {
	Known bool
	Value unit.Length
	Mark  Mark
	Stale bool              // something under it changed after it was measured
	write func() []say.Line // its working, see Working
	rests *rests            // nil for a number that was chosen or estimated
}

// Valve is everything that is known of one position.
type Valve struct {
	At    record.Position
	Label string
	Role  record.Role

	Base      Figure // Hb
	Shims     Figure // Σt, all shims
	Stack     []record.Shim
	StackSaid bool        // the stack is known: shims lie under the locator, or "none" was said
	Installed Figure      // H, computed
	Check     Figure      // Hc
	Height    Figure      // the one in force: Hc where it agrees, else H
	Lift      Figure      // the one used for bind
	LiftKind  record.Kind // LiftChecking, LiftRunning, or "" for an estimate or none
	Open      Figure      // open height of the governing coil
	Bind      Figure      // of the governing coil
	Margin    Figure      // of the governing coil
	Least     Figure      // least margin of the governing coil
	UpTo      Figure      // Lmax
	UpToBy    say.Line    // what sets it: "coil bind of the inner coil", "seal", "retainer to rocker"
	upTo      unit.Length // the limit that the finding names
	bindLimit Figure      // the limit that coil bind sets
	bindBy    say.Line    // and which coil
	rule      budget.Rule // how its numbers are held against their limits
	Seal      Figure      // closed, as entered
	SealOpen  Figure
	Room      Figure // retainer to the nearest part, closed
	RoomOpen  Figure
	Tip       Figure
	LashFound Figure
	LashLeft  Figure
	LashShim  Figure // new lash shim: old + measured − target

	SeatLoad     Load      // Fs, the one in force: measured on the head where it holds, else computed
	SeatComputed Load      // by the curve at the height in force
	SeatMeasured Load      // on the head, carried to the height in force
	Rate         unit.Rate // between seat and full lift, a secant; nought where it is not known
	OpenLoad     Load      // Fo at the lift that the engine sees: on running springs where it was measured
	mostLoad     Load      // at the greatest lift known, which upper limits are held against
	curveWhy     say.Line  // why there is no curve
	loadWhy      say.Line  // why there is no load at a height, though there is a curve
	onHead       onHead
	graph        graphed // what its load curve is drawn from

	Coils     []Coil // outermost first; one entry for an assembly
	Governing int    // index into Coils, −1 while none can be told

	Target     Figure     // T, the installed height to aim for
	ShimNeeded Figure     // Hb − T; negative: see Remedies
	Remedies   []say.Line // what the trade does where the shim needed is negative

	Findings []Finding // worst first
	Verdict  Verdict   // the worst of the findings
	Missing  []Need    // in bench order
}

// Coil is one coil of a valve's spring.
type Coil struct {
	Index  int    // 1 is the outermost
	Name   string // outer, inner, damper …; "assembly" where it was measured as one
	Height Figure // Hj
	Open   Figure // Hj − L
	Bind   Figure // Sj
	Margin Figure // Mj = Hj − L − Sj
	Least  Figure // cj
	Slack  Figure // Mj − cj: the least one governs
	Proven bool   // the bind is no estimate
	room   Figure // Hj − Sj, what a lift may use up but for the least margin
}

// Finding is one thing that was looked at, with both numbers, the rule and its source.
type Finding struct {
	Key      string // "bind", "seal", "room", "check", "repeats", "stale", "rated-lift", …
	Verdict  Verdict
	Line     say.Line // the whole sentence, with valve, both numbers and the rule
	Short    say.Line // "short: seal .031 < .050"
	Note     bool     // a note only: it is printed and changes no verdict
	Accepted *record.Deviation

	beyond *unit.Length             // how far a number lies beyond its limit; nil where it is no number, of a load in mN
	fit    func(label any) say.Line // the sentence of a misfit, of a valve or of all valves of a role
	shared say.Line                 // said once for a role, all valves of which have it; zero where it is not
}

// Need is something that has not been measured or said.
type Need struct {
	At   record.Position
	Kind record.Kind // of the reading; "" where it is no reading
	What string      // key of its words: "need.base", "need.shims", "need.least", …
	Coil int
	Name string // of the coil
}

// Evaluation is one set-up worked out: every number, its working and its verdict.
type Evaluation struct {
	Valves   []Valve    // in the order of the head
	Findings []Finding  // of the head as a whole, worst first
	Verdict  Verdict    // the worst of all
	Tightest int        // index of the valve with the least slack, −1 where no margin is known
	Measured int        // valves whose margin is known
	Missing  int        // valves with something missing
	Summary  say.Line   // "tightest of 10 measured: 3 ex, short by .004; 2 missing"
	Next     *Need      // the first thing missing, in bench order
	Notes    []say.Line // things said of the whole head: boost, lid bias
	Gauges   []Gauge    // those of the record, in its order
	Unlooked []say.Line // how parts go together, as far as a size was not measured; a line for each role
}
