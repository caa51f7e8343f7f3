package exchange

import (
	"bytes"
	"strings"
)

// splitter cuts a table into lines of cells by the rules of RFC 4180, with two liberties that
// spreadsheets and people take: another separator, and quotes inside a cell that does not begin with one.
type splitter struct {
	rest      []byte
	separator byte
	line      int // of the line that rest begins with, counted from 1
}

// row is one line of cells.
type row struct {
	line     int // on which it begins
	cells    []string
	unclosed int // line on which a quote was opened and never closed, 0 where there is none
}

// next returns the next row, and false at the end.
func (s *splitter) next() (row, bool) {
	if len(s.rest) == 0 {
		return row{}, false
	}
	r := row{line: s.line}
	for {
		var cell string
		if len(s.rest) > 0 && s.rest[0] == '"' {
			start := s.line
			var closed bool
			if cell, closed = s.quoted(); !closed {
				r.unclosed = start
			}
			// What stands between the closing quote and the separator belongs to the cell.
			cell += strings.TrimSpace(s.bare())
		} else {
			cell = strings.TrimSpace(s.bare())
		}
		r.cells = append(r.cells, cell)
		if len(s.rest) == 0 {
			return r, true
		}
		end := s.rest[0] != s.separator
		if end && s.rest[0] == '\r' {
			s.rest = s.rest[1:]
		}
		if end {
			s.line++
		}
		s.rest = s.rest[1:]
		if end {
			return r, true
		}
		if len(s.rest) == 0 {
			r.cells = append(r.cells, "")
			return r, true
		}
	}
}

// bare takes text up to the separator or the end of the line.
func (s *splitter) bare() string {
	end := bytes.IndexAny(s.rest, string(s.separator)+"\n")
	if end < 0 {
		end = len(s.rest)
	}
	if end > 0 && end < len(s.rest) && s.rest[end] == '\n' && s.rest[end-1] == '\r' {
		end--
	}
	text := string(s.rest[:end])
	s.rest = s.rest[end:]
	return text
}

// quoted takes a cell that begins with a quote; two quotes stand for one.
func (s *splitter) quoted() (text string, closed bool) {
	var b strings.Builder
	s.rest = s.rest[1:]
	for {
		end := bytes.IndexByte(s.rest, '"')
		if end < 0 {
			end = len(s.rest)
		}
		b.Write(s.rest[:end])
		s.line += bytes.Count(s.rest[:end], []byte("\n"))
		s.rest = s.rest[end:]
		switch {
		case len(s.rest) == 0:
			return b.String(), false
		case len(s.rest) > 1 && s.rest[1] == '"':
			b.WriteByte('"')
			s.rest = s.rest[2:]
		default:
			s.rest = s.rest[1:]
			return b.String(), true
		}
	}
}

// separator finds what the cells of a header line are separated by: whichever of the three it holds
// most of.
func separator(line []byte) byte {
	best, most := byte(','), 0
	for _, c := range []byte{',', ';', '\t'} {
		if n := bytes.Count(line, []byte{c}); n > most {
			best, most = c, n
		}
	}
	return best
}

// A spreadsheet runs a cell that begins with one of these. The apostrophe is the mark that keeps it
// from doing so.
const (
	formula    = "=+-@\t\r"
	apostrophe = "'"
)

// guard puts an apostrophe before a cell that a spreadsheet would run, and before one that would lose
// an apostrophe of its own to [unguard].
func guard(cell string) string {
	if begins(cell, formula) || guarded(cell) {
		return apostrophe + cell
	}
	return cell
}

// unguard undoes guard exactly.
func unguard(cell string) string {
	if guarded(cell) {
		return cell[1:]
	}
	return cell
}

func guarded(cell string) bool {
	return begins(cell, apostrophe) && begins(cell[1:], formula+apostrophe)
}

func begins(cell, with string) bool { return cell != "" && strings.IndexByte(with, cell[0]) >= 0 }
