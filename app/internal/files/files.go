// Package files reads and writes whole files, and says in one sentence what went wrong with one.
package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"unicode"

	"keeperbook/model/say"
)

// Write writes a file whole or not at all: it is written under another name beside its own, flushed
// to the disk and then renamed. A file of that name that was there before is replaced only then.
func Write(path string, data []byte) error { return write(path, data, 0o644) }

// WritePrivate writes a file as [Write] does that nobody else on the machine may read.
func WritePrivate(path string, data []byte) error { return write(path, data, 0o600) }

func write(path string, data []byte, mode os.FileMode) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return Fault(path, err)
	}
	err = fill(f, data, mode)
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name()) // what stays behind if this fails too is a hidden file without a use
		return Fault(path, err)
	}
	return nil
}

func fill(f *os.File, data []byte, mode os.FileMode) error {
	_, err := f.Write(data)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// Read reads a file that is handed in, up to a size that nothing sensible has.
func Read(path string, most int64) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, Fault(path, err)
	}
	if info.IsDir() {
		return nil, say.Fail(say.Invalid, "files.folder", path)
	}
	if info.Size() > most {
		return nil, say.Fail(say.Invalid, "files.large", path, int(info.Size()>>20), int(most>>20))
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, Fault(path, err)
	}
	return data, nil
}

// Fault says in one sentence what the system said of a file.
func Fault(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return say.Fail(say.NotFound, "files.not-there", path).From(err)
	case errors.Is(err, syscall.EISDIR), errors.Is(err, fs.ErrExist) && isFolder(path): // the second of a file renamed over a folder
		return say.Fail(say.Invalid, "files.folder", path).From(err)
	case errors.Is(err, syscall.ENOTDIR):
		return say.Fail(say.NotFound, "files.below-file", path).From(err)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return say.Fail(say.Invalid, "files.long-name", path).From(err)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return say.Fail(say.ReadOnly, "files.denied", path).From(err)
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EFBIG):
		return say.Fail(say.Full, "files.full", path).From(err)
	}
	return say.Fail(say.Internal, "files.file", path, err.Error()).From(err)
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// Place is where a file goes that somebody named: as it was named, in the folder of the usual one where it was named without
// a root, with its ending where it was named without one. One that is there already is refused (say.Conflict) unless it is to
// be replaced, and the name of a book (say.Invalid) always.
func Place(named, usual string, replace bool) (string, error) {
	path := strings.TrimSpace(named)
	switch {
	case path == "":
		return "", say.Fail(say.Invalid, "files.no-name", usual)
	case !filepath.IsAbs(path):
		path = filepath.Join(filepath.Dir(usual), path)
	}
	if strings.EqualFold(filepath.Ext(path), bookEnding) {
		return "", say.Fail(say.Invalid, "files.book", path) // whose locks would go with looking into it
	}
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return "", say.Fail(say.Invalid, "files.folder", path)
	}
	if filepath.Ext(path) == "" {
		path += filepath.Ext(usual)
		_, err = os.Stat(path)
	}
	if err == nil && !replace {
		return path, say.Fail(say.Conflict, "files.there", path)
	}
	return path, nil
}

// Name makes a name that every system takes out of what something is called; "" where nothing of that can be in one.
func Name(called string) string {
	name := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, strings.TrimSpace(called))
	name = strings.Trim(name, ". ")
	// Systems take 255 bytes; an ending comes behind.
	for len(name) > 180 {
		name = strings.ToValidUTF8(name[:len(name)-1], "")
	}
	return name
}
