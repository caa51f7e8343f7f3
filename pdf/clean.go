package pdf

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"keeperbook/pdf/face"
)

// lacking stands on the page for every sign that the letters have no picture of.
const lacking = '□'

// clean returns the text as the page can print it, in one line. A sign that the letters lack comes out as
// a box, a line break as a pilcrow; signs that only steer the reading direction are left out, because they
// could make a page read otherwise than its record. The record keeps what was typed.
func clean(text string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(text) {
		switch {
		case r == '\n' || r == '\u2028' || r == '\u2029':
			b.WriteRune('¶')
		case r == '\r' || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
		case r == '\t' || unicode.IsSpace(r):
			b.WriteByte(' ')
		case r == utf8.RuneError || r > 0xFFFF || unicode.IsControl(r) || !face.Has(r):
			b.WriteRune(lacking)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// plain reports whether the text is printable ASCII, which needs nothing done to it.
func plain(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}
