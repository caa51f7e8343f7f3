package command

import (
	"path/filepath"
	"slices"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
)

// target is the file that a command writes: which of its arguments names it, and what it may end in. One without endings is none.
type target struct {
	at      int
	endings []string
}

var noFile target

func to(at int, endings ...string) target { return target{at, endings} }

// named returns the file where one is named, and refuses a name that does not end in what is written.
func (t target) named(words []string) (path string, err error) {
	if len(t.endings) == 0 || len(words) <= t.at {
		return "", nil
	}
	path = words[t.at]
	switch {
	case strings.TrimSpace(path) == "":
		return "", say.Fail(say.Invalid, "files.no-name", "out"+t.endings[0])
	case !slices.Contains(t.endings, strings.ToLower(filepath.Ext(path))):
		return "", say.Fail(say.Invalid, "command.out", path, strings.Join(t.endings, ", "))
	}
	return path, nil
}

// spare refuses a file that nothing may be written to, before the book is opened and anything is kept in it or signed.
func spare(out, book string) error {
	if out == "" {
		return nil
	}
	return files.Spare(out, book)
}
