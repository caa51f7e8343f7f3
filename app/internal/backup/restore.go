package backup

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
	"keeperbook/model/say"
	"keeperbook/store"
)

// beside are the files that belong to a book while it is open: of another book they would change what stands in it.
var beside = []string{"-wal", "-shm", "-journal"}

// Restore puts a copy in the place of a book that nobody has open, and returns where the book of before lies: nothing of it is
// thrown away. The copy is looked through first, and stays. Where it fails the book is as it was. A book that is no file, and one that is
// its own copy, are refused (say.Invalid).
func Restore(ctx context.Context, book, from string, now time.Time) (before string, err error) {
	if err := apart(book, from); err != nil {
		return "", err
	}
	if _, err := store.Summarize(ctx, from); err != nil {
		return "", err
	}
	free, err := store.Free(book)
	if err != nil {
		return "", err
	}
	defer free()
	ready, err := copied(ctx, from, filepath.Dir(book))
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(filepath.Dir(ready))
	before, moved, err := aside(book, now)
	if err == nil {
		err = os.Rename(ready, book)
	}
	if err != nil {
		for to, was := range moved { // as it was
			err = errors.Join(err, os.Rename(to, was))
		}
		return "", files.Fault(book, err)
	}
	return before, syncFolder(filepath.Dir(book))
}

// apart refuses a place that is no file, and the book as its own copy.
func apart(book, from string) error {
	there, err := os.Stat(book)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil // it was deleted
	case err != nil:
		return files.Fault(book, err)
	case !there.Mode().IsRegular():
		return say.Fail(say.Invalid, "copies.no-book", book)
	}
	if same, err := os.Stat(from); err == nil && os.SameFile(there, same) {
		return say.Fail(say.Invalid, "copies.same-file", from)
	}
	return nil
}

// copied writes what a copy holds into a folder under a name of no use, looked through and on the disk.
func copied(ctx context.Context, from, folder string) (path string, err error) {
	within, err := os.MkdirTemp(folder, ".keeperbook-*")
	if err != nil {
		return "", files.Fault(folder, err)
	}
	path = filepath.Join(within, "copy"+ending)
	book, err := store.OpenCopy(ctx, from)
	if err == nil {
		err = errors.Join(book.Copy(ctx, path), book.Close())
	}
	if err != nil {
		os.RemoveAll(within)
	}
	return path, err
}

// aside moves a book with what lies beside it to another name, and returns that and what was moved from where; "" where there is
// no book.
func aside(book string, now time.Time) (before string, moved map[string]string, err error) {
	moved = map[string]string{}
	stem := strings.TrimSuffix(book, filepath.Ext(book)) + " before " + now.UTC().Format(stamp)
	before = stem + ending
	for n := 2; ; n++ { // one of that second lies there already
		if _, err := os.Lstat(before); errors.Is(err, fs.ErrNotExist) {
			break
		}
		before = stem + " " + strconv.Itoa(n) + ending
	}
	for _, tail := range append([]string{""}, beside...) {
		err := os.Rename(book+tail, before+tail)
		if err == nil {
			moved[before+tail] = book + tail
		} else if !errors.Is(err, fs.ErrNotExist) {
			return before, moved, err
		}
	}
	if _, there := moved[before]; !there {
		return "", moved, nil // it was deleted; what lay beside it must not become part of the copy
	}
	return before, moved, nil
}

func syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return nil // not every system opens a folder
	}
	defer f.Close()
	f.Sync()
	return nil
}
