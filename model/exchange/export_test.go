package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/gowebpki/jcs"
	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func TestEveryRecordComesBackEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, f := drawRecord(t), drawFigures(t)
		print, err := Fingerprint(&r)
		if err != nil {
			t.Fatal(err)
		}
		text, err := Export(&r, f)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := Decode(text)
		if err != nil {
			t.Fatal(err)
		}
		want := Document{Record: r, Figures: f, Fingerprint: print, Format: record.Format}
		if diff := cmp.Diff(want, doc, cmpopts.EquateEmpty()); diff != "" {
			t.Fatal(diff)
		}
		again, err := Export(&doc.Record, doc.Figures)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(text, again) {
			t.Fatalf("other bytes the second time:\n%s\n%s", text, again)
		}
	})
}

func TestAnIndentedDocumentIsTheSameDocument(t *testing.T) {
	r := sample()
	text, err := Export(&r, sampleFigures())
	if err != nil {
		t.Fatal(err)
	}
	var indented bytes.Buffer
	if err := json.Indent(&indented, text, "", "\t"); err != nil {
		t.Fatal(err)
	}
	doc, err := Decode(indented.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(r, doc.Record); diff != "" {
		t.Error(diff)
	}
}

func TestTheFingerprintIsOfTheRecordAlone(t *testing.T) {
	r := sample()
	print, err := Fingerprint(&r)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []record.Figures{{}, sampleFigures()} {
		text, err := Export(&r, f)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(text, []byte(`"fingerprint":"`+print+`"`)) {
			t.Errorf("fingerprint %s is not in %s", print, text)
		}
	}
	r.Setup.Readings[0].Quantity = of("1.8420", unit.In)
	if other, _ := Fingerprint(&r); other == print {
		t.Error("a trailing nought in a reading does not change the fingerprint")
	}
}

// The figure was made by this program when format 3 was settled: a record once exported keeps its
// bytes for ever, whatever the program becomes. Those of earlier formats are in formats_test.go.
func TestRecordKeepsItsFingerprint(t *testing.T) {
	r := sample()
	print, err := Fingerprint(&r)
	if err != nil {
		t.Fatal(err)
	}
	if want := "393e5d56bd368e885a65ca0aadbb7d2ac04ff0caa44f3c18fac6840640c3cc02"; print != want {
		t.Errorf("fingerprint %s, was %s", print, want)
	}
}

// Input and order of RFC 8785, section 3.2.3 (sorting of object properties); from memory.
func TestKeysAreSortedByUTF16(t *testing.T) {
	in := `{
		"\u20ac": "Euro Sign",
		"\r": "Carriage Return",
		"\ufb33": "Hebrew Letter Dalet With Dagesh",
		"1": "One",
		"\ud83d\ude00": "Emoji: Grinning Face",
		"\u0080": "Control",
		"\u00f6": "Latin Small Letter O With Diaeresis"
	}`
	want := "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\"," +
		"\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\"," +
		"\"😀\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}"
	direct, err := jcs.Transform([]byte(in))
	if err != nil {
		t.Fatal(err)
	}
	if string(direct) != want {
		t.Errorf("the library gives\n%q, want\n%q", direct, want)
	}
	var m map[string]string
	if err := json.Unmarshal([]byte(in), &m); err != nil {
		t.Fatal(err)
	}
	ours, err := canonical(m)
	if err != nil {
		t.Fatal(err)
	}
	if string(ours) != want {
		t.Errorf("canonical gives\n%q, want\n%q", ours, want)
	}
}

func TestExportRefusesWhatCouldNotBeReadAgain(t *testing.T) {
	tests := []struct {
		name   string
		change func(*record.Record)
		key    string
		field  string
	}{
		{"broken UTF-8", func(r *record.Record) { r.Shop.Name = "caf\xe9" }, "exchange.broken-text", "/record/shop/name"},
		{"NUL", func(r *record.Record) { r.Setup.Readings[1].Note = "a\x00" }, "exchange.nul", "/record/setup/readings/1/note"},
		{"a part that is not there", func(r *record.Record) { r.Parts.Seals = nil }, "exchange.not-there", "/record/setup/packages/0/seal"},
		{"what cannot be", func(r *record.Record) { r.Gauges[1].Calibration.K = "0" }, "exchange.doubt", "/record/gauges/1/calibration"},
		{"no rules", func(r *record.Record) { r.Setup.Rules = record.Rules{} }, "exchange.decimal", "/record/setup/rules/agree/read"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := sample()
			test.change(&r)
			text, err := Export(&r, sampleFigures())
			if text != nil {
				t.Errorf("bytes all the same: %s", text)
			}
			refused(t, err, say.Invalid, test.key, test.field)
		})
	}
	t.Run("figures", func(t *testing.T) {
		r, f := sample(), sampleFigures()
		f.Summary = "\xff"
		_, err := Export(&r, f)
		refused(t, err, say.Invalid, "exchange.broken-text", "/figures/summary")
	})
	t.Run("too big", func(t *testing.T) {
		r := sample()
		r.Setup.Note = strings.Repeat("long ", MaxDocument/5)
		_, err := Export(&r, sampleFigures())
		refused(t, err, say.Invalid, "exchange.too-big", "")
	})
}

// A record written by hand brings neither fingerprint nor figures and is taken all the same.
func TestDecodeByHand(t *testing.T) {
	r := sample()
	body, err := canonicalRecord(&r)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := Decode(fmt.Appendf(nil, `{"format":3,"kind":"keeperbook-record","record":%s}`, body))
	if err != nil {
		t.Fatal(err)
	}
	if doc.Fingerprint != fingerprint(body) || len(doc.Figures.Rows) != 0 {
		t.Errorf("fingerprint %s, %d figures", doc.Fingerprint, len(doc.Figures.Rows))
	}
}

// What a book keeps can be exported: a coverage factor that passes there passes the schema, and no other.
func TestFactorsPassBothOrNeither(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := sample()
		k := rapid.OneOf(rapid.StringMatching(`[0-9]{0,7}(\.[0-9]{0,5})?`), rapid.StringMatching(`[-+0-9.,e ]{0,4}`)).Draw(t, "k")
		r.Gauges[1].Calibration.K = k
		_, err := Export(&r, sampleFigures())
		if kept := record.Doubt(r.Gauges[1], ""); (kept == nil) != (err == nil) {
			t.Fatalf("%q: the book says %v, the export %v", k, kept, err)
		}
	})
}
