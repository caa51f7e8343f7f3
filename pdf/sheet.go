package pdf

import (
	"fmt"
	"io"
	"time"

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

// size returns width and height in points, upright.
func (p Paper) size() (width, height float64, err error) {
	switch p {
	case A4:
		return 595.28, 841.89, nil
	case Letter:
		return 612, 792, nil
	}
	return 0, 0, say.Fail(say.Invalid, "pdf.paper", string(p))
}

// Sheet is everything that a set-up sheet prints. The numbers of its table are the texts of Figures,
// never formatted anew, so that page and record cannot differ.
type Sheet struct {
	Record      *record.Record
	Evaluation  evaluate.Evaluation
	Figures     record.Figures
	Fingerprint string // of the record, in hexadecimal
	Paper       Paper
	Words       say.Printer     // shows values in the set-up's units
	Signed      *Signed         // nil: nobody signs it, and lines of ink are left for hands
	History     *record.History // of the book before it was signed; nil where it was not
	Second      *Signed         // who signed in the place that was kept for a second one; only a screen draws it
}

// Write writes the sheet as a PDF. The same sheet always gives the same bytes. Nothing is written
// unless the whole sheet was built.
//
// A paper that is not known is say.Invalid; a sheet that cannot be built is say.Internal.
func Write(w io.Writer, s Sheet) error {
	return writeTo(w, s.Paper, s.press)
}

// press lays the sheet out.
func (s Sheet) press(width, height float64) *press {
	p, _ := s.pressed(width, height)
	return p
}

// pressed also tells where on the pages signatures stand.
func (s Sheet) pressed(width, height float64) (*press, []hand) {
	p := newPress(width, height, made(s.Record), s.title())
	f := newFlow(p, s.Words)
	s.lay(f)
	f.feet(s)
	return p, f.hands
}

// title is what the document is called.
func (s Sheet) title() string { return s.Words.Line(say.New("sheet.title", s.Record.Head.Tag)) }

// lay sets the parts of the sheet in the order in which they are read.
func (s Sheet) lay(f *flow) {
	f.title(s)
	f.summary(s)
	f.figures(s.Figures, s.Evaluation)
	f.legend(s)
	f.findings(s)
	// The drawing needs a good part of a page; what is left of this one is filled with the parts first.
	if room := f.room(); room < sectionLeast && room > partsLeast {
		f.parts(s.Record)
		f.section(s)
	} else {
		f.section(s)
		f.parts(s.Record)
	}
	f.method(s.Record, s.Evaluation.Gauges)
	f.longNotes(s.Record)
	f.rules(s)
	f.needs(s.Record)
	f.checks(s)
	f.cautions()
	f.signatures(s.Signed, s.Second)
	f.fingerprint(s.Fingerprint, s.History)
}

// writeTo builds what a press lays out on a paper, and writes it once it is whole.
func writeTo(w io.Writer, p Paper, lay func(width, height float64) *press) error {
	data, err := build(p, func(width, height float64) ([]byte, error) {
		doc := lettered(width, height)
		return lay(width, height).into(<-doc)
	})
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

// build runs a build on a paper that is known, in points, and turns a fault in it, of the PDF writer too,
// into an error.
func build[T any](p Paper, run func(width, height float64) (T, error)) (built T, err error) {
	width, height, err := p.size()
	if err != nil {
		return built, err
	}
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%v", fault)
		}
		if err != nil {
			var none T
			built, err = none, say.Fail(say.Internal, "pdf.build").From(err)
		}
	}()
	return run(width, height)
}

// made is the date of the document: when the set-up was begun, since a page printed again must come out
// the same. A set-up without a readable date gets the beginning of the calendar that PDF readers know.
func made(r *record.Record) time.Time {
	t, err := time.Parse(time.RFC3339, string(r.Setup.Begun))
	if err != nil {
		return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return t.UTC()
}
