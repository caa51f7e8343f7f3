package unit

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"keeperbook/model/say"
)

// choices is the cause of a refusal that can be put right by typing one of several texts.
type choices []string

func (c choices) Error() string { return "may be " + strings.Join(c, " or ") }

// ask returns the refusal with the texts that say the same without doubt.
func ask(e *say.Error, texts ...string) error { return e.From(choices(texts)) }

// Choices returns the texts that an entry which can be read in more than one way may be replaced
// by, nil where there are none.
func Choices(err error) []string {
	var c choices
	if errors.As(err, &c) {
		return c
	}
	return nil
}

// clean refuses what cannot be an entry at all and takes the space around it away.
func clean(c Column, text string) (string, error) {
	if c.Unit.Dimension() == "" {
		return "", say.Fail(say.Invalid, "unit.symbol", shown(string(c.Unit)), symbols)
	}
	t := strings.TrimSpace(text)
	switch {
	case t == "":
		return "", say.Fail(say.Invalid, "unit.empty", c.example())
	case strings.ContainsFunc(t, unprintable) || !utf8.ValidString(t):
		return "", say.Fail(say.Invalid, "unit.unprintable", shown(t), c.example())
	case len(t) > longest:
		return "", tooLong(t)
	}
	return t, nil
}

func unprintable(r rune) bool { return !unicode.IsPrint(r) && r != '\u00a0' && r != '\u202f' }

func tooLong(t string) error {
	return say.Fail(say.Invalid, "unit.long", shown(t), utf8.RuneCountInString(t), longest)
}

// shown returns what was typed so that it can stand in a sentence: not too long, nothing unprintable.
func shown(t string) string {
	const most = 24
	var b strings.Builder
	n := 0
	for _, r := range t {
		if n++; n > most {
			b.WriteRune('…')
			break
		}
		if !unicode.IsPrint(r) {
			r = '\ufffd'
		}
		b.WriteRune(r)
	}
	return b.String()
}

// example returns an entry that this column takes.
func (c Column) example() string {
	text := map[Symbol]string{
		In: ".030", Mm: "0.75", Lbf: "131", N: "583", Kgf: "59.4",
		LbfPerIn: "420", NPerMm: "73.6", Psi: "15", KPa: "103", Bar: "1.03",
		Gram: "92.5", Ounce: "3.26", GPa: "77.2", Mpsi: "11.2",
	}[c.Unit]
	switch {
	case c.Kind == Height && c.Unit == In:
		text = "1.842"
	case c.Kind == Height && c.Unit == Mm:
		text = "46.79"
	}
	return c.style(c.Unit).mark(text)
}

// low refuses a height that no spring has, and says what may have been meant.
func (c Column) low(q Quantity, n number) error {
	least := c.style(q.Unit).LengthIn(leastHeight) + " " + string(q.Unit)
	read := c.Understood(q)
	if q.Unit == In && n.suffix == "" && n.sign == "" && !n.mark && !n.zero() {
		inches, thousandths := n.whole+".000", n.whole+"000"
		if len(n.whole) > 1 {
			inches, thousandths = n.whole[:1]+"."+n.whole[1:], n.whole+"00"
		}
		inches = c.style(c.Unit).mark(inches)
		return ask(say.Fail(say.Invalid, "unit.ambiguous", shown(n.text), read, inches, thousandths), inches, thousandths)
	}
	return c.otherUnit(say.Fail(say.Invalid, "unit.low", shown(n.text), read, least), n)
}

// otherUnit adds to a refusal the unit that was probably meant, where a bare number would be a
// height in it: the first entry in another unit than the column's needs its suffix.
func (c Column) otherUnit(err error, n number) error {
	var e *say.Error
	if !c.height() || n.suffix != "" || n.sign != "" || !errors.As(err, &e) {
		return err
	}
	other := map[Symbol]string{In: "mm", Mm: "in"}[n.unit]
	if n.unit == Mm && !n.mark {
		other = thou
	}
	text := n.text + " " + other
	if _, err := Parse(Column{Unit: c.Unit, Kind: Height, Comma: c.Comma}, text); err != nil {
		return e
	}
	return ask(say.Fail(e.Code, "unit.or", e.Line, shown(text)), text)
}
