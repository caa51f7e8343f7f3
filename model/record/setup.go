package record

import "keeperbook/model/unit"

// SetupKind says whether a set-up records what came in or what goes out.
type SetupKind string

// The two kinds.
const (
	AsFound SetupKind = "as-found"
	AsBuilt SetupKind = "as-built"
)

// State says whether a set-up still takes entries.
type State string

// A closed set-up refuses every change; another one opens from it.
const (
	Open   State = "open"
	Closed State = "closed"
)

// Setup is everything measured, fitted and decided on one head at one time.
type Setup struct {
	ID       string    `json:"id"`
	Head     string    `json:"head"`
	Kind     SetupKind `json:"kind"`
	Replaces string    `json:"replaces,omitempty"` // id of the set-up it follows
	Begun    Stamp     `json:"begun"`
	By       string    `json:"by"` // who began it
	State    State     `json:"state"`
	Note     string    `json:"note,omitempty"`
	Units    Units     `json:"units"` // what it is shown and printed in
	Rules    Rules     `json:"rules"` // fixed when it was begun
	Needs    Needs     `json:"needs"`

	Packages   []Package   `json:"packages,omitempty"`
	Valves     []Valve     `json:"valves,omitempty"`
	Readings   []Reading   `json:"readings,omitempty"`
	Shared     []Shared    `json:"shared,omitempty"`
	SeatWork   []SeatWork  `json:"seatWork,omitempty"`
	Deviations []Deviation `json:"deviations,omitempty"`
	Checks     []Check     `json:"checks,omitempty"`
}

// Units is what a set-up is shown in. It never changes what was read.
type Units struct {
	Length unit.Symbol `json:"length"` // in or mm
	Load   unit.Symbol `json:"load"`   // lbf, N or kgf
}

// Decision names how a number is held against its limit.
type Decision string

// The ways to decide. A guard w is kept back from the limit: a margin is within where it is at least
// its least plus w.
const (
	// Plain compares the number itself with the limit; nothing is kept back for the gauges.
	Plain Decision = "plain"
	// Guarded keeps back w = U, the expanded uncertainty that is printed behind the margin, so that the
	// printed numbers alone reproduce the verdict.
	Guarded Decision = "guarded"
	// Guarded95 keeps back w = t(0.95, ν)·u: at least 95 % sure. It is the default of ISO 14253-1:2017,
	// from memory.
	Guarded95 Decision = "guarded-95"
)

// Decisions lists them in the order they are asked for.
var Decisions = []Decision{Plain, Guarded, Guarded95}

// Needs is what must be known before a spring can be chosen. An empty text is a question still open.
type Needs struct {
	Use        string         `json:"use,omitempty"`        // street, circuit, strip, marine, …
	RunLength  string         `json:"runLength,omitempty"`  // how long it runs at a time
	Held       string         `json:"held,omitempty"`       // speed held, rpm
	Reached    string         `json:"reached,omitempty"`    // speed reached, rpm
	OverRev    string         `json:"overRev,omitempty"`    // over-rev history
	Boost      *unit.Quantity `json:"boost,omitempty"`      // pressure over the outside air
	Lifter     string         `json:"lifter,omitempty"`     // kind of lifter or follower
	LifterSays string         `json:"lifterSays,omitempty"` // its maker's limit, in the maker's words
	CamSays    string         `json:"camSays,omitempty"`    // the cam maker's limits, in the maker's words
	Oil        string         `json:"oil,omitempty"`        // oil on the springs
	Parts      string         `json:"parts,omitempty"`      // whose parts they are
	Targets    string         `json:"targets,omitempty"`    // target loads and who set them
	Recheck    string         `json:"recheck,omitempty"`    // when to check again, and who does

	LifterMost *unit.Quantity `json:"lifterMost,omitempty"` // the most open load that the lifter's maker allows
	CamMost    *unit.Quantity `json:"camMost,omitempty"`    // the most open load that the cam's maker allows
	Pocket     *unit.Quantity `json:"pocket,omitempty"`     // diameter of the spring pockets, the least
	Boss       *unit.Quantity `json:"boss,omitempty"`       // diameter of the guide bosses that locators go over, the greatest
	Centres    *unit.Quantity `json:"centres,omitempty"`    // from the centre of one pocket to that of its neighbour, the least
}

// Package is what every valve of a role carries where nothing else is said of it.
type Package struct {
	Role     Role           `json:"role"`
	Spring   string         `json:"spring,omitempty"`
	Retainer string         `json:"retainer,omitempty"`
	Locks    string         `json:"locks,omitempty"`
	Locator  string         `json:"locator,omitempty"`
	Seal     string         `json:"seal,omitempty"`
	Valve    string         `json:"valve,omitempty"`
	Least    []Least        `json:"least,omitempty"` // least margin of each coil
	Most     *unit.Quantity `json:"most,omitempty"`  // most margin of the governing coil; absent: none
	Card     *Card          `json:"card,omitempty"`
	Lash     *Lash          `json:"lash,omitempty"`
	Nearest  string         `json:"nearest,omitempty"` // what the retainer comes closest to: guide, rocker, bucket …
	SeatLoad *Band          `json:"seatLoad,omitempty"`
	OpenLoad *Band          `json:"openLoad,omitempty"` // at full lift
}

