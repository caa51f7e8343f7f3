package task

import (
	"bytes"
	"context"
	"encoding/hex"
	"slices"

	"keeperbook/app/internal/files"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// Verified is what was found of a sheet: three answers that are not to be mixed up, and what it carries.
type Verified struct {
	Whole      bool             // every signature holds, and nothing was added
	Added      bool             // something was put behind what was signed
	Signatures []seal.Signature // in the order in which they were made
	Record     *record.Record   // that rides in it; nil where none does that can be read
	Print      string           // its fingerprint
	Pages      Pages            // how the pages stand to it
	Otherwise  bool             // this version works other figures out of it than those that ride with it
	Book       *InBook          // nil where no book was asked
	paper      Paper            // that the pages are drawn on, where they are drawn anew
	language   string           // of the pages
	places     int              // kept for signatures
	history    *record.History
}

// InBook is what the book of a shop says of a sheet.
type InBook struct {
	Trusts []*record.Trust // to each signature; nil where it is not given
	Here   Here
}

// Here says whether a book holds the record of a sheet.
type Here string

// How it may.
const (
	HereSame   Here = "same"   // signed, with the same fingerprint
	HereOther  Here = "other"  // the set-up is here, and is not what this sheet shows
	HereAbsent Here = "absent" // it is not
)

// Pages says how the pages of a sheet stand to the record that rides in it.
type Pages string

// How they may stand.
const (
	PagesAgree   Pages = "agree"   // they are what this program makes of the record, to the last line
	PagesFigures Pages = "figures" // another version laid them out, and the figures that ride with the record stand on them
	PagesDiffer  Pages = "differ"  // a figure that rides with the record does not stand on them
	PagesUnknown Pages = "unknown" // they cannot be read
)

// Verify looks at a sheet. It fails (say.Invalid, say.NotFound) with a file that is none of this program's, or unsigned, and where
// it is given up between two of its steps.
func Verify(ctx context.Context, file []byte) (Verified, error) {
	say.Tell(ctx, "work.signatures")
	r, err := seal.Check(file)
	if err != nil {
		return Verified{}, err
	}
	drawn := make(chan []byte, 1)
	go func() {
		d, _ := seal.Drawing(file)
		drawn <- d
	}()
	v := Verified{Whole: r.Whole(), Added: r.Added, Signatures: r.Signatures, places: r.Places}
	doc, err := exchange.Decode(r.Record)
	if err != nil {
		return v, nil // it was signed with something else in it, and says so
	}
	v.Record, v.Print, v.history = &doc.Record, doc.Fingerprint, doc.History
	if err := ctx.Err(); err != nil {
		return Verified{}, err
	}
	say.Tell(ctx, "work.record")
	blank := pdf.Begin(papers[0])
	w := worked(v.Record)
	v.language = r.Language
	spoken, _ := w.in(v.language)
	v.Otherwise = !same(spoken.Figures, doc.Figures)
	if err := ctx.Err(); err != nil {
		return Verified{}, err
	}
	say.Tell(ctx, "work.drawn")
	if paper, ok := madeOf(file, <-drawn, blank, w, doc, r); ok {
		v.Pages, v.paper = PagesAgree, paper
		return v, nil
	}
	v.Pages = shown(file, doc.Figures, v.Print)
	return v, nil
}

// same reports whether figures say the same; a list that is empty is one that is absent.
func same(a, b record.Figures) bool {
	return a.Summary == b.Summary && a.Next == b.Next && slices.Equal(a.Columns, b.Columns) && slices.Equal(a.Notes, b.Notes) &&
		slices.EqualFunc(a.Rows, b.Rows, func(x, y record.Row) bool { return x.Valve == y.Valve && slices.Equal(x.Cells, y.Cells) })
}

// shown reads the figures off the pages.
func shown(file []byte, figures record.Figures, print string) Pages {
	pages, err := seal.Contents(file)
	if err != nil || len(figures.Rows) == 0 {
		return PagesUnknown
	}
	switch pdf.Shows(pages, figures, print) {
	case pdf.ShownAll:
		return PagesFigures
	case pdf.ShownElse:
		return PagesDiffer
	}
	return PagesUnknown
}

// Verify looks at a sheet as [Verify] does, and asks the book whether the shop trusts who signed it and whether it holds the
// same record.
func (d *Desk) Verify(ctx context.Context, file []byte) (Verified, error) {
	v, err := Verify(ctx, file)
	if err != nil {
		return v, err
	}
	trusted, err := d.Book.Trusted(ctx)
	if err != nil {
		return v, err
	}
	v.Book = &InBook{Here: HereAbsent}
	for _, s := range v.Signatures {
		var given *record.Trust
		if i := slices.IndexFunc(trusted, func(t record.Trust) bool { return s.Whole && t.Root == hex.EncodeToString(s.Root[:]) }); i >= 0 {
			given = &trusted[i]
		}
		v.Book.Trusts = append(v.Book.Trusts, given)
	}
	if v.Record == nil {
		return v, nil
	}
	here, _, err := recordOf(ctx, d.Book, v.Record.Setup.ID)
	switch {
	case say.CodeOf(err) == say.NotFound:
		return v, nil
	case err != nil:
		return v, err
	}
	print, err := exchange.Fingerprint(here)
	if err != nil {
		return v, err
	}
	v.Book.Here = HereOther
	if print == v.Print {
		v.Book.Here = HereSame
	}
	return v, nil
}

// papers are those that sheets are drawn on, as [madeOf] tries them.
var papers = []Paper{A4, Letter}

// madeOf reports whether the pages of a sheet, and the places of signatures on them, are those that this program makes of a
// record, and on which paper. is is what the pages draw (seal.Drawing), nil where that cannot be read; blank is one of papers[0].
func madeOf(file, is []byte, blank pdf.Blank, w Worked, doc exchange.Document, r seal.Report) (Paper, bool) {
	places, err := seal.Places(file)
	if err != nil || is == nil {
		return "", false
	}
	first := r.Signatures[0]
	s := Signature{Key: seal.Signer{Ink: first.Ink}, Name: first.Name, Role: first.Reason, When: first.When, Second: r.Places > 1, Language: r.Language, history: doc.History}
	for _, s.Paper = range papers {
		if s.Paper != papers[0] {
			blank = pdf.Begin(s.Paper)
		}
		made, kept, err := pdf.Draw(signedSheet(w, doc.Fingerprint, s), blank, false)
		if err != nil {
			return "", false
		}
		if !slices.Equal(kept, places) {
			continue
		}
		if drawn, err := seal.Drawing(made); err == nil && bytes.Equal(is, drawn) {
			return s.Paper, true
		}
	}
	return "", false
}

// PagesOf are the pages of a sheet as they are drawn anew from its record; none where they are not the same ones.
func (v Verified) PagesOf() ([]Page, error) {
	if v.Pages != PagesAgree {
		return nil, nil
	}
	r := seal.Report{Signatures: v.Signatures, Places: v.places}
	first, second := onPage(r)
	sheet := signedSheet(worked(v.Record), v.Print, Signature{Paper: v.paper, Language: v.language, history: v.history})
	sheet.Signed, sheet.Second = first, second
	return pdf.Pages(sheet)
}

// Lines say what was found, in the order in which somebody asks.
func (v Verified) Lines() []say.Line {
	lines := []say.Line{v.Verdict()}
	for i := range v.Signatures {
		lines = append(lines, v.SignatureLines(i)...)
	}
	return append(lines, v.RecordLines()...)
}

// Verdict says whether the sheet is whole.
func (v Verified) Verdict() say.Line {
	switch {
	case v.Whole:
		return say.New("verify.whole")
	case v.Added && !slices.ContainsFunc(v.Signatures, func(s seal.Signature) bool { return !s.Whole }):
		return say.New("verify.added")
	}
	return say.New("verify.changed")
}

// placeOf says which of the places on a sheet a signature stands in. A file by another hand may have others.
func placeOf(field string) any {
	switch field {
	case pdf.ShopHand:
		return say.New("verify.for-shop")
	case pdf.InspectorHand:
		return say.New("sign.second")
	}
	return field
}

// SignatureLines say of one signature who made it, and whether it can be trusted.
func (v Verified) SignatureLines(i int) []say.Line {
	s := v.Signatures[i]
	if !s.Whole {
		return []say.Line{say.New("verify.no-signature", s.Name, placeOf(s.Field))}
	}
	lines := []say.Line{say.New("verify.signed", s.Name, say.MinuteOf(s.When), s.Subject)}
	if !s.Held {
		lines = append(lines, say.New("verify.expired", say.DayOf(s.Until)))
	}
	root := hex.EncodeToString(s.Root[:])
	switch {
	case v.Book != nil && v.Book.Trusts[i] != nil:
		t := v.Book.Trusts[i]
		return append(lines, say.New("verify.trusted", t.Name, t.How, t.By, t.When.Day()))
	case !s.Chained:
		return append(lines, say.New("verify.alone", say.Grouped(root)))
	}
	return append(lines, say.New("verify.root", say.Grouped(root)))
}

// RecordLines say what rides in the sheet, and how the pages and the book stand to it.
func (v Verified) RecordLines() []say.Line {
	if v.Record == nil {
		return []say.Line{say.New("verify.no-record")}
	}
	lines := []say.Line{say.New("verify.record", v.Record.Head.Tag, say.Grouped(v.Print)), say.New("verify.pages-" + string(v.Pages))}
	if v.Otherwise {
		lines = append(lines, say.New("verify.otherwise"))
	}
	if v.Book != nil {
		lines = append(lines, say.New("verify.here-"+string(v.Book.Here)))
	}
	return lines
}

// Good reports whether nothing stands against the sheet itself; who signed it is another question.
func (v Verified) Good() bool { return v.Whole && v.Pages != PagesDiffer }

// VerifyFile looks at the sheet in a file, and asks the book of a desk, which may be nil.
func VerifyFile(ctx context.Context, d *Desk, path string) (Verified, error) {
	file, err := files.Read(path, seal.MostBytes)
	switch {
	case err != nil:
		return Verified{}, err
	case d == nil:
		return Verify(ctx, file)
	}
	return d.Verify(ctx, file)
}
