package exchange

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"github.com/gowebpki/jcs"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Kind is the word by which an exported record is known.
const Kind = "keeperbook-record"

// MaxDocument is the most bytes an exported record may have. A head of 64 valves with every reading
// taken three times is about a seventh of it.
const MaxDocument = 8 << 20

// Document is an exported record.
type Document struct {
	Record      record.Record
	Figures     record.Figures  // as they were printed when it was exported; none where the document brought none
	History     *record.History // of the book that it was signed in; nil where it was not signed
	Fingerprint string          // of the record, 64 hexadecimal digits
	Format      int             // the version of the form it came in
}

// envelope is the document as it stands in JSON.
type envelope struct {
	Figures     *record.Figures `json:"figures,omitempty"`
	Fingerprint string          `json:"fingerprint,omitempty"`
	Format      int             `json:"format"`
	History     *record.History `json:"history,omitempty"`
	Kind        string          `json:"kind"`
	Record      record.Record   `json:"record"`
}

// Fingerprint returns the SHA-256 of the record's canonical bytes as 64 hexadecimal digits. It fails
// with code Invalid where a text of the record cannot be written.
func Fingerprint(r *record.Record) (string, error) {
	text, err := canonicalRecord(r)
	if err != nil {
		return "", err
	}
	return fingerprint(text), nil
}

func fingerprint(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// Export returns the record with the figures printed from it as canonical JSON. The same record and
// figures give the same bytes, always. It fails with code Invalid where [Decode] would refuse the
// outcome, so that nothing is handed out that cannot be taken in again.
func Export(r *record.Record, f record.Figures) ([]byte, error) { return ExportSigned(r, f, nil) }

// ExportSigned is [Export] of a record that is signed, with the end of the history of its book; nil is none.
func ExportSigned(r *record.Record, f record.Figures, h *record.History) ([]byte, error) {
	body, err := canonicalRecord(r)
	if err != nil {
		return nil, err
	}
	if err := writable(&f, "figures"); err != nil {
		return nil, err
	}
	figures, err := canonical(filledFigures(f))
	if err != nil {
		return nil, err
	}
	history := ""
	if h != nil {
		text, err := canonical(h)
		if err != nil {
			return nil, err
		}
		history = fmt.Sprintf(`"history":%s,`, text)
	}
	// The keys stand in the order that RFC 8785 sorts them into, so the whole is canonical as its parts are.
	text := fmt.Appendf(nil, `{"figures":%s,"fingerprint":"%s","format":%d,%s"kind":"%s","record":%s}`,
		figures, fingerprint(body), record.Format, history, Kind, body)
	if _, err := Decode(text); err != nil {
		return nil, err
	}
	return text, nil
}

// canonicalRecord returns the bytes that the fingerprint is made of.
func canonicalRecord(r *record.Record) ([]byte, error) {
	if err := writable(r, "record"); err != nil {
		return nil, err
	}
	return canonical(filled(r))
}

// canonical returns the value in the form of RFC 8785.
func canonical(v any) ([]byte, error) {
	text, err := json.Marshal(v)
	if err == nil {
		text, err = jcs.Transform(text)
	}
	if err != nil {
		return nil, say.Fail(say.Internal, "exchange.cannot-write").From(err)
	}
	return text, nil
}

// filled returns a copy in which lists that are always written are empty rather than nil, which Go
// would write as null.
func filled(r *record.Record) record.Record {
	c := *r
	c.Head.Cylinders = list(c.Head.Cylinders)
	c.Setup.Rules.Sizes = list(c.Setup.Rules.Sizes)
	c.Parts.Springs = append([]record.Spring(nil), c.Parts.Springs...)
	for i := range c.Parts.Springs {
		c.Parts.Springs[i].Coils = list(c.Parts.Springs[i].Coils)
	}
	return c
}

func filledFigures(f record.Figures) record.Figures {
	f.Columns = list(f.Columns)
	f.Rows = append([]record.Row{}, f.Rows...)
	for i := range f.Rows {
		f.Rows[i].Cells = list(f.Rows[i].Cells)
	}
	return f
}

func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// strictly decodes JSON, and refuses keys that the types do not have.
func strictly(data []byte, into any) error {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(into); err != nil {
		return place{}.fail("exchange.form").From(err)
	}
	return nil
}
