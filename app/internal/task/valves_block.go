package task

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"strings"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// CellFault is what is wrong with one cell of a block.
type CellFault struct {
	Index int // into the cells of the block
	Err   error
}

// TakeBlock keeps cells as one action that one undo takes back, each read as if it were typed after the
// one before. Unless every cell is right nothing is kept, and every one that is not is named. The error
// is one of the book's, with nothing kept either.
func (b *Bench) TakeBlock(ctx context.Context, cells []Cell) ([]CellFault, error) {
	trial := trialOf(b.rec)
	var nouns []record.Noun
	var faults []CellFault
	for i, c := range cells {
		made, err := b.nouns(&trial, c, First)
		if err != nil {
			faults = append(faults, CellFault{i, err})
			continue
		}
		for _, n := range made {
			trial.Put(n)
		}
		nouns = append(nouns, made...)
	}
	if len(faults) > 0 {
		return faults, nil
	}
	return nil, b.Keep(ctx, nouns...)
}

// SplitBlock cuts a pasted text into rows and cells, which tabs separate. An empty row at its end is
// what spreadsheets add.
func SplitBlock(text string) [][]string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	text = strings.TrimRight(text, "\n")
	if text == "" {
		return nil
	}
	var rows [][]string
	for _, line := range strings.Split(text, "\n") {
		rows = append(rows, strings.Split(line, "\t"))
	}
	return rows
}

// SplitCell cuts one cell of a block into its readings, of which the later ones are repeats, and what is
// said of each being corrected: "1.155 [lid .095]; 1.157* [lid .095]".
func SplitCell(text string) []string {
	var all []string
	for _, part := range strings.Split(text, ";") {
		if part = strings.TrimSpace(part); part != "" {
			all = append(all, part)
		}
	}
	return all
}

// CutCorrection parts a reading from the word of its correction, which stands in brackets behind it.
// Said is false where there is none: the number may then be the scale's or the spring's.
func CutCorrection(text string) (reading, correction string, said bool) {
	open := strings.IndexByte(text, '[')
	if open < 0 || !strings.HasSuffix(text, "]") {
		return text, "", false
	}
	return strings.TrimSpace(text[:open]), strings.TrimSpace(text[open+1 : len(text)-1]), true
}

// Correction reads the word of a correction as the tables of readings write it: at-the-spring, lid .095,
// or as-set, which is what of the gauge's setting a reading of this kind goes through. Errors are those of
// such a table.
func (b *Bench) Correction(word string, gauge *record.Gauge, kind record.Kind) ([]record.Taken, error) {
	var table bytes.Buffer
	w := csv.NewWriter(&table)
	w.Write([]string{"head", "valve", "what", "coil", "reading", "correction"}) // a buffer takes everything
	w.Write([]string{"-", "1 in", string(record.BindReading), "1", "1", word})
	w.Flush()
	sheet, wrong := exchange.ReadCSV(table.Bytes())
	if len(wrong) > 0 || len(sheet.Rows) != 1 {
		return nil, say.Fail(say.Invalid, "valves.correction", word)
	}
	f := filling{rec: b.rec}
	return f.correction(sheet.Rows[0].Correction, gauge, kind)
}

// CorrectionWord writes what a reading was corrected by, so that [Bench.Correction] reads it back.
func CorrectionWord(taken []record.Taken) string {
	if len(taken) == 0 {
		return string(exchange.AtTheSpring)
	}
	c := exchange.Correction{Said: exchange.Listed}
	for _, t := range taken {
		c.Parts = append(c.Parts, exchange.Part{Part: t.Part, Amount: t.Amount.Plain(), Zero: t.Zero})
	}
	return c.String()
}

// Raw writes a cell as it was read, so that typed into the same column it reads the same, in whatever language, and with the
// decimal mark that the spreadsheets of the chosen language have: the decimal, with its unit where the column would take it for
// another, and the word of its correction where it has one, or where the cell says that another would be taken off it. Repeats
// follow after semicolons.
func (b *Bench) Raw(c Cell) string {
	var parts []string
	if c.Under != "" {
		v := b.rec.ValveAt(c.At)
		for _, q := range thicknesses(v, c.Under) {
			parts = append(parts, onePiece(q.Unit, Number(q.Read))+" "+string(q.Unit))
		}
		if len(parts) == 0 && c.Under == record.UnderLocator && v.NoShim != "" {
			return noShims
		}
		return strings.Join(parts, "+")
	}
	column := record.ColumnOf(c.Kind, b.rec.Setup.Units)
	for i, r := range b.Counting(c) {
		plain := r.Quantity.Plain()
		text := Number(strings.TrimSuffix(plain, " "+string(r.Quantity.Unit)))
		if read, err := unit.Parse(column, text); err != nil || read.Quantity.Value != r.Quantity.Value {
			text = Number(plain)
		}
		if i > 0 {
			text += "*"
		}
		if c.Kind == record.BindReading || len(r.Correction)+len(c.Correction) > 0 {
			text += " [" + CorrectionWord(r.Correction) + "]"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// onePiece writes a shim or a step, as the language has numbers, so that its comma cannot be taken for what parts two of them: no
// piece is as thick as 50 mm, so 1,50 is one where 1,5 may be two.
func onePiece(of unit.Symbol, text string) string {
	for range 3 { // 1,1 becomes 1,100
		if _, _, err := unit.ParseStack(record.PlainColumn(of), text); unit.Choices(err) == nil {
			break
		}
		text += "0"
	}
	return text
}

// Told returns the sentence of an error.
func Told(err error) say.Line {
	var e *say.Error
	if errors.As(err, &e) {
		return e.Line
	}
	return say.New("expr.one", err.Error())
}
