package files

import (
	"errors"
	"io"
	"io/fs"
	"os"

	"keeperbook/model/say"
)

// magic begins every SQLite file, so every book (https://www.sqlite.org/fileformat.html, 1.3).
const magic = "SQLite format 3\x00"

// bookEnding is that of books, which nothing but a book is named by.
const bookEnding = ".keeperbook"

// Spare refuses a path that nothing may be written to: a folder (say.Invalid), the book that is worked with and any other book
// (say.Conflict). It is asked before the book is opened: closing a file drops all locks that this process holds on it.
func Spare(path, book string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return Fault(path, err)
	case info.IsDir():
		return say.Fail(say.Invalid, "files.folder", path)
	}
	if own, err := os.Stat(book); err == nil && os.SameFile(info, own) {
		return say.Fail(say.Conflict, "files.book", path)
	}
	if !info.Mode().IsRegular() {
		return nil // a pipe that is opened waits for somebody at its other end
	}
	f, err := os.Open(path)
	if err != nil {
		return Fault(path, err)
	}
	defer f.Close()
	begins := make([]byte, len(magic))
	if _, err := io.ReadFull(f, begins); err == nil && string(begins) == magic {
		return say.Fail(say.Conflict, "files.book", path)
	}
	return nil
}
