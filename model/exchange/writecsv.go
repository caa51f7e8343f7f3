package exchange

import (
	"slices"
	"strconv"
	"strings"

	"keeperbook/model/record"
)

// WriteCSV returns the readings and the shims of a record as a table that [ReadCSV] reads, in the
// order of the head and of the bench. Readings are written raw with the correction they were taken
// under, never corrected, and always with their unit, so that they mean the same in any book.
//
// The columns of heights are there only where a load was taken at a height of its own.
//
// Readings that were struck are left out, and so is what the table has no column for: what a reading
// was measured over, the tag of the spring that was read, what measured the parts of a correction, notes
// on shims, and the gauge of shims where the stack was measured with several.
//
// A cell that begins with =, +, −, @, a tab or a carriage return would be run as a formula by a
// spreadsheet; it is written with an apostrophe before it, which ReadCSV takes away again.
func WriteCSV(r *record.Record) []byte {
	var b strings.Builder
	all, columns := rows(r), readings.columns
	if !slices.ContainsFunc(all, func(row Row) bool { return row.Height != "" }) {
		columns = columns[:len(columns)-heightColumns]
	}
	b.WriteString(strings.Join(columns, ",") + lineEnd)
	for _, row := range all {
		what := string(row.Kind)
		if row.Stack != "" {
			what = shimsOf(row.Stack)
		}
		coil := ""
		if row.Coil > 0 {
			coil = strconv.Itoa(row.Coil)
		}
		cells := []string{
			row.Head, r.Head.Label(row.Position), what, coil, row.Text, row.Correction.String(),
			row.Gauge, string(row.Method), row.By, string(row.When), row.Note, row.Height, row.HeightGauge,
		}
		writeLine(&b, cells[:len(columns)])
	}
	return []byte(b.String())
}

// writeLine writes one line of cells.
func writeLine(b *strings.Builder, cells []string) {
	for i, cell := range cells {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(quote(guard(cell)))
	}
	b.WriteString(lineEnd)
}

// lineEnd is that of RFC 4180.
const lineEnd = "\r\n"

// quote puts a cell in quotes where it would not come back as it is.
func quote(cell string) string {
	if strings.ContainsAny(cell, ",\"\r\n") || strings.TrimSpace(cell) != cell {
		return `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
	}
	return cell
}

// rows returns the rows that [WriteCSV] writes, with the lines they stand on if no cell holds a line
// break.
func rows(r *record.Record) []Row {
	head := r.Head.Tag
	if head == "" {
		head = r.Head.ID
	}
	stacks := map[record.Position]record.Valve{}
	for _, v := range r.Setup.Valves {
		stacks[v.At] = v
	}
	readings := map[record.Position][]record.Reading{}
	for _, v := range r.Setup.Readings {
		if v.Struck == nil {
			readings[v.At] = append(readings[v.At], v)
		}
	}
	var all []Row
	add := func(row Row) {
		row.Line, row.Head = len(all)+2, head
		all = append(all, row)
	}
	for _, at := range r.Head.Positions() {
		for _, kind := range record.Kinds {
			for _, v := range readings[at] {
				if v.Kind == kind {
					add(readingRow(v, all))
				}
			}
		}
		for _, row := range stackRows(at, stacks[at]) {
			add(row)
		}
	}
	return all
}

// readingRow returns the row of a reading. It is a repeat where its thing stands in the table already.
func readingRow(v record.Reading, before []Row) Row {
	row := Row{
		Position: v.At, Kind: v.Kind, Coil: v.Coil, Text: v.Quantity.Plain(), Correction: CorrectionOf(&v),
		Gauge: v.Gauge, Method: v.Method, By: v.By, When: v.When, Note: v.Note,
	}
	if v.Height != nil {
		row.Height, row.HeightGauge = v.Height.Plain(), v.Heights
	}
	for i := len(before) - 1; i >= 0 && before[i].Position == v.At && before[i].Kind == v.Kind; i-- {
		if before[i].Coil == v.Coil {
			row.Text += "*"
			break
		}
	}
	return row
}

// CorrectionOf is the correction that a reading was taken under, as the table of readings has it.
func CorrectionOf(v *record.Reading) Correction {
	if len(v.Correction) == 0 {
		// Bind and the height of a load are refused without a word; elsewhere an empty cell says that nothing is
		// taken off.
		if v.Kind == record.BindReading || v.Height != nil {
			return Correction{Said: AtTheSpring}
		}
		return Correction{}
	}
	return listed(v.Correction)
}

func listed(all []record.Taken) Correction {
	c := Correction{Said: Listed}
	for _, t := range all {
		c.Parts = append(c.Parts, Part{t.Part, t.Amount.Plain(), t.Zero})
	}
	return c
}

// stackRows returns the shims of a valve, those under the outer coil in a row of their own.
func stackRows(at record.Position, v record.Valve) []Row {
	var all []Row
	for _, under := range []record.Under{record.UnderLocator, record.UnderOuter} {
		var shims, gauges []string
		for _, s := range v.Stack {
			if s.Under == under {
				shims, gauges = append(shims, s.Thickness.Plain()), append(gauges, s.Gauge)
			}
		}
		if len(shims) > 0 {
			row := Row{Position: at, Stack: under, Text: strings.Join(shims, "+")}
			if gauges = slices.Compact(gauges); len(gauges) == 1 {
				row.Gauge = gauges[0]
			}
			all = append(all, row)
		} else if under == record.UnderLocator && v.NoShim != "" {
			all = append(all, Row{Position: at, Stack: under, Text: v.NoShim})
		}
	}
	return all
}
