package task

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf"
)

// Page is one page as it prints, and Paper its size, for screens, which do not know the printer.
type (
	Page  = pdf.Page
	Paper = pdf.Paper
)

// The papers.
const (
	A4     = pdf.A4
	Letter = pdf.Letter
)

// UsualPaper is the paper of a shop that works in the units of the set-up.
func (b *Bench) UsualPaper() Paper {
	if b.rec.Setup.Units.Length == unit.In {
		return Letter
	}
	return A4
}

// SheetPages returns the pages of the bench's sheet, the very ones that [Sheet] prints.
func (b *Bench) SheetPages(paper Paper) ([]Page, error) {
	s, err := sheetOf(Worked{b.rec, b.ev, b.Figures()}, paper)
	if err != nil {
		return nil, err
	}
	if k := b.kept; k != nil {
		s.Signed, s.Second = onPage(k.report)
		s.History = k.read.History
	}
	return pdf.Pages(s)
}

// FormPages returns the pages of the blank form, the very ones that [Form] prints.
func (b *Bench) FormPages(paper Paper) ([]Page, error) { return pdf.FormPages(formOf(b.rec, paper)) }

// sheetOf is the sheet of what was worked out.
func sheetOf(w Worked, paper pdf.Paper) (pdf.Sheet, error) {
	print, err := exchange.Fingerprint(w.Record)
	if err != nil {
		return pdf.Sheet{}, err
	}
	return printed(w, print, paper), nil
}

// printed is the sheet of what was worked out of a record with a fingerprint.
func printed(w Worked, print string, paper pdf.Paper) pdf.Sheet {
	return pdf.Sheet{
		Record: w.Record, Evaluation: w.Evaluation, Figures: w.Figures, Fingerprint: print, Paper: paper,
		Words: evaluate.Words(w.Record.Setup.Units),
	}
}

// formOf is the blank form, its valves in the order they lie on the bench.
func formOf(rec *record.Record, paper pdf.Paper) pdf.Form {
	return pdf.Form{
		Record: rec, Path: rec.Head.Positions(), Paper: paper, Words: evaluate.Words(rec.Setup.Units),
	}
}
