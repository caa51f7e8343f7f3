// Package signer keeps the keys of whoever signs on this machine, in a folder of its own: of each signer the key in a PKCS#12
// file that only the passphrase opens, a card with the certificates, which everybody may know, and the signature drawn by hand,
// which only the key opens. A passphrase is kept nowhere.
package signer

import (
	"cmp"
	"crypto/ecdsa"
	"crypto/rsa"
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
)

// Ring is the signers in a folder, which is made with the first of them.
type Ring struct {
	Folder string
	Clock  func() time.Time
	Rounds int // how often passphrases are stirred; 0 for seal.Rounds, fewer in tests alone
}

// Signer is what everybody may know of one.
type Signer struct {
	ID          string // beginning of the certificate's fingerprint, and the name of its files
	Name        string
	Role        string // proposed where they sign; may be empty
	Shop        string
	Kind        string // of key
	From, Until time.Time
	Root        [sha256.Size]byte // what trust is given to
	Drawn       bool              // a signature drawn by hand is kept
	Holds       Holding
}

// Holding says how a certificate stands to today.
type Holding string

// How it may stand.
const (
	Good    Holding = "good"
	Ends    Holding = "ends" // soon
	Ended   Holding = "ended"
	NotYet  Holding = "not-yet"
	endsFor         = 60 * 24 * time.Hour // before its end that is said
)

func holding(c *x509.Certificate, now time.Time) Holding {
	switch {
	case now.Before(c.NotBefore):
		return NotYet
	case now.After(c.NotAfter):
		return Ended
	case now.After(c.NotAfter.Add(-endsFor)):
		return Ends
	}
	return Good
}

// card is what is kept of a signer that everybody may read.
type card struct {
	Role  string `json:"role"`
	Chain string `json:"chain"` // PEM (RFC 7468), the signer's own certificate first
}

// The kinds of files.
const (
	cardEnding = ".json"
	keyEnding  = ".p12"
	handEnding = ".hand"
)

// Sizes that none of the files comes near.
const (
	mostCard = 1 << 20
	mostKey  = 1 << 20
)

func (r Ring) path(id, ending string) string { return filepath.Join(r.Folder, id+ending) }

// List returns the signers by name. Of a card that cannot be read it fails with that one's sentence and returns the others.
func (r Ring) List() ([]Signer, error) {
	entries, err := os.ReadDir(r.Folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	} else if err != nil {
		return nil, files.Fault(r.Folder, err)
	}
	var all []Signer
	var trouble error
	for _, e := range entries {
		id, ok := strings.CutSuffix(e.Name(), cardEnding)
		if !ok || !isID(id) {
			continue
		}
		s, _, err := r.read(id)
		if err != nil {
			trouble = err
			continue
		}
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b Signer) int { return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) })
	return all, trouble
}

// idLength is how many digits of a fingerprint name the files of a signer.
const idLength = 16

func idOf(leaf *x509.Certificate) string {
	sum := sha256.Sum256(leaf.Raw)
	return hex.EncodeToString(sum[:])[:idLength]
}

func isID(text string) bool {
	_, err := hex.DecodeString(text)
	return err == nil && len(text) == idLength
}

