package task

import (
	"bytes"
	"encoding/hex"
	"slices"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// Verified is what was found of a sheet: three answers that are not to be mixed up, and what it carries.
type Verified struct {
	Whole      bool             // every signature holds, and nothing was added
	Added      bool             // something was put behind what was signed
	Signatures []seal.Signature // in the order in which they were made
	Record     *record.Record   // that rides in it; nil where none does that can be read
	Print      string           // its fingerprint
	Pages      Pages            // whether the pages are those of the record
}

// Pages says how the pages of a sheet stand to the record that rides in it.
type Pages string

// How they may stand.
const (
	PagesAgree   Pages = "agree"   // they are what this program makes of the record
	PagesUnknown Pages = "unknown" // this program makes other pages of it: another version made them
)

// Verify looks at a sheet. It fails (say.Invalid, say.NotFound) with a file that is none of this program's, or unsigned.
func Verify(file []byte) (Verified, error) {
	r, err := seal.Check(file)
	if err != nil {
		return Verified{}, err
	}
	v := Verified{Whole: r.Whole(), Added: r.Added, Signatures: r.Signatures}
	doc, err := exchange.Decode(r.Record)
	if err != nil {
		return v, nil // it was signed with something else in it, and says so
	}
	v.Record, v.Pages = &doc.Record, PagesUnknown
	if v.Print, err = exchange.Fingerprint(v.Record); err != nil {
		return v, err
	}
	if madeOf(file, v.Record, r) {
		v.Pages = PagesAgree
	}
	return v, nil
}

// madeOf reports whether the pages of a sheet, and the places of signatures on them, are those that this program makes of a
// record.
func madeOf(file []byte, rec *record.Record, r seal.Report) bool {
	is, err := seal.Drawing(file)
	if err != nil {
		return false
	}
	places, err := seal.Places(file)
	if err != nil {
		return false
	}
	first := r.Signatures[0]
	s := Signature{Key: seal.Signer{Ink: first.Ink}, Name: first.Name, Role: first.Reason, When: first.When, Second: r.Places > 1}
	for _, s.Paper = range []Paper{A4, Letter} {
		sheet, _, err := signedSheet(rec, s)
		if err != nil {
			return false
		}
		kept, err := pdf.Fields(sheet)
		if err != nil || !slices.Equal(kept, places) {
			continue
		}
		var made bytes.Buffer
		if err := pdf.Write(&made, sheet); err != nil {
			return false
		}
		if drawn, err := seal.Drawing(made.Bytes()); err == nil && bytes.Equal(is, drawn) {
			return true
		}
	}
	return false
}

// Lines say what was found, in the order in which somebody asks.
func (v Verified) Lines() (lines []say.Line) {
	key := "verify.changed"
	switch {
	case v.Whole:
		key = "verify.whole"
	case v.Added && allWhole(v.Signatures):
		key = "verify.added"
	}
	lines = append(lines, say.New(key))
	for _, s := range v.Signatures {
		if !s.Whole {
			lines = append(lines, say.New("verify.no-signature", s.Name, s.Field))
			continue
		}
		lines = append(lines, say.New("verify.signed", s.Name, s.When.Format("2006-01-02 15:04"), s.Subject))
		if !s.Held {
			lines = append(lines, say.New("verify.expired", s.Until.Format("2006-01-02")))
		}
		root := "verify.root"
		if !s.Chained {
			root = "verify.alone"
		}
		lines = append(lines, say.New(root, hex.EncodeToString(s.Root[:])))
	}
	if v.Record == nil {
		return append(lines, say.New("verify.no-record"))
	}
	return append(lines, say.New("verify.record", v.Record.Head.Tag, v.Print), say.New("verify.pages-"+string(v.Pages)))
}

func allWhole(all []seal.Signature) bool {
	return !slices.ContainsFunc(all, func(s seal.Signature) bool { return !s.Whole })
}
