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
func (s *sheetReader) take(t *table, r row) *say.Error {
	fail := r.fail
	w := Row{
		Line: r.line, Head: t.cell(r, headColumn), Text: t.cell(r, readingColumn), Gauge: t.cell(r, gaugeColumn),
		Method: record.Method(t.cell(r, methodColumn)), By: t.cell(r, byColumn),
		When: record.Stamp(t.cell(r, whenColumn)), Note: t.cell(r, noteColumn),
		Height: t.cell(r, heightColumn), HeightGauge: t.cell(r, heightGaugeColumn),
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
	case !w.Kind.IsLoad() && (w.Height != "" || w.HeightGauge != ""):
		return fail(heightColumn, "exchange.csv-height", string(record.SeatLoad))
	case w.Height == "" && w.HeightGauge != "":
		return fail(heightColumn, "exchange.csv-no-height")
	case w.Height != "" && correction == "":
		return fail(correctionColumn, "exchange.csv-through", string(AsSet), string(AtTheSpring))
	}
	var err *say.Error
	if w.Correction, err = r.correction(correction); err != nil {
		return err
	}
	// What the setting of a gauge says is off a height, if there is one.
	if w.Kind.IsLoad() && w.Height == "" && w.Correction.Said == Listed {
		return fail(correctionColumn, "exchange.csv-load")
	}
	if w.Method != "" && !slices.Contains(methods, w.Method) {
		return fail(methodColumn, "exchange.csv-method", short(string(w.Method)), joined(methods))
	}
	if w.When != "" && checkStamp(nil, w.When) != nil {
		return fail(whenColumn, "exchange.csv-when", short(string(w.When)))
	}
	return s.keep(w)
}

// correction reads the cell that says what is taken off.
func (r row) correction(text string) (Correction, *say.Error) {
	c, err := parseCorrection(text)
	if err != nil {
		err.Line = say.New("exchange.csv-line", r.line, err.Line)
		return c, err.About(correctionColumn)
	}
	return c, nil
}

// keep adds the row unless its valve had the same thing before. Taking the later one silently would lose
// a reading, taking both would make a mean out of a slip.
func (s *sheetReader) keep(w Row) *say.Error {
	key := fmt.Sprintf("%q/%s/%s%s/%d", w.Head, w.Position, w.Kind, w.Stack, w.Coil)
	first, twice := s.seen[key]
	if twice && !w.Repeat() {
		what := string(w.Kind)
		if w.Stack != "" {
			what = shimsOf(w.Stack)
		}
		return say.Fail(say.Invalid, "exchange.csv-twice", w.Line, label(w.Position), what, first).About(valveColumn)
	}
	if !twice {
		s.seen[key] = w.Line
	}
	s.sheet.Rows = append(s.sheet.Rows, w)
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
