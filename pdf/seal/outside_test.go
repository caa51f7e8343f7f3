package seal_test

import (
	"bytes"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/pdf/seal"
)

// outside runs a reader that is not ours.
func outside(t *testing.T, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
		}
		t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", program)
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", program, strings.Join(args, " "), err, out)
	}
	return string(out)
}

func put(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func pemOf(certs ...*x509.Certificate) []byte {
	var b bytes.Buffer
	for _, c := range certs {
		pem.Encode(&b, &pem.Block{Type: "CERTIFICATE", Bytes: c.Raw}) // never fails on a buffer
	}
	return b.Bytes()
}

// trusting is a store of certificates in which a root is trusted.
func trusting(t *testing.T, roots ...*x509.Certificate) string {
	t.Helper()
	dir := t.TempDir()
	outside(t, "certutil", "-N", "-d", "sql:"+dir, "--empty-password")
	for i, root := range roots {
		outside(t, "certutil", "-A", "-d", "sql:"+dir, "-n", "root "+string(rune('a'+i)), "-t", "CT,C,C", "-i", put(t, "root.pem", pemOf(root)))
	}
	return dir
}

// Poppler's reader calls it valid, trusted and whole, for every kind of key; and a changed byte, and what was added, bad.
func TestAnotherReaderTrustsIt(t *testing.T) {
	for _, kind := range []string{"P-256", "P-384", "RSA-2048", "RSA-3072"} {
		t.Run(kind, func(t *testing.T) {
			s := signer(t, "M. Ashlock", kind)
			store := trusting(t, s.Chain[1])
			data := sealed(t, s)
			said := outside(t, "pdfsig", "-nssdir", store, put(t, "sheet.pdf", data))
			for _, want := range []string{"Signature is Valid", "Certificate is Trusted", "Total document signed", "M. Ashlock", "ETSI.CAdES.detached"} {
				if !strings.Contains(said, want) {
					t.Errorf("it does not say %q:\n%s", want, said)
				}
			}
			changed := bytes.Clone(data)
			changed[len(data)/3] ^= 1
			if said := outside(t, "pdfsig", "-nssdir", store, put(t, "changed.pdf", changed)); strings.Contains(said, "Signature is Valid") {
				t.Errorf("of a changed one it says\n%s", said)
			}
		})
	}
}

// Both of two signatures are valid and trusted, and the second covers all of it.
func TestAnotherReaderTrustsBoth(t *testing.T) {
	one, two := signer(t, "M. Ashlock", "P-256"), signer(t, "J. Peverel", "RSA-2048")
	two.When = signed.Add(time.Hour)
	two.Words = []byte("10 5 m\n20 5 l\n20 15 l\nh f\n")
	data, err := seal.Countersign(sealed(t, one), two)
	if err != nil {
		t.Fatal(err)
	}
	said := outside(t, "pdfsig", "-nssdir", trusting(t, one.Chain[1], two.Chain[1]), put(t, "sheet.pdf", data))
	if strings.Count(said, "Signature is Valid") != 2 || strings.Count(said, "Certificate is Trusted") != 2 || !strings.Contains(said, "Total document signed") {
		t.Errorf("it says\n%s", said)
	}
}

// The file is sound, its fonts are in it, and the record comes out as it went in.
func TestAnotherReaderOpensIt(t *testing.T) {
	s := signer(t, "Jürgen (Kopf) \\ 🔧", "P-256")
	in := sealing(s)
	data, err := seal.Seal(pages(t), in)
	if err != nil {
		t.Fatal(err)
	}
	second, err := seal.Countersign(data, signer(t, "J. Peverel", "P-384"))
	if err != nil {
		t.Fatal(err)
	}
	for _, data := range [][]byte{data, second} {
		path := put(t, "sheet.pdf", data)
		if said := outside(t, "qpdf", "--check", path); !strings.Contains(said, "No syntax or stream encoding errors found") {
			t.Errorf("%s", said)
		}
		out := filepath.Join(t.TempDir(), seal.RecordName)
		outside(t, "pdfdetach", "-save", "1", "-o", out, path)
		if record, err := os.ReadFile(out); err != nil || !bytes.Equal(record, in.Record) {
			t.Errorf("%v: taken out is %q", err, record)
		}
		lines := strings.Split(strings.TrimSpace(outside(t, "pdffonts", path)), "\n")[2:]
		for _, line := range lines {
			if fields := strings.Fields(line); len(fields) < 5 || fields[len(fields)-5] != "yes" {
				t.Errorf("not embedded: %s", line)
			}
		}
		if info := outside(t, "pdfinfo", path); !strings.Contains(info, "PDF version:     1.7") || !strings.Contains(info, "OF-2P, as built") {
			t.Errorf("%s", info)
		}
		if text := outside(t, "pdftotext", path, "-"); !strings.Contains(text, "How far does the valve lift?") {
			t.Errorf("the page says %q", text)
		}
	}
}

// OpenSSL verifies the signature that is taken out of the file, over the bytes around it.
func TestAnotherLibraryVerifiesIt(t *testing.T) {
	for _, kind := range []string{"P-256", "P-384", "RSA-2048"} {
		s := signer(t, "M. Ashlock", kind)
		data := sealed(t, s)
		from := bytes.Index(data, []byte("/Contents <")) + len("/Contents <")
		to := from + bytes.IndexByte(data[from:], '>')
		der, err := hex.DecodeString(string(data[from:to]))
		if err != nil {
			t.Fatal(err)
		}
		around := append(bytes.Clone(data[:from-1]), data[to+1:]...)
		signature, content := put(t, "signature.der", der), put(t, "content.bin", around)
		said := outside(t, "openssl", "cms", "-verify", "-binary", "-inform", "DER", "-in", signature, "-content", content,
			"-CAfile", put(t, "root.pem", pemOf(s.Chain[1])), "-purpose", "any", "-attime", "1780000000", "-out", os.DevNull)
		if !strings.Contains(strings.ToLower(said), "verification successful") {
			t.Errorf("%s: %s", kind, said)
		}
	}
}
