package say

import "strings"

// Grouped parts a fingerprint in hexadecimal digits into groups of four, which can be read out and compared.
func Grouped(hex string) string {
	var b strings.Builder
	for i, r := range hex {
		if i > 0 && i%4 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	return b.String()
}
