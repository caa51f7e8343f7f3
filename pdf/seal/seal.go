package seal

import (
	"bytes"
	"compress/zlib"
	"crypto"
	"crypto/sha256"
	"crypto/x509"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode"

	"keeperbook/model/say"
)

// Signer signs: a key with its certificate and those that lead from it to a root.
type Signer struct {
	Key    crypto.Signer
	Chain  []*x509.Certificate // the key's own first
	Name   string              // as it stands beside the signature
	Reason string              // what the signer signs as, or for; may be empty
	When   time.Time           // the moment as the signer says it
	Ink    Ink                 // drawn by hand; nil where nothing was
	Words  []byte              // drawn in the place beside the ink: paths, filled, in points from its lower left corner
}

// Field is a place on a page for a signature, in points from the lower left corner.
type Field struct {
	Name string
	Page int // counted from 1
	Rect [4]float64
}

// Sealing is what goes into a file beside its pages.
type Sealing struct {
	Title    string
	Language string    // of the pages, as a tag of BCP 47 (ISO 32000-2 §14.9.2); "" where nobody says
	Made     time.Time // of the pages
	Record   []byte    // attached as [RecordName]
	Fields   []Field   // the first is signed now, the others are kept for [Countersign]
	Signer   Signer
}

// RecordName is what the attached record is called.
const RecordName = "keeperbook-record.json"

// reserved is how many bytes a signature may take: three RSA certificates of 4096 bits fit.
const reserved = 12 << 10

// Seal returns the pages sealed. They have to be a file of one revision, as the sheet is written. It refuses (say.Invalid) a
// key that readers do not know, one that is not its certificate's, and a certificate that does not hold at the moment.
func Seal(pages []byte, s Sealing) ([]byte, error) {
	if err := s.Signer.Ready(); err != nil {
		return nil, err
	}
	f, err := read(pages)
	if err != nil {
		return nil, err
	}
	w, err := newWriter(f, s)
	if err != nil {
		return nil, err
	}
	return w.signed(s.Signer)
}

// Ready refuses (say.Invalid) whoever cannot sign at that moment: a key that readers do not know, one that is not its
// certificate's, a certificate that does not hold, and a name or drawing that cannot be written.
func (s Signer) Ready() error {
	switch {
	case s.Key == nil || len(s.Chain) == 0:
		return say.Fail(say.Invalid, "seal.no-key")
	case !paths(s.Words) || len(s.Words) > mostLook/2:
		return errForeign
	case !writable(s.Name + s.Reason):
		return say.Fail(say.Invalid, "seal.name")
	}
	if err := s.Ink.Check(); err != nil {
		return err
	}
	if _, err := algorithmOf(s.Key.Public()); err != nil {
		return err
	}
	leaf := s.Chain[0]
	if own, ok := s.Key.Public().(interface{ Equal(crypto.PublicKey) bool }); !ok || !own.Equal(leaf.PublicKey) {
		return say.Fail(say.Invalid, "seal.other-key")
	}
	if !leads(s.Chain) {
		return say.Fail(say.Invalid, "seal.chain")
	}
	switch {
	case s.When.Before(leaf.NotBefore):
		return say.Fail(say.Invalid, "seal.not-yet", say.DayOf(leaf.NotBefore.UTC()))
	case s.When.After(leaf.NotAfter):
		return say.Fail(say.Invalid, "seal.expired", say.DayOf(leaf.NotAfter.UTC()))
	}
	return nil
}

// writable reports whether a text can be written as it is.
func writable(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) || r == unicode.ReplacementChar })
}

// writer writes a revision, object by object.
type writer struct {
	b       bytes.Buffer
	offsets map[int]int
	next    int // number of the next new object
	trailer dict
	sig     int   // number of the signature dictionary
	fields  []int // numbers of the fields
}

func (w *writer) add() int {
	w.next++
	return w.next - 1
}

func (w *writer) put(num int, v any) {
	w.offsets[num] = w.b.Len()
	fmt.Fprintf(&w.b, "%d 0 obj\n", num)
	write(&w.b, v)
	w.b.WriteString("\nendobj\n")
}

