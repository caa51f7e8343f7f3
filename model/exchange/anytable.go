package exchange

import (
	"bytes"
	"slices"
	"strings"
	"unicode"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// AnyTable is a table that somebody keeps in a spreadsheet of their own: a line for each valve, a column for each thing.
type AnyTable struct {
	Heads []string // as the first line has them
	Lines []AnyLine
	Wrong []RowError // lines with more cells than there are heads, which are not among the others
}

// AnyLine is one line of it, with as many cells as there are heads.
type AnyLine struct {
	Line  int // of the file, counted from 1
	Cells []string
}

// Use is what a column of such a table is.
type Use string

// What a column may be besides: the kinds of readings that take no more than a number, the bind heights of two coils, at the
// spring and nothing taken off, and the shims.
const (
	LeftOut    Use = ""
	OfValve    Use = "valve"
	OfBind1    Use = "bind-1"
	OfBind2    Use = "bind-2"
	OfShims    Use = "shims"
	OfOuter    Use = "shims-outer"
	mostColumn     = 60
)

// plainKinds are the kinds of readings that such a table may have.
var plainKinds = []record.Kind{
	record.BaseHeight, record.SealGap, record.Room, record.CheckHeight, record.LiftChecking, record.LiftRunning, record.Tip,
	record.LashFound, record.LashShim, record.LashLeft,
}

// Uses are what a column may be, in the order in which they are offered.
func Uses() []Use {
	all := []Use{LeftOut, OfValve}
	for _, k := range plainKinds {
		all = append(all, Use(k))
	}
	return append(all, OfBind1, OfBind2, OfShims, OfOuter)
}

// OfReadings reports whether the first line of a table names the columns of [ReadCSV].
func OfReadings(data []byte) bool { return names(data, whatColumn) && names(data, readingColumn) }

// ReadAny reads a table of any columns. Cells are separated as those of [ReadCSV] are.
func ReadAny(data []byte) (AnyTable, *RowError) {
	f := layout{required: []string{string(OfValve)}}
	if err := f.glance(data); err != nil {
		return AnyTable{}, err
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first, _, _ := bytes.Cut(data, []byte("\n"))
	s := splitter{rest: data, line: 1, separator: separator(first)}
	header, _ := s.next()
	if header.unclosed > 0 {
		return AnyTable{}, &RowError{header.line, say.Fail(say.Invalid, "exchange.csv-quote", header.unclosed)}
	}
	t := AnyTable{Heads: header.cells}
	for len(t.Heads) > 0 && strings.TrimSpace(t.Heads[len(t.Heads)-1]) == "" {
		t.Heads = t.Heads[:len(t.Heads)-1]
	}
	if len(t.Heads) > mostColumn {
		return AnyTable{}, &RowError{header.line, say.Fail(say.Invalid, "exchange.any-wide", len(t.Heads), mostColumn)}
	}
	for {
		r, ok := s.next()
		if !ok {
			return t, nil
		}
		if r.unclosed > 0 {
			return AnyTable{}, &RowError{r.line, say.Fail(say.Invalid, "exchange.csv-quote", r.unclosed)}
		}
		if empty(r) {
			continue
		}
		// A number with a decimal comma between commas is two cells, and the next one would stand in a wrong column.
		if n := r.filled(); n > len(t.Heads) {
			t.Wrong = append(t.Wrong, RowError{r.line, r.fail("", "exchange.any-cells", n, len(t.Heads))})
			continue
		}
		cells := make([]string, len(t.Heads))
		for i := range cells {
			if i < len(r.cells) {
				cells[i] = strings.TrimSpace(unguard(r.cells[i]))
			}
		}
		t.Lines = append(t.Lines, AnyLine{r.line, cells})
	}
}

// filled is how many cells a line has up to the last one that holds something.
func (r row) filled() int {
	n := len(r.cells)
	for n > 0 && strings.TrimSpace(r.cells[n-1]) == "" {
		n--
	}
	return n
}

// called are words of heads that say what a column is, in the languages of the program. "Installed height" is none of them: with
// or without shims nobody can tell. The first that is found counts.
var called = []struct {
	use   Use
	words []string
}{
	{OfValve, []string{"valve", "ventil", "válvula", "position", "posición"}},
	{Use(record.BaseHeight), []string{"base", "grundhöhe"}},
	{Use(record.CheckHeight), []string{"check", "kontroll", "comprob"}},
	{Use(record.SealGap), []string{"seal", "dichtung", "retén"}},
	{OfShims, []string{"shim", "scheibe", "suplemento"}},
	{Use(record.Tip), []string{"tip", "schaftende", "vástago"}},
	{Use(record.LiftChecking), []string{"lift", "hub", "alzada"}},
	{OfBind1, []string{"bind", "solid", "block", "bloque"}},
}

// Guess says of each column what its head seems to say it is. Nothing is guessed twice.
func (t AnyTable) Guess() []Use {
	uses := make([]Use, len(t.Heads))
	for i, head := range t.Heads {
		head = strings.ToLower(head)
		for _, c := range called {
			if !slices.Contains(uses, c.use) && slices.ContainsFunc(c.words, func(w string) bool { return strings.Contains(head, w) }) {
				uses[i] = c.use
				break
			}
		}
	}
	return uses
}

// Rows are the readings and shims of the table for a head, by what its columns are; a number without a unit is in length. Lines
// with too many cells and those whose valve nobody can read are refused; empty cells are passed over.
func (t AnyTable) Rows(uses []Use, length unit.Symbol, head string) (rows []Row, wrong []RowError) {
	valve := slices.Index(uses, OfValve)
	if valve < 0 {
		return nil, []RowError{{1, say.Fail(say.Invalid, "exchange.any-valve")}}
	}
	wrong = slices.Clone(t.Wrong)
	for _, l := range t.Lines {
		at, ok := position(l.Cells[valve])
		if !ok {
			wrong = append(wrong, RowError{l.Line, say.Fail(say.Invalid, "exchange.csv-valve", l.Line, short(l.Cells[valve]))})
			continue
		}
		for i, cell := range l.Cells {
			if cell == "" || uses[i] == LeftOut || uses[i] == OfValve {
				continue
			}
			row := Row{Line: l.Line, Head: head, Position: at, Text: withUnit(cell, length)}
			switch uses[i] {
			case OfShims:
				row.Stack = record.UnderLocator
			case OfOuter:
				row.Stack = record.UnderOuter
			case OfBind1, OfBind2:
				row.Kind, row.Coil, row.Correction = record.BindReading, 1+slices.Index([]Use{OfBind1, OfBind2}, uses[i]), Correction{Said: AtTheSpring}
			default:
				row.Kind = record.Kind(uses[i])
			}
			rows = append(rows, row)
		}
	}
	return rows, wrong
}

// withUnit puts a unit behind a number that has none, and behind a stack, 2x.030+.015, for all of its shims. A star for a repeat stays last.
func withUnit(text string, length unit.Symbol) string {
	number, star := strings.CutSuffix(text, "*")
	number = strings.TrimSpace(number)
	if number == "" || strings.ContainsFunc(number, letter) || strings.ContainsAny(number, `"'″′`) {
		return text
	}
	number += " " + string(length)
	if star {
		number += "*"
	}
	return number
}

// letter reports whether a letter is one of a unit or a word, and not the cross behind a count.
func letter(r rune) bool { return unicode.IsLetter(r) && r != 'x' && r != 'X' }
