package pdf

import (
	"regexp"
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/pdf/figure"

	"gonum.org/v1/plot/vg"
)

// barKey is the column that is drawn and not in the figures: the window bar.
const barKey = "bar"

// spreadKey is the column of what stands behind a ±.
const spreadKey = "u"

// seatKey and openKey are the columns of loads.
const (
	seatKey = "seat-load"
	openKey = "open-load"
)

// nameKey is the column of the valves' names.
const nameKey = "valve"

// mostLines is how many lines a cell of words may take. More of them is no name and no verdict, and is
// shortened visibly, so that a row fits on a page.
const mostLines = 8

// table is the table of figures laid out for a page.
type table struct {
	*flow
	valves  []*evaluate.Valve // of each row; nil where the evaluation has none
	rows    []record.Row
	bands   [][]tableColumn // columns that stand beside each other; more than one where the page is too narrow
	tight   int
	rowHigh float64
	size    float64 // of its letters
	gap     float64 // between columns
}

// tableColumn is one column with where it stands.
type tableColumn struct {
	key          string
	title        []string
	unit         string
	cells        []string
	numbers      bool    // aligned on the decimal mark
	x, width     float64 // of its cells, without the gaps
	before, tail float64 // widest part before the decimal mark, and from it on
}

// number is what is aligned on its decimal mark: digits, with a sign before and a letter or mark behind.
var number = regexp.MustCompile(`^[−+±-]?([0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)([a-z!*]*)$`)

// figures sets the table of a sheet's figures: their texts as they are, one row a valve.
func (f *flow) figures(fig record.Figures, ev evaluate.Evaluation) {
	t := &table{flow: f, rows: fig.Rows, tight: ev.Tightest, rowHigh: 16, size: 10, gap: 8}
	if len(fig.Rows) > 16 {
		t.rowHigh = 14.5
	}
	for i, row := range fig.Rows {
		t.valves = append(t.valves, valveOf(ev, row.Valve, i))
	}
	t.lay(t.columns(fig, ev))
	for i, band := range t.bands {
		if i > 0 {
			f.skip(10)
		}
		t.set(band)
	}
}

// valveOf finds the valve of a row by its label, which is unique on a head.
func valveOf(ev evaluate.Evaluation, name string, at int) *evaluate.Valve {
	if at < len(ev.Valves) && ev.Valves[at].Label == name {
		return &ev.Valves[at]
	}
	for i := range ev.Valves {
		if ev.Valves[i].Label == name {
			return &ev.Valves[i]
		}
	}
	return nil
}

// columns turns the figures into columns, with the valve's name before them and the bar beside the verdict.
func (t *table) columns(fig record.Figures, ev evaluate.Evaluation) []tableColumn {
	names := tableColumn{key: nameKey, title: []string{t.say("sheet.valve")}}
	for _, row := range fig.Rows {
		names.cells = append(names.cells, row.Valve)
	}
	all := []tableColumn{names}
	bar := tableColumn{key: barKey, title: strings.Fields(t.say("sheet.bar")), cells: make([]string, len(fig.Rows))}
	for i, col := range fig.Columns {
		c := tableColumn{key: col.Key, title: strings.Fields(t.clean(col.Title)), unit: col.Unit, numbers: true}
		for _, row := range fig.Rows {
			cell := ""
			if i < len(row.Cells) {
				cell = row.Cells[i]
			}
			c.cells = append(c.cells, cell)
			c.numbers = c.numbers && (cell == "" || number.MatchString(cell))
		}
		if last := &all[len(all)-1]; c.key == spreadKey && last.key == "margin" {
			// One title stands over a number and what is behind its ±.
			c.title, last.title = []string{strings.Join(append(last.title, c.title...), " ")}, nil
		}
		all = append(all, c)
		if col.Key == "verdict" && hasBar(ev) {
			all = append(all, bar)
		}
	}
	return all
}

// lay gives each column its width. Where the table is too wide, letters and gaps get smaller first; then the
// loads, which stand last, go together into a band of their own; then columns of words wrap; and what still does
// not fit goes into the band under the first, before the loads. Every band begins with the valve's name.
func (t *table) lay(all []tableColumn) {
	t.fit(all)
	loads := slices.IndexFunc(all, func(c tableColumn) bool { return c.key == seatKey || c.key == openKey })
	if loads < 0 || t.total(all) <= t.width() {
		t.fill(all)
		return
	}
	names, own := all[0], all[loads:]
	all = all[:loads]
	t.fit(all)
	first := t.first(all)
	t.fill(all[:first])
	// Heights that had no room stand with the loads.
	t.fill(append(append([]tableColumn{names}, all[first:]...), own...))
}

// fit takes the largest letters and gaps with which the columns stand beside each other, or the smallest.
func (t *table) fit(all []tableColumn) {
	for _, try := range []struct{ size, gap float64 }{{10, 8}, {9.5, 7}, {9, 6}, {9, 4.5}, {9, 3.6}} {
		t.size, t.gap = try.size, try.gap
		for i := range all {
			t.measure(&all[i])
		}
		if t.total(all) <= t.width() {
			break
		}
	}
}

// first is how many of the columns the first band holds.
func (t *table) first(all []tableColumn) int {
	t.measured(all)
	used := all[0].width
	for i, c := range all[1:] {
		if used += t.gapBefore(c) + c.width; used > t.width() && i > 0 {
			return i + 1
		}
	}
	return len(all)
}

// measured gives columns their widths, those of words as little as it takes.
func (t *table) measured(all []tableColumn) {
	for i := range all {
		t.measure(&all[i])
	}
	t.squeeze(all)
}

