// Package say holds sentences that have not been put into words yet.
//
// The model never builds a sentence. It gives a key and arguments, a [Line], and a [Printer]
// looks the key up in a catalogue of one language and shows the arguments in the units that the
// reader chose. Window, sheet and commands so print the same sentence from the same line.
//
// The package is a leaf: it knows nothing of lengths or valves. What an argument looks like is
// decided by the Show function of the printer.
package say

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Line is one sentence, or a part of one, as a key of the catalogue and its arguments.
//
// An argument is a string (printed as it is), an int, a [Number], a [Day] or what has one to show, another Line (a part that needs
// translating too), or a value that the printer's Show function knows.
type Line struct {
	Key  string
	Args []any
}

// New returns the line with this key and these arguments.
func New(key string, args ...any) Line { return Line{Key: key, Args: args} }

// Zero reports whether the line says nothing.
func (l Line) Zero() bool { return l.Key == "" }

// Printer turns lines into sentences.
type Printer struct {
	// Language is the tag of the language of Words.
	Language string
	// Words maps a key to its sentence, where {0}, {1}, … stand for the arguments.
	Words map[string]string
	// Show prints a value that is neither string, int nor Line; false where it does not know it.
	Show func(any) (string, bool)
}

// Line returns the sentence. A key that the catalogue lacks comes out as the key with its
// arguments, so that nothing is swallowed; a test keeps the catalogue complete.
func (p Printer) Line(l Line) string {
	if l.Zero() {
		return ""
	}
	args := make([]string, len(l.Args))
	for i, a := range l.Args {
		args[i] = p.arg(a)
	}
	words, ok := p.Words[l.Key]
	if !ok {
		return strings.TrimSpace(l.Key + " " + strings.Join(args, " "))
	}
	return fill(words, args)
}

func (p Printer) arg(a any) string {
	switch v := a.(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case Number:
		return p.Number(v)
	case Day:
		return p.Day(v)
	case interface{ Shown() Day }:
		return p.Day(v.Shown())
	case Line:
		return p.Line(v)
	case []Line:
		parts := make([]string, len(v))
		for i, l := range v {
			parts[i] = p.Line(l)
		}
		return strings.Join(parts, p.between(parts))
	}
	if p.Show != nil {
		if s, ok := p.Show(a); ok {
			return s
		}
	}
	return fmt.Sprint(a)
}

// between is what parts the members of a list: a semicolon where a comma would be taken for a decimal mark.
func (p Printer) between(parts []string) string {
	if p.Comma() && slices.ContainsFunc(parts, func(part string) bool { return strings.Contains(part, ",") }) {
		return "; "
	}
	return ", "
}

// fill puts the arguments in the places {0}, {1}, … A brace that is no place stays as it is, and an
// argument is never searched for places again.
func fill(words string, args []string) string {
	var b strings.Builder
	for {
		open := strings.IndexByte(words, '{')
		if open < 0 {
			b.WriteString(words)
			return b.String()
		}
		b.WriteString(words[:open])
		words = words[open:]
		shut := strings.IndexByte(words, '}')
		n, err := -1, error(nil)
		if shut > 0 {
			n, err = strconv.Atoi(words[1:shut])
		}
		if shut < 0 || err != nil || n < 0 || n >= len(args) {
			b.WriteByte('{')
			words = words[1:]
			continue
		}
		b.WriteString(args[n])
		words = words[shut+1:]
	}
}
