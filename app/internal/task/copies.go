package task

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"keeperbook/app/internal/backup"
	"keeperbook/model/say"
	"keeperbook/store"
)

// CopyLine is a copy of a book, with what it holds.
type CopyLine struct {
	Path string
	At   time.Time
	store.Summary
	Bad say.Line // why it is none; zero where it is one
}

// Copies returns the copies of a book that lie beside it and in a second folder, "" for none, the newest first, each looked
// through. A second folder that is not there now has none.
func Copies(ctx context.Context, book, second string) ([]CopyLine, error) {
	path, err := filepath.Abs(book)
	if err != nil {
		return nil, err
	}
	all, err := backup.List(backup.Folder(path), path)
	if err != nil {
		return nil, err
	}
	if second != "" {
		if more, err := backup.List(inSecond(second, path), path); err == nil {
			all = append(all, more...)
		}
	}
	slices.SortStableFunc(all, func(a, b backup.Copy) int { return b.At.Compare(a.At) })
	lines := make([]CopyLine, len(all))
	for i, c := range all {
		say.Tell(ctx, "work.copies", i+1, len(all))
		lines[i] = CopyLine{Path: c.Path, At: c.At}
		if lines[i].Summary, err = store.Summarize(ctx, c.Path); ctx.Err() != nil {
			return nil, ctx.Err() // it is not the copy's fault
		} else if err != nil {
			lines[i].Bad = say.New("copies.bad")
		}
	}
	return lines, nil
}

// inSecond is the folder of a book's copies in a second folder.
func inSecond(second, book string) string {
	return filepath.Join(second, filepath.Base(backup.Folder(book)))
}

// Holds says what a copy holds, and when the last of it was kept.
func (c CopyLine) Holds() say.Line {
	if !c.Bad.Zero() {
		return c.Bad
	}
	return say.New("copies.holds", c.Heads, c.Setups, c.Readings, c.Last.Day())
}

// BackUp copies the book where something was kept since its newest copy and that is older than some time; 0 is any age. It
// reports whether it did. It may run beside other work.
func (d *Desk) BackUp(ctx context.Context, age time.Duration) (taken bool, err error) {
	folders := []string{backup.Folder(d.Path())}
	if d.Second != "" {
		folders = append(folders, inSecond(d.Second, d.Path()))
	}
	for i, folder := range folders {
		now := d.Clock()
		due, fault := backup.Due(ctx, d.Book, folder, now, age)
		if fault == nil && due {
			if _, there := os.Stat(d.Second); i > 0 && there != nil {
				// The disk may have been pulled: it is not made on the disk of the machine.
				fault = say.Fail(say.NotFound, "copies.second-gone", d.Second)
			} else if _, fault = backup.Take(ctx, d.Book, folder, now); fault == nil {
				taken = true
			}
		}
		if err == nil {
			err = fault
		}
	}
	return taken, err
}

// SecondFolder refuses (say.NotFound, say.Invalid) what is no folder for copies; nothing typed is none.
func SecondFolder(text string) (string, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", nil
	}
	path, err := filepath.Abs(text)
	if err != nil {
		return "", err
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return "", say.Fail(say.NotFound, "copies.second-gone", path)
	case !info.IsDir():
		return "", say.Fail(say.Invalid, "copies.second-file", path)
	}
	return path, nil
}

// Restore puts a copy in the place of a book that nobody has open, and returns where the book of before lies, "" where there was
// none.
func Restore(ctx context.Context, book, from string, now time.Time) (string, error) {
	path, err := filepath.Abs(book)
	if err != nil {
		return "", err
	}
	return backup.Restore(ctx, path, from, now)
}

// Salvage makes a new book of a damaged one: of its newest copy that can be read, beside it or in a
// second folder, and of every event in it that proves itself.
// The damaged book is only read. It returns where the new one lies; an empty path is one beside the damaged book.
func Salvage(ctx context.Context, book, second, to string, clock func() time.Time) (string, store.Salvaged, error) {
	path, err := filepath.Abs(book)
	if err != nil {
		return "", store.Salvaged{}, err
	}
	if to == "" {
		to = strings.TrimSuffix(path, BookEnding) + " saved " + clock().UTC().Format("20060102T150405Z") + BookEnding
	}
	all, err := Copies(ctx, path, second)
	if err != nil {
		return "", store.Salvaged{}, err
	}
	base := ""
	for _, c := range all {
		if c.Bad.Zero() {
			base = c.Path
			break
		}
	}
	s, err := store.Salvage(ctx, path, base, to, options(clock))
	return to, s, err
}

// SalvagedLines say what was got out of a damaged book, and what is gone.
func SalvagedLines(to string, s store.Salvaged) []say.Line {
	lines := []say.Line{say.New("salvage.made", to, s.Found)}
	if s.Base == "" {
		lines = append(lines, say.New("salvage.no-copy"))
	} else {
		lines = append(lines, say.New("salvage.copy", s.Base, s.Had, s.Taken+s.Retold))
	}
	switch {
	case s.Lost+s.Left == 0:
		lines = append(lines, say.New("salvage.nothing-gone"))
	default:
		lines = append(lines, say.New("salvage.gone", s.Lost, s.Left))
	}
	if s.Retold > 0 {
		lines = append(lines, say.New("salvage.retold", s.Retold))
	}
	return append(lines, say.New("salvage.then"))
}
