package task

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// pairsIn takes apart what is typed in pairs with a semicolon or a line's end between them.
func pairsIn(text string) []string {
	var pairs []string
	for _, pair := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		if words := strings.Fields(pair); len(words) > 0 {
			pairs = append(pairs, strings.Join(words, " "))
		}
	}
	return pairs
}

// inPair writes a quantity as it stands in a pair: in one word, with its unit where that is not the column's.
func inPair(column unit.Symbol, q unit.Quantity) string {
	text := record.PlainColumn(column).Understood(q)
	return strings.ReplaceAll(strings.TrimSuffix(text, " "+string(column)), " ", "")
}
