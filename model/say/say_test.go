package say

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

type size int

func showSize(v any) (string, bool) {
	s, ok := v.(size)
	return fmt.Sprintf("%d thou", int(s)), ok
}

func TestPrinterLine(t *testing.T) {
	p := Printer{
		Words: map[string]string{
			"plain":   "nothing to fill",
			"two":     "{0} over {1}",
			"turned":  "{1} under {0}",
			"again":   "{0} and {0}",
			"missing": "{0} and {1}",
			"braces":  "{} {x} {-1} {0 } { {0}",
			"open":    "an open { at the end {0} {",
			"coil":    "the {0} coil",
		},
		Show: showSize,
	}
	tests := []struct {
		name string
		line Line
		want string
	}{
		{"zero", Line{}, ""},
		{"no places", New("plain"), "nothing to fill"},
		{"string and int", New("two", "three", 3), "three over 3"},
		{"in another order", New("turned", "a", "b"), "b under a"},
		{"twice", New("again", "x"), "x and x"},
		{"an argument short", New("missing", "x"), "x and {1}"},
		{"what is no place stays", New("braces", "x"), "{} {x} {-1} {0 } { x"},
		{"an unclosed brace stays", New("open", "x"), "an open { at the end x {"},
		{"an argument is not searched for places", New("two", "{1}", "{0}"), "{1} over {0}"},
		{"a shown value", New("two", size(15), size(30)), "15 thou over 30 thou"},
		{"a value nobody shows", New("two", 1.5, true), "1.5 over true"},
		{"a line in a line", New("two", New("coil", "inner"), New("coil", "outer")), "the inner coil over the outer coil"},
		{"a list of lines", New("coil", []Line{New("plain"), New("coil", "inner")}), "the nothing to fill, the inner coil coil"},
		{"an unknown key", New("nobody.wrote", "this", 3), "nobody.wrote this 3"},
		{"an unknown key alone", New("nobody.wrote"), "nobody.wrote"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := p.Line(tt.line); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestInKeepsTheWordsToItself(t *testing.T) {
	if got := In(showSize).Line(New("nobody.wrote", size(15))); got != "nobody.wrote 15 thou" {
		t.Errorf("got %q", got)
	}
	if English().Show != nil {
		t.Error("the English printer shows values, after another printer was made of it")
	}
}

func TestReadCatalogue(t *testing.T) {
	t.Run("OK", func(t *testing.T) {
		words, err := read(fstest.MapFS{
			"en/a.txt": {Data: []byte("# about a\n\na.one = one = 1\r\n  a.two = {0}  \n")},
			"en/b.txt": {Data: []byte("b.one = of b")},
		}, "en")
		if err != nil {
			t.Fatal(err)
		}
		for key, want := range map[string]string{"a.one": "one = 1", "a.two": "{0}", "b.one": "of b"} {
			if words[key] != want {
				t.Errorf("%s: got %q, want %q", key, words[key], want)
			}
		}
	})
	for name, files := range map[string]fstest.MapFS{
		"stands twice":   {"en/a.txt": {Data: []byte("a.one = 1")}, "en/b.txt": {Data: []byte("a.one = 2")}},
		`no " = "`:       {"en/a.txt": {Data: []byte("a.one: 1")}},
		"does not exist": {"de/a.txt": {Data: []byte("a.one = 1")}},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := read(files, "en"); err == nil || !strings.Contains(err.Error(), name) {
				t.Errorf("got %v", err)
			}
		})
	}
}

func TestError(t *testing.T) {
	cause := errors.New("cause")
	first := Fail(Busy, "nobody.wrote", 3)
	second := first.About("base").From(cause)
	if first.Field != "" || first.Err != nil {
		t.Errorf("a copy changed what it was made of: %+v", first)
	}
	if second.Field != "base" || second.Code != Busy || !errors.Is(second, cause) {
		t.Errorf("got %+v", second)
	}
	if got := second.Error(); got != "nobody.wrote 3" {
		t.Errorf("got %q", got)
	}
	for _, tt := range []struct {
		err  error
		want Code
	}{
		{nil, ""},
		{cause, Internal},
		{first, Busy},
		{fmt.Errorf("keep: %w", second), Busy},
	} {
		if got := CodeOf(tt.err); got != tt.want {
			t.Errorf("%v: got %q, want %q", tt.err, got, tt.want)
		}
	}
}