// fill puts columns into bands.
func (t *table) fill(all []tableColumn) {
	t.measured(all)
	names, band := all[0], []tableColumn{all[0]}
	used := names.width
	for _, c := range all[1:] {
		if used+t.gapBefore(c)+c.width > t.width() && len(band) > 1 {
			t.bands = append(t.bands, t.spread(band))
			band, used = []tableColumn{names}, names.width
		}
		used += t.gapBefore(c) + c.width
		band = append(band, c)
	}
	t.bands = append(t.bands, t.spread(band))
}

// total is the width of columns beside each other.
func (t *table) total(all []tableColumn) float64 {
	sum := 0.0
	for i, c := range all {
		if i > 0 {
			sum += t.gapBefore(c)
		}
		sum += c.width
	}
	return sum
}

// gapBefore is the gap between a column and the one before it. What stands behind a ± stands close to
// its number.
func (t *table) gapBefore(c tableColumn) float64 {
	if c.key == spreadKey {
		return t.gap / 2
	}
	return t.gap
}

// measure finds the width a column takes by itself.
func (t *table) measure(c *tableColumn) {
	c.width, c.before, c.tail = 0, 0, 0
	for _, word := range append(c.title, c.unit) {
		if c.key == spreadKey {
			break // its title reaches over the column before
		}
		c.width = max(c.width, t.widthOf(label, word))
	}
	if c.key == barKey {
		c.width = max(c.width, 30)
	}
	for i, cell := range c.cells {
		l := t.letters(c.key, i)
		if !c.numbers {
			c.width = max(c.width, t.widthOf(l, cell)+t.padding(c.key))
			continue
		}
		head, tail := cut(cell)
		c.before = max(c.before, t.widthOf(l, head))
		c.tail = max(c.tail, t.widthOf(l, tail))
	}
	c.width = max(c.width, c.before+c.tail)
}

// padding is the room at both sides of a cell of words: the black field that a bad verdict stands in, and
// a little air behind the numbers of the column before.
func (t *table) padding(key string) float64 {
	switch key {
	case "verdict", "shims", "coil":
		return 8
	}
	return 0
}

// cut parts a number before its decimal mark.
func cut(cell string) (head, tail string) {
	if i := strings.IndexAny(cell, ".,"); i >= 0 {
		return cell[:i], cell[i:]
	}
	i := strings.IndexFunc(cell, func(r rune) bool { return r >= 'a' && r <= 'z' || r == '!' || r == '*' })
	if i >= 0 {
		return cell[:i], cell[i:]
	}
	return cell, ""
}

// squeeze narrows columns of words, which can wrap, where the table is too wide for the page.
func (t *table) squeeze(all []tableColumn) {
	over := t.total(all) - t.width()
	// The names of the valves come last: they are what a row is found by.
	for i := 1; i <= len(all); i++ {
		c := &all[i%len(all)]
		if over <= 0 || c.numbers || c.key == barKey || c.key == nameKey && c.width < t.width()/5 {
			continue
		}
		least := 24.0
		for n, cell := range c.cells {
			for _, word := range strings.FieldsFunc(cell, func(r rune) bool { return r == ' ' || r == '+' }) {
				least = max(least, t.widthOf(t.letters(c.key, n), word+"+")+t.padding(c.key))
			}
		}
		least = min(least, t.width()/5)
		give := min(over, c.width-least)
		if c.key == "shims" {
			// Once a stack breaks, what is left beside its parts is of more use between the columns.
			give = c.width - least
		}
		if give > 0 {
			c.width -= give
			over -= give
		}
	}
}

// spread shares out what is left of the width: to the bar first, then to the gaps.
func (t *table) spread(band []tableColumn) []tableColumn {
	out := append([]tableColumn(nil), band...)
	spare := max(0, t.width()-t.total(out))
	for i := range out {
		if out[i].key == barKey {
			more := min(spare*0.4, 36)
			out[i].width += more
			spare -= more
		}
	}
	more := min(spare/float64(max(1, len(out)-1)), 14)
	x := t.left
	for i := range out {
		if i > 0 {
			x += t.gapBefore(out[i]) + more
		}
		out[i].x = x
		x += out[i].width
	}
	return out
}

// letters of a cell: the valve's name and what was measured on this very valve are bold.
func (t *table) letters(key string, row int) letters {
	v := t.valves[row]
	plain, bold := letters{false, t.size}, letters{true, t.size}
	switch {
	case key == nameKey:
		return bold
	case v == nil:
		return plain
	case key == "verdict":
		if v.Verdict <= evaluate.Missing {
			return bold
		}
		return plain
	}
	if measuredOn(v, key) {
		return bold
	}
	return plain
}

// measuredOn reports whether a cell holds what was measured on this very valve.
func measuredOn(v *evaluate.Valve, key string) bool {
	if key == seatKey {
		return v.SeatMeasured.Known && v.SeatLoad.Value == v.SeatMeasured.Value && !v.SeatMeasured.Stale
	}
	var f evaluate.Figure
	switch key {
	case "shims":
		return v.StackSaid
	case "base":
		f = v.Base
	case "seal":
		f = v.Seal
	case "room":
		f = v.Room
	case "check":
		f = v.Check
	case "lift":
		f = v.Lift
	case "bind":
		f = v.Bind
	case "tip":
		f = v.Tip
	case "lash-found":
		f = v.LashFound
	case "lash-left":
		f = v.LashLeft
	}
	return f.Known && f.Mark == ""
}

// bar draws a valve's window bar into a rectangle of the page.
func (t *table) bar(v *evaluate.Valve, x, y, w, h float64) {
	if bar, ok := figure.NewBar(*v); ok {
		bar.Draw(canvasAt(t.press, x, y+h), vg.Point{X: vg.Length(w), Y: vg.Length(h)}, Look())
	}
}
