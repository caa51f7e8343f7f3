package say

import (
	"embed"
	"sync"
	"sync/atomic"
)

// Languages are the tags of those that the program speaks, English first. A test holds each to every sentence of the English
// catalogue.
func Languages() []string { return []string{"en", "de", "es"} }

//go:embed de/*.txt es/*.txt
var translated embed.FS

// translations are read once each, when somebody speaks them.
var translations = map[string]func() Printer{
	"de": sync.OnceValue(func() Printer { return translation("de") }),
	"es": sync.OnceValue(func() Printer { return translation("es") }),
}

func translation(tag string) Printer {
	words, err := read(translated, tag)
	if err != nil {
		panic(err) // as of the English one
	}
	return Printer{Language: tag, Words: words}
}

var chosen atomic.Pointer[Printer]

// Speak chooses the language that [Chosen] speaks, and reports whether there is one of this tag. It is chosen for the whole
// program: a window is in one language. What a command says and a record that is exported are in English whatever is chosen,
// and a sheet is in the language that it is printed in.
func Speak(tag string) bool {
	p, ok := Of(tag)
	if ok {
		chosen.Store(&p)
	}
	return ok
}

// Of returns the printer of a language and no Show function, and false where there is none of this tag.
func Of(tag string) (Printer, bool) {
	if of, ok := translations[tag]; ok {
		return of(), true
	}
	return English(), tag == English().Language
}

// Chosen returns a printer of the chosen language, English where nobody chose, and no Show function.
func Chosen() Printer {
	if p := chosen.Load(); p != nil {
		return *p
	}
	return English()
}

// ChosenIn returns the printer of the chosen language that shows values as show does.
func ChosenIn(show func(any) (string, bool)) Printer {
	p := Chosen()
	p.Show = show
	return p
}
