package exchange

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// mostCoils is how many coils a spring may have.
const mostCoils = 4

// methods lists the ways in which a number comes in.
var methods = []record.Method{record.Typed, record.Sent, record.HandedIn, record.FromFile}

// take reads one line and keeps it.
func (t *table) take(r row) *say.Error {
	fail := func(column, key string, args ...any) *say.Error {
		return say.Fail(say.Invalid, key, append([]any{r.line}, args...)...).About(column)
	}
	// A spreadsheet fills every line up to its widest one.
	n := len(t.sheet.Columns)
	for len(r.cells) > n && r.cells[len(r.cells)-1] == "" {
		r.cells = r.cells[:len(r.cells)-1]
	}
	switch {
	case r.unclosed > 0:
		return say.Fail(say.Invalid, "exchange.csv-quote", r.unclosed)
	case len(r.cells) < n:
		return fail("", "exchange.csv-half", len(r.cells), n)
	case len(r.cells) > n:
		return fail("", "exchange.csv-cells", len(r.cells), n)
	}
	for _, name := range required {
		if t.cell(r, name) == "" {
			return fail(name, "exchange.csv-blank", name)
		}
	}
	w := Row{
		Line: r.line, Head: t.cell(r, headColumn), Text: t.cell(r, readingColumn), Gauge: t.cell(r, gaugeColumn),
		Method: record.Method(t.cell(r, methodColumn)), By: t.cell(r, byColumn),
		When: record.Stamp(t.cell(r, whenColumn)), Note: t.cell(r, noteColumn),
	}
	var ok bool
	if w.Position, ok = position(t.cell(r, valveColumn)); !ok {
		return fail(valveColumn, "exchange.csv-valve", short(t.cell(r, valveColumn)))
	}
	if !w.what(t.cell(r, whatColumn)) {
		return fail(whatColumn, "exchange.csv-what", short(t.cell(r, whatColumn)), whats())
	}
	coil := t.cell(r, coilColumn)
	if w.Coil, ok = coilNumber(coil); !ok {
		return fail(coilColumn, "exchange.csv-coil", short(coil), mostCoils)
	}
	correction := t.cell(r, correctionColumn)
	switch {
	case w.Stack != "" && (coil != "" || correction != ""):
		return fail(whatColumn, "exchange.csv-shims", shimsWord)
	case w.Stack != "" && w.Repeat():
		return fail(readingColumn, "exchange.csv-shims-star", short(w.Text))
	// A bare number may be the spring's or the scale's; taken wrongly, a margin is off by a whole lid.
	case w.Kind == record.BindReading && correction == "":
		return fail(correctionColumn, "exchange.csv-bind", string(AsSet), string(AtTheSpring))
	}
	c, err := parseCorrection(correction)
	if err != nil {
		err.Line = say.New("exchange.csv-line", r.line, err.Line)
		return err.About(correctionColumn)
	}
	w.Correction = c
	if w.Method != "" && !slices.Contains(methods, w.Method) {
		return fail(methodColumn, "exchange.csv-method", short(string(w.Method)), joined(methods))
	}
	if w.When != "" && checkStamp(nil, w.When) != nil {
		return fail(whenColumn, "exchange.csv-when", short(string(w.When)))
	}
	return t.keep(w)
}

// keep adds the row unless its valve had the same thing before. Taking the later one silently would lose
// a reading, taking both would make a mean out of a slip.
func (t *table) keep(w Row) *say.Error {
	key := fmt.Sprintf("%q/%s/%s%s/%d", w.Head, w.Position, w.Kind, w.Stack, w.Coil)
	first, twice := t.seen[key]
	if twice && !w.Repeat() {
		what := string(w.Kind)
		if w.Stack != "" {
			what = shimsOf(w.Stack)
		}
		return say.Fail(say.Invalid, "exchange.csv-twice", w.Line, label(w.Position), what, first).About(valveColumn)
	}
	if !twice {
		t.seen[key] = w.Line
	}
	t.sheet.Rows = append(t.sheet.Rows, w)
	return nil
}

// position reads "3 ex" or "3 ex 2". The label before the role may be any text without a slash.
func position(text string) (record.Position, bool) {
	p := record.Position{N: 1}
	// Read from the end, so that a label may hold blanks, numbers and even the words in and ex.
	rest, last, _ := cutLast(text)
	if n, err := strconv.Atoi(last); err == nil {
		if before, role, ok := cutLast(rest); ok && isRole(role) {
			p.N, rest, last = n, before, role
		}
	}
	if !isRole(last) || rest == "" || strings.Contains(rest, "/") || p.N < 1 || p.N > 3 {
		return p, false
	}
	p.Cylinder, p.Role = rest, record.Role(strings.ToLower(last))
	return p, true
}

// cutLast cuts the last word off.
func cutLast(text string) (before, last string, ok bool) {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 {
		return "", text, false
	}
	return text[:i], text[i+1:], true
}

func isRole(word string) bool {
	return strings.EqualFold(word, string(record.Intake)) || strings.EqualFold(word, string(record.Exhaust))
}

// what reads the word that says what was read.
func (w *Row) what(word string) bool {
	word = strings.ToLower(word)
	switch word {
	case shimsWord:
		w.Stack = record.UnderLocator
	case outerShimsWord:
		w.Stack = record.UnderOuter
	default:
		w.Kind = record.Kind(word)
		return slices.Contains(record.Kinds, w.Kind)
	}
	return true
}

func shimsOf(u record.Under) string {
	if u == record.UnderOuter {
		return outerShimsWord
	}
	return shimsWord
}

// whats lists the words of the column "what".
func whats() string { return joined(record.Kinds) + ", " + shimsWord + ", " + outerShimsWord }

func coilNumber(text string) (int, bool) {
	if text == "" {
		return 0, true
	}
	n, err := strconv.Atoi(text)
	return n, err == nil && n >= 1 && n <= mostCoils
}

func joined[S ~string](all []S) string {
	words := make([]string, len(all))
	for i, w := range all {
		words[i] = string(w)
	}
	return strings.Join(words, ", ")
}
