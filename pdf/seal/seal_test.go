package seal_test

import (
	"bytes"
	"crypto/sha256"
	"crypto/x509"
	"errors"
	"flag"
	"fmt"
	"strings"
	"testing"
	"time"

	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

var every = flag.Bool("every", false, "change every single byte, which takes minutes")

func TestSealedIsWhole(t *testing.T) {
	for _, kind := range []string{"P-256", "P-384", "RSA-2048", "RSA-3072"} {
		t.Run(kind, func(t *testing.T) {
			s := signer(t, "M. Ashlock", kind)
			data := sealed(t, s)
			r, err := seal.Check(data)
			if err != nil || !r.Whole() || r.Added || len(r.Signatures) != 1 {
				t.Fatalf("%v, %+v", err, r)
			}
			one := r.Signatures[0]
			if one.Name != "M. Ashlock" || one.Subject != "M. Ashlock" || one.Reason != "set-up as built" || !one.When.Equal(signed) || one.Field != "shop" ||
				!one.Held || !one.Chained || one.Root != sha256.Sum256(s.Chain[1].Raw) || !one.Until.Equal(ends) {
				t.Errorf("%+v", one)
			}
			if !bytes.Equal(r.Record, sealing(s).Record) || r.Title != "OF-2P, as built" {
				t.Errorf("carries %q, %q", r.Title, r.Record)
			}
			if again := sealed(t, s); !bytes.Equal(again, data) {
				t.Error("the second time other bytes")
			}
		})
	}
}

// A second signer fills the place that was kept; the first signature stays, byte for byte.
func TestCountersigned(t *testing.T) {
	first := sealed(t, signer(t, "M. Ashlock", "P-256"))
	second := signer(t, "J. Peverel", "P-384")
	second.When, second.Reason = signed.Add(time.Hour), ""
	data, err := seal.Countersign(first, second)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, first) {
		t.Error("what was signed first was changed")
	}
	r, err := seal.Check(data)
	if err != nil || !r.Whole() || len(r.Signatures) != 2 || r.Signatures[1].Name != "J. Peverel" || r.Signatures[1].Field != "inspector" {
		t.Fatalf("%v, %+v", err, r)
	}
	again, err := seal.Countersign(first, second)
	if err != nil || !bytes.Equal(again, data) {
		t.Errorf("the second time other bytes, %v", err)
	}
	if _, err := seal.Countersign(data, second); keyOfError(err) != "seal.no-field" {
		t.Errorf("a third one: %v", err)
	}
	if _, err := seal.Countersign(append(bytes.Clone(first), "more\n"...), second); say.CodeOf(err) != say.Conflict {
		t.Errorf("of a file with something added: %v", err)
	}
}

func keyOfError(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}

func TestRefusedSigners(t *testing.T) {
	good := signer(t, "M. Ashlock", "P-256")
	for _, c := range []struct {
		name, key string
		change    func(s *seal.Signer)
	}{
		{"no key", "seal.no-key", func(s *seal.Signer) { s.Key = nil }},
		{"no certificate", "seal.no-key", func(s *seal.Signer) { s.Chain = nil }},
		{"Ed25519", "seal.key-kind", func(s *seal.Signer) { *s = signer(t, "M. Ashlock", "Ed25519") }},
		{"P-521", "seal.key-kind", func(s *seal.Signer) { *s = signer(t, "M. Ashlock", "P-521") }},
		{"another's certificate", "seal.other-key", func(s *seal.Signer) { s.Chain = signer(t, "J. Peverel", "P-384").Chain }},
		{"before it holds", "seal.not-yet", func(s *seal.Signer) { s.When = begins.Add(-time.Second) }},
		{"after it held", "seal.expired", func(s *seal.Signer) { s.When = ends.Add(time.Second) }},
		{"a name that breaks lines", "seal.name", func(s *seal.Signer) { s.Name = "M.\nAshlock" }},
		{"a name that is no text", "seal.name", func(s *seal.Signer) { s.Name = "M. \xff" }},
		{"too many certificates", "seal.long-chain", func(s *seal.Signer) {
			for range 60 {
				s.Chain = append(s.Chain, s.Chain[1])
			}
		}},
		{"a root of the same name that did not sign it", "seal.chain", func(s *seal.Signer) {
			s.Chain = []*x509.Certificate{s.Chain[0], certified(t, "root of M. Ashlock", 1, keyOf(t, "P-384"), nil, nil)}
		}},
		{"a chain without its root", "seal.chain", func(s *seal.Signer) { s.Chain = []*x509.Certificate{s.Chain[0], s.Chain[0]} }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := good
			c.change(&s)
			data, err := seal.Seal(pages(t), sealing(s))
			if keyOfError(err) != c.key || say.CodeOf(err) != say.Invalid || data != nil {
				t.Errorf("%v, want %s", err, c.key)
			}
		})
	}
}

