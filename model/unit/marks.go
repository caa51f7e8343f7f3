package unit

import (
	"strings"

	"keeperbook/model/say"
)

// marks finds the decimal mark of a number and takes thousands separators out.
func (c Column) marks(n number, body string) (decimal, error) {
	if c.Unit.Dimension() == OfLength {
		return c.lengthMarks(n, body)
	}
	return c.groupedMarks(n, body)
}

// lengthMarks reads a length, which has at most one mark and no separators.
func (c Column) lengthMarks(n number, body string) (decimal, error) {
	commas := strings.Count(body, ",")
	switch {
	case strings.ContainsAny(body, "' \u00a0\u202f"):
		return decimal{}, say.Fail(say.Invalid, "unit.space", shown(n.text), c.example())
	case commas+strings.Count(body, ".") > 1:
		return decimal{}, say.Fail(say.Invalid, "unit.marks", shown(n.text), c.example())
	case commas == 1 && !c.Comma:
		return decimal{}, say.Fail(say.Invalid, "unit.comma", shown(n.text), strings.Replace(n.text, ",", ".", 1))
	}
	whole, frac, mark := strings.Cut(strings.Replace(body, ",", ".", 1), ".")
	return digits(whole, frac, mark), nil
}

// groupedMarks reads a load, rate or pressure. A space or an apostrophe always separates thousands,
// a comma does where the column has no decimal comma. Where it has, comma and point can be either:
// the last one of two kinds is the decimal mark, and a single one that three digits follow is asked about.
func (c Column) groupedMarks(n number, body string) (decimal, error) {
	body = strings.NewReplacer(" ", "'", "\u00a0", "'", "\u202f", "'").Replace(body)
	commas, points := strings.Count(body, ","), strings.Count(body, ".")
	at := -1 // of the decimal mark
	switch {
	case !c.Comma && points > 1:
		return decimal{}, say.Fail(say.Invalid, "unit.marks", shown(n.text), c.example())
	case !c.Comma && commas == 1 && points == 0 && strings.HasPrefix(body, "0,"):
		return decimal{}, say.Fail(say.Invalid, "unit.comma", shown(n.text), strings.Replace(n.text, ",", ".", 1))
	case !c.Comma:
		at = strings.IndexByte(body, '.')
	case commas > 1 && points > 1:
		return decimal{}, say.Fail(say.Invalid, "unit.marks", shown(n.text), c.example())
	case commas == 1 && points == 0, points == 1 && commas == 0, commas == 1 && points == 1:
		at = strings.LastIndexAny(body, ",.")
		if commas+points == 1 && !strings.Contains(body, "'") && len(body)-at == 4 && at > 0 && at < 4 && body[0] != '0' {
			return decimal{}, c.askThousands(n, body, at)
		}
	case commas == 1 && points > 1:
		at = strings.IndexByte(body, ',')
	case points == 1 && commas > 1:
		at = strings.IndexByte(body, '.')
	}
	whole, frac := body, ""
	if at >= 0 {
		whole, frac = body[:at], body[at+1:]
	}
	parts := strings.FieldsFunc(whole, func(r rune) bool { return r == '\'' || r == ',' || r == '.' })
	joined := strings.Join(parts, "")
	if !allDigits(frac) || len(joined)+len(frac) == 0 || !evenGroups(whole, parts) {
		return decimal{}, say.Fail(say.Invalid, "unit.groups", shown(n.text), c.example())
	}
	return digits(joined, frac, at >= 0), nil
}

// evenGroups reports whether separators stand only before groups of three, one at a time, and a group that is more than noughts
// comes first.
func evenGroups(whole string, parts []string) bool {
	if len(parts) <= 1 {
		return len(whole) == len(strings.Join(parts, ""))
	}
	if strings.HasPrefix(whole, "0") {
		return false
	}
	size := len(parts) - 1 // one separator before each group
	for i, p := range parts {
		if i > 0 && len(p) != 3 || len(p) > 3 {
			return false
		}
		size += len(p)
	}
	return size == len(whole)
}

func (c Column) askThousands(n number, body string, at int) error {
	frac := strings.TrimRight(body[at+1:], "0")
	if frac == "" {
		frac = "0"
	}
	// Written without the nought that made three digits of them, or with one more, no doubt is left.
	if len(frac) == 3 {
		frac += "0"
	}
	whole := strings.Replace(n.text, body, body[:at]+body[at+1:], 1)
	part := strings.Replace(n.text, body, body[:at]+","+frac, 1)
	return ask(say.Fail(say.Invalid, "unit.thousands", shown(n.text), whole, part), whole, part)
}
