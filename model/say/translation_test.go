package say

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// placeOrNumber finds what a sentence keeps in every language: its places, and its numbers, which are examples of what is typed and
// may have the decimal mark of the language.
var placeOrNumber = regexp.MustCompile(`\{\d+\}|[.,]?\d+(?:[.,]\d+)*`)

// keeps returns the places of a sentence, each once, and its numbers.
func keeps(sentence string) []string {
	found := placeOrNumber.FindAllString(sentence, -1)
	for i := range found {
		found[i] = strings.ReplaceAll(found[i], ",", ".")
	}
	slices.Sort(found)
	return slices.CompactFunc(found, func(a, b string) bool { return a == b && a[0] == '{' })
}

// A translation says what the English catalogue says: each file of it has the keys of the English file of its name, and each sentence
// the same places and numbers.
func TestTranslationsAgreeWithEnglish(t *testing.T) {
	for _, language := range Languages()[1:] {
		theirs, err := read(os.DirFS("."), language)
		if err != nil {
			t.Fatal(err)
		}
		for key, sentence := range theirs {
			if told, ok := English().Words[key]; !ok {
				t.Errorf("%s: %s is not in the English catalogue", language, key)
			} else if !slices.Equal(keeps(told), keeps(sentence)) {
				t.Errorf("%s: %s keeps %v of %v", language, key, keeps(sentence), keeps(told))
			}
		}
		files, err := filepath.Glob("en/*.txt")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			for _, key := range keysOf(t, name) {
				if _, ok := theirs[key]; !ok {
					t.Errorf("%s: %s of %s is missing", language, key, name)
				}
			}
		}
	}
}

func keysOf(t *testing.T, name string) (keys []string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if key, _, ok := strings.Cut(line, " = "); ok && line[0] != '#' {
			keys = append(keys, key)
		}
	}
	return keys
}
