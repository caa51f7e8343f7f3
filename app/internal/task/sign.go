package task

import (
	"context"
	"encoding/hex"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

// Signature is who signs, with the key that does.
type Signature struct {
	Key        seal.Signer
	Name, Role string
	When       time.Time
	Paper      pdf.Paper
	Language   string          // of the pages; "" is English
	Second     bool            // a place is kept for a second signature
	history    *record.History // of the book before it is signed
	words      say.Printer     // of what is refused; English where there are none
}

// Sign signs the sheet of a set-up, closes it, and keeps the sheet for ever. The sheet is returned. What binds is signed only
// as it was found, and what is not within must have been accepted, with a reason (say.Conflict): the book is as it was then.
//
// Deliver, where it is not nil, is given the sheet before the book keeps it: where it fails, the set-up stays unsigned.
func (d *Desk) Sign(ctx context.Context, setup string, s Signature, deliver func(file []byte) error) ([]byte, error) {
	rec, err := d.Book.Record(ctx, setup)
	if err != nil {
		return nil, err
	}
	if rec.Setup.State == record.Closed {
		return nil, say.Fail(say.Conflict, "store.signed-already", setup)
	}
	closed := *rec
	closed.Setup.State = record.Closed
	w := worked(&closed)
	if err := signable(&closed, &w.Evaluation, s.words); err != nil {
		return nil, err
	}
	if s.history, err = d.Book.History(ctx); err != nil {
		return nil, err
	}
	print, err := exchange.Fingerprint(&closed)
	if err != nil {
		return nil, err
	}
	file, err := sealed(w, print, s)
	if err != nil {
		return nil, err
	}
	root, err := rootOf(file)
	if err != nil {
		return nil, err
	}
	keep := store.SignedSheet{
		Signed: record.Signed{Setup: setup, N: 1, Record: print, Name: s.Name, Role: s.Role, When: StampOf(s.When), Root: root},
		File:   file,
	}
	return file, d.keepSigned(ctx, keep, rec, s.history, deliver)
}

// keepSigned hands a sheet over and then has the book keep it.
func (d *Desk) keepSigned(ctx context.Context, s store.SignedSheet, as *record.Record, after *record.History, deliver func([]byte) error) error {
	if deliver != nil {
		if err := deliver(s.File); err != nil {
			return err
		}
	}
	_, err := d.Book.Sign(ctx, s, as, after, record.Action{Token: NewID(), By: d.Who, At: d.now()})
	return err
}

// Countersign signs the sheet of a set-up that was signed in the place that was kept for a second signature; the first stays
// valid. It refuses (say.NotFound) a sheet without such a place. Deliver is as for [Desk.Sign].
func (d *Desk) Countersign(ctx context.Context, setup string, s Signature, deliver func(file []byte) error) ([]byte, error) {
	first, err := d.Book.Sheet(ctx, setup)
	switch {
	case err != nil:
		return nil, err
	case first == nil:
		return nil, say.Fail(say.Conflict, "store.not-signed", setup)
	}
	file, err := pdf.Countersign(first.File, s.Key, s.signed())
	if err != nil {
		return nil, err
	}
	root, err := rootOf(file)
	if err != nil {
		return nil, err
	}
	keep := store.SignedSheet{
		Signed: record.Signed{Setup: setup, N: first.N + 1, Record: first.Record, Name: s.Name, Role: s.Role, When: StampOf(s.When), Root: root},
		File:   file,
	}
	return file, d.keepSigned(ctx, keep, nil, nil, deliver)
}

// ready refuses whoever cannot sign at that moment.
func (s Signature) ready() error {
	if err := s.signed().Check(); err != nil {
		return err
	}
	key := s.Key
	key.Name, key.Reason, key.When = s.Name, s.Role, s.When
	return key.Ready()
}

// signed is who signs, as it stands on the page.
func (s Signature) signed() *pdf.Signed {
	return &pdf.Signed{Name: s.Name, Role: s.Role, When: s.When.UTC().Truncate(time.Second), Ink: s.Key.Ink, Second: s.Second}
}

// signedSheet is the sheet of what was worked out of a closed record with a fingerprint, as somebody signs it.
func signedSheet(w Worked, print string, s Signature) pdf.Sheet {
	sheet := printed(w, print, s.Paper, s.Language)
	sheet.Signed, sheet.History = s.signed(), s.history
	return sheet
}

// sealed builds the sheet of what was worked out of a closed record, with that record in it.
func sealed(w Worked, print string, s Signature) ([]byte, error) {
	spoken, _ := w.in(s.Language)
	document, err := exchange.ExportSigned(w.Record, spoken.Figures, s.history)
	if err != nil {
		return nil, err
	}
	return pdf.Seal(signedSheet(w, print, s), s.Key, document)
}

// rootOf is what trust is given to, of the newest signature.
func rootOf(file []byte) (string, error) {
	r, err := seal.Check(file)
	if err != nil {
		return "", err
	}
	last := r.Signatures[len(r.Signatures)-1]
	return hex.EncodeToString(last.Root[:]), nil
}

// signable refuses what nobody may sign as it is.
func signable(rec *record.Record, ev *evaluate.Evaluation, words say.Printer) error {
	all, err := unsettled(rec, ev)
	if err != nil {
		return err
	}
	if words.Words == nil {
		words = evaluate.Words(rec.Setup.Units) // of the command line nobody knows the units
	}
	var open []say.Line
	for _, u := range all {
		open = append(open, say.New("sign.of", u.Whose, words.Line(say.New("expr.one", u.Short))))
	}
	const few = 6
	switch more := len(open) - few; {
	case len(open) == 0:
		return nil
	case more > 0:
		return say.Fail(say.Conflict, "sign.open-more", open[:few], more)
	}
	return say.Fail(say.Conflict, "sign.open", open)
}

// unsettled is what has to be put right or accepted with a reason before a set-up is signed. It fails (say.Conflict) with one
// that nobody may sign whatever the reason.
func unsettled(rec *record.Record, ev *evaluate.Evaluation) ([]evaluate.Unsettled, error) {
	if v := ev.Binding(); v != nil && rec.Setup.Kind != record.AsFound {
		return nil, say.Fail(say.Conflict, "sign.binds", v.Label)
	}
	return ev.Unsettled(), nil
}

// onPage is who signed a sheet, as it stands on its pages; nil for whoever did not.
func onPage(r seal.Report) (first, second *pdf.Signed) {
	for i, s := range r.Signatures {
		by := &pdf.Signed{Name: s.Name, Role: s.Reason, When: s.When, Ink: s.Ink, Second: i == 0 && r.Places > 1}
		switch i {
		case 0:
			first = by
		case 1:
			second = by
		}
	}
	return first, second
}
