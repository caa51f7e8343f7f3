package task

import (
	"cmp"

	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
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
	s, err := sheetOf(b.worked(), paper, b.printedIn())
	if err != nil {
		return nil, err
	}
	if k := b.kept; k != nil {
		s.Signed, s.Second = onPage(k.report)
		s.History = k.read.History
	}
	return pdf.Pages(s)
}

// PrintIn chooses the language that the pages of the bench are printed and signed in; until somebody does it is the one of the
// window.
func (b *Bench) PrintIn(language string) { b.language = language }

// PrintLike chooses the language that was chosen on another bench, if one was.
func (b *Bench) PrintLike(other *Bench) { b.language = other.language }

// printedIn is the language of the sheet: what was signed stays as it was signed.
func (b *Bench) printedIn() string {
	if b.kept != nil {
		return b.kept.report.Language
	}
	return b.PrintsIn()
}

// PrintsIn is the language that pages are printed in.
func (b *Bench) PrintsIn() string { return cmp.Or(b.language, say.Chosen().Language) }

// worked is the set-up on the bench with everything worked out of it.
func (b *Bench) worked() Worked { return Worked{b.rec, b.ev, b.Figures()} }

// FormPages returns the pages of the blank form, the very ones that [Form] prints.
func (b *Bench) FormPages(paper Paper) ([]Page, error) {
	return pdf.FormPages(formOf(b.rec, paper, b.PrintsIn()))
}

// sheetOf is the sheet of what was worked out.
func sheetOf(w Worked, paper pdf.Paper, language string) (pdf.Sheet, error) {
	print, err := exchange.Fingerprint(w.Record)
	if err != nil {
		return pdf.Sheet{}, err
	}
	return printed(w, print, paper, language), nil
}

// printed is the sheet of what was worked out of a record with a fingerprint.
func printed(w Worked, print string, paper pdf.Paper, language string) pdf.Sheet {
	w, words := w.in(language)
	return pdf.Sheet{
		Record: w.Record, Evaluation: w.Evaluation, Figures: w.Figures, Fingerprint: print, Paper: paper,
		Words: words,
	}
}

// formOf is the blank form, its valves in the order they lie on the bench.
func formOf(rec *record.Record, paper pdf.Paper, language string) pdf.Form {
	return pdf.Form{
		Record: rec, Path: rec.Head.Positions(), Paper: paper, Words: evaluate.WordsIn(language, rec.Setup.Units),
	}
}