// Find returns the signer whose name or identifier a text is, or begins, and nobody else's (say.NotFound, say.Conflict).
func (r Ring) Find(text string) (Signer, error) {
	all, err := r.List()
	var found []Signer
	for _, s := range all {
		if s.Name == text || s.ID == text {
			return s, nil
		}
		if text != "" && (strings.HasPrefix(strings.ToLower(s.Name), strings.ToLower(text)) || strings.HasPrefix(s.ID, text)) {
			found = append(found, s)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return Signer{}, say.Fail(say.Conflict, "signers.several", text, len(found))
	case err != nil:
		return Signer{}, err
	}
	return Signer{}, say.Fail(say.NotFound, "signers.nobody", text)
}

// read reads the card of a signer.
func (r Ring) read(id string) (Signer, []*x509.Certificate, error) {
	path := r.path(id, cardEnding)
	data, err := files.Read(path, mostCard)
	if err != nil {
		return Signer{}, nil, err
	}
	c, chain, err := parse(data)
	if err != nil || idOf(chain[0]) != id {
		return Signer{}, nil, say.Fail(say.Damaged, "signers.card", path).From(err)
	}
	_, err = os.Stat(r.path(id, handEnding))
	s := described(chain, r.Clock())
	s.Role, s.Drawn = c.Role, err == nil
	return s, chain, nil
}

var errNoCertificate = errors.New("no certificate in it")

// parse takes a card apart.
func parse(data []byte) (card, []*x509.Certificate, error) {
	var c card
	if err := json.Unmarshal(data, &c); err != nil {
		return c, nil, err
	}
	var chain []*x509.Certificate
	for rest := []byte(c.Chain); ; {
		var block *pem.Block
		if block, rest = pem.Decode(rest); block == nil {
			break
		}
		one, err := x509.ParseCertificate(block.Bytes)
		if err != nil {
			return c, nil, err
		}
		chain = append(chain, one)
	}
	if len(chain) == 0 {
		return c, nil, errNoCertificate
	}
	return c, chain, nil
}

// described says of certificates what a card says.
func described(chain []*x509.Certificate, now time.Time) Signer {
	leaf, root := chain[0], chain[len(chain)-1]
	return Signer{
		ID: idOf(leaf), Name: leaf.Subject.CommonName, Shop: strings.Join(leaf.Subject.Organization, ", "), Kind: kindOf(leaf),
		From: leaf.NotBefore, Until: leaf.NotAfter, Root: sha256.Sum256(root.Raw), Holds: holding(leaf, now),
	}
}

func kindOf(c *x509.Certificate) string {
	switch k := c.PublicKey.(type) {
	case *ecdsa.PublicKey:
		return "ECDSA " + k.Curve.Params().Name
	case *rsa.PublicKey:
		return fmt.Sprintf("RSA %d", k.N.BitLen())
	}
	return c.PublicKeyAlgorithm.String()
}

// Certificate returns the certificates of a signer, which others may have to trust: PEM, the signer's own first.
func (r Ring) Certificate(id string) ([]byte, error) {
	_, chain, err := r.read(id)
	if err != nil {
		return nil, err
	}
	return pemOf(chain), nil
}

// CertificatePath is where the certificates of a signer go in a folder, where nobody says otherwise.
func (r Ring) CertificatePath(s Signer, folder string) string {
	return filepath.Join(folder, cmp.Or(files.Name(s.Name), "signer")+".pem")
}

// SaveCertificate writes the certificates of a signer where somebody said, and returns where that is. A file that is there
// already is replaced only where replace says so (say.Conflict).
func (r Ring) SaveCertificate(s Signer, named, folder string, replace bool) (string, error) {
	where, err := files.Place(named, r.CertificatePath(s, folder), replace)
	if err != nil {
		return where, err
	}
	data, err := r.Certificate(s.ID)
	if err != nil {
		return "", err
	}
	return where, files.Write(where, data)
}

func pemOf(chain []*x509.Certificate) []byte {
	var b []byte
	for _, c := range chain {
		b = append(b, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c.Raw})...)
	}
	return b
}

// As keeps in which role a signer signs from now on where nothing else is said.
func (r Ring) As(id, role string) error {
	_, chain, err := r.read(id)
	if err != nil {
		return err
	}
	return r.writeCard(id, role, chain)
}

func (r Ring) writeCard(id, role string, chain []*x509.Certificate) error {
	data, err := json.MarshalIndent(card{Role: strings.TrimSpace(role), Chain: string(pemOf(chain))}, "", "  ")
	if err != nil {
		return err
	}
	return files.WritePrivate(r.path(id, cardEnding), append(data, '\n'))
}

// Forget takes a signer away for good. What they signed stays valid.
func (r Ring) Forget(id string) error {
	for _, ending := range []string{keyEnding, handEnding, cardEnding} {
		path := r.path(id, ending)
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return files.Fault(path, err)
		}
	}
	return nil
}
