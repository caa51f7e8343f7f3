package store

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"keeperbook/model/say"
)

// Create makes a new book and opens it. It refuses a name that is taken, and a name beside which the
// log of an earlier book was left: SQLite would read that log into the new book.
//
// The book is made under another name and gets its own when it is whole, so that what stops
// halfway leaves no file that looks like a book.
func Create(ctx context.Context, path string, o Options) (*Book, error) {
	return create(ctx, path, o, steps())
}

func create(ctx context.Context, path string, o Options, m migrations) (*Book, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fault(err, path)
	}
	for _, name := range append(beside(path), path) {
		if _, err := os.Lstat(name); err == nil {
			return nil, say.Fail(say.Conflict, "store.exists", name)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return nil, fault(err, name)
		}
	}
	if err := createWhole(ctx, path, o, m); err != nil {
		return nil, err
	}
	return open(ctx, path, o, m)
}

func createWhole(ctx context.Context, path string, o Options, m migrations) error {
	folder, err := os.MkdirTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return fault(err, path)
	}
	defer os.RemoveAll(folder)
	unnamed := filepath.Join(folder, "new")
	db, conn, err := connect(ctx, unnamed, creating)
	if err != nil {
		return err
	}
	b := unopened(unnamed)
	b.writer, b.desk = db, newDesk(conn)
	err = b.migrate(ctx, o, m, 0)
	if closed := b.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return name(unnamed, path)
}

// beside lists the files that SQLite keeps beside a book.
func beside(path string) []string {
	return []string{path + "-wal", path + "-shm", path + "-journal"}
}

// name syncs a finished file and gives it its name, unless the name is taken.
func name(unnamed, path string) error {
	if err := syncFile(unnamed); err != nil {
		return fault(err, path)
	}
	if err := moveNew(unnamed, path); err != nil {
		return fault(err, path)
	}
	return fault(syncFolder(filepath.Dir(path)), path)
}

// moveNew renames a file without writing over another. A link is refused where the name is taken;
// where a disk knows no links, the name is looked up first.
func moveNew(from, to string) error {
	err := os.Link(from, to)
	if err == nil {
		return os.Remove(from)
	}
	if errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return &fs.PathError{Op: "rename", Path: to, Err: fs.ErrExist}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return os.Rename(from, to)
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