// newWriter copies the pages and adds what makes them a sealed document; the signature is written last.
func newWriter(f *file, s Sealing) (*writer, error) {
	root, ok := f.trailer["Root"].(ref)
	if !ok || len(f.starts) != 1 || len(s.Fields) == 0 {
		return nil, errForeign
	}
	catalog, err := f.dictAt(root)
	if err != nil {
		return nil, err
	}
	pages, err := f.pages(catalog)
	if err != nil {
		return nil, err
	}
	w := &writer{offsets: map[int]int{}, next: f.size}
	w.b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	changed := map[int]any{}
	made := pdfDate(s.Made)
	info := dict{"Producer": textOf("Keeperbook"), "Title": textOf(s.Title), "CreationDate": made, "ModDate": made}
	infoAt, ok := f.trailer["Info"].(ref)
	if !ok {
		return nil, errForeign
	}
	changed[infoAt.num] = info

	meta, icc, attached, spec, bare := w.add(), w.add(), w.add(), w.add(), w.add()
	signed := bare
	if len(s.Signer.Ink)+len(s.Signer.Words) > 0 {
		signed = w.add()
	}
	for range s.Fields {
		w.fields = append(w.fields, w.add())
	}
	w.sig = w.add()

	catalog = maps.Clone(catalog)
	if s.Language != "" {
		catalog["Lang"] = textOf(s.Language)
	}
	catalog["Metadata"] = ref{meta, 0}
	catalog["OutputIntents"] = array{dict{"Type": name("OutputIntent"), "S": name("GTS_PDFA1"), "OutputConditionIdentifier": textOf("RGB, gamma 2.2"),
		"Info": textOf("RGB, gamma 2.2"), "DestOutputProfile": ref{icc, 0}}}
	catalog["AF"] = array{ref{spec, 0}}
	catalog["Names"] = dict{"EmbeddedFiles": dict{"Names": array{textOf(RecordName), ref{spec, 0}}}}
	fields := array{}
	for _, n := range w.fields {
		fields = append(fields, ref{n, 0})
	}
	catalog["AcroForm"] = dict{"Fields": fields, "SigFlags": 3}
	catalog["Perms"] = dict{"DocMDP": ref{w.sig, 0}}
	changed[root.num] = catalog

	for i, field := range s.Fields {
		if field.Page < 1 || field.Page > len(pages) {
			return nil, errForeign
		}
		at := pages[field.Page-1]
		page, ok := changed[at].(dict)
		if !ok {
			if page, err = f.dictAt(ref{at, 0}); err != nil {
				return nil, err
			}
			page = maps.Clone(page)
		}
		annots, _ := page["Annots"].(array)
		page["Annots"] = append(slices.Clone(annots), ref{w.fields[i], 0})
		changed[at] = page
		changed[w.fields[i]] = widget(field, at, bare)
		if i == 0 {
			width, height := field.size()
			changed[signed] = form(look(s.Signer.Words, s.Signer.Ink, width, height), width, height)
			changed[w.fields[i]] = widget(field, at, signed)
			changed[w.fields[i]].(dict)["V"] = ref{w.sig, 0}
		}
	}
	changed[meta] = stream{dict{"Type": name("Metadata"), "Subtype": name("XML")}, metadata(s.Title, s.Made)}
	changed[icc] = packed(dict{"N": 3}, profile())
	changed[attached] = packed(dict{"Type": name("EmbeddedFile"), "Subtype": name("application/json"),
		"Params": dict{"Size": len(s.Record), "ModDate": made}}, s.Record)
	changed[spec] = dict{"Type": name("Filespec"), "F": textOf(RecordName), "UF": textOf(RecordName), "AFRelationship": name("Source"),
		"Desc": textOf("the record that these pages show"), "EF": dict{"F": ref{attached, 0}, "UF": ref{attached, 0}}}
	changed[bare] = form(nil, 1, 1) // readers ask for a look of every field

	for num := 1; num < w.next; num++ {
		if num == w.sig {
			continue
		}
		if v, ok := changed[num]; ok {
			w.put(num, lengthened(v))
			continue
		}
		if _, there := f.objects[num]; !there {
			return nil, errForeign
		}
		_, from, to, err := f.object(num)
		if err != nil {
			return nil, err
		}
		w.put(num, raw(f.data[from:to]))
	}
	id := sha256.Sum256(s.Record)
	w.trailer = dict{"Root": root, "Info": infoAt, "ID": array{text(id[:16]), text(id[:16])}}
	return w, nil
}

// packed is a stream of bytes, deflated.
func packed(d dict, data []byte) stream {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	z.Write(data) // never fails on a buffer
	z.Close()
	d["Filter"] = name("FlateDecode")
	return stream{d, b.Bytes()}
}

// lengthened gives a stream its length.
func lengthened(v any) any {
	if s, ok := v.(stream); ok {
		s.dict["Length"] = len(s.data)
		return s
	}
	return v
}

// widget is a field for a signature with its place on a page.
func widget(f Field, page, drawn int) dict {
	rect := array{}
	for _, x := range f.Rect {
		rect = append(rect, x)
	}
	return dict{
		"Type": name("Annot"), "Subtype": name("Widget"), "FT": name("Sig"), "T": textOf(f.Name), "Rect": rect, "F": 132, "P": ref{page, 0},
		"AP": dict{"N": ref{drawn, 0}},
	}
}

