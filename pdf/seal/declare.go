package seal

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"math"
	"time"
)

// metadata is the XMP packet (ISO 16684-1) that says what the document is and what it was built to. Title and moments are
// those of its information dictionary.
func metadata(title string, made time.Time) []byte {
	var b bytes.Buffer
	quoted := func(s string) string {
		var q bytes.Buffer
		xml.EscapeText(&q, []byte(s)) // never fails on a buffer
		return q.String()
	}
	when := made.UTC().Format("2006-01-02T15:04:05Z")
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` +
		`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"` +
		` xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">` +
		`<pdfaid:part>3</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>` +
		`<dc:title><rdf:Alt><rdf:li xml:lang="x-default">` + quoted(title) + `</rdf:li></rdf:Alt></dc:title>` +
		`<pdf:Producer>Keeperbook</pdf:Producer><xmp:CreateDate>` + when + `</xmp:CreateDate><xmp:ModifyDate>` + when + `</xmp:ModifyDate>` +
		`</rdf:Description></rdf:RDF></x:xmpmeta>` + "\n<?xpacket end=\"r\"?>")
	return b.Bytes()
}

// profile is the colour space that the pages' greys are meant in, as an ICC profile of version 2 (ICC.1:2001-04): the
// primaries of IEC 61966-2-1 adapted to D50, with a curve of gamma 2.2 in the place of its own.
func profile() []byte {
	s15 := func(x float64) []byte { return binary.BigEndian.AppendUint32(nil, uint32(int32(math.Round(x*65536)))) }
	xyz := func(x, y, z float64) []byte {
		return bytes.Join([][]byte{[]byte("XYZ \x00\x00\x00\x00"), s15(x), s15(y), s15(z)}, nil)
	}
	const words = "RGB, gamma 2.2"
	desc := append([]byte("desc\x00\x00\x00\x00"), binary.BigEndian.AppendUint32(nil, uint32(len(words)+1))...)
	desc = append(append(desc, words+"\x00"...), make([]byte, 4+4+2+1+67)...) // no Unicode, no script code
	curve := binary.BigEndian.AppendUint16([]byte("curv\x00\x00\x00\x00\x00\x00\x00\x01"), uint16(math.Round(2.2*256)))
	tags := []struct {
		name string
		data []byte
	}{
		{"desc", desc}, {"cprt", []byte("text\x00\x00\x00\x00no copyright\x00")}, {"wtpt", xyz(.9642, 1, .8249)},
		{"rXYZ", xyz(.4361, .2225, .0139)}, {"gXYZ", xyz(.3851, .7169, .0971)}, {"bXYZ", xyz(.1431, .0606, .7141)},
		{"rTRC", curve}, {"gTRC", curve}, {"bTRC", curve},
	}
	head := make([]byte, 128)
	binary.BigEndian.PutUint32(head[8:], 0x02400000)
	copy(head[12:], "mntrRGB XYZ ")
	copy(head[24:], []byte{0x07, 0xea, 0, 1, 0, 1}) // 2026-01-01: a day that never changes
	copy(head[36:], "acsp")
	copy(head[68:], xyz(.9642, 1, .8249)[8:])
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var body []byte
	at := len(head) + 4 + 12*len(tags)
	for _, t := range tags {
		table = append(table, t.name...)
		table = binary.BigEndian.AppendUint32(table, uint32(at+len(body)))
		table = binary.BigEndian.AppendUint32(table, uint32(len(t.data)))
		body = append(body, t.data...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	all := append(append(head, table...), body...)
	binary.BigEndian.PutUint32(all, uint32(len(all)))
	return all
}
