package seal_test

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/ed25519"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"crypto/x509/pkix"
	"math/big"
	"sync"
	"testing"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

var (
	begins = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	ends   = time.Date(2029, 1, 1, 0, 0, 0, 0, time.UTC)
	signed = time.Date(2026, 5, 11, 14, 5, 0, 0, time.UTC)
)

// keys are those that signers bring, by their kind, each made once: an RSA key takes long.
var keys sync.Map

func keyOf(t testing.TB, kind string) crypto.Signer {
	t.Helper()
	if k, ok := keys.Load(kind); ok {
		return k.(crypto.Signer)
	}
	var k crypto.Signer
	var err error
	switch kind {
	case "P-256":
		k, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	case "P-384":
		k, err = ecdsa.GenerateKey(elliptic.P384(), rand.Reader)
	case "P-521":
		k, err = ecdsa.GenerateKey(elliptic.P521(), rand.Reader)
	case "RSA-2048":
		k, err = rsa.GenerateKey(rand.Reader, 2048)
	case "RSA-3072":
		k, err = rsa.GenerateKey(rand.Reader, 3072)
	case "Ed25519":
		_, k, err = ed25519.GenerateKey(rand.Reader)
	}
	if err != nil {
		t.Fatal(err)
	}
	keys.Store(kind, k)
	return k
}

// certified makes a certificate of a key, signed by another one; by itself where that is nil.
func certified(t testing.TB, who string, serial int64, key crypto.Signer, by *x509.Certificate, byKey crypto.Signer) *x509.Certificate {
	t.Helper()
	c := &x509.Certificate{
		SerialNumber: big.NewInt(serial), Subject: pkix.Name{CommonName: who, Organization: []string{"Lantern Yard Head Works"}}, NotBefore: begins, NotAfter: ends,
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageContentCommitment, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageEmailProtection},
		BasicConstraintsValid: true,
	}
	if by == nil {
		c.IsCA, c.KeyUsage, c.ExtKeyUsage = true, x509.KeyUsageCertSign, nil
		by, byKey = c, key
	}
	der, err := x509.CreateCertificate(rand.Reader, c, by, key.Public(), byKey)
	if err != nil {
		t.Fatal(err)
	}
	out, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// drawn is a signature drawn by hand.
var drawn = seal.Ink{{{X: 100, Y: 500}, {X: 900, Y: 200}, {X: 1700, Y: 800}}, {{X: 5800, Y: 990}}}

// signer is somebody with a key of a kind, under a root of P-256.
func signer(t testing.TB, who, kind string) seal.Signer {
	t.Helper()
	rootKey := keyOf(t, "P-256")
	root := certified(t, "root of "+who, 1, rootKey, nil, nil)
	key := keyOf(t, kind)
	return seal.Signer{Key: key, Chain: []*x509.Certificate{certified(t, who, 2, key, root, rootKey), root}, Name: who, Reason: "set-up as built", When: signed, Ink: drawn}
}

// pages are those of a real form of this program.
func pages(t testing.TB) []byte {
	t.Helper()
	rec := &record.Record{
		Shop: record.Shop{Name: "Lantern Yard Head Works"}, Engine: record.Engine{Name: "Ferry"}, Head: record.Head{ID: "head", Tag: "OF-2P"},
		Setup: record.Setup{ID: "setup-1", Kind: record.AsBuilt, Begun: "2026-03-02T10:00:00Z", Units: record.Units{Length: unit.In, Load: unit.Lbf}},
	}
	var b bytes.Buffer
	err := pdf.WriteQuestions(&b, pdf.Questions{Record: rec, Asks: []string{"How far does the valve lift?"}, Paper: pdf.A4, Words: evaluate.Words(rec.Setup.Units)})
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func sealing(s seal.Signer) seal.Sealing {
	return seal.Sealing{
		Title: "OF-2P, as built", Made: signed, Record: []byte(`{"kind":"keeperbook-record","note":"μ, ½"}`), Signer: s,
		Fields: []seal.Field{{Name: "shop", Page: 1, Rect: [4]float64{40, 40, 240, 90}}, {Name: "inspector", Page: 1, Rect: [4]float64{260, 40, 460, 90}}},
	}
}

func sealed(t testing.TB, s seal.Signer) []byte {
	t.Helper()
	data, err := seal.Seal(pages(t), sealing(s))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
