package exchange

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The columns of a table of readings. The first four are required.
const (
	headColumn       = "head"       // tag or identifier of the head
	valveColumn      = "valve"      // 3 ex, or 3 ex 2
	whatColumn       = "what"       // a kind of reading, or shims
	readingColumn    = "reading"    // as typed, with its unit where it is another than the column's
	coilColumn       = "coil"       // 1 is the outermost
	correctionColumn = "correction" // what is taken off
	gaugeColumn      = "gauge"
	methodColumn     = "method"
	byColumn         = "by"
	whenColumn       = "when" // RFC 3339, UTC
	noteColumn       = "note"

	// Of a load, and written only where a table has one that was taken at a height of its own.
	heightColumn      = "height"       // as typed
	heightGaugeColumn = "height-gauge" // what it was read on
)

// readings is the layout of a table of readings.
var readings = layout{
	columns: []string{
		headColumn, valveColumn, whatColumn, coilColumn, readingColumn, correctionColumn,
		gaugeColumn, methodColumn, byColumn, whenColumn, noteColumn, heightColumn, heightGaugeColumn,
	},
	required: []string{headColumn, valveColumn, whatColumn, readingColumn},
}

// heightColumns is how many columns at the end of a table are for loads alone.
const heightColumns = 2

// The words of the column "what" for shims, beside the kinds of readings.
const (
	shimsWord      = "shims"       // under the locator
	outerShimsWord = "shims-outer" // under the outer coil only
)

// Sheet is a table of readings that was read.
type Sheet struct {
	Separator rune // comma, semicolon or tab
	Columns   []string
	Rows      []Row
}

// Row is one line of a table of readings. The reading itself stays text: what it means is decided by
// the column it goes to. Texts that the table leaves out are empty.
type Row struct {
	Line        int             // of the file, counted from 1
	Head        string          // tag or identifier
	Position    record.Position // N is 1 where the table names no number
	Kind        record.Kind     // "" for shims
	Stack       record.Under    // where these shims lie; "" for a reading
	Coil        int             // 0 where it is of no coil
	Text        string          // as typed, "1.842", "46.79 mm", "1.842*" for a repeat, ".030+.015", "none"
	Correction  Correction
	Gauge       string // name or identifier, of shims what measured all of them
	Method      record.Method
	By          string
	When        record.Stamp
	Note        string
	Height      string // of a load: what it was taken at, as typed; the correction is of it
	HeightGauge string // name or identifier of what that height was read on, "" where it is the tester's own scale
}

// Repeat reports whether the reading was marked with a star as another one of the same thing.
func (r Row) Repeat() bool { return strings.HasSuffix(r.Text, "*") }

// Said says how a table tells what was taken off a reading.
type Said string

// What a table may say of a correction.
const (
	Unsaid      Said = ""              // nothing, so nothing is taken off; not allowed for bind, nor for the height of a load
	AsSet       Said = "as-set"        // the standing setting of the gauge
	AtTheSpring Said = "at-the-spring" // read at the spring itself: nothing is taken off
	Listed      Said = "listed"        // part by part
)

// Correction is what a table says was in the stack beside the spring.
type Correction struct {
	Said  Said
	Parts []Part // where Said is Listed
}

// Part is one part of a listed correction.
type Part struct {
	Part   record.PartOfStack
	Amount string // as typed
	Zero   record.Zeroing
}

// RowError is what is wrong with one line of a table.
type RowError struct {
	Line int // of the file, counted from 1
	Err  *say.Error
}

// Error returns the sentence in English.
func (e RowError) Error() string { return e.Err.Error() }

// Unwrap returns the sentence with its code. Its Field is the column.
func (e RowError) Unwrap() error { return e.Err }
