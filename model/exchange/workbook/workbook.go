// Package workbook writes a set-up as a workbook of Office Open XML (ECMA-376), which every spreadsheet opens: its table of
// figures, its readings, what it is of, and the cautions. It is for looking and for reckoning on; nothing reads it back into a book.
package workbook

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Write returns the workbook of a record with its figures, in words of a printer. The cautions are its last sheet.
//
// Numbers are cells with numbers, shown with the decimals they were printed or read with; what carries a mark, and every word,
// is text and never a formula.
func Write(words say.Printer, r *record.Record, f record.Figures, cautions []say.Line) ([]byte, error) {
	w := &writer{file: excelize.NewFile(), words: words, styles: map[look]int{}}
	defer w.file.Close()
	w.figures(f)
	w.readings(r)
	w.facts(r, f)
	w.cautions(cautions)
	if w.err == nil {
		w.err = w.file.DeleteSheet("Sheet1") // the one that a new file begins with
	}
	if w.err != nil {
		return nil, say.Fail(say.Internal, "workbook.fault").From(w.err)
	}
	var b bytes.Buffer
	if err := w.file.Write(&b); err != nil {
		return nil, say.Fail(say.Internal, "workbook.fault").From(err)
	}
	return b.Bytes(), nil
}

// writer writes sheet by sheet; its first error ends it.
type writer struct {
	file   *excelize.File
	words  say.Printer
	sheet  string
	row    int
	styles map[look]int
	err    error
}

// look is how a cell is shown: bold, wrapped, or as a number of a form.
type look struct {
	bold, wrapped bool
	form          string // "0.00", or ".000" as inches are written; "" for text
}

func (w *writer) line(key string, args ...any) string { return w.words.Line(say.New(key, args...)) }

// begin begins a sheet with its columns' widths in characters and, where there are any, their heads, which stay in sight.
func (w *writer) begin(name string, widths []float64, heads ...string) {
	w.sheet, w.row = name, 0
	if w.err == nil {
		_, w.err = w.file.NewSheet(name)
	}
	// Printed, a sheet lies on its side and is as wide as the paper.
	wide, one, any, fit := "landscape", 1, 0, true
	if w.err == nil {
		w.err = w.file.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &wide, FitToWidth: &one, FitToHeight: &any})
	}
	if w.err == nil {
		w.err = w.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit})
	}
	for i, wide := range widths {
		column, err := excelize.ColumnNumberToName(i + 1)
		if w.err == nil {
			w.err = err
		}
		if w.err == nil {
			w.err = w.file.SetColWidth(name, column, column, wide)
		}
	}
	if len(heads) == 0 {
		return
	}
	cells := make([]cell, len(heads))
	for i, h := range heads {
		cells[i] = cell{text: h, look: look{bold: true, wrapped: true}}
	}
	w.add(cells...)
	if w.err == nil {
		w.err = w.file.SetPanes(name, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2", ActivePane: "bottomRight"})
	}
}

// cell is one cell, a number where its look has a form of numbers.
type cell struct {
	text string
	look look
}

func text(s string) cell { return cell{text: s} }

func long(s string) cell { return cell{text: s, look: look{wrapped: true}} }

func strong(s string) cell { return cell{text: s, look: look{bold: true}} }

// printed is a number where the text is one as the language prints it, else text.
func (w *writer) printed(s string) cell {
	if !w.words.Comma() {
		return figure(s)
	}
	if c := figure(strings.Replace(s, ",", ".", 1)); c.look.form != "" && !strings.Contains(s, ".") {
		return c
	}
	return text(s)
}

// figure is a number where the text is one with a decimal point; else, with a mark or a word, it is text.
func figure(s string) cell {
	plain := strings.Replace(s, "−", "-", 1)
	if _, err := strconv.ParseFloat(plain, 64); err != nil || strings.ContainsAny(plain, "eExXpP_nN") {
		return text(s)
	}
	whole, after, _ := strings.Cut(strings.TrimPrefix(plain, "-"), ".")
	form := ""
	if whole != "" {
		form = "0"
	}
	if after != "" {
		form += "." + strings.Repeat("0", len(after))
	}
	return cell{text: plain, look: look{form: form}}
}