// Names of any script come out as they went in.
func TestNames(t *testing.T) {
	for _, name := range []string{"Jürgen (Kopf) \\ 2", "עדי לוי", "李 工", "Zoë 🔧", "a)b(c<d>e%/#[", "  "} {
		s := signer(t, "signer", "P-256")
		s.Name, s.Reason = name, name
		in := sealing(s)
		in.Title, in.Fields[0].Name = name, "shop "+name
		data, err := seal.Seal(pages(t), in)
		if err != nil {
			t.Fatal(err)
		}
		r, err := seal.Check(data)
		if err != nil || !r.Whole() || r.Signatures[0].Name != name || r.Signatures[0].Reason != name || r.Title != name || r.Signatures[0].Field != "shop "+name {
			t.Errorf("%q: %v, %+v", name, err, r)
		}
	}
}

// What was not sealed says so, each in its own words.
func TestNotSealed(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		key  string
	}{
		"nothing":          {nil, "seal.foreign"},
		"a text":           {[]byte("to whom it may concern"), "seal.foreign"},
		"pages without it": {pages(t), "seal.unsigned"},
		"half a file":      {sealed(t, signer(t, "M. Ashlock", "P-256"))[:9000], "seal.foreign"},
		"far too big":      {make([]byte, 40<<20), "seal.big"},
	} {
		if r, err := seal.Check(c.data); keyOfError(err) != c.key || len(r.Signatures) > 0 {
			t.Errorf("%s: %v, %+v", name, err, r)
		}
	}
	if _, err := seal.Seal(sealed(t, signer(t, "M. Ashlock", "P-256")), sealing(signer(t, "M. Ashlock", "P-256"))); err != nil {
		t.Logf("sealed again: %v", err) // one revision is one revision; what matters is that nothing breaks
	}
	if _, err := seal.Seal([]byte("%PDF-1.4\n"), sealing(signer(t, "M. Ashlock", "P-256"))); keyOfError(err) != "seal.foreign" {
		t.Error(err)
	}
}

// A certificate that leads nowhere is what trust can be given to by itself; one whose root came along is given by that.
func TestRootOfTrust(t *testing.T) {
	s := signer(t, "M. Ashlock", "P-256")
	s.Chain = s.Chain[:1]
	r, err := seal.Check(sealed(t, s))
	if err != nil || !r.Whole() || r.Signatures[0].Chained || r.Signatures[0].Root != sha256.Sum256(s.Chain[0].Raw) {
		t.Errorf("%v, %+v", err, r)
	}
}

