package seal

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"time"

	"keeperbook/model/say"
)

// Report is what a file says of itself. That it is whole, who signed it, and whether something was added are three answers.
type Report struct {
	Signatures []Signature // in the order in which they were made
	Added      bool        // something was put behind what was signed
	Record     []byte      // attached, as the first signer signed it
	Places     int         // kept for signatures, those that are filled among them
	Title      string
	Language   string // that the pages say they are in; "" where they do not
}

// Signature is one signature of a file.
type Signature struct {
	Field   string // that it fills
	Name    string // as the signer says it
	Reason  string
	When    time.Time         // the moment as the signer says it; no clock but the signer's stands behind it
	Whole   bool              // what it covers is as it was when it was signed, with the key of this certificate
	Subject string            // of the certificate; "" where the signature does not hold
	Until   time.Time         // the certificate holds up to then
	Held    bool              // the certificate held at that moment
	Chained bool              // it leads to a root that came along
	Ink     Ink               // drawn by hand; nil where nothing was
	Root    [sha256.Size]byte // fingerprint of that root, else of the certificate itself: what trust is given to
}

// Whole reports whether every signature holds and nothing was added.
func (r Report) Whole() bool {
	for _, s := range r.Signatures {
		if !s.Whole {
			return false
		}
	}
	return len(r.Signatures) > 0 && !r.Added
}

// mostEnds is how many ends of revisions are looked at; bytes that look like one lie in packed streams too.
const mostEnds = 64

// Check looks at a file. It fails (say.Invalid) with a file that this program did not seal, or that is too damaged to be
// read; of a file that was changed it returns what is known.
func Check(data []byte) (Report, error) {
	if len(data) > MostBytes {
		return Report{}, say.Fail(say.Invalid, "seal.big", len(data)>>20, MostBytes>>20)
	}
	var r Report
	before := 0 // end of the revision that was looked at last
	mark := []byte("\n%%EOF\n")
	for at, n := 0, 0; n < mostEnds; n++ {
		i := bytes.Index(data[at:], mark)
		if i < 0 {
			break
		}
		at += i + len(mark)
		f, err := read(data[:at])
		if err != nil {
			continue // it only looks like an end
		}
		s, ok := f.newest()
		if !ok {
			break
		}
		if before > 0 && !asMade(data[:before], data[:at], s) {
			break
		}
		if before == 0 {
			if err = f.attached(&r); err != nil {
				return Report{}, err
			}
			fields, err := f.fields()
			if err != nil {
				return Report{}, err
			}
			r.Places = len(fields)
		}
		r.Signatures = append(r.Signatures, f.prove(s))
		before = at
	}
	if before == 0 {
		if _, err := read(data); err != nil {
			return Report{}, err
		}
		return Report{}, say.Fail(say.NotFound, "seal.unsigned")
	}
	r.Added = before != len(data)
	return r, nil
}

// found is the signature that covers a revision.
type found struct {
	num               int // of its dictionary
	field             string
	when, who, reason text
	words             []byte // of its look
	ink               Ink
	seen              bool   // its look is one that this program draws
	hole              [2]int // where it stands
	contents          []byte
}

// newest finds the one signature that covers the file to its end; false where there is none, or where one does not cover
// everything but itself.
func (f *file) newest() (found, bool) {
	fields, err := f.fields()
	if err != nil {
		return found{}, false
	}
	for _, one := range fields {
		r, ok := one.dict["V"].(ref)
		if !ok || one.dict["FT"] != name("Sig") {
			continue
		}
		spans := map[name][2]int{}
		v, _, _, err := f.objectWith(r.num, spans)
		d, isDict := v.(dict)
		if err != nil || !isDict || d["Type"] != name("Sig") || d["SubFilter"] != name("ETSI.CAdES.detached") {
			return found{}, false
		}
		hole := spans["Contents"]
		contents, ok := d["Contents"].(text)
		if !ok || string(f.data[hole[0]:hole[1]]) != fmt.Sprintf("<%X>", []byte(contents)) {
			return found{}, false
		}
		rng := spans["ByteRange"]
		if string(f.data[rng[0]:rng[1]]) != fmt.Sprintf("[0 %010d %010d %010d]", hole[0], hole[1], len(f.data)-hole[1]) {
			continue // it covers an earlier revision, or none
		}
		s := found{num: r.num, hole: hole, contents: contents}
		field, _ := one.dict["T"].(text)
		s.field = field.String()
		s.when, _ = d["M"].(text)
		s.who, _ = d["Name"].(text)
		s.reason, _ = d["Reason"].(text)
		s.words, s.ink, s.seen = f.lookOf(one.dict)
		return s, true
	}
	return found{}, false
}

// prove says of a signature who made it and whether it holds.
func (f *file) prove(s found) Signature {
	out := Signature{Field: s.field, Name: s.who.String(), Reason: s.reason.String(), Ink: s.ink}
	when, err := time.Parse("D:20060102150405Z", string(s.when))
	if err == nil {
		out.When = when
	}
	chain, ok := prove(s.contents, digestAround(f.data, s.hole))
	if !ok || err != nil || !s.seen {
		return out // also what is drawn in its place is part of it: nothing else may stand there
	}
	leaf, root := chain[0], chain[len(chain)-1]
	out.Whole, out.Subject, out.Until = true, leaf.Subject.CommonName, leaf.NotAfter
	out.Held = !when.Before(leaf.NotBefore) && !when.After(leaf.NotAfter)
	out.Chained, out.Root = len(chain) > 1, sha256.Sum256(root.Raw)
	return out
}

// attached takes the record out of a file, its title and its language.
func (f *file) attached(to *Report) error {
	catalog, err := f.dictAt(f.trailer["Root"])
	if err != nil {
		return err
	}
	files, ok := catalog["AF"].(array)
	if !ok || len(files) != 1 {
		return errForeign
	}
	spec, err := f.dictAt(files[0])
	if err != nil {
		return err
	}
	ef, err := f.dictAt(spec["EF"])
	if err != nil {
		return err
	}
	r, ok := ef["F"].(ref)
	if !ok {
		return errForeign
	}
	v, _, _, err := f.object(r.num)
	s, ok := v.(stream)
	if err != nil || !ok {
		return errForeign
	}
	if to.Record, err = s.unpacked(); err != nil {
		return err
	}
	info, err := f.dictAt(f.trailer["Info"])
	if err != nil {
		return err
	}
	title, _ := info["Title"].(text)
	language, _ := catalog["Lang"].(text)
	to.Title, to.Language = title.String(), language.String()
	return nil
}
