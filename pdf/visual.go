package pdf

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/bidi"
)

// visual returns one line in the order in which its signs stand on the page from left to right. The PDF
// writer sets signs in the order it gets them, which would mirror Hebrew and Arabic names.
//
// The line itself reads from left to right; in it, a stretch that begins with a right-to-left letter and
// has no left-to-right letter in it is turned round, with its numbers left as they are. That is what the
// Unicode bidirectional algorithm (UAX #9) gives for a line without marks of direction, and [clean] has
// taken those out.
func visual(line string) string {
	if !strings.ContainsFunc(line, func(r rune) bool { return class(r) == rightward }) {
		return line
	}
	signs := clusters(line)
	for i := 0; i < len(signs); i++ {
		if signs[i].class != rightward {
			continue
		}
		end := i + 1
		for j := i; j < len(signs) && signs[j].class != leftward; j++ {
			if signs[j].class != neutral {
				end = j + 1
			}
		}
		turn(signs[i:end])
		i = end - 1
	}
	var b strings.Builder
	for _, s := range signs {
		b.WriteString(s.text)
	}
	return b.String()
}

// Classes of signs, as far as they matter for one line.
const (
	neutral = iota
	leftward
	rightward
	digit
)

// sign is a letter with the marks that stand on it.
type sign struct {
	text  string
	class int
}

func class(r rune) int {
	if r < 0x80 {
		switch {
		case r >= '0' && r <= '9':
			return digit
		case unicode.IsLetter(r):
			return leftward
		}
		return neutral
	}
	switch p, _ := bidi.LookupRune(r); p.Class() {
	case bidi.R, bidi.AL:
		return rightward
	case bidi.L:
		return leftward
	case bidi.EN, bidi.AN:
		return digit
	}
	return neutral
}

// clusters parts a line into signs.
func clusters(line string) []sign {
	var all []sign
	for _, r := range line {
		if n := len(all); n > 0 && unicode.Is(unicode.Mn, r) {
			all[n-1].text += string(r)
			continue
		}
		all = append(all, sign{string(r), class(r)})
	}
	return all
}

// turn reverses a stretch, then its numbers again; brackets change sides.
func turn(all []sign) {
	slices.Reverse(all)
	for i := 0; i < len(all); i++ {
		if all[i].class != digit {
			all[i].text = mirrored(all[i].text)
			continue
		}
		end := i + 1
		for end < len(all) && (all[end].class == digit || joins(all, end)) {
			end++
		}
		slices.Reverse(all[i:end])
		i = end - 1
	}
}

// joins reports whether the sign between two digits is part of one number: 12.5, 10:30, 4-6.
func joins(all []sign, i int) bool {
	return i+1 < len(all) && all[i+1].class == digit && strings.ContainsAny(all[i].text, ".,:/-")
}

func mirrored(text string) string {
	switch text {
	case "(":
		return ")"
	case ")":
		return "("
	case "[":
		return "]"
	case "]":
		return "["
	}
	return text
}
