package exchange

import "keeperbook/model/record"

// The columns of a table of single springs, beside those that a table of readings has too.
const (
	tagColumn       = "tag"       // on the bag of the spring
	springColumn    = "spring"    // name or identifier of its type
	batchColumn     = "batch"     // as bought
	conditionColumn = "condition" // new, run-in, heat-cycled, used
	loadColumn      = "load"      // as typed
	backColumn      = "back"      // on the releasing stroke
	sourceColumn    = "source"    // measured where it is empty
	retainerColumn  = "retainer"  // name or identifier of what a spring tested as one carried
	locatorColumn   = "locator"   // and what it stood on
)

// springs is the layout of a table of single springs.
var springs = layout{
	columns: []string{
		tagColumn, springColumn, batchColumn, conditionColumn, whatColumn, coilColumn, heightColumn, loadColumn, backColumn,
		correctionColumn, gaugeColumn, heightGaugeColumn, retainerColumn, locatorColumn, sourceColumn, byColumn, whenColumn,
		noteColumn,
	},
	required: []string{tagColumn, whatColumn, heightColumn},
}

// SpringWhat says what a line of a table of springs gives of a spring.
type SpringWhat string

// What a line may give.
const (
	LoadOfSpring SpringWhat = "load" // one point: a height and a load
	BindOfSpring SpringWhat = "bind" // the height at which a coil is solid
	FreeOfSpring SpringWhat = "free" // the height of the spring as it stands
)

var springWhats = []SpringWhat{LoadOfSpring, BindOfSpring, FreeOfSpring}

// SpringSheet is a table of single springs that was read.
type SpringSheet struct {
	Separator rune // comma, semicolon or tab
	Columns   []string
	Springs   []SpringEntry // in the order in which the table names them
}

// SpringEntry is what a table says of one single spring. Numbers stay text: what they mean is decided by the
// column they go to. Texts that the table leaves out are empty.
type SpringEntry struct {
	Line      int    // of the file, counted from 1, on which it comes first
	Tag       string // of the spring
	Spring    string // name or identifier of its type; "" where the book knows the spring already
	Batch     string
	Condition record.Condition
	Note      string
	Free      *SpringPoint // its height as it stands
	Binds     []SpringTest // one for each coil, of one point without a load
	Loads     []SpringTest // one for each coil, and one for the spring tested as one
}

// SpringTest is what was read in one go of one coil of a spring, or of the spring as one.
type SpringTest struct {
	Coil        int        // 1 is the outermost; 0 is the spring as one
	Correction  Correction // of the heights
	Gauge       string     // name or identifier of the tester, of a bind of what read it
	HeightGauge string     // of what the heights of loads were read on, "" where it is the tester's own scale
	Retainer    string     // of a spring tested as one: name or identifier of the part at its upper end, "" where it was bare
	Locator     string     // and at its lower end
	Source      record.Source
	By          string
	When        record.Stamp // of the first line that gives one
	Points      []SpringPoint
}

// SpringPoint is one line: a height, and of a load what was shown at it.
type SpringPoint struct {
	Line   int
	Height string
	Load   string
	Back   string // on the releasing stroke
}

// OfSprings reports whether a table is one of single springs: its first line names a column of tags.
func OfSprings(data []byte) bool { return names(data, tagColumn) }
