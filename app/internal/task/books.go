package task

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"keeperbook/app/internal/files"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/store"
)

// BookEnding is how the name of a book ends.
const BookEnding = ".keeperbook"

// HeadLine is one head in the register, with its newest set-up.
type HeadLine = store.HeadLine

// OpenBook opens a book to work in it. Its errors are those of [store.Open]; one that is open elsewhere
// (say.Busy) can still be read with [ReadBook].
func OpenBook(ctx context.Context, path, who string, clock func() time.Time) (*Desk, error) {
	book, err := store.Open(ctx, path, options(clock))
	return desk(book, err, who, clock)
}

// ReadBook opens a book to read in it: sheets and exports are made, entries are refused (say.ReadOnly).
func ReadBook(ctx context.Context, path, who string, clock func() time.Time) (*Desk, error) {
	book, err := store.OpenReadOnly(ctx, path, options(clock))
	return desk(book, err, who, clock)
}

// MakeBook makes a new book and opens it. The path gets the ending of books where it lacks it.
func MakeBook(ctx context.Context, path, who string, clock func() time.Time) (*Desk, error) {
	if filepath.Ext(path) != BookEnding {
		path += BookEnding
	}
	book, err := store.Create(ctx, path, options(clock))
	return desk(book, err, who, clock)
}

func options(clock func() time.Time) store.Options {
	return store.Options{Clock: func() record.Stamp { return StampOf(clock()) }}
}

func desk(book *store.Book, err error, who string, clock func() time.Time) (*Desk, error) {
	if err != nil {
		return nil, err
	}
	return &Desk{Book: book, Who: who, Clock: clock}, nil
}

// OnNetwork reports whether a book lies on a disk of another machine.
func OnNetwork(path string) bool { return store.OnNetwork(path) }

// DemoBook writes the demonstration book and its sheets into a folder, which is made where it is
// missing, and returns where the book lies. One that is there already is left as it is.
func DemoBook(ctx context.Context, folder string, data fs.FS, clock func() time.Time) (string, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", files.Fault(folder, err)
	}
	path := filepath.Join(folder, "demonstration"+BookEnding)
	_, err := Demo(ctx, path, data, clock)
	var e *say.Error
	if errors.As(err, &e) && e.Code == say.Conflict {
		err = nil
	}
	return path, err
}

// Heads returns the heads that stand in the register under a text, the newest first. Every word of the
// text has to stand, or begin a word, in what is said of the head; "found", "built", "open", "closed" and
// the beginning of a date (2026-05) also mean the state of its newest set-up and when that was begun.
func (d *Desk) Heads(ctx context.Context, text string) ([]HeadLine, error) {
	var states, others []string
	for _, w := range strings.Fields(strings.ToLower(text)) {
		if meansState(w) {
			states = append(states, w)
		} else {
			others = append(others, w)
		}
	}
	lines, err := d.Book.Heads(ctx, store.Filter{Text: strings.Join(others, " ")})
	if err != nil || len(states) == 0 {
		return lines, err
	}
	// A word such as "open" may stand in a name all the same.
	named, err := d.Book.Heads(ctx, store.Filter{Text: text})
	if err != nil {
		return nil, err
	}
	keep := map[string]bool{}
	for _, l := range named {
		keep[l.Head] = true
	}
	var found []HeadLine
	for _, l := range lines {
		if keep[l.Head] || inState(l, states) {
			found = append(found, l)
		}
	}
	return found, nil
}

// stateWords are the words that the register says of the state of a set-up.
func stateWords(l HeadLine) []string {
	words := strings.Split(string(l.Kind), "-")
	return append(words, string(l.State), string(l.Begun.Day()), say.Chosen().Day(l.Begun.Day()))
}

// meansState reports whether a word can mean a state: enough of the beginning of one, or of a date.
func meansState(word string) bool {
	for _, w := range []string{"found", "built", string(record.Open), string(record.Closed)} {
		if len(word) >= 3 && strings.HasPrefix(w, word) {
			return true
		}
	}
	return word == "as" || len(word) >= 5 && strings.HasPrefix(word, "20") && word[4] == '-'
}

func inState(l HeadLine, states []string) bool {
	for _, s := range states {
		some := false
		for _, w := range stateWords(l) {
			some = some || w != "" && strings.HasPrefix(w, s)
		}
		if !some {
			return false
		}
	}
	return true
}

// Setups returns the set-ups of a head, oldest first and without their lists.
func (d *Desk) Setups(ctx context.Context, head string) ([]record.Setup, error) {
	return d.Book.Setups(ctx, head)
}

// Path returns where the book lies.
func (d *Desk) Path() string { return d.Book.Path() }

// SaveCopy writes a copy of the book, as it is now, to a file that does not exist yet, and returns its
// path. It works also for a book that was renamed or deleted while open.
func (d *Desk) SaveCopy(ctx context.Context, path string) (string, error) {
	if filepath.Ext(path) != BookEnding {
		path += BookEnding
	}
	return path, d.Book.Copy(ctx, path)
}

// Close closes the book.
func (d *Desk) Close() error { return d.Book.Close() }

// Cautions returns what has to be said beside the work.
func Cautions() []say.Line { return pdf.Cautions() }

// Valves reads how many valves a cylinder has: as intakes and exhausts ("2+1"), or as one number, of
// which the intakes are the greater part (2, 3, 4, 5 are 1+1, 2+1, 2+2, 3+2).
func Valves(text string) (intakes, exhausts int, err error) {
	in, ex, both := strings.Cut(strings.ReplaceAll(text, " ", ""), "+")
	n, fault := strconv.Atoi(in)
	if both && fault == nil {
		intakes = n
		exhausts, fault = strconv.Atoi(ex)
	} else {
		intakes, exhausts = (n+1)/2, n/2
	}
	if fault != nil || intakes < 1 || intakes > 3 || exhausts < 1 || exhausts > 3 {
		return 0, 0, say.Fail(say.Invalid, "register.valves", text).About("valves")
	}
	return intakes, exhausts, nil
}

// CheckCylinders says why labels will not do as those of the cylinders of a head; nil where they will.
func CheckCylinders(labels []string) error {
	return NewHead{Tag: "-", Cylinders: labels, Intakes: 1, Exhausts: 1}.check()
}