func BenchmarkSeal(b *testing.B) {
	s, p := sealing(signer(b, "M. Ashlock", "P-256")), pages(b)
	for b.Loop() {
		if _, err := seal.Seal(p, s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	data := sealed(b, signer(b, "M. Ashlock", "P-256"))
	for b.Loop() {
		if r, err := seal.Check(data); err != nil || !r.Whole() {
			b.Fatal(err)
		}
	}
}

// changes are what somebody may try who wants another sheet to be taken for the signed one.
func changes(t testing.TB, data []byte) map[string][]byte {
	other := sealed(t, signer(t, "J. Peverel", "P-384"))
	swap := func(old, new string) []byte {
		if !bytes.Contains(data, []byte(old)) {
			t.Fatalf("%q is not in the file", old)
		}
		return bytes.Replace(bytes.Clone(data), []byte(old), []byte(new), 1)
	}
	contents := func(d []byte) (int, int) {
		from := bytes.Index(d, []byte("/Contents <")) + len("/Contents ")
		return from, from + bytes.IndexByte(d[from:], '>') + 1
	}
	moved := bytes.Clone(data)
	from, to := contents(other)
	at, _ := contents(data)
	copy(moved[at:], other[from:to])
	// An update that puts another object in the place of the first page, in the way of the format.
	start := bytes.LastIndex(data, []byte("startxref\n"))
	var old int
	fmt.Sscan(string(data[start+len("startxref\n"):]), &old)
	update := func(num int, body string) []byte {
		var b bytes.Buffer
		b.Write(data)
		off := b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", num, body)
		xref := b.Len()
		trailer := data[bytes.LastIndex(data, []byte("trailer\n")):start]
		fmt.Fprintf(&b, "xref\n%d 1\n%010d 00000 n \n%sstartxref\n%d\n%%%%EOF\n", num, off,
			strings.Replace(string(trailer), ">>", fmt.Sprintf("/Prev %d\n>>", old), 1), xref)
		return b.Bytes()
	}
	attached := swap("/AFRelationship /Source", "/AFRelationship /Data  ")
	return map[string][]byte{
		"something behind it":              append(bytes.Clone(data), "\n% seen\n"...),
		"cut short":                        data[:len(data)-1],
		"another's signature":              moved,
		"another name":                     swap("4D2E2041", "4D2E2042"),
		"a wider hole":                     swap("/ByteRange [0 00", "/ByteRange [0 01"),
		"no byte range":                    swap("/ByteRange", "/ByteRangf"),
		"no signature":                     swap("/Contents <", "/Contentz <"),
		"another kind of signature":        swap("ETSI.CAdES.detached", "ETSI.RFC3161.xxxxxx"),
		"another relation of the record":   attached,
		"an update of a page":              update(3, "<</Type /Page /Parent 1 0 R /Resources 2 0 R /Contents 4 0 R>>"),
		"an update of the form":            update(99, "<</Type /Sig>>"),
		"the file twice":                   append(bytes.Clone(data), data...),
		"an update that seems a signature": update(200, "<</Type /Sig /SubFilter /ETSI.CAdES.detached /ByteRange [0 0 0 0] /Contents <00>>>"),
	}
}

func TestChangedIsNotWhole(t *testing.T) {
	data := sealed(t, signer(t, "M. Ashlock", "P-256"))
	for name, changed := range changes(t, data) {
		t.Run(name, func(t *testing.T) {
			r, err := seal.Check(changed)
			if err == nil && r.Whole() {
				t.Errorf("it is called whole: %+v", r)
			}
		})
	}
	// One that was only added to says so, and that what was signed is as it was.
	r, err := seal.Check(changes(t, data)["an update of a page"])
	if err != nil || !r.Added || len(r.Signatures) != 1 || !r.Signatures[0].Whole {
		t.Errorf("%v, %+v", err, r)
	}
}

// Of single bytes none can be changed: a sample of them is here, all of them behind -every.
func TestNoByteCanBeChanged(t *testing.T) {
	data := sealed(t, signer(t, "M. Ashlock", "P-256"))
	both, err := seal.Countersign(data, signer(t, "J. Peverel", "P-384"))
	if err != nil {
		t.Fatal(err)
	}
	step := 37
	switch {
	case *every:
		step = 1
	case testing.Short():
		step = 997
	}
	tried := 0
	for at := 0; at < len(both); at += step {
		changed := bytes.Clone(both)
		changed[at] ^= 1 << (at % 8)
		if r, err := seal.Check(changed); err == nil && r.Whole() {
			t.Fatalf("byte %d of %d was changed from %q to %q, and it is called whole", at, len(both), both[at], changed[at])
		}
		tried++
	}
	t.Logf("%d of %d bytes", tried, len(both))
}

// FuzzCheck: nothing crashes, and nothing but what was sealed is whole by that signer. Others have keys of their own, as
// every process of the fuzzer has.
func FuzzCheck(f *testing.F) {
	s := signer(f, "M. Ashlock", "P-256")
	data, own := sealed(f, s), sha256.Sum256(s.Chain[1].Raw)
	f.Add(data)
	f.Add(pages(f))
	for _, changed := range changes(f, data) {
		f.Add(changed)
	}
	ofNothing := sha256.Sum256(nil)
	f.Fuzz(func(t *testing.T, in []byte) {
		r, err := seal.Check(in)
		if err == nil && r.Whole() && r.Signatures[0].Root == own && !bytes.Equal(in, data) {
			t.Errorf("whole: %d bytes", len(in))
		}
		// What is read of a file besides has to end, with whatever answer.
		if is, err := seal.Drawing(in); err == nil && bytes.Equal(is, ofNothing[:]) {
			t.Error("nothing is drawn, and that is no fault")
		}
		if all, err := seal.Places(in); err == nil && len(all) == 0 {
			t.Error("a form without a place")
		}
		if _, err := seal.Next(in); err == nil && len(r.Signatures) == 0 && r.Record != nil {
			t.Error("a place is free in a file that nobody signed first")
		}
	})
}
