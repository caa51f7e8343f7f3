package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// FindEngine returns the owner of a name, and the engine of a name that is theirs; each is empty where
// there is none. With an empty owner the engine is looked for among those without one.
func (b *Book) FindEngine(ctx context.Context, owner, engine string) (o record.Owner, e record.Engine, err error) {
	err = b.read(ctx, func(src source) error {
		err := each(ctx, src, `SELECT version, body FROM owner WHERE name = ? AND name <> '' ORDER BY id LIMIT 1`, []any{owner},
			func(rows *sql.Rows) (err error) {
				o, _, err = scanNoun[record.Owner](rows)
				return err
			})
		if err != nil || owner != "" && o.ID == "" {
			return err
		}
		return each(ctx, src, `SELECT version, body FROM engine WHERE name = ? AND coalesce(owner, '') = ? ORDER BY id LIMIT 1`,
			[]any{engine, o.ID}, func(rows *sql.Rows) (err error) {
				e, _, err = scanNoun[record.Engine](rows)
				return err
			})
	})
	return o, e, err
}