// pdfDate is a moment (ISO 32000-2 §7.9.4).
func pdfDate(t time.Time) text { return text(t.UTC().Format("D:20060102150405") + "Z") }

// pages are the numbers of the page objects, in their order.
func (f *file) pages(catalog dict) ([]int, error) {
	tree, err := f.dictAt(catalog["Pages"])
	if err != nil {
		return nil, err
	}
	kids, ok := tree["Kids"].(array)
	if !ok {
		return nil, errForeign
	}
	var all []int
	for _, k := range kids {
		r, ok := k.(ref)
		if !ok {
			return nil, errForeign
		}
		all = append(all, r.num)
	}
	return all, nil
}

// signed writes the signature dictionary, the cross-reference table and the trailer, and signs all of it.
func (w *writer) signed(s Signer) ([]byte, error) {
	reason := text(nil)
	if s.Reason != "" {
		reason = textOf(s.Reason)
	}
	return seal(w.blank(pdfDate(s.When), textOf(s.Name), reason), w.offsets[w.sig], s)
}

// blank writes what stands around a signature, and leaves room for that itself.
func (w *writer) blank(when, who, reason text) []byte {
	d := dict{
		"Type": name("Sig"), "Filter": name("Adobe.PPKLite"), "SubFilter": name("ETSI.CAdES.detached"),
		"ByteRange": raw(blankRange), "Contents": raw("<" + strings.Repeat("0", 2*reserved) + ">"), "M": when, "Name": who,
	}
	if reason != nil {
		d["Reason"] = reason
	}
	if w.trailer["Prev"] == nil {
		// Fields may be filled in and signed, and nothing else may change (ISO 32000-2 §12.8.2.2).
		d["Reference"] = array{dict{"Type": name("SigRef"), "TransformMethod": name("DocMDP"),
			"TransformParams": dict{"Type": name("TransformParams"), "P": 2, "V": name("1.2")}}}
	}
	w.put(w.sig, d)
	w.end()
	return w.b.Bytes()
}

// blankRange holds the place of the byte range, wide enough for the largest file.
const blankRange = "[0 0000000000 0000000000 0000000000]"

// end writes the table of what was written, and the trailer.
func (w *writer) end() {
	start := w.b.Len()
	w.b.WriteString("xref\n")
	nums := make([]int, 0, len(w.offsets)+1)
	for n := range w.offsets {
		nums = append(nums, n)
	}
	if w.trailer["Prev"] == nil {
		nums = append(nums, 0)
	}
	slices.Sort(nums)
	for i := 0; i < len(nums); {
		j := i + 1
		for j < len(nums) && nums[j] == nums[j-1]+1 {
			j++
		}
		fmt.Fprintf(&w.b, "%d %d\n", nums[i], j-i)
		for ; i < j; i++ {
			if nums[i] == 0 {
				w.b.WriteString("0000000000 65535 f \n")
			} else {
				fmt.Fprintf(&w.b, "%010d 00000 n \n", w.offsets[nums[i]])
			}
		}
	}
	w.trailer["Size"] = w.next
	w.b.WriteString("trailer\n")
	write(&w.b, w.trailer)
	fmt.Fprintf(&w.b, "\nstartxref\n%d\n%%%%EOF\n", start)
}

// seal fills in the byte range and the signature of the dictionary at an offset.
func seal(data []byte, at int, s Signer) ([]byte, error) {
	spans := map[name][2]int{}
	f, err := read(data)
	if err != nil {
		return nil, err
	}
	num, err := f.numberAt(at)
	if err != nil {
		return nil, err
	}
	if _, _, _, err := f.objectWith(num, spans); err != nil {
		return nil, err
	}
	hole, rng := spans["Contents"], spans["ByteRange"]
	if rng[1]-rng[0] != len(blankRange) {
		return nil, errForeign
	}
	copy(data[rng[0]:], fmt.Sprintf("[0 %010d %010d %010d]", hole[0], hole[1], len(data)-hole[1]))
	signature, err := sign(digestAround(data, hole), s)
	if err != nil {
		return nil, err
	}
	if len(signature) > reserved {
		return nil, say.Fail(say.Invalid, "seal.long-chain")
	}
	copy(data[hole[0]+1:], fmt.Sprintf("%X", signature))
	return data, nil
}

func (f *file) numberAt(offset int) (int, error) {
	for n, o := range f.objects {
		if o == offset {
			return n, nil
		}
	}
	return 0, errForeign
}

// digestAround is the fingerprint of all bytes but those of a hole.
func digestAround(data []byte, hole [2]int) (sum [sha256.Size]byte) {
	h := sha256.New()
	h.Write(data[:hole[0]])
	h.Write(data[hole[1]:])
	return [sha256.Size]byte(h.Sum(nil))
}
