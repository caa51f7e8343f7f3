package seal

import (
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/asn1"
	"errors"
	"math/big"
	"time"

	"software.sslmate.com/src/go-pkcs12"

	"keeperbook/model/say"
)

// Person is who a key is made for.
type Person struct{ Name, Shop string }

// years is how long a certificate of ours holds.
const years = 4

// Rounds is how often a passphrase is stirred before it opens a key: half a second on a machine of today, for whoever
// knows it and for whoever guesses.
const Rounds = 600_000

// NewKey makes a key of P-256 with its certificate under a root of its own. A certificate that signed itself is trusted by no
// reader, so that there is a root; its key is not kept, and nothing else is ever signed with it. It refuses (say.Invalid) a
// person without a name, and names that no certificate holds.
func NewKey(p Person, now time.Time) (Signer, error) {
	switch {
	case p.Name == "":
		return Signer{}, say.Fail(say.Invalid, "seal.no-name")
	case len([]rune(p.Name)) > mostName:
		return Signer{}, say.Fail(say.Invalid, "seal.long-name", mostName)
	case !writable(p.Name) || !writable(p.Shop):
		return Signer{}, say.Fail(say.Invalid, "seal.name")
	}
	rootKey, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return Signer{}, err
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return Signer{}, err
	}
	begin := now.UTC().Truncate(time.Second)
	subject := pkix.Name{CommonName: p.Name}
	if p.Shop != "" {
		subject.Organization = []string{p.Shop}
	}
	issuer := subject
	issuer.CommonName = p.Name + " (root)"
	root := &x509.Certificate{
		SerialNumber: serial(), Subject: issuer, NotBefore: begin, NotAfter: begin.AddDate(years, 0, 1), BasicConstraintsValid: true, IsCA: true,
		MaxPathLenZero: true, KeyUsage: x509.KeyUsageCertSign,
	}
	rootDER, err := x509.CreateCertificate(rand.Reader, root, root, rootKey.Public(), rootKey)
	if err != nil {
		return Signer{}, err
	}
	if root, err = x509.ParseCertificate(rootDER); err != nil {
		return Signer{}, err
	}
	leaf := &x509.Certificate{
		SerialNumber: serial(), Subject: subject, NotBefore: begin, NotAfter: begin.AddDate(years, 0, 0), BasicConstraintsValid: true,
		KeyUsage:    x509.KeyUsageDigitalSignature | x509.KeyUsageContentCommitment,
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageEmailProtection},
		// What documents are signed with (RFC 9336).
		UnknownExtKeyUsage: []asn1.ObjectIdentifier{{1, 3, 6, 1, 5, 5, 7, 3, 36}},
	}
	leafDER, err := x509.CreateCertificate(rand.Reader, leaf, root, key.Public(), rootKey)
	if err != nil {
		return Signer{}, err
	}
	if leaf, err = x509.ParseCertificate(leafDER); err != nil {
		return Signer{}, err
	}
	return Signer{Key: key, Chain: []*x509.Certificate{leaf, root}, Name: p.Name}, nil
}

// leastSecret is how many signs a passphrase has at least.
const leastSecret = 8

// mostName is how many signs a name in a certificate has at most (RFC 5280, appendix A, ub-common-name).
const mostName = 64

// Lock puts a key with its certificates into a PKCS#12 file that a passphrase opens, stirred so many rounds. It refuses
// (say.Invalid) a passphrase of fewer than eight signs.
func (s Signer) Lock(passphrase string, rounds int) ([]byte, error) {
	if len([]rune(passphrase)) < leastSecret {
		return nil, say.Fail(say.Invalid, "seal.short-secret")
	}
	return pkcs12.Modern.WithIterations(rounds).Encode(s.Key, s.Chain[0], s.Chain[1:], passphrase)
}

// serial is a number that no other certificate has.
func serial() *big.Int {
	var b [16]byte
	rand.Read(b[:]) // never fails: it ends the program instead, as its documentation says
	b[0] &= 0x7f
	return new(big.Int).SetBytes(b[:])
}

// OpenKey opens a PKCS#12 file: one of ours, or one's own. Who signs, what for and when is for the caller to add. It refuses
// (say.Invalid) a passphrase that does not open it, and a file that this library does not read.
func OpenKey(file []byte, passphrase string) (Signer, error) {
	key, leaf, more, err := pkcs12.DecodeChain(file, passphrase)
	switch {
	case errors.Is(err, pkcs12.ErrIncorrectPassword):
		return Signer{}, say.Fail(say.Invalid, "seal.secret")
	case err != nil:
		return Signer{}, say.Fail(say.Invalid, "seal.key-file").From(err)
	}
	signs, ok := key.(crypto.Signer)
	if !ok {
		return Signer{}, say.Fail(say.Invalid, "seal.key-kind")
	}
	s := Signer{Key: signs, Chain: ordered(leaf, more), Name: leaf.Subject.CommonName}
	if _, err := algorithmOf(signs.Public()); err != nil {
		return Signer{}, err
	}
	return s, nil
}

// ordered leads from a certificate to its root, as far as those at hand do; a chain that breaks off is left out, for what
// leads nowhere proves nothing.
func ordered(leaf *x509.Certificate, more []*x509.Certificate) []*x509.Certificate {
	chain := []*x509.Certificate{leaf}
	for at := leaf; at.CheckSignatureFrom(at) != nil; {
		var next *x509.Certificate
		for _, c := range more {
			if at.CheckSignatureFrom(c) == nil {
				next = c
			}
		}
		if next == nil || len(chain) > len(more) {
			return chain[:1]
		}
		chain, at = append(chain, next), next
	}
	return chain
}
