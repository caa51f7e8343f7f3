package store

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"sync"
	"time"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Options is what a book needs from outside.
type Options struct {
	Clock   func() record.Stamp // the time in UTC; the system's where it is nil
	Backups string              // folder for copies made before a migration; beside the book where it is empty
}

func (o Options) now() record.Stamp {
	if o.Clock != nil {
		return o.Clock()
	}
	return record.Stamp(time.Now().UTC().Format(time.RFC3339))
}

// Book is one open book. It may be used from several goroutines: readers go side by side, and
// whoever writes waits for the writer before.
type Book struct {
	path    string
	file    os.FileInfo   // the file as it was when it was opened
	lock    *lock         // nil where the book is only read
	desk    *desk         // nil where the book is only read
	earlier bool          // it may be of an earlier form, as only what all forms have is read
	turn    chan struct{} // holds one while somebody writes
	shut    chan struct{} // closed when the book is

	writer, readers *sql.DB
	copied          string // folder of a copy that is read in place of the book, "" where there is none

	checking sync.WaitGroup // of the look through a large book after it was opened
	stop     context.CancelFunc
	found    chan error // holds what that look found, once it has found damage

	closing sync.Once
	closed  error
}

// unopened is a book before its connections are opened.
func unopened(path string) *Book {
	return &Book{path: path, turn: make(chan struct{}, 1), shut: make(chan struct{}), found: make(chan error, 1)}
}

// Path returns where the book lies.
func (b *Book) Path() string { return b.path }

// Close writes what is still beside the book into it, closes it and takes the lock file away. The
// book is on the disk before that already; an error here loses nothing. Closing twice is closing once.
func (b *Book) Close() error {
	b.closing.Do(func() { b.closed = b.close() })
	return b.closed
}

func (b *Book) close() error {
	if b.stop != nil {
		b.stop()
		b.checking.Wait()
	}
	var errs []error
	if b.readers != nil {
		errs = append(errs, b.readers.Close())
	}
	if b.desk != nil {
		b.turn <- struct{}{} // the last one who writes ends first; the turn is never given again
		close(b.shut)
		_, err := b.desk.checkpoint(context.Background())
		errs = append(errs, err)
		b.desk.close()
	}
	if b.writer != nil {
		errs = append(errs, b.writer.Close())
	}
	if b.lock != nil {
		b.lock.release()
	}
	if b.copied != "" {
		errs = append(errs, os.RemoveAll(b.copied))
	}
	if b.lock == nil && b.readers != nil {
		b.sweep(context.Background())
	}
	return fault(errors.Join(errs...), b.path)
}

// checkpoint moves the write-ahead log into the book and empties it. It reports false where a
// reader still needs the log.
func (d *desk) checkpoint(ctx context.Context) (bool, error) {
	var busy, pages, moved int
	_, err := one(ctx, d, `PRAGMA wal_checkpoint(TRUNCATE)`, nil, &busy, &pages, &moved)
	return busy == 0, err
}

// errClosed is a fault of the caller.
var errClosed = errors.New("the book is closed")

// takeTurn waits until nobody else writes.
func (b *Book) takeTurn(ctx context.Context) error {
	if b.desk == nil {
		return say.Fail(say.ReadOnly, "store.reading-only", b.path)
	}
	select {
	case b.turn <- struct{}{}:
		return nil
	case <-b.shut:
		return fault(errClosed, b.path)
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (b *Book) giveTurn() { <-b.turn }

// usable refuses to write where the writing would be lost, or the book is known to be damaged.
// SQLite goes on writing to a file that was renamed or deleted.
func (b *Book) usable() error {
	there, err := os.Stat(b.path)
	if err != nil || !os.SameFile(b.file, there) {
		return say.Fail(say.Moved, "store.moved", b.path).From(err)
	}
	select {
	case err := <-b.found:
		b.found <- err
		return err
	default:
		return nil
	}
}

// read runs a function on one moment of the book.
func (b *Book) read(ctx context.Context, do func(src source) error) error {
	tx, err := b.readers.BeginTx(ctx, nil)
	if err != nil {
		return fault(err, b.path)
	}
	defer tx.Rollback()
	return fault(do(&snapshot{tx, map[string]*sql.Stmt{}}), b.path)
}
