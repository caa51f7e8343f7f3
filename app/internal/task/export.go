package task

import (
	"bytes"
	"path/filepath"

	"keeperbook/app/internal/files"
	"keeperbook/model/exchange"
	"keeperbook/pdf"
)

// Out is something that leaves the book as a file.
type Out string

// What leaves the book.
const (
	OutSheet  Out = "sheet"  // the set-up sheet as a PDF
	OutForm   Out = "form"   // the blank bench form as a PDF
	OutRecord Out = "record" // the record with its figures, for another shop's book
	OutPlan   Out = "plan"   // a plan with its pick list, as a PDF
	OutLife   Out = "life"   // what became of the set-up in service, as a PDF
	OutAsks   Out = "asks"   // the questions before springs are chosen, as a form to answer, as a PDF
)

// ending of the file's name.
func (o Out) ending() string {
	if o == OutRecord {
		return ".json"
	}
	return ".pdf"
}

// OutPath is where a file goes where nobody says otherwise: beside the book, named after the head's tag
// and the kind of set-up.
func (b *Bench) OutPath(out Out) string {
	name := first(files.Name(b.rec.Head.Tag), "head") + "-" + string(b.rec.Setup.Kind)
	switch out {
	case OutForm:
		name += "-form"
	case OutAsks:
		name += "-questions"
	case OutPlan:
		name += "-plan"
	case OutLife:
		name += "-life"
	}
	return filepath.Join(b.folder(), name+out.ending())
}

func (b *Bench) folder() string { return filepath.Dir(b.desk.Path()) }

// Save writes a file of the set-up as it is now, whole or not at all, and returns its whole path. A path
// that does not begin at the root counts from the book's folder, and a name without an ending gets its own.
// A file that is there already is replaced only where replace says so (say.Conflict).
func (b *Bench) Save(out Out, paper Paper, path string, replace bool) (string, error) {
	return b.saveAs(out, path, replace, func() ([]byte, error) { return b.bytes(out, paper) })
}

func (b *Bench) saveAs(out Out, path string, replace bool, build func() ([]byte, error)) (string, error) {
	path, err := files.Place(path, b.OutPath(out), replace)
	if err != nil {
		return path, err
	}
	data, err := build()
	if err != nil {
		return "", err
	}
	return path, files.Write(path, data)
}

func (b *Bench) bytes(out Out, paper Paper) ([]byte, error) {
	// What was signed leaves the book as it was signed.
	if k := b.kept; k != nil && out == OutSheet {
		return k.File, nil
	} else if k != nil && out == OutRecord {
		return k.report.Record, nil
	}
	if out == OutRecord {
		return exchange.Export(b.rec, b.Figures())
	}
	var buf bytes.Buffer
	switch out {
	case OutForm:
		err := pdf.WriteForm(&buf, formOf(b.rec, paper, b.PrintsIn()))
		return buf.Bytes(), err
	case OutAsks:
		err := pdf.WriteQuestions(&buf, pdf.Questions{Record: b.rec, Asks: b.Questions(), Paper: paper, Words: b.Words()})
		return buf.Bytes(), err
	}
	s, err := sheetOf(b.worked(), paper, b.PrintsIn())
	if err != nil {
		return nil, err
	}
	err = pdf.Write(&buf, s)
	return buf.Bytes(), err
}
