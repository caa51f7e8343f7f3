package pdf

import (
	"bytes"
	"cmp"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf16"

	"keeperbook/model/record"
)

// words are letters on a page as they were set: with the left end of their base line in points from the lower left corner.
type words struct {
	x, y float64
	text string // in the order of the page
}

// wordsOn reads the letters that a page sets, of what it draws, as this program writes them: ISO 32000-2 §9.4.3 with two bytes
// a sign. What it cannot read it leaves out.
func wordsOn(content []byte) (all []words) {
	for {
		at := bytes.Index(content, []byte("BT "))
		if at < 0 {
			return all
		}
		content = content[at+len("BT "):]
		// Whatever is no place of letters is gone past: nothing is read twice, however the page is made.
		place, _, ok := bytes.Cut(content[:min(len(content), mostPlace)], []byte(" Td ("))
		if !ok || bytes.ContainsRune(place, '\n') {
			continue
		}
		rest := content[len(place)+len(" Td ("):]
		var x, y float64
		if n := bytes.Fields(place); len(n) != 2 {
			continue
		} else if x, ok = coordinate(n[0]); !ok {
			continue
		} else if y, ok = coordinate(n[1]); !ok {
			continue
		}
		text, rest, ok := literal(rest)
		if !ok {
			return all // nor does anything behind it end
		}
		if content = rest; !bytes.HasPrefix(rest, []byte(" Tj")) {
			continue
		}
		units := make([]uint16, 0, len(text)/2)
		for i := 0; i+1 < len(text); i += 2 {
			units = append(units, uint16(text[i])<<8|uint16(text[i+1]))
		}
		all = append(all, words{x, y, string(utf16.Decode(units))})
	}
}

// mostPlace is how many bytes the two numbers of a place take, and then some.
const mostPlace = 64

func coordinate(word []byte) (float64, bool) {
	x, err := strconv.ParseFloat(string(word), 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}

// literal reads a string up to the bracket that ends it, and returns what follows.
func literal(content []byte) (text, rest []byte, ok bool) {
	for i := 0; i < len(content); i++ {
		switch c := content[i]; {
		case c == ')':
			return text, content[i+1:], true
		case c == '\\' && i+1 < len(content):
			i++
			if content[i] == 'r' {
				text = append(text, '\r')
				continue
			}
			text = append(text, content[i])
		default:
			text = append(text, c)
		}
	}
	return nil, nil, false
}

// Shown says how the figures that ride with a record stand to the pages beside it.
type Shown string

// How they may stand.
const (
	ShownAll  Shown = "all"  // every number of the table stands on its valve's line, in its order, so does its verdict, and the summary is there
	ShownElse Shown = "else" // a valve's line lacks one of them, or the pages the summary or the fingerprint
	ShownNone Shown = "none" // the pages have no line that could be read for a valve
)

// Shows reads the summary, and the verdicts and numbers of a sheet's table, off its pages, of what these draw, and holds them against
// the figures that they are to be, whatever version of this program laid the pages out. Other words, and numbers that are written
// beyond their cells', are not looked for: what only this version sets can be held against pages that are drawn anew.
//
// The fingerprint of the record has to stand on them too, as pages of another record may have the same numbers.
func Shows(pages [][]byte, figures record.Figures, fingerprint string) Shown {
	named, summed := false, figures.Summary == ""
	verdict := slices.IndexFunc(figures.Columns, func(c record.Column) bool { return c.Key == "verdict" })
	judged := make([]bool, len(figures.Rows)) // the verdict stands on a line of the valve
	lines := map[string][][]words{}           // of each valve, by what stands first on them
	for _, content := range pages {
		page := wordsOn(content)
		under := columnsOf(page)
		summed = summed || slices.ContainsFunc(page, func(w words) bool { return under.reads(w, figures.Summary) })
		var digits strings.Builder // of a fingerprint that may be broken over lines
		for _, line := range linesOf(page) {
			for i, row := range figures.Rows {
				if verdict >= 0 && verdict < len(row.Cells) && line[0].text == visual(clean(row.Valve)) {
					judged[i] = judged[i] || slices.ContainsFunc(line[1:], func(w words) bool { return under.reads(w, row.Cells[verdict]) })
				}
			}
			for _, w := range line {
				digits.WriteString(strings.ReplaceAll(w.text, " ", ""))
			}
			lines[line[0].text] = append(lines[line[0].text], line[1:])
		}
		named = named || strings.Contains(digits.String(), fingerprint)
	}
	out := ShownAll
	if !named || !summed || verdict >= 0 && slices.Contains(judged, false) {
		out = ShownElse
	}
	for _, row := range figures.Rows {
		found := lines[visual(clean(row.Valve))]
		if len(found) == 0 {
			return ShownNone
		}
		var told []words
		for _, line := range found {
			told = append(told, line...)
		}
		for _, cell := range row.Cells {
			if !number.MatchString(cell) {
				continue // words may be broken over lines
			}
			at := slices.IndexFunc(told, func(w words) bool { return w.text == cell })
			if at < 0 {
				out = ShownElse
				break
			}
			told = told[at+1:]
		}
	}
	return out
}

// columns are the words of a page by their left ends, in hundredths of a point, each from above to below.
type columns map[int][]words

func columnsOf(all []words) columns {
	c := columns{}
	for _, w := range all {
		at := left(w)
		c[at] = append(c[at], w)
	}
	for _, one := range c {
		slices.SortFunc(one, func(a, b words) int { return cmp.Compare(b.y, a.y) })
	}
	return c
}

func left(w words) int { return int(math.Round(100 * max(-mostLeft, min(w.x, mostLeft)))) }

// mostLeft is beyond every page, in points.
const mostLeft = 1e6

// reads reports whether a text stands on a page from these words on, broken over lines that begin one under the other.
func (c columns) reads(at words, text string) bool {
	rest := strings.ReplaceAll(visual(clean(text)), " ", "")
	below := c[left(at)]
	below = below[sort.Search(len(below), func(i int) bool { return below[i].y < at.y }):]
	for {
		var ok bool
		if rest, ok = strings.CutPrefix(rest, strings.ReplaceAll(at.text, " ", "")); !ok || at.text == "" {
			return false
		}
		if rest == "" || len(below) == 0 {
			return rest == ""
		}
		at, below = below[0], below[1:]
	}
}

// linesOf puts together what stands on one base line, from the left.
func linesOf(all []words) (lines [][]words) {
	slices.SortStableFunc(all, func(a, b words) int {
		switch {
		case a.y != b.y:
			return int(math.Copysign(1, b.y-a.y))
		case a.x != b.x:
			return int(math.Copysign(1, a.x-b.x))
		}
		return 0
	})
	for i, w := range all {
		if i == 0 || w.y != all[i-1].y {
			lines = append(lines, nil)
		}
		last := &lines[len(lines)-1]
		*last = append(*last, w)
	}
	return lines
}
