package unit

import (
	"strings"

	"keeperbook/model/say"
)

// What a stack of shims stays under. Common practice, no published source: half an inch is many
// times the thickest shim sold, and a dozen is more than any pocket holds.
const (
	shimLimit = 500 * Thou
	mostShims = 12
)

// ParseStack reads the shims under one spring, from the seat up: .030+.015, 2x15, 2×.015. None is
// true where the entry says that there is none: "none" or 0. The column's unit, comma and cell
// above hold; its kind and nominal do not.
//
// A comma is asked about where it may separate two shims as well as be a decimal mark: 15,30.
// A unit behind the last shim holds for all of them; in between, each has its own.
func ParseStack(c Column, text string) (shims []Quantity, none bool, err error) {
	c.Kind, c.Nominal = Plain, Quantity{}
	t, err := clean(c, text)
	if err != nil {
		return nil, false, err
	}
	if ditto(t) {
		if _, err := c.above(t); err != nil {
			return nil, false, err
		}
		return append([]Quantity(nil), c.Above...), false, nil
	}
	if strings.EqualFold(t, "none") {
		return nil, true, nil
	}
	if err := c.commas(t); err != nil {
		return nil, false, err
	}
	parts, err := c.parts(t)
	if err != nil {
		return nil, false, err
	}
	for _, part := range parts {
		count, each, err := c.count(part)
		if err != nil {
			return nil, false, err
		}
		q, err := c.shim(each)
		if err != nil {
			return nil, false, err
		}
		if q.Value == 0 {
			if len(parts) == 1 && count == 1 {
				return nil, true, nil
			}
			return nil, false, say.Fail(say.Invalid, "unit.zero-shim", shown(t), shown(part))
		}
		if len(shims)+count > mostShims {
			return nil, false, say.Fail(say.Invalid, "unit.many-shims", shown(t), mostShims)
		}
		for range count {
			shims = append(shims, q)
		}
	}
	return shims, false, nil
}

// shim reads one thickness.
func (c Column) shim(t string) (Quantity, error) {
	sign, rest := cutSign(t)
	n, err := c.number(sign, rest)
	if err != nil {
		return Quantity{}, err
	}
	if sign != "" {
		return Quantity{}, say.Fail(say.Invalid, "unit.negative-shim", shown(t))
	}
	q, err := c.keep(n.inches(), n)
	if err != nil {
		return Quantity{}, err
	}
	if q.Length() >= shimLimit {
		limit := c.style(q.Unit)
		return Quantity{}, say.Fail(say.Invalid, "unit.thick-shim", shown(t), c.Understood(q), limit.LengthIn(shimLimit)+" "+string(q.Unit))
	}
	return q, nil
}

// count takes the number of equal shims off the front: 2x15.
func (c Column) count(part string) (int, string, error) {
	at := strings.IndexAny(part, "xX×")
	if at < 0 {
		return 1, part, nil
	}
	front := strings.TrimSpace(part[:at])
	each := strings.TrimSpace(strings.TrimLeft(part[at:], "xX×"))
	d := strings.TrimLeft(front, "0")
	if !allDigits(front) || d == "" || each == "" {
		return 0, "", say.Fail(say.Invalid, "unit.count", shown(part))
	}
	if len(d) > 2 {
		return 0, "", say.Fail(say.Invalid, "unit.many-shims", shown(part), mostShims)
	}
	n := 0
	for _, r := range d {
		n = 10*n + int(r-'0')
	}
	return n, each, nil
}

// parts splits an entry at its plus signs and writes a unit that stands at its end behind every part.
func (c Column) parts(t string) ([]string, error) {
	parts := strings.Split(t, "+")
	with := 0
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
		if parts[i] == "" {
			return nil, say.Fail(say.Invalid, "unit.gap", shown(t))
		}
		if unitBehind(parts[i]) != "" {
			with++
		}
	}
	last := unitBehind(parts[len(parts)-1])
	switch {
	case with == 0 || with == len(parts):
		return parts, nil
	case with > 1 || last == "":
		return nil, say.Fail(say.Invalid, "unit.some-units", shown(t))
	}
	for i := range parts[:len(parts)-1] {
		parts[i] += " " + last
	}
	return parts, nil
}

// unitBehind returns what stands behind the last digit or mark, "" where there is no digit.
func unitBehind(t string) string {
	at := strings.LastIndexAny(t, "0123456789.,")
	if at < 0 {
		return ""
	}
	return strings.TrimSpace(t[at+1:])
}

// commas asks about a comma that may separate two thicknesses as well as be a decimal mark. It may
// where each side alone is one: 15,30 but not 0,5 or 1,25 mm, as no shim is nothing or an inch thick.
func (c Column) commas(t string) error {
	parts := strings.Split(t, "+")
	for i, part := range parts {
		pieces := strings.Split(part, ",")
		if len(pieces) == 1 || !c.eachShim(pieces) {
			continue
		}
		whole := func(with string) string {
			all := append([]string(nil), parts...)
			all[i] = with
			return strings.Join(all, "+")
		}
		list := whole(strings.Join(pieces, "+"))
		if len(pieces) > 2 || strings.ContainsAny(pieces[1], "xX×") || strings.Contains(part, ".") {
			return ask(say.Fail(say.Invalid, "unit.comma-list", shown(t), shown(list)), list)
		}
		one := whole(pieces[0] + "." + pieces[1])
		return ask(say.Fail(say.Invalid, "unit.comma-two", shown(t), shown(list), shown(one)), list, one)
	}
	return nil
}

func (c Column) eachShim(pieces []string) bool {
	for _, piece := range pieces {
		_, each, err := c.count(strings.TrimSpace(piece))
		if err != nil {
			return false
		}
		if q, err := c.shim(each); err != nil || q.Value == 0 {
			return false
		}
	}
	return true
}