// Band is between what loads a spring is wanted to lie, and who wants it. Any of the three may be open.
type Band struct {
	Least  *unit.Quantity `json:"least,omitempty"`
	Most   *unit.Quantity `json:"most,omitempty"`
	Target *unit.Quantity `json:"target,omitempty"`
	From   string         `json:"from,omitempty"` // who set them: the cam maker's card, the builder, …
}

// Least is the least margin to bind chosen for one coil, and where it comes from.
type Least struct {
	Coil   int           `json:"coil"` // 1 is the outermost
	Margin unit.Quantity `json:"margin"`
	From   string        `json:"from,omitempty"` // the spring maker's sheet, shop rule, …
}

// Temperature says at what temperature lash is set.
type Temperature string

// Hot and cold lash differ; which one is said with the number.
const (
	Hot  Temperature = "hot"
	Cold Temperature = "cold"
)

// Card is what the cam card says of a lobe: an estimate of lift, never a measurement.
type Card struct {
	Lobe  unit.Quantity `json:"lobe"`           // lobe lift
	Ratio string        `json:"ratio"`          // rocker ratio as a decimal; 1 for a bucket
	Lash  unit.Quantity `json:"lash"`           // at the valve
	At    Temperature   `json:"at"`             // of the lash
	From  string        `json:"from,omitempty"` // card, builder's word, …
}

// Lash is the lash a valve is set to, at the valve.
type Lash struct {
	Target unit.Quantity `json:"target"`
	At     Temperature   `json:"at"`
}

// Under says where in the stack a shim lies.
type Under string

// A shim under the locator takes its thickness from every coil, one under the outer coil only from
// the outer coil.
const (
	UnderLocator Under = "locator"
	UnderOuter   Under = "outer"
)

// Shim is one shim of a stack.
type Shim struct {
	Thickness unit.Quantity `json:"thickness"`
	Under     Under         `json:"under"`
	Gauge     string        `json:"gauge,omitempty"` // id of what measured it; absent: as sold
	Note      string        `json:"note,omitempty"`  // hardened, serrated, …
}

// Valve is one position of the head as it is fitted: its shims, and the parts that differ from the package.
type Valve struct {
	At       Position `json:"at"`
	Stack    []Shim   `json:"stack,omitempty"`
	NoShim   string   `json:"noShim,omitempty"` // "none" once somebody said that there is no shim under the locator
	Spring   string   `json:"spring,omitempty"` // tag of the single spring fitted
	Retainer string   `json:"retainer,omitempty"`
	Locks    string   `json:"locks,omitempty"`
	Locator  string   `json:"locator,omitempty"`
	Seal     string   `json:"seal,omitempty"`
	Valve    string   `json:"valve,omitempty"`
	Note     string   `json:"note,omitempty"`
}

// Shared says that a kind of reading was taken once for a role, on one valve of it.
type Shared struct {
	Kind Kind     `json:"kind"`
	Role Role     `json:"role"`
	From Position `json:"from"`
}

// SeatWork is how far one seat was cut, so that its valve sank.
type SeatWork struct {
	ID    string        `json:"id"`
	At    Position      `json:"at"`
	Depth unit.Quantity `json:"depth"`
	By    string        `json:"by"`
	When  Stamp         `json:"when"`
}

// Deviation is a finding that somebody accepted. It changes no verdict.
type Deviation struct {
	ID      string   `json:"id"`
	At      Position `json:"at"`
	Finding string   `json:"finding"` // key of the finding
	Reason  string   `json:"reason"`
	By      string   `json:"by"`
	When    Stamp    `json:"when"`
	Found   []Found  `json:"found,omitempty"` // what was accepted; absent in books of before: whatever it comes to
}

// Found is what a finding came to when somebody accepted it. It covers nothing that is worse.
type Found struct {
	Verdict string       `json:"verdict"`          // binds, short, over, …
	Beyond  *unit.Length `json:"beyond,omitempty"` // how far beyond its limit, exact; of a load in mN; absent: Line says it
	Line    string       `json:"line"`             // the sentence, in English
}

// Done says whether this shop did a piece of work.
type Done string

// The two answers.
const (
	DoneHere    Done = "here"
	NotDoneHere Done = "not-here"
)

// Check is work of the job with who did it: piston to valve, crack check, leak test.
type Check struct {
	ID   string `json:"id"`
	What string `json:"what"`
	Done Done   `json:"done"`
	Who  string `json:"who,omitempty"`
	Note string `json:"note,omitempty"`
}
