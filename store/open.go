package store

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"

	"modernc.org/sqlite"

	"keeperbook/model/say"
)

// smallBook is how many bytes of a book are looked through while somebody waits for it, some
// tenths of a second. A larger one is looked through behind their back.
const smallBook = 100 << 20

// Open opens a book to write in it. A file that is no book, or that a later version made, or that
// somebody else has open, is refused as it is: not one byte of it changes.
func Open(ctx context.Context, path string, o Options) (*Book, error) {
	return open(ctx, path, o, steps())
}

func open(ctx context.Context, path string, o Options, m migrations) (*Book, error) {
	path, err := resolve(path)
	if err != nil {
		return nil, err
	}
	if who, held := lockedBy(path); held {
		return nil, who.busy(path)
	}
	if _, err := checkHeader(path, os.O_RDWR, m.newest()); err != nil {
		return nil, err
	}
	l, err := takeLock(path, o.now())
	if err != nil {
		return nil, err
	}
	if err := ownLog(ctx, path); err != nil {
		l.release()
		return nil, err
	}
	b := unopened(path)
	b.lock = l
	if err := b.start(ctx, o, m); err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

// resolve follows links, so that two names of a book lead to one lock file.
func resolve(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fault(err, path)
	}
	real, err := filepath.EvalSymlinks(abs)
	if err != nil {
		return "", fault(err, abs)
	}
	return real, nil
}

// start opens the connections, in this order: nothing is written before the book has been looked at.
func (b *Book) start(ctx context.Context, o Options, m migrations) error {
	var err error
	if b.file, err = os.Stat(b.path); err != nil {
		return fault(err, b.path)
	}
	small, logged := b.file.Size() < smallBook, b.logged()
	if small && logged {
		if err := lookBeforeWriting(ctx, b.path); err != nil {
			return err
		}
	}
	var conn *sql.Conn
	if b.writer, conn, err = connect(ctx, b.path, writing); err != nil {
		return err
	}
	b.desk = newDesk(conn)
	if err := refuseReadOnly(conn, b.path); err != nil {
		return err
	}
	version, err := b.desk.version(ctx)
	if err != nil {
		return fault(err, b.path)
	}
	// The log beside the book may hold a newer version than the header that was read before.
	if err := checkVersion(b.path, version, m.newest()); err != nil {
		return err
	}
	if small && !logged {
		if err := quickCheck(ctx, b.desk, b.path); err != nil {
			return err
		}
	}
	if err := b.migrate(ctx, o, m, version); err != nil {
		return err
	}
	if b.readers, err = pool(ctx, b.path, reading); err != nil {
		return err
	}
	if !small {
		b.checkBehind()
	}
	return nil
}

// lookBeforeWriting asks whether the pages hang together with the log read in, on a connection that cannot write: one that can
// writes the log into the book when it closes, also into one that turns out to be damaged.
func lookBeforeWriting(ctx context.Context, path string) error {
	b := unopened(path)
	defer b.Close()
	if err := b.tryReading(ctx, path, reading); err != nil {
		return err
	}
	return b.read(ctx, func(src source) error { return quickCheck(ctx, src, path) })
}

// checkBehind looks through a large book while work goes on. Damage found so is told at the next save.
func (b *Book) checkBehind() {
	ctx, stop := context.WithCancel(context.Background())
	b.stop = stop
	b.checking.Go(func() {
		err := b.read(ctx, func(src source) error { return quickCheck(ctx, src, b.path) })
		if say.CodeOf(err) == say.Damaged {
			b.found <- err
		}
	})
}

// lockPerFile makes SQLite's locks belong to the open file and not to the process, where the
// system can: closing any other handle of a book would else drop them.
func lockPerFile() error {
	if sqlite.OFDLockingEnabled() {
		return nil
	}
	_, err := sqlite.OFDLocking(true)
	if errors.Is(err, sqlite.ErrOFDLockingUnavailable) {
		return nil
	}
	return err
}

// connect opens the one connection that writes.
func connect(ctx context.Context, path string, m mode) (*sql.DB, *sql.Conn, error) {
	if err := lockPerFile(); err != nil {
		return nil, nil, fault(err, path)
	}
	db, err := sql.Open("sqlite", dsn(path, m))
	if err != nil {
		return nil, nil, fault(err, path)
	}
	db.SetMaxOpenConns(1)
	conn, err := db.Conn(ctx)
	if err != nil {
		db.Close()
		return nil, nil, fault(err, path)
	}
	if err := readBack(ctx, conn, path, m); err != nil {
		conn.Close()
		db.Close()
		return nil, nil, err
	}
	return db, conn, nil
}

// pool opens the connections that read, all of them at once: one opened later would go by the name
// of the book, and find another file there where the book was renamed.
func pool(ctx context.Context, path string, m mode) (*sql.DB, error) {
	const readers = 4
	if err := lockPerFile(); err != nil {
		return nil, fault(err, path)
	}
	db, err := sql.Open("sqlite", dsn(path, m))
	if err != nil {
		return nil, fault(err, path)
	}
	db.SetMaxOpenConns(readers)
	db.SetMaxIdleConns(readers)
	conns := make([]*sql.Conn, 0, readers)
	for len(conns) < readers && err == nil {
		var conn *sql.Conn
		if conn, err = db.Conn(ctx); err == nil {
			conns = append(conns, conn)
			err = readBack(ctx, conn, path, m)
		}
	}
	for _, conn := range conns {
		conn.Close()
	}
	if err != nil {
		db.Close()
		return nil, fault(err, path)
	}
	return db, nil
}

// refuseReadOnly refuses a connection that SQLite quietly opened for reading only.
func refuseReadOnly(conn *sql.Conn, path string) error {
	var readOnly bool
	err := conn.Raw(func(driver any) error {
		asked, ok := driver.(interface{ IsReadOnly(string) (bool, error) })
		if !ok {
			return errors.New("the driver does not say whether a book may be written")
		}
		var err error
		readOnly, err = asked.IsReadOnly("main")
		return err
	})
	if err == nil && readOnly {
		return say.Fail(say.ReadOnly, "store.readonly", path)
	}
	return fault(err, path)
}

func (d *desk) version(ctx context.Context) (int, error) { return schemaVersion(ctx, d) }

func schemaVersion(ctx context.Context, src source) (int, error) {
	var v int
	_, err := one(ctx, src, `PRAGMA user_version`, nil, &v)
	return v, err
}

// quickCheck asks SQLite whether the book's pages hang together.
func quickCheck(ctx context.Context, src source, path string) error {
	var said string
	if _, err := one(ctx, src, `PRAGMA quick_check(1)`, nil, &said); err != nil {
		return fault(err, path)
	}
	if said != "ok" {
		return say.Fail(say.Damaged, "store.damaged", path).From(errors.New(said))
	}
	return nil
}
