package store

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"keeperbook/model/say"
)

// Copy writes a copy of the book, as it is at this moment, to a file that does not exist yet. The copy
// has been looked through and is on the disk when this returns nil; where it fails, there is none.
// A book that was renamed or deleted while open can still be copied.
func (b *Book) Copy(ctx context.Context, path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return fault(err, path)
	}
	conn, err := b.readers.Conn(ctx)
	if err != nil {
		return fault(err, b.path)
	}
	defer conn.Close()
	// A connection that may only ask cannot copy either. It still cannot write the book: the file is
	// open for reading.
	if _, err := conn.ExecContext(ctx, `PRAGMA query_only = off`); err != nil {
		return fault(err, b.path)
	}
	defer conn.ExecContext(context.WithoutCancel(ctx), `PRAGMA query_only = on`)
	return copyBook(ctx, conn, path)
}

// copyBook copies what a connection sees. Only VACUUM INTO takes the log beside the book into account.
func copyBook(ctx context.Context, from *sql.Conn, path string) error {
	for _, name := range append(beside(path), path) {
		if _, err := os.Lstat(name); err == nil {
			return say.Fail(say.Conflict, "store.exists", name)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fault(err, name)
		}
	}
	folder, err := os.MkdirTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return fault(err, path)
	}
	defer os.RemoveAll(folder)
	unnamed := filepath.Join(folder, "copy.part")
	if _, err := from.ExecContext(ctx, `VACUUM INTO ?`, unnamed); err != nil {
		return fault(err, path)
	}
	if err := syncFile(unnamed); err != nil {
		return fault(err, path)
	}
	if err := verify(ctx, unnamed); err != nil {
		return err
	}
	return name(unnamed, path)
}

// verify opens a finished copy that nobody else knows of and looks through it.
func verify(ctx context.Context, path string) error {
	db, err := pool(ctx, path, unchanged)
	if err != nil {
		return err
	}
	tx, err := db.BeginTx(ctx, nil)
	if err == nil {
		err = quickCheck(ctx, &snapshot{tx, map[string]*sql.Stmt{}}, path)
		tx.Rollback()
	}
	return fault(errors.Join(err, db.Close()), path)
}
