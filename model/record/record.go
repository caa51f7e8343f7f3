package record

// Format is the version of the record's form that this program writes. A new key bumps it, and the
// decoder of every older version stays. Format 2 added what is needed to say how sure a margin is, format 3
// what loads, fits and the choice of springs rest on, format 4 what rides beside the record of a signed sheet: the end of the
// history of its book, format 5 what a finding came to when somebody accepted it.
const Format = 5

// Record is one set-up with everything it refers to, and nothing else of the book.
type Record struct {
	Shop   Shop    `json:"shop"`
	Owner  *Owner  `json:"owner,omitempty"`
	Engine Engine  `json:"engine"`
	Head   Head    `json:"head"`
	Setup  Setup   `json:"setup"`
	Parts  Parts   `json:"parts"`
	Gauges []Gauge `json:"gauges,omitempty"`
}

// Parts are the parts that a set-up refers to.
type Parts struct {
	Springs   []Spring      `json:"springs,omitempty"`
	Pieces    []SpringPiece `json:"pieces,omitempty"`
	Retainers []Retainer    `json:"retainers,omitempty"`
	Locks     []Locks       `json:"locks,omitempty"`
	Locators  []Locator     `json:"locators,omitempty"`
	Seals     []Seal        `json:"seals,omitempty"`
	Valves    []ValvePart   `json:"valves,omitempty"`
}

// Figures are the numbers of a set-up as they are printed: plain text, so that any later version can
// hold a page against them without computing.
type Figures struct {
	Summary string   `json:"summary"`
	Next    string   `json:"next,omitempty"`
	Columns []Column `json:"columns"`
	Rows    []Row    `json:"rows"`
	Notes   []string `json:"notes,omitempty"` // findings as sentences
}

// History is the end of the history of a book: how many events it has, and the hash of the last, which stands for all of them.
type History struct {
	Events int64  `json:"events"`
	Head   string `json:"head"` // SHA-256, hexadecimal
}

// Column is one column of the table of figures.
type Column struct {
	Key   string `json:"key"`
	Title string `json:"title"`
	Unit  string `json:"unit,omitempty"`
}

// Row is one valve of the table of figures, a text per column.
type Row struct {
	Valve string   `json:"valve"`
	Cells []string `json:"cells"`
}