// add adds a row.
func (w *writer) add(cells ...cell) {
	w.row++
	for i, c := range cells {
		if c.text == "" || w.err != nil {
			continue
		}
		at, err := excelize.CoordinatesToCellName(i+1, w.row)
		if err == nil && c.look.form != "" {
			value, _ := strconv.ParseFloat(c.text, 64) // which has taken these digits before
			err = w.file.SetCellFloat(w.sheet, at, value, -1, 64)
		} else if err == nil {
			err = w.file.SetCellStr(w.sheet, at, c.text)
		}
		if err == nil {
			err = w.style(at, c.look)
		}
		w.err = err
	}
}

func (w *writer) style(at string, l look) error {
	id, made := w.styles[l]
	if !made {
		s := excelize.Style{Font: &excelize.Font{Bold: l.bold}, Alignment: &excelize.Alignment{WrapText: l.wrapped, Vertical: "top"}}
		if l.form != "" {
			s.CustomNumFmt = &l.form
		}
		var err error
		if id, err = w.file.NewStyle(&s); err != nil {
			return err
		}
		w.styles[l] = id
	}
	return w.file.SetCellStyle(w.sheet, at, at, id)
}

// figures is the table as it is printed, a row for a valve.
func (w *writer) figures(f record.Figures) {
	heads, widths := []string{w.line("workbook.valve")}, []float64{8}
	for _, c := range f.Columns {
		head := c.Title
		if c.Unit != "" {
			head += ", " + c.Unit
		}
		heads, widths = append(heads, head), append(widths, 12)
	}
	w.begin(w.line("workbook.figures"), widths, heads...)
	for _, r := range f.Rows {
		cells := []cell{strong(r.Valve)}
		for _, c := range r.Cells {
			cells = append(cells, w.printed(c))
		}
		w.add(cells...)
	}
}

// readings is everything that was read and counts, in the order of the head and of the bench.
func (w *writer) readings(r *record.Record) {
	heads := []string{"valve", "what", "coil", "typed", "number", "unit", "at", "correction", "gauge", "how", "by", "when", "note"}
	for i, key := range heads {
		heads[i] = w.line("workbook." + key)
	}
	w.begin(w.line("workbook.readings"), []float64{8, 22, 6, 12, 10, 6, 12, 22, 16, 10, 16, 22, 30}, heads...)
	for _, at := range r.Head.Positions() {
		for _, kind := range record.Kinds {
			for i := range r.Setup.Readings {
				if v := &r.Setup.Readings[i]; v.At == at && v.Kind == kind && v.Struck == nil {
					w.reading(r, v)
				}
			}
		}
	}
}

func (w *writer) reading(r *record.Record, v *record.Reading) {
	coil, height := "", ""
	if v.Coil > 0 {
		coil = strconv.Itoa(v.Coil)
	}
	if v.Height != nil {
		height = v.Height.Read + " " + string(v.Height.Unit)
	}
	w.add(strong(r.Head.Label(v.At)), text(w.line("kind."+string(v.Kind))), figure(coil), text(v.Quantity.Typed), figure(v.Quantity.Read),
		text(string(v.Quantity.Unit)), text(height), text(exchange.CorrectionOf(v).String()), text(v.Gauge),
		text(string(v.Method)), text(v.By), text(string(v.When)), long(v.Note))
}

// facts says what the set-up is of and what came of it.
func (w *writer) facts(r *record.Record, f record.Figures) {
	w.begin(w.line("workbook.facts"), []float64{18, 100})
	add := func(key, value string) {
		if value != "" {
			w.add(strong(w.line("workbook."+key)), long(value))
		}
	}
	add("shop", r.Shop.Name)
	if r.Owner != nil {
		add("owner", r.Owner.Name)
	}
	add("engine", r.Engine.Name)
	add("head", r.Head.Tag)
	add("casting", r.Head.Casting)
	add("order", r.Head.WorkOrder)
	add("kind", w.line("setup."+string(r.Setup.Kind)))
	add("setup", r.Setup.ID)
	add("begun", string(r.Setup.Begun))
	add("by", r.Setup.By)
	if sum, err := exchange.Fingerprint(r); err == nil {
		add("fingerprint", sum)
	}
	add("summary", f.Summary)
	add("next", f.Next)
	for _, n := range f.Notes {
		add("finding", n)
	}
}

func (w *writer) cautions(lines []say.Line) {
	w.begin(w.line("workbook.cautions"), []float64{120})
	for _, l := range lines {
		w.add(long(w.words.Line(l)))
	}
}
