package exchange

import (
	"strconv"
	"strings"

	"keeperbook/model/say"
)

// place is where in a document something stands: keys and indexes from the top.
type place []string

// pointer returns the place as a JSON pointer (RFC 6901), for programs.
func (p place) pointer() string {
	var b strings.Builder
	for _, step := range p {
		b.WriteByte('/')
		b.WriteString(strings.NewReplacer("~", "~0", "/", "~1").Replace(step))
	}
	return b.String()
}

// String returns the place for people, entries counted from 1: "record › setup › readings 3 › when".
func (p place) String() string {
	var b strings.Builder
	for i, step := range p {
		n, err := strconv.Atoi(step)
		switch {
		case err == nil && i > 0:
			step = " " + strconv.Itoa(n+1)
		case i > 0:
			b.WriteString(" › ")
			fallthrough
		default:
			step = short(step)
		}
		b.WriteString(step)
	}
	return b.String()
}

// fail returns an Invalid error about a place. The place is the first argument of the sentence.
func (p place) fail(key string, args ...any) *say.Error {
	where := any(p.String())
	if len(p) == 0 {
		where = say.New("exchange.top")
	}
	return say.Fail(say.Invalid, key, append([]any{where}, args...)...).About(p.pointer())
}

// shown is how much of a foreign text a sentence repeats.
const shown = 40

// short returns a text fit to stand in a sentence: on one line, without control characters, cut where
// it is long.
func short(text string) string {
	var b strings.Builder
	n := 0
	for _, r := range text {
		if n++; n > shown {
			b.WriteRune('…')
			break
		}
		if !strconv.IsPrint(r) {
			quoted := strconv.QuoteRune(r)
			b.WriteString(quoted[1 : len(quoted)-1])
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}
