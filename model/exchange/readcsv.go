package exchange

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"keeperbook/model/say"
)

const (
	// MaxTable is the most bytes a table of readings may have: some twenty thousand lines.
	MaxTable = 2 << 20
	// maxRowErrors is how many lines are complained of; further ones are counted.
	maxRowErrors = 20
)

// ReadCSV reads a table of readings. The first line names the columns, in any order:
//
//	head,valve,what,coil,reading,correction,gauge,method,by,when,note
//
// head, valve, what and reading are required. Cells are separated by commas, semicolons or tabs, as
// the first line is; the text is UTF-8, with or without a byte order mark. "what" is a kind of reading,
// or shims or shims-outer. "correction" is as-set (the gauge's standing setting), at-the-spring (nothing
// is taken off), or a list such as
//
//	lid .095 + locator .060 + step .095 zeroed
//
// and bind is refused without one. An empty one takes nothing off, the zero offset of the gauge neither. The same valve may not come twice for the same thing unless the
// later reading ends in a star, which makes it a repeat.
//
// Every line that does not fit is named, the rest is returned; whether part of a table is taken in is
// the caller's choice. Where more than 20 lines do not fit, one last error says how many more there are.
func ReadCSV(data []byte) (Sheet, []RowError) {
	if err := glanceTable(data); err != nil {
		return Sheet{}, []RowError{*err}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	s := splitter{rest: data, line: 1}
	first, _, _ := bytes.Cut(data, []byte("\n"))
	s.separator = separator(first)
	header, _ := s.next()
	t, err := newTable(header)
	if err != nil {
		return Sheet{}, []RowError{{header.line, err}}
	}
	t.sheet.Separator = rune(s.separator)
	for {
		r, ok := s.next()
		if !ok {
			break
		}
		if empty(r) {
			continue
		}
		if err := t.take(r); err != nil {
			t.refuse(r.line, err)
		}
	}
	return t.sheet, t.all()
}

// glanceTable refuses bytes that are no table of text at all.
func glanceTable(data []byte) *RowError {
	switch nul := bytes.IndexByte(data, 0); {
	case len(data) > MaxTable:
		return &RowError{1, say.Fail(say.Invalid, "exchange.csv-big", len(data)>>20, MaxTable>>20)}
	case len(bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff")))) == 0:
		return &RowError{1, say.Fail(say.Invalid, "exchange.csv-empty", strings.Join(required, ", "))}
	case !utf8.Valid(data):
		line, _ := lineColumn(data, invalidAt(data))
		return &RowError{line, say.Fail(say.Invalid, "exchange.csv-utf8", line)}
	case nul >= 0:
		line, _ := lineColumn(data, nul)
		return &RowError{line, say.Fail(say.Invalid, "exchange.csv-nul", line)}
	}
	return nil
}

func empty(r row) bool {
	return r.unclosed == 0 && !slices.ContainsFunc(r.cells, func(c string) bool { return c != "" })
}

// table is a table while it is read.
type table struct {
	sheet  Sheet
	column map[string]int // of the line, by name
	seen   map[string]int // line of the first reading of a thing
	errs   []RowError
	more   int // errors beyond those that are listed
	last   int // line of the first of them
}

// newTable reads the header.
func newTable(header row) (*table, *say.Error) {
	t := &table{column: map[string]int{}, seen: map[string]int{}}
	if header.unclosed > 0 {
		return nil, say.Fail(say.Invalid, "exchange.csv-quote", header.unclosed)
	}
	// Spreadsheets like to add empty columns at the end.
	names := header.cells
	for len(names) > 0 && names[len(names)-1] == "" {
		names = names[:len(names)-1]
	}
	for i, cell := range names {
		name := strings.ToLower(strings.TrimSpace(cell))
		if !slices.Contains(columns, name) {
			return nil, say.Fail(say.Invalid, "exchange.csv-column", short(cell), strings.Join(columns, ", ")).About(short(name))
		}
		if _, twice := t.column[name]; twice {
			return nil, say.Fail(say.Invalid, "exchange.csv-column-twice", name, strings.Join(columns, ", ")).About(name)
		}
		t.column[name] = i
		t.sheet.Columns = append(t.sheet.Columns, name)
	}
	for _, name := range required {
		if _, ok := t.column[name]; !ok {
			return nil, say.Fail(say.Invalid, "exchange.csv-column-missing", name, strings.Join(required, ", ")).About(name)
		}
	}
	return t, nil
}

// cell returns a cell of a line, "" where the table has no such column.
func (t *table) cell(r row, name string) string {
	if i, ok := t.column[name]; ok {
		return unguard(r.cells[i])
	}
	return ""
}

func (t *table) refuse(line int, err *say.Error) {
	if len(t.errs) < maxRowErrors {
		t.errs = append(t.errs, RowError{line, err})
		return
	}
	if t.more == 0 {
		t.last = line
	}
	t.more++
}

func (t *table) all() []RowError {
	if t.more > 0 {
		return append(t.errs, RowError{t.last, say.Fail(say.Invalid, "exchange.csv-more", t.more, t.last)})
	}
	return t.errs
}
