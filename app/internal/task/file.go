package task

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"keeperbook/model/say"
)

// WriteFile writes a file whole or not at all: it is written under another name beside its own, flushed
// to the disk and then renamed. A file of that name that was there before is replaced only then.
func WriteFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return fileFault(path, err)
	}
	err = fill(f, data)
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name()) // what stays behind if this fails too is a hidden file without a use
		return fileFault(path, err)
	}
	return nil
}

func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// ReadFile reads a file that is handed in, up to a size that nothing sensible has.
func ReadFile(path string, most int64) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, fileFault(path, err)
	}
	if info.IsDir() {
		return nil, say.Fail(say.Invalid, "task.folder", path)
	}
	if info.Size() > most {
		return nil, say.Fail(say.Invalid, "task.large", path, int(info.Size()>>20), int(most>>20))
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fileFault(path, err)
	}
	return data, nil
}

// fileFault says in one sentence what the system said of a file.
func fileFault(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return say.Fail(say.NotFound, "task.not-there", path).From(err)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return say.Fail(say.ReadOnly, "task.denied", path).From(err)
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EFBIG):
		return say.Fail(say.Full, "task.full", path).From(err)
	}
	return say.Fail(say.Internal, "task.file", path, err.Error()).From(err)
}
