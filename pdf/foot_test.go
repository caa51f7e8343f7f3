package pdf_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"keeperbook/pdf"
)

// painting finds what a content stream fills with, what it puts by and takes up again, and the lines of letters it sets
// (ISO 32000-2 §8.4.2, §8.6.8, §9.4.3). A string in brackets is taken whole, so that nothing in it counts.
var painting = regexp.MustCompile(`(?s)\((?:\\.|[^\\)])*\)\s*Tj|(?:^|\s)(?:[\d.]+ ){1,3}(?:g|rg)(?:\s|$)|(?:^|\s)[qQ](?:\s|$)`)

// fills are the operators that were in force at each line of letters.
func fills(content string) (all []string) {
	is, put := "0 g", []string{}
	for at := 0; at < len(content); {
		m := painting.FindStringIndex(content[at:])
		if m == nil {
			break
		}
		op := content[at+m[0] : at+m[1]]
		switch bare := strings.TrimSpace(op); {
		case op[0] == '(':
			all = append(all, is)
		case bare == "q":
			put = append(put, is)
		case bare == "Q":
			is, put = put[len(put)-1], put[:len(put)-1]
		default:
			is = bare
		}
		// White space between two operators belongs to both.
		at += max(m[1]-1, 1)
	}
	return all
}

// The foot of every page is black, whatever was drawn on the page before it.
func TestFootIsBlack(t *testing.T) {
	black := []string{"0 g", "0.000 g", "0.000 0.000 0.000 rg"}
	for name, r := range samples(t) {
		for n, page := range readPages(t, written(t, sheet(r, pdf.A4))) {
			all := fills(page.content)
			if len(all) < 3 {
				t.Fatalf("%s, page %d has %d lines", name, n+1, len(all))
			}
			for _, fill := range all[len(all)-3:] {
				if !slices.Contains(black, fill) {
					t.Errorf("%s, page %d: the foot is filled with %s", name, n+1, fill)
				}
			}
		}
	}
}
