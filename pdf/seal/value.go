package seal

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"unicode/utf16"
)

// The values of a PDF (ISO 32000-2 §7.3).
type (
	name   string
	ref    struct{ num, gen int }
	number string // as it was written
	text   []byte // a string, decoded
	array  []any
	dict   map[name]any
	stream struct {
		dict dict
		data []byte // as it lies in the file, still filtered
	}
)

// write appends a value. Keys go in their order, so that the same value gives the same bytes.
func write(b *bytes.Buffer, v any) {
	switch v := v.(type) {
	case nil:
		b.WriteString("null")
	case bool:
		fmt.Fprint(b, v)
	case name:
		writeName(b, v)
	case ref:
		fmt.Fprintf(b, "%d %d R", v.num, v.gen)
	case number:
		b.WriteString(string(v))
	case int:
		b.WriteString(strconv.Itoa(v))
	case float64:
		b.WriteString(strconv.FormatFloat(v, 'f', -1, 64))
	case text:
		writeText(b, v)
	case raw:
		b.WriteString(string(v))
	case array:
		b.WriteByte('[')
		for i, one := range v {
			if i > 0 {
				b.WriteByte(' ')
			}
			write(b, one)
		}
		b.WriteByte(']')
	case dict:
		writeDict(b, v)
	case stream:
		writeDict(b, v.dict)
		b.WriteString("\nstream\n")
		b.Write(v.data)
		b.WriteString("\nendstream")
	}
}

// raw is written as it stands.
type raw string

func writeDict(b *bytes.Buffer, d dict) {
	b.WriteString("<<")
	for _, k := range sorted(d) {
		writeName(b, k)
		b.WriteByte(' ')
		write(b, d[k])
		b.WriteByte('\n')
	}
	b.WriteString(">>")
}

// sorted are the keys of a dictionary in their order.
func sorted(d dict) []name { return slices.Sorted(maps.Keys(d)) }

func writeName(b *bytes.Buffer, n name) {
	b.WriteByte('/')
	for i := range len(n) {
		if c := n[i]; c <= ' ' || c >= 0x7f || bytes.IndexByte([]byte("()<>[]{}/%#"), c) >= 0 {
			fmt.Fprintf(b, "#%02X", c)
		} else {
			b.WriteByte(c)
		}
	}
}

// writeText writes a string in hexadecimal digits, in which no sign can break the file.
func writeText(b *bytes.Buffer, t text) { fmt.Fprintf(b, "<%X>", []byte(t)) }

// textOf is a text string (ISO 32000-2 §7.9.2.2): plain where it is ASCII, else UTF-16 with its mark.
func textOf(s string) text {
	ascii := true
	for i := range len(s) {
		ascii = ascii && s[i] < 0x80
	}
	if ascii {
		return text(s)
	}
	out := text{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return out
}

// String is what a text string says.
func (t text) String() string {
	if len(t) >= 2 && t[0] == 0xfe && t[1] == 0xff {
		units := make([]uint16, 0, len(t)/2)
		for i := 2; i+1 < len(t); i += 2 {
			units = append(units, uint16(t[i])<<8|uint16(t[i+1]))
		}
		return string(utf16.Decode(units))
	}
	runes := make([]rune, len(t))
	for i, c := range t {
		runes[i] = rune(c)
	}
	return string(runes)
}
