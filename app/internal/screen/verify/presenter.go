// Package verify is the page that looks at a signed sheet: whether it is whole, who signed it, whether its pages are those of
// the record in it, and what this shop's book knows of all that.
package verify

import (
	"context"
	"encoding/hex"
	"errors"
	"path/filepath"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter is the page without a window.
type Presenter struct {
	desk    *task.Desk // nil where no book is open
	reading bool       // the book takes no entries
	words   say.Printer
	path    string
	found   task.Verified
	fault   error // why the sheet could not be looked at; nil where it was
	looked  bool
	pages   []task.Page
	trusted []record.Trust
}

// NewPresenter returns the page of the sheet in a file. Desk may be nil, and reading says that its book takes no entries.
func NewPresenter(desk *task.Desk, reading bool, path string) *Presenter {
	return &Presenter{desk: desk, reading: reading, words: say.Chosen(), path: path}
}

// Name is what the file is called.
func (p *Presenter) Name() string { return filepath.Base(p.path) }

// Look looks at the sheet, which may take a moment; it may run beside other work, and what it returns may not. Where it is given up
// the page is what it was.
func (p *Presenter) Look(ctx context.Context) func() {
	found, fault := task.VerifyFile(ctx, p.desk, p.path)
	var trusted []record.Trust
	var pages []task.Page
	var err error
	if p.desk != nil {
		trusted, err = p.desk.Trusted(ctx)
	}
	if fault == nil && found.Record != nil && ctx.Err() == nil {
		var undrawn error
		pages, undrawn = found.PagesOf()
		err = errors.Join(err, undrawn)
	}
	if ctx.Err() != nil {
		return func() {}
	}
	return func() {
		p.found, p.fault, p.trusted, p.pages, p.looked = found, fault, trusted, pages, true
		if p.fault == nil {
			p.fault = err
		}
	}
}

// Working is what is said while the sheet is looked at.
func (p *Presenter) Working() string { return p.words.Line(say.New("verify.looking", p.Name())) }

// Looked reports whether the sheet was looked at.
func (p *Presenter) Looked() bool { return p.looked }

// Fault says why it could not be; nil where it was.
func (p *Presenter) Fault() error { return p.fault }

// Verdict says whether the sheet is whole.
func (p *Presenter) Verdict() string { return p.words.Line(p.found.Verdict()) }

// Hand is one signature.
type Hand struct {
	Name, Role string
	Lines      []string
	Root       string // fingerprint to give trust to; "" where it has none that could be given
}

// Hands returns the signatures in the order in which they were made.
func (p *Presenter) Hands() []Hand {
	var all []Hand
	for i, s := range p.found.Signatures {
		h := Hand{Name: s.Name, Role: s.Reason}
		for _, l := range p.found.SignatureLines(i) {
			h.Lines = append(h.Lines, p.words.Line(l))
		}
		if s.Whole && p.writes() && p.found.Book.Trusts[i] == nil {
			h.Root = hex.EncodeToString(s.Root[:])
		}
		all = append(all, h)
	}
	return all
}

// writes reports whether something can be kept in the book.
func (p *Presenter) writes() bool { return p.desk != nil && !p.reading && p.found.Book != nil }

// Trust gives trust to the certificate behind a signature.
func (p *Presenter) Trust(ctx context.Context, root, name, how string) error {
	return p.desk.Trust(ctx, root, name, how)
}

// Record says what rides in the sheet, and how pages and book stand to it.
func (p *Presenter) Record() []string {
	var all []string
	for _, l := range p.found.RecordLines() {
		all = append(all, p.words.Line(l))
	}
	if p.desk == nil {
		all = append(all, p.words.Line(say.New("verify.no-book")))
	}
	return all
}

// CanTakeIn reports whether the record can be taken into the book.
func (p *Presenter) CanTakeIn() bool {
	return p.writes() && p.found.Whole && p.found.Good() && p.found.Record != nil && p.found.Book.Here != task.HereSame
}

// CanOpen is the set-up of the sheet where the book holds it; "" where it does not.
func (p *Presenter) CanOpen() string {
	if p.found.Book == nil || p.found.Record == nil || p.found.Book.Here == task.HereAbsent {
		return ""
	}
	return p.found.Record.Setup.ID
}

// TakeIn takes the record into the book and says what came of it, line by line. It may run beside other work.
func (p *Presenter) TakeIn(ctx context.Context) ([]string, error) {
	taken, err := p.desk.TakeInFile(ctx, p.path)
	if err != nil {
		return nil, err
	}
	var all []string
	for _, l := range taken.Lines() {
		all = append(all, p.words.Line(l))
	}
	return all, nil
}

// Pages are the pages as they are drawn anew from the record; none where they are others.
func (p *Presenter) Pages() []task.Page { return p.pages }

// Trusted is somebody whom the shop trusts.
type Trusted struct{ Root, Name, More string }

// Trusted returns whom the shop trusts.
func (p *Presenter) Trusted() []Trusted {
	all := make([]Trusted, len(p.trusted))
	for i, t := range p.trusted {
		all[i] = Trusted{t.Root, t.Name, p.words.Line(say.New("trust.line", say.Grouped(t.Root[:16]), t.How, t.By, t.When.Day()))}
	}
	return all
}

// CanWithdraw reports whether trust can be taken back.
func (p *Presenter) CanWithdraw() bool { return p.desk != nil && !p.reading }

// Withdraw takes trust back.
func (p *Presenter) Withdraw(ctx context.Context, root string) error {
	return p.desk.Withdraw(ctx, root)
}
