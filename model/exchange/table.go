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

// layout is what columns a table may have, in the order in which they are written, and which of them it must.
type layout struct {
	columns, required []string
}

// glance refuses bytes that are no table of text at all.
func (f layout) glance(data []byte) *RowError {
	switch nul := bytes.IndexByte(data, 0); {
	case len(data) > MaxTable:
		return &RowError{1, say.Fail(say.Invalid, "exchange.csv-big", len(data)>>20, MaxTable>>20)}
	case len(bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff")))) == 0:
		return &RowError{1, say.Fail(say.Invalid, "exchange.csv-empty", strings.Join(f.required, ", "))}
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
	separator rune
	names     []string       // of its columns
	column    map[string]int // of the line, by name
	errs      []RowError
	more      int // errors beyond those that are listed
	last      int // line of the first of them
}

// read reads a table, line by line. It returns at least its separator and the names of its columns where its
// header fits.
func (f layout) read(data []byte, take func(*table, row) *say.Error) (*table, []RowError) {
	if err := f.glance(data); err != nil {
		return &table{}, []RowError{*err}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	s := splitter{rest: data, line: 1}
	first, _, _ := bytes.Cut(data, []byte("\n"))
	s.separator = separator(first)
	header, _ := s.next()
	t, err := f.table(header)
	if err != nil {
		return &table{}, []RowError{{header.line, err}}
	}
	t.separator = rune(s.separator)
	for {
		r, ok := s.next()
		if !ok {
			break
		}
		if empty(r) {
			continue
		}
		err := f.whole(t, &r)
		if err == nil {
			err = take(t, r)
		}
		if err != nil {
			t.refuse(r.line, err)
		}
	}
	return t, t.all()
}

// table reads the header.
func (f layout) table(header row) (*table, *say.Error) {
	t := &table{column: map[string]int{}}
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
		if !slices.Contains(f.columns, name) {
			return nil, say.Fail(say.Invalid, "exchange.csv-column", short(cell), strings.Join(f.columns, ", ")).About(short(name))
		}
		if _, twice := t.column[name]; twice {
			return nil, say.Fail(say.Invalid, "exchange.csv-column-twice", name, strings.Join(f.columns, ", ")).About(name)
		}
		t.column[name] = i
		t.names = append(t.names, name)
	}
	for _, name := range f.required {
		if _, ok := t.column[name]; !ok {
			return nil, say.Fail(say.Invalid, "exchange.csv-column-missing", name, strings.Join(f.required, ", ")).About(name)
		}
	}
	return t, nil
}

// whole refuses a line whose cells do not fit the columns, and one that leaves out what is needed.
func (f layout) whole(t *table, r *row) *say.Error {
	// A spreadsheet fills every line up to its widest one.
	n := len(t.names)
	for len(r.cells) > n && r.cells[len(r.cells)-1] == "" {
		r.cells = r.cells[:len(r.cells)-1]
	}
	switch {
	case r.unclosed > 0:
		return say.Fail(say.Invalid, "exchange.csv-quote", r.unclosed)
	case len(r.cells) < n:
		return r.fail("", "exchange.csv-half", len(r.cells), n)
	case len(r.cells) > n:
		return r.fail("", "exchange.csv-cells", len(r.cells), n)
	}
	for _, name := range f.required {
		if t.cell(*r, name) == "" {
			return r.fail(name, "exchange.csv-blank", name)
		}
	}
	return nil
}

// fail returns an error about a column of the line, which is the first argument of the sentence.
func (r row) fail(column, key string, args ...any) *say.Error {
	return say.Fail(say.Invalid, key, append([]any{r.line}, args...)...).About(column)
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
