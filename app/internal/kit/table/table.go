// Package table is what stands between the presenter of a table and the widget that draws it: plain
// data one way, keys the other. It knows no toolkit.
package table

import "keeperbook/pdf/figure"

// State is a table as it is to be drawn. The presenter makes a new one after every key; the widget
// draws what differs from the one before.
type State struct {
	Columns []Column
	Rows    []Row
	Cells   [][]Cell // a row of cells per row, one cell per column
	Cursor  Place
	Anchor  Place // the other corner of the selection; the cursor's own place where there is none
	Edit    *Edit // what is being typed in the cursor's cell; nil where nothing is
	Large   bool  // digits of at least 24 and rows of 57 toolkit units, for reading at arm's length
}

// Place is a cell, counted from nought.
type Place struct{ Row, Column int }

// Column is one column.
type Column struct {
	Key      string
	Title    string
	Unit     string
	Width    int    // in characters of the widest content
	Text     bool   // words, set from the left; numbers are set from the right
	Computed bool   // cannot be typed into
	Group    string // what stands over it and its neighbours of the same group together; "" for nothing
}

// Row is one row. Rows of a group stand together, with a rule between the groups.
type Row struct {
	Label string
	Group int
}

// Cell is one cell. Weight and tone tell kinds apart, hue never does.
type Cell struct {
	Text    string
	Strong  bool        // measured here
	Faint   bool        // a hint, not a value
	Inverse bool        // paper on ink: what must be seen at once
	Unsaved bool        // typed, and not on the disk: drawn with a frame and the words "not saved"
	Bar     *figure.Bar // a window bar in place of a text, or nil
}

// Edit is a text being typed.
type Edit struct {
	Text       string
	Caret      int    // in runes from the start
	Unit       string // shown behind the text
	Understood string // what the text reads as, below or behind it; empty where it does not read yet
	Refused    string // why it was refused; the cell then keeps the text
}

// Key is a key that a table acts on, other than a character.
type Key int

// The keys.
const (
	Enter Key = iota
	Tab
	BackTab
	Left
	Right
	Up
	Down
	Home
	End
	PageUp
	PageDown
	Escape
	Delete
	Backspace
	Modify // F2: go on with what is in the cell
	Undo
	Redo
	NextMissing // F3
	Beside      // F4: lay another table beside this one, and take it away
	Choose      // F7: choose what the table shows
	Sure        // F8: how sure the number under the cursor is
)

// Handler takes what a person does in the table.
type Handler interface {
	Rune(r rune)
	Key(k Key, shift bool)
	Paste(text string)
	Copy() string
	Tap(at Place, shift bool)
}
