package seal_test

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/pdf/seal"
)

// A key that was made opens with its passphrase and no other, signs, and is trusted by another reader through its root.
func TestMadeKeySigns(t *testing.T) {
	now := signed.Add(-time.Hour)
	key, err := seal.NewKey(seal.Person{Name: "Jürgen Ashlock", Shop: "Lantern Yard Head Works"}, now)
	if err != nil {
		t.Fatal(err)
	}
	file, err := key.Lock("oil and steel", seal.Rounds)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := seal.OpenKey(file, "oil and steal"); keyOfError(err) != "seal.secret" {
		t.Errorf("with another passphrase: %v", err)
	}
	s, err := seal.OpenKey(file, "oil and steel")
	if err != nil || s.Name != "Jürgen Ashlock" || len(s.Chain) != 2 {
		t.Fatalf("%v, %+v", err, s)
	}
	s.When = signed
	data := sealed(t, s)
	r, err := seal.Check(data)
	if err != nil || !r.Whole() || !r.Signatures[0].Chained || !r.Signatures[0].Held || r.Signatures[0].Until.Sub(now) < 4*365*24*time.Hour {
		t.Errorf("%v, %+v", err, r)
	}
	said := outside(t, "pdfsig", "-nssdir", trusting(t, s.Chain[1]), put(t, "sheet.pdf", data))
	for _, want := range []string{"Signature is Valid", "Certificate is Trusted", "Total document signed"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q:\n%s", want, said)
		}
	}
	if said := outside(t, "openssl", "pkcs12", "-in", put(t, "key.p12", file), "-passin", "pass:oil and steel", "-nokeys", "-info"); !strings.Contains(said, "Iteration 600000") {
		t.Errorf("OpenSSL says\n%s", said)
	}
	for _, c := range []struct {
		who seal.Person
		key string
	}{
		{seal.Person{}, "seal.no-name"},
		{seal.Person{Name: strings.Repeat("ü", 65)}, "seal.long-name"},
		{seal.Person{Name: "M.\nAshlock"}, "seal.name"},
		{seal.Person{Name: "M. Ashlock", Shop: "Works\x00"}, "seal.name"},
	} {
		if _, err := seal.NewKey(c.who, now); keyOfError(err) != c.key {
			t.Errorf("%v: %v, want %s", c.who, err, c.key)
		}
	}
	if _, err := key.Lock("short", 1); keyOfError(err) != "seal.short-secret" {
		t.Errorf("a short passphrase: %v", err)
	}
}

// Keys that somebody brings, as OpenSSL writes them.
func TestBroughtKeys(t *testing.T) {
	for _, kind := range []string{"P-256", "P-384", "RSA-2048", "RSA-3072", "Ed25519"} {
		t.Run(kind, func(t *testing.T) {
			s := signer(t, "M. Ashlock", kind)
			der, err := x509.MarshalPKCS8PrivateKey(s.Key)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			pem.Encode(&b, &pem.Block{Type: "PRIVATE KEY", Bytes: der}) // never fails on a buffer
			out := filepath.Join(t.TempDir(), "own.p12")
			outside(t, "openssl", "pkcs12", "-export", "-inkey", put(t, "key.pem", b.Bytes()), "-in", put(t, "leaf.pem", pemOf(s.Chain[0])),
				"-certfile", put(t, "root.pem", pemOf(s.Chain[1])), "-passout", "pass:grinding paste", "-out", out)
			file, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			own, err := seal.OpenKey(file, "grinding paste")
			if kind == "Ed25519" {
				if keyOfError(err) != "seal.key-kind" {
					t.Errorf("%v", err)
				}
				return
			}
			if err != nil || len(own.Chain) != 2 || own.Name != "M. Ashlock" {
				t.Fatalf("%v, %+v", err, own)
			}
			own.When = signed
			if r, err := seal.Check(sealed(t, own)); err != nil || !r.Whole() || !r.Signatures[0].Chained {
				t.Errorf("%v, %+v", err, r)
			}
		})
	}
	for name, file := range map[string][]byte{"nothing": nil, "a text": []byte("my key"), "a sheet": pages(t)} {
		if _, err := seal.OpenKey(file, "grinding paste"); keyOfError(err) != "seal.key-file" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
