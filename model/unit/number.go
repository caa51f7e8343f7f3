package unit

import (
	"strings"
	"unicode"

	"keeperbook/model/say"
)

// number is one number of an entry: its digits, its sign and the unit it is in.
type number struct {
	decimal
	text   string // as it stands in the entry
	sign   string // "+", "-" or none
	suffix string // the unit behind it, "" where there is none
	unit   Symbol // of the suffix, else the column's
}

// thou is the suffix of thousandths of an inch, which are inches once they are read.
const thou = "thou"

// symbolOf returns the unit of a suffix as it is typed, in small letters.
func symbolOf(suffix string) (Symbol, bool) {
	switch suffix {
	case "in", "in.", "inch", "inches", `"`, "″", "”", thou:
		return In, true
	case "mm":
		return Mm, true
	case "lbf", "lb", "lbs":
		return Lbf, true
	case "n":
		return N, true
	case "kgf", "kg":
		return Kgf, true
	case "lbf/in", "lb/in", "lbs/in":
		return LbfPerIn, true
	case "n/mm":
		return NPerMm, true
	case "psi":
		return Psi, true
	case "kpa":
		return KPa, true
	case "bar":
		return Bar, true
	case "g":
		return Gram, true
	case "oz":
		return Ounce, true
	case "gpa":
		return GPa, true
	case "mpsi":
		return Mpsi, true
	}
	return "", false
}

// number reads digits, marks and a unit.
func (c Column) number(sign, t string) (number, error) {
	end := strings.IndexFunc(t, func(r rune) bool { return !strings.ContainsRune("0123456789.,' \u00a0\u202f", r) })
	if end < 0 {
		end = len(t)
	}
	body, suffix := strings.TrimRight(t[:end], " \u00a0\u202f"), t[end:]
	n := number{text: sign + t, sign: sign, unit: c.Unit}
	if !strings.ContainsAny(body, "0123456789") {
		return n, say.Fail(say.Invalid, "unit.letters", shown(n.text), c.example())
	}
	if suffix != "" {
		n.suffix = strings.ToLower(strings.ReplaceAll(suffix, " ", ""))
		u, known := symbolOf(n.suffix)
		switch {
		case !known && strings.ContainsFunc(suffix, func(r rune) bool { return !unicode.IsLetter(r) && r != '/' }):
			return n, say.Fail(say.Invalid, "unit.letters", shown(n.text), c.example())
		case !known:
			return n, say.Fail(say.Invalid, "unit.suffix", shown(n.text), shown(suffix), c.Unit.Dimension().suffixes())
		case u.Dimension() != c.Unit.Dimension():
			return n, say.Fail(say.Invalid, "unit.dimension", shown(n.text), c.Unit.Dimension().suffixes(), c.example())
		}
		n.unit = u
	}
	d, err := c.marks(n, body)
	n.decimal = d
	return n, err
}

// suffixes is the list of units of a dimension as a sentence gives them.
func (d Dimension) suffixes() string {
	switch d {
	case OfLoad:
		return "lbf, N, kgf"
	case OfRate:
		return "lbf/in, N/mm"
	case OfPressure:
		return "psi, kPa, bar"
	case OfMass:
		return "g, oz"
	case OfModulus:
		return "GPa, Mpsi"
	}
	return "in, thou, mm"
}

// inches returns the digits as a decimal in the number's unit: thousandths become inches.
func (n number) inches() decimal {
	switch {
	case n.suffix == thou, n.suffix == "" && n.unit == In && (!n.mark || len(n.whole) > 1):
		return n.left(3)
	}
	return n.decimal
}

func cutSign(t string) (sign, rest string) {
	for _, s := range []string{"+", "-", "−"} {
		if rest, ok := strings.CutPrefix(t, s); ok {
			if s == "−" {
				s = "-"
			}
			return s, strings.TrimSpace(rest)
		}
	}
	return "", t
}

// ditto reports whether the text is the mark that repeats the cell above.
func ditto(t string) bool { return t == `"` || t == "″" || t == "”" || t == "“" }
