package store

import (
	"context"
	"os"
)

// sweep takes away the empty log and its index that reading leaves beside a book, if nobody has it
// open. A reader may not do that itself; SQLite does it when the last one who may write closes the
// book, and knows when that is. Where it cannot be done the two files stay and do no harm.
func (b *Book) sweep(ctx context.Context) {
	there, err := os.Stat(b.path)
	if err != nil || b.file == nil || !os.SameFile(there, b.file) {
		return
	}
	log, err := os.Stat(b.path + "-wal")
	if err != nil || log.Size() > 0 {
		return
	}
	l, err := takeLock(b.path, Options{}.now())
	if err != nil {
		return
	}
	defer l.release()
	db, conn, err := connect(ctx, b.path, writing)
	if err != nil {
		return
	}
	conn.Close()
	db.Close()
}
