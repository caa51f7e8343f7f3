package unit

import (
	"math/big"
	"strings"
)

// decimal is a number as its digits, so that trailing zeros and the place of the mark are kept.
type decimal struct {
	minus bool
	whole string // no leading zeros; "0" for none
	frac  string // as many digits as were entered
	mark  bool   // there was a decimal mark
}

// digits returns the decimal of two runs of digits.
func digits(whole, frac string, mark bool) decimal {
	whole = strings.TrimLeft(whole, "0")
	if whole == "" {
		whole = "0"
	}
	return decimal{whole: whole, frac: frac, mark: mark}
}

// plain reads an optional minus, digits, and optionally a point with digits after it.
func plain(text string) (decimal, bool) {
	rest, minus := strings.CutPrefix(text, "-")
	whole, frac, mark := strings.Cut(rest, ".")
	if !allDigits(whole) || !allDigits(frac) || whole+frac == "" || mark && frac == "" {
		return decimal{}, false
	}
	d := digits(whole, frac, mark)
	d.minus = minus
	return d, true
}

func allDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return true
}

func (d decimal) zero() bool { return strings.Trim(d.whole+d.frac, "0") == "" }

// String returns the decimal with a point, a nought before it where nothing else stands there, and
// a minus only where it says something.
func (d decimal) String() string {
	text := d.whole
	if d.frac != "" {
		text += "." + d.frac
	}
	if d.minus && !d.zero() {
		text = "-" + text
	}
	return text
}

// left returns the decimal with its mark n places further left: 1842.5 by three is 1.8425.
func (d decimal) left(n int) decimal {
	all := d.whole
	if short := n + 1 - len(all); short > 0 {
		all = strings.Repeat("0", short) + all
	}
	cut := len(all) - n
	moved := digits(all[:cut], all[cut:]+d.frac, true)
	moved.minus = d.minus
	return moved
}

func (d decimal) rat() *big.Rat { return rat(d.String()) }

// plus returns the exact sum with as many decimals as the longer of the two.
func (d decimal) plus(e decimal) decimal {
	sum := new(big.Rat).Add(d.rat(), e.rat())
	text := sum.FloatString(max(len(d.frac), len(e.frac)))
	whole, frac, mark := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	total := digits(whole, frac, mark)
	total.minus = sum.Sign() < 0
	return total
}
