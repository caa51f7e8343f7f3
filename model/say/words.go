package say

import (
	"embed"
	"fmt"
	"io/fs"
	"strings"
	"sync"
)

//go:embed en/*.txt
var english embed.FS

// English returns a printer with the English catalogue and no Show function.
var English = sync.OnceValue(func() Printer {
	words, err := read(english, "en")
	if err != nil {
		// The catalogue is part of the program; a test reads it. A fault here cannot be met at run time.
		panic(err)
	}
	return Printer{Language: "en", Words: words}
})

// In returns the English printer that shows values as show does.
func In(show func(any) (string, bool)) Printer {
	p := English()
	p.Show = show
	return p
}

// read reads a folder of catalogue files. A line is "key = sentence"; blank lines and lines that
// begin with # are passed over. A key may stand only once in the whole folder.
func read(files fs.FS, folder string) (map[string]string, error) {
	entries, err := fs.ReadDir(files, folder)
	if err != nil {
		return nil, err
	}
	words := map[string]string{}
	for _, entry := range entries {
		name := folder + "/" + entry.Name()
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		for n, line := range strings.Split(string(text), "\n") {
			line = strings.TrimSpace(line)
			if line == "" || line[0] == '#' {
				continue
			}
			key, sentence, ok := strings.Cut(line, " = ")
			if !ok {
				return nil, fmt.Errorf("%s:%d: no \" = \" in %q", name, n+1, line)
			}
			if _, twice := words[key]; twice {
				return nil, fmt.Errorf("%s:%d: key %q stands twice", name, n+1, key)
			}
			words[key] = sentence
		}
	}
	return words, nil
}
