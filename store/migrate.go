package store

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"

	"keeperbook/model/say"
)

//go:embed migrations/*.sql
var embedded embed.FS

// migrations is a folder of steps, 0001_name.sql and on, each making the next version of a book.
type migrations struct{ files fs.FS }

func steps() migrations {
	files, err := fs.Sub(embedded, "migrations")
	if err != nil {
		panic(err) // the folder is part of the program
	}
	return migrations{files}
}

// list returns the file names of the steps in order. It refuses a gap, for then a step is missing.
func (m migrations) list() ([]string, error) {
	names, err := fs.Glob(m.files, "*.sql")
	if err != nil {
		return nil, err
	}
	for i, name := range names {
		if n, err := strconv.Atoi(strings.SplitN(name, "_", 2)[0]); err != nil || n != i+1 {
			return nil, fmt.Errorf("migration %s does not follow", name)
		}
	}
	return names, nil
}

// newest returns the version that the steps lead to.
func (m migrations) newest() int {
	names, err := m.list()
	if err != nil {
		return 0
	}
	return len(names)
}

// migrate brings a book of this version to the newest, step by step. Each step is one transaction,
// and a copy of the book, looked through, is on the disk before it begins. A step that fails
// leaves the book as it was.
func (b *Book) migrate(ctx context.Context, o Options, m migrations, version int) error {
	names, err := m.list()
	if err != nil {
		return fault(err, b.path)
	}
	for ; version < len(names); version++ {
		if version > 0 {
			if err := b.copyBefore(ctx, o, version+1); err != nil {
				return err
			}
		}
		text, err := fs.ReadFile(m.files, names[version])
		if err != nil {
			return fault(err, b.path)
		}
		if err := b.step(ctx, o, version+1, string(text), version+1 == len(names)); err != nil {
			return err
		}
	}
	return nil
}

// copyBefore copies the book before it is brought to a version.
func (b *Book) copyBefore(ctx context.Context, o Options, version int) error {
	folder := o.Backups
	if folder == "" {
		folder = filepath.Dir(b.path)
	}
	stem := strings.TrimSuffix(filepath.Base(b.path), filepath.Ext(b.path))
	when := strings.NewReplacer("-", "", ":", "").Replace(string(o.now()))
	for n := 1; ; n++ {
		name := fmt.Sprintf("%s before %d %s", stem, version, when)
		if n > 1 {
			name += fmt.Sprintf(" %d", n)
		}
		err := copyBook(ctx, b.desk.conn, filepath.Join(folder, name+".keeperbook"))
		if say.CodeOf(err) == say.Conflict && n < 100 {
			continue // one of that name is there already, and is kept
		}
		return err
	}
}

func (b *Book) step(ctx context.Context, o Options, version int, text string, last bool) error {
	ctx = context.WithoutCancel(ctx)
	if err := b.desk.begin(ctx); err != nil {
		return fault(err, b.path)
	}
	err := b.desk.step(ctx, o, version, text, last)
	if err == nil {
		err = b.desk.commit(ctx)
	}
	if err == nil {
		return nil
	}
	b.desk.rollback(ctx)
	if told := new(say.Error); errors.As(fault(err, b.path), &told) && told.Code != say.Internal {
		return told
	}
	return say.Fail(say.Internal, "store.migration", b.path, version).From(err)
}

// step runs the text of a step. The last one appends the checkpoint: an event with the hash of the
// whole state as the steps left it.
func (d *desk) step(ctx context.Context, o Options, version int, text string, last bool) error {
	// Statements of a step run once and together; preparing them would prepare the first alone.
	if _, err := d.conn.ExecContext(ctx, text); err != nil {
		return err
	}
	marks := fmt.Sprintf("PRAGMA user_version = %d; PRAGMA application_id = %d", version, applicationID)
	if _, err := d.conn.ExecContext(ctx, marks); err != nil {
		return err
	}
	var table string
	broken, err := one(ctx, d, `SELECT "table" FROM pragma_foreign_key_check`, nil, &table)
	if err != nil {
		return err
	}
	if broken {
		return fmt.Errorf("step %d leaves rows of %s without what they refer to", version, table)
	}
	if !last {
		return nil // the state can be read only once its tables are those that this program knows
	}
	sum, err := stateSum(ctx, d)
	if err != nil {
		return err
	}
	end, err := endOfChain(ctx, d)
	if err != nil {
		return err
	}
	return end.append(ctx, d, &event{
		action: end.action + 1, at: o.now(), what: checkpoint,
		after: checkpointBody(version, sum), version: bodyVersion,
	})
}
