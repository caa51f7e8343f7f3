package task

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"keeperbook/app/internal/files"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/exchange/workbook"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/figure"
	"keeperbook/store"
)

// Drawn says what of a set-up is drawn.
type Drawn struct {
	Valve string // its label, "3 ex"; "" for the tightest
	Loads bool   // its load curve, in place of the section of its spring stack
}

// endings are those of the files that a set-up leaves the book as, in the order in which they are told.
var endings = []string{".pdf", ".json", ".csv", ".xlsx", ".txt", ".svg", ".png"}

// Endings are those of [Leave].
func Endings() []string { return slices.Clone(endings) }

// Leave builds what leaves the book as a file of an ending: the sheet, the record, its readings as a table, a workbook, its
// table as text, or a drawing. What was signed leaves as it was signed. Another ending is refused (say.Invalid).
func Leave(ctx context.Context, book *store.Book, setup, path string, d Drawn) ([]byte, error) {
	w, err := Work(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	switch ending(path) {
	case ".pdf":
		return Sheet(ctx, book, setup, usualPaper(w.Record))
	case ".json":
		return Export(ctx, book, setup)
	}
	return w.leave(path, d, say.Chosen().Language)
}

// LeaveAs writes a file of the set-up as its ending says, and returns where. A file that is there already is replaced only where
// replace says so (say.Conflict).
func (b *Bench) LeaveAs(path string, d Drawn, replace bool) (string, error) {
	return b.saveAs(OutSheet, path, replace, func() ([]byte, error) {
		switch ending(path) {
		case ".pdf", "":
			return b.bytes(OutSheet, b.UsualPaper())
		case ".json":
			return b.bytes(OutRecord, b.UsualPaper())
		}
		return b.worked().leave(path, d, b.PrintsIn())
	})
}

func (w Worked) leave(path string, d Drawn, language string) ([]byte, error) {
	w, words := w.in(language)
	switch end := ending(path); end {
	case ".csv":
		return exchange.WriteCSV(w.Record), nil
	case ".xlsx":
		return workbook.Write(words, w.Record, w.Figures, Cautions())
	case ".txt":
		return []byte(Aloud(words, w.Record, w.Figures)), nil
	case ".svg", ".png":
		drawing, size, err := w.drawing(words, d)
		if err != nil {
			return nil, err
		}
		if end == ".svg" {
			return figure.SVG(drawing, size, pdf.Look())
		}
		return figure.PNG(drawing, size, pdf.Look())
	}
	return nil, say.Fail(say.Invalid, "task.ending", filepath.Base(path), strings.Join(endings, " "))
}

// Sizes of drawings in points.
const (
	drawnWide = 540
	drawnHigh = 380
	curveHigh = 320
)

func (w Worked) drawing(words say.Printer, d Drawn) (figure.Drawing, vg.Point, error) {
	v, err := w.valve(d.Valve)
	if err != nil {
		return nil, vg.Point{}, err
	}
	if d.Loads {
		g, ok := v.LoadGraph()
		if !ok {
			return nil, vg.Point{}, say.Fail(say.NotFound, "task.no-curve", v.Label)
		}
		return figure.NewLoadCurve(g, words), vg.Point{X: drawnWide, Y: curveHigh}, nil
	}
	s := figure.NewSection(v, figure.PartsOf(w.Record, v.At), words)
	return s, vg.Point{X: drawnWide, Y: s.Height(drawnWide, drawnHigh, pdf.Look())}, nil
}

// valve is that of a label; with none the tightest, or else the first.
func (w Worked) valve(label string) (evaluate.Valve, error) {
	label = strings.Join(strings.Fields(label), " ")
	var all []string
	for i, v := range w.Evaluation.Valves {
		if strings.EqualFold(v.Label, label) || label == "" && i == max(0, w.Evaluation.Tightest) {
			return v, nil
		}
		all = append(all, v.Label)
	}
	return evaluate.Valve{}, say.Fail(say.NotFound, "task.no-valve", label, w.Record.Head.Tag, strings.Join(all, ", "))
}

func usualPaper(r *record.Record) Paper { return (&Bench{rec: r}).UsualPaper() }

// ToPrint builds the sheet as it is now, and returns what writes it where the system's viewer can open it, in place of the one
// before, and says where. Only that may run beside other work. The folder is the user's own: it is no part of the book.
func (b *Bench) ToPrint() (write func() (string, error), err error) {
	data, err := b.bytes(OutSheet, b.UsualPaper())
	name := filepath.Base(b.OutPath(OutSheet))
	return func() (string, error) { return toPrint(name, data) }, err
}

func toPrint(name string, data []byte) (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = os.TempDir()
	}
	folder := filepath.Join(cache, "keeperbook", "print")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", files.Fault(folder, err)
	}
	path := filepath.Join(folder, name)
	return path, files.WritePrivate(path, data)
}
