package say_test

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/say"
)

var (
	placeForm = regexp.MustCompile(`\{\d+\}`)
	// Numbers stand in sentences as examples of what is typed, which is the same in every language.
	numberForm = regexp.MustCompile(`[.]?\d[.\d]*`)
)

// said returns what a sentence must keep in another language: its places, each once, and its numbers.
func said(sentence string) []string {
	all := slices.Sorted(maps.Keys(setOf(placeForm.FindAllString(sentence, -1))))
	numbers := numberForm.FindAllString(placeForm.ReplaceAllString(sentence, ""), -1)
	for i := range numbers {
		numbers[i] = strings.TrimRight(numbers[i], ".")
	}
	slices.Sort(numbers)
	return append(all, numbers...)
}

func setOf(all []string) map[string]bool {
	set := map[string]bool{}
	for _, one := range all {
		set[one] = true
	}
	return set
}

// A file of a translation says what the English file of its name says: the same keys, places and numbers.
func TestTranslationsAgreeWithEnglish(t *testing.T) {
	files, err := filepath.Glob("[a-z][a-z]/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		folder, base := filepath.Split(name)
		if folder == "en/" {
			continue
		}
		english, theirs := lines(t, filepath.Join("en", base)), lines(t, name)
		for key, sentence := range english {
			other, ok := theirs[key]
			if !ok {
				t.Errorf("%s: %s is missing", name, key)
			} else if !slices.Equal(said(sentence), said(other)) {
				t.Errorf("%s: %s keeps %v of %v", name, key, said(other), said(sentence))
			}
			delete(theirs, key)
		}
		for key := range theirs {
			t.Errorf("%s: %s is not in the English file", name, key)
		}
	}
}

func lines(t *testing.T, name string) map[string]string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]string{}
	for line := range strings.Lines(string(text)) {
		if key, sentence, ok := strings.Cut(strings.TrimSpace(line), " = "); ok && line[0] != '#' {
			words[key] = sentence
		}
	}
	if _, known := say.English().Words[slices.Sorted(maps.Keys(words))[0]]; !known {
		t.Fatalf("%s begins with a key that nothing says", name)
	}
	return words
}
