package task

import (
	"context"
	"strings"

	"keeperbook/app/internal/signer"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// Signing is what somebody says who signs the open set-up.
type Signing struct {
	Name, Role string
	Paper      Paper
	Second     bool     // a place is kept for a second signature
	Drawn      bool     // the key comes with a signature drawn by hand
	Reasons    []Reason // of what is not within
}

// Key is the key of somebody who signs, opened.
type Key = seal.Signer

// Reason is why something that is not within is accepted.
type Reason struct {
	Of   evaluate.Unsettled
	Text string
}

// Unsettled is what has to be put right or accepted with a reason before the set-up is signed. It fails (say.Conflict) where
// nobody may sign the set-up whatever the reason.
func (b *Bench) Unsettled() ([]evaluate.Unsettled, error) { return unsettled(b.rec, &b.ev) }

// accepting are the deviations that reasons come to, kept by nobody yet. It refuses (say.Invalid) an empty reason.
func (b *Bench) accepting(reasons []Reason) ([]record.Noun, error) {
	var all []record.Noun
	for _, r := range reasons {
		for _, at := range r.Of.At {
			d, err := b.Accepting(at, r.Of.Finding, r.Text)
			if err != nil {
				return nil, say.Fail(say.Invalid, "sign.no-reason", r.Of.Whose, r.Of.Short)
			}
			all = append(all, d)
		}
	}
	return all, nil
}

// PagesToSign are the pages as they are once somebody signed. Reasons that are not typed yet are not on them.
func (b *Bench) PagesToSign(s Signing) ([]Page, error) {
	rec := *b.rec
	rec.Setup.State = record.Closed
	var typed []Reason
	for _, r := range s.Reasons {
		if strings.TrimSpace(r.Text) != "" {
			typed = append(typed, r)
		}
	}
	nouns, err := b.accepting(typed)
	if err != nil {
		return nil, err
	}
	rec.Setup.Deviations = append([]record.Deviation(nil), rec.Setup.Deviations...)
	for _, n := range nouns {
		rec.Put(n)
	}
	print, err := exchange.Fingerprint(&rec)
	if err != nil {
		return nil, err
	}
	var key Key
	if s.Drawn {
		key.Ink = seal.Ink{} // what was drawn, only the key opens
	}
	return pdf.Pages(signedSheet(worked(&rec), print, b.signature(key, s)))
}

// Sign keeps the reasons, signs the sheet as [Desk.Sign] does, and shows it as it is from then on. Without a name the
// certificate's stands on the sheet. Where it fails, the set-up is unsigned; reasons that the book has by then stay in it.
func (b *Bench) Sign(ctx context.Context, key Key, s Signing) error {
	by := b.signature(key, s)
	if err := by.ready(); err != nil {
		return err // before a reason is kept
	}
	nouns, err := b.accepting(s.Reasons)
	if err != nil {
		return err
	}
	if len(nouns) > 0 {
		if err := b.Keep(ctx, nouns...); err != nil {
			return err
		}
	}
	if _, err := b.desk.Sign(ctx, b.rec.Setup.ID, by, nil); err != nil {
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

func (b *Bench) signature(key Key, s Signing) Signature {
	return Signature{
		Key: key, Name: first(strings.TrimSpace(s.Name), key.Name), Role: strings.TrimSpace(s.Role), When: b.desk.Clock(), Paper: s.Paper, Language: b.PrintsIn(),
		Second: s.Second, words: b.Words(),
	}
}

// Countersign signs the sheet of the open set-up in the place that was kept for a second signature.
func (b *Bench) Countersign(ctx context.Context, key Key, role string) error {
	if _, err := b.desk.Countersign(ctx, b.rec.Setup.ID, b.signature(key, Signing{Role: role}), nil); err != nil {
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

// CanBeNamed refuses (say.Invalid) a name that cannot stand on a sheet as it is.
func CanBeNamed(name string) error { return (&pdf.Signed{Name: name}).Check() }

// Signers are the signers of this machine.
func (b *Bench) Signers() ([]signer.Signer, error) {
	if b.desk.Signers.Folder == "" {
		return nil, nil
	}
	return b.desk.Signers.List()
}

// Unlock opens the key of a signer, and holds it for as long as is allowed. It takes half a second and may run beside other
// work.
func (b *Bench) Unlock(id, secret string) (Key, error) {
	key, err := b.desk.Signers.Unlock(id, secret)
	if err == nil && b.desk.Held != nil {
		b.desk.Held.Hold(id, key, b.desk.Signers.Allowed())
	}
	return key, err
}

// Held returns the key of a signer that is open still.
func (b *Bench) Held(id string) (Key, bool) {
	if b.desk.Held == nil {
		return Key{}, false
	}
	return b.desk.Held.Key(id)
}

// Place reports whether a place was kept on the signed sheet that nobody signed in yet (say.NotFound where none was).
func (b *Bench) Place() error {
	if b.kept == nil {
		return say.Fail(say.Conflict, "store.not-signed", b.rec.Setup.ID)
	}
	_, err := seal.Next(b.kept.File)
	return err
}

// Signatures are those of the open set-up, in the order in which they were made.
func (b *Bench) Signatures() []record.Signed {
	if b.kept == nil {
		return nil
	}
	return b.kept.all
}

// Origin is the shop that signed the open set-up, where it is another one than that of the book; "" where it is not.
func (b *Bench) Origin(ctx context.Context) (string, error) {
	if b.kept == nil {
		return "", nil
	}
	own, err := b.desk.Book.Shop(ctx)
	if err != nil || own.Name == b.rec.Shop.Name {
		return "", err
	}
	return b.rec.Shop.Name, nil
}

// Signed reports who signed the open set-up, and when; "" where nobody did.
func (b *Bench) Signed() (name string, when record.Stamp) {
	if b.kept == nil {
		return "", ""
	}
	return b.kept.Name, b.kept.When
}
