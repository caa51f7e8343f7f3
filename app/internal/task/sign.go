package task

import (
	"context"
	"encoding/hex"
	"os"
	"path/filepath"
	"runtime"
	"strings"
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
	ev := evaluate.Evaluate(rec)
	if rec.Setup.State == record.Closed {
		return nil, say.Fail(say.Conflict, "store.signed-already", setup)
	}
	if err := signable(rec, &ev); err != nil {
		return nil, err
	}
	closed := *rec
	closed.Setup.State = record.Closed
	file, err := sealed(&closed, s)
	if err != nil {
		return nil, err
	}
	print, err := exchange.Fingerprint(&closed)
	if err != nil {
		return nil, err
	}
	root, err := rootOf(file)
	if err != nil {
		return nil, err
	}
	kept := store.SignedSheet{
		Signed: record.Signed{Setup: setup, N: 1, Record: print, Name: s.Name, Role: s.Role, When: StampOf(s.When), Root: root},
		File:   file,
	}
	if deliver != nil {
		if err := deliver(file); err != nil {
			return nil, err
		}
	}
	if _, err := d.Book.Sign(ctx, kept, rec, record.Action{Token: NewID(), By: d.Who, At: d.now()}); err != nil {
		return nil, err
	}
	return file, nil
}

// signedSheet is the sheet of a closed record as somebody signs it, and the figures on it.
func signedSheet(rec *record.Record, s Signature) (pdf.Sheet, record.Figures, error) {
	ev := evaluate.Evaluate(rec)
	w := Worked{rec, ev, ev.Figures(evaluate.Words(rec.Setup.Units), rec.Setup.Units)}
	sheet, err := sheetOf(w, s.Paper)
	sheet.Signed = &pdf.Signed{Name: s.Name, Role: s.Role, When: s.When.UTC().Truncate(time.Second)}
	return sheet, w.Figures, err
}

// sealed builds the sheet of a closed record with that record in it.
func sealed(rec *record.Record, s Signature) ([]byte, error) {
	sheet, figures, err := signedSheet(rec, s)
	if err != nil {
		return nil, err
	}
	document, err := exchange.Export(rec, figures)
	if err != nil {
		return nil, err
	}
	return pdf.Seal(sheet, s.Key, document)
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
func signable(rec *record.Record, ev *evaluate.Evaluation) error {
	words := evaluate.Words(rec.Setup.Units)
	var open []say.Line
	for i := range ev.Valves {
		v := &ev.Valves[i]
		for _, f := range v.Findings {
			switch {
			case f.Note || f.Verdict >= evaluate.WithinUpTo:
			case f.Verdict == evaluate.Binds && rec.Setup.Kind != record.AsFound:
				return say.Fail(say.Conflict, "sign.binds", v.Label)
			case f.Accepted == nil:
				open = append(open, say.New("sign.of", v.Label, words.Line(f.Short)))
			}
		}
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

// signedBy is who signed a sheet, as it stands on the page.
func signedBy(s record.Signed) *pdf.Signed {
	when, err := time.Parse(time.RFC3339, string(s.When))
	if err != nil {
		return nil // a book that says so is damaged, which examine names
	}
	return &pdf.Signed{Name: s.Name, Role: s.Role, When: when}
}

// OpenKey opens a key file with the passphrase in another file, of which the line's end does not count.
func OpenKey(path, secretPath string) (seal.Signer, error) {
	secret, err := ReadFile(secretPath, mostKey)
	if err != nil {
		return seal.Signer{}, err
	}
	return openKey(path, strings.TrimRight(string(secret), "\r\n"))
}

// mostKey is how large a key file may be; none comes near.
const mostKey = 1 << 20

// openKey opens a key file that nobody else may read.
func openKey(path, secret string) (seal.Signer, error) {
	info, err := os.Stat(path)
	if err == nil && runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return seal.Signer{}, say.Fail(say.Invalid, "sign.key-open", path)
	}
	key, err := ReadFile(path, mostKey)
	if err != nil {
		return seal.Signer{}, err
	}
	return seal.OpenKey(key, secret)
}

// Signing is what somebody types who signs the open set-up.
type Signing struct{ KeyFile, Secret, Name, Role string }

// Sign signs the sheet of the open set-up as [Desk.Sign] does, and shows it as it is from then on. A key file without a
// folder lies beside the book; without a name the certificate's stands on the sheet.
func (b *Bench) Sign(ctx context.Context, s Signing, paper Paper) error {
	path, err := b.keyPath(s.KeyFile)
	if err != nil {
		return err
	}
	key, err := openKey(path, s.Secret)
	if err != nil {
		return err
	}
	by := Signature{Key: key, Name: first(strings.TrimSpace(s.Name), key.Name), Role: strings.TrimSpace(s.Role), When: b.desk.Clock(), Paper: paper}
	if _, err := b.desk.Sign(ctx, b.rec.Setup.ID, by, nil); err != nil {
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

// KeyFile is where a key lies where nobody says otherwise: beside the book, under the name of whoever works on it.
func (b *Bench) KeyFile() string { return filepath.Join(b.folder(), fileName(b.desk.Who)+".p12") }

func (b *Bench) keyPath(path string) (string, error) {
	path = strings.TrimSpace(path)
	switch {
	case path == "":
		return "", say.Fail(say.Invalid, "sign.no-file", b.KeyFile())
	case !filepath.IsAbs(path):
		path = filepath.Join(b.folder(), path)
	}
	return path, nil
}

// NewKey is what somebody types who makes a key.
type NewKey struct{ File, Name, Secret, Again string }

// MakeKey makes a key to sign with and writes its file, which nobody else may read, and returns where it is. A file that is
// there already is never written over (say.Conflict).
func (b *Bench) MakeKey(n NewKey) (string, error) {
	path, err := b.keyPath(n.File)
	switch {
	case err != nil:
		return "", err
	case n.Secret != n.Again:
		return "", say.Fail(say.Invalid, "sign.secrets-differ")
	}
	if _, err := os.Lstat(path); err == nil {
		return "", say.Fail(say.Conflict, "sign.key-there", path)
	}
	file, err := seal.MakeKey(seal.Person{Name: strings.TrimSpace(n.Name), Shop: b.rec.Shop.Name}, b.desk.Clock(), n.Secret)
	if err != nil {
		return "", err
	}
	if err := WriteFile(path, file); err != nil {
		return "", err
	}
	if err := os.Chmod(path, 0o600); err != nil {
		os.Remove(path)
		return "", say.Fail(say.Internal, "sign.key-mode", path).From(err)
	}
	return path, nil
}

// Signed reports who signed the open set-up, and when; "" where nobody did.
func (b *Bench) Signed() (name string, when record.Stamp) {
	if b.kept == nil {
		return "", ""
	}
	return b.kept.Name, b.kept.When
}
