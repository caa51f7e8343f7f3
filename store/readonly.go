package store

import (
	"context"
	"io"
	"os"
	"path/filepath"

	lib "modernc.org/sqlite/lib"
)

// OpenReadOnly opens a book to read in it: also one that somebody else has open, and one that lies
// where nothing can be written. What would write is refused with the code ReadOnly. A book that an
// older version made is refused too, for reading it would mean migrating it.
func OpenReadOnly(ctx context.Context, path string, o Options) (*Book, error) {
	b, err := openReadOnly(ctx, path, steps().newest())
	if err != nil {
		return nil, err
	}
	return b, nil
}

func openReadOnly(ctx context.Context, path string, newest int) (*Book, error) {
	return openReading(ctx, path, newest, false)
}

// OpenCopy opens a copy of a book to look into it or to copy it on: also one of an earlier form, of which nothing else can be
// read. Its other errors are those of [OpenReadOnly].
func OpenCopy(ctx context.Context, path string) (*Book, error) {
	return openReading(ctx, path, steps().newest(), true)
}

func openReading(ctx context.Context, path string, newest int, earlier bool) (*Book, error) {
	path, err := resolve(path)
	if err != nil {
		return nil, err
	}
	// Who has the book open has looked at its header. It is not opened here beside SQLite: it may be
	// this very process that has it open.
	if _, held := lockedBy(path); !held {
		if _, err := checkHeader(path, os.O_RDONLY, newest); err != nil {
			return nil, err
		}
		if err := ownLog(ctx, path); err != nil {
			return nil, err
		}
	}
	b := unopened(path)
	b.earlier = earlier
	if err := b.startReading(ctx, newest, false); err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

// openStill opens a book while its lock is held here, so that nobody writes it and reading leaves
// nothing beside it. Where the lock cannot be had it opens the book as openReadOnly does.
func openStill(ctx context.Context, path string, newest int) (*Book, error) {
	path, err := resolve(path)
	if err != nil {
		return nil, err
	}
	if _, held := lockedBy(path); held {
		return openReadOnly(ctx, path, newest)
	}
	if _, err := checkHeader(path, os.O_RDONLY, newest); err != nil {
		return nil, err
	}
	l, err := takeLock(path, Options{}.now())
	if err != nil {
		return openReadOnly(ctx, path, newest)
	}
	if err := ownLog(ctx, path); err != nil {
		l.release()
		return nil, err
	}
	b := unopened(path)
	b.lock = l
	if err := b.startReading(ctx, newest, true); err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

// startReading opens the readers. still says that nobody can write the book meanwhile.
func (b *Book) startReading(ctx context.Context, newest int, still bool) error {
	var err error
	if b.file, err = os.Stat(b.path); err != nil {
		return fault(err, b.path)
	}
	m := reading
	if still && !b.logged() || b.unwritable() {
		m = unchanged // reading would leave an empty log beside it, which nobody could take away
	}
	err = b.tryReading(ctx, b.path, m)
	// SQLite reads a log only where it can write its index of it. Without a log the book alone is
	// everything; with one, both are read as a copy.
	switch driverCode(causeOf(err)) {
	case lib.SQLITE_CANTOPEN, lib.SQLITE_READONLY:
		if !b.logged() {
			err = b.tryReading(ctx, b.path, unchanged)
			break
		}
		var copied string
		if copied, err = b.copyAside(); err == nil {
			err = b.tryReading(ctx, copied, reading)
		}
	}
	if err != nil {
		return err
	}
	return b.read(ctx, func(src source) error {
		version, err := schemaVersion(ctx, src)
		if err != nil {
			return err
		}
		if err := checkVersion(b.path, version, newest); err != nil {
			return err
		}
		if b.earlier {
			return nil
		}
		return checkOld(b.path, version, newest)
	})
}

// logged reports whether a log with something in it lies beside the book.
func (b *Book) logged() bool {
	log, err := os.Stat(b.path + "-wal")
	return err == nil && log.Size() > 0
}

// unwritable reports whether the file is all there is of the book and cannot be written, so that
// nobody else is writing it.
func (b *Book) unwritable() bool {
	if _, held := lockedBy(b.path); held || b.logged() {
		return false
	}
	f, err := os.OpenFile(b.path, os.O_RDWR, 0)
	if err != nil {
		return true
	}
	f.Close()
	return false
}

// tryReading opens the readers and reads once, for SQLite opens the file only then.
func (b *Book) tryReading(ctx context.Context, path string, m mode) error {
	db, err := pool(ctx, path, m)
	if err != nil {
		return err
	}
	b.readers = db
	err = b.read(ctx, func(src source) error {
		_, err := schemaVersion(ctx, src)
		return err
	})
	if err != nil {
		b.readers = nil
		db.Close()
	}
	return err
}

// copyAside copies the book with its log to a folder of this process.
func (b *Book) copyAside() (string, error) {
	folder, err := os.MkdirTemp("", "keeperbook-*")
	if err != nil {
		return "", fault(err, b.path)
	}
	b.copied = folder
	aside := filepath.Join(folder, filepath.Base(b.path))
	for _, end := range []string{"", "-wal"} {
		if err := copyFile(b.path+end, aside+end); err != nil {
			return "", fault(err, b.path)
		}
	}
	return aside, nil
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	if closed := out.Close(); err == nil {
		err = closed
	}
	return err
}
