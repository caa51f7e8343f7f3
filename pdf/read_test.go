package pdf_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"keeperbook/pdf/face"
)

// run is one line of letters as a page holds it. Lengths are points, y runs up from the lower edge.
type run struct {
	x, y, size float64
	bold       bool
	text       string
}

// width of the letters in points, kerned.
func (r run) width() float64 {
	f := face.Regular(1)
	if r.bold {
		f = face.Bold(1)
	}
	return float64(f.Width(r.text)) * r.size
}

// page is what a page says and the operators that it says it with.
type page struct {
	width, height float64
	runs          []run
	content       string
}

// The reader knows just the PDF that this program writes: one content stream a page in order, text in
// UTF-16 with two fonts. It shares nothing with the writer.
var (
	streams  = regexp.MustCompile(`(?s)<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	boxes    = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	fonts    = regexp.MustCompile(`BT /F([0-9a-f]+) ([\d.]+) Tf ET`)
	fontList = regexp.MustCompile(`/F([0-9a-f]{8,}) (\d+) 0 R`)
)

func readPages(t testing.TB, data []byte) []page {
	t.Helper()
	box := boxes.FindSubmatch(data)
	if box == nil {
		t.Fatal("the file names no page size")
	}
	width, height := decimal(t, string(box[1])), decimal(t, string(box[2]))
	bold := boldFont(t, data)
	var pages []page
	for _, at := range streams.FindAllSubmatchIndex(data, -1) {
		n, _ := strconv.Atoi(string(data[at[2]:at[3]]))
		r, err := zlib.NewReader(bytes.NewReader(data[at[1] : at[1]+n]))
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, page{width, height, readRuns(t, string(content), bold), string(content)})
	}
	return pages
}

// boldFont returns the name of the font resource whose font is the bold one.
func boldFont(t testing.TB, data []byte) string {
	t.Helper()
	for _, m := range fontList.FindAllSubmatch(data, -1) {
		object := regexp.MustCompile(`(?s)\n` + string(m[2]) + ` 0 obj\n.*?endobj`).Find(data)
		if bytes.Contains(object, []byte("/BaseFont /utf8dejavuB")) {
			return string(m[1])
		}
	}
	t.Fatal("no bold font in the file")
	return ""
}

// readRuns walks a content stream: "BT /F… 9.00 Tf ET" chooses letters, "BT 42.00 700.00 Td (…) Tj ET"
// sets them.
func readRuns(t testing.TB, content, bold string) []run {
	t.Helper()
	var runs []run
	font, size := "", 0.0
	for i := 0; i < len(content); {
		next := strings.Index(content[i:], "BT ")
		if next < 0 {
			break
		}
		i += next
		if m := fonts.FindStringSubmatch(content[i:min(len(content), i+90)]); m != nil && strings.HasPrefix(content[i:], m[0]) {
			font, size = m[1], decimal(t, m[2])
			i += len(m[0])
			continue
		}
		head, _, ok := strings.Cut(content[i+3:], " Td (")
		if !ok {
			t.Fatalf("letters without a place: %.60q", content[i:])
		}
		place := strings.Fields(head)
		text, n := unescape(content[i+3+len(head)+len(" Td ("):])
		runs = append(runs, run{decimal(t, place[0]), decimal(t, place[1]), size, font == bold, text})
		i += 3 + len(head) + len(" Td (") + n
	}
	return runs
}

// unescape reads a string of a content stream up to its closing bracket.
func unescape(s string) (text string, read int) {
	var raw []byte
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
			if s[i] == 'r' {
				raw = append(raw, '\r')
			} else {
				raw = append(raw, s[i])
			}
		case ')':
			units := make([]uint16, len(raw)/2)
			for k := range units {
				units[k] = uint16(raw[2*k])<<8 | uint16(raw[2*k+1])
			}
			return string(utf16.Decode(units)), i + 1
		default:
			raw = append(raw, s[i])
		}
	}
	return "", len(s)
}

func decimal(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// text returns all lines of a page from top to bottom, those at one height joined by bars.
func (p page) text() string {
	runs := append([]run(nil), p.runs...)
	sort.SliceStable(runs, func(i, j int) bool {
		if d := runs[i].y - runs[j].y; d > 0.5 || d < -0.5 {
			return d > 0
		}
		return runs[i].x < runs[j].x
	})
	var b strings.Builder
	for i, r := range runs {
		if i > 0 {
			if runs[i-1].y-r.y > 0.5 {
				b.WriteString("\n")
			} else {
				b.WriteString(" | ")
			}
		}
		b.WriteString(r.text)
	}
	return b.String() + "\n"
}

// find returns the runs with this text.
func (p page) find(text string) []run {
	var found []run
	for _, r := range p.runs {
		if r.text == text {
			found = append(found, r)
		}
	}
	return found
}
