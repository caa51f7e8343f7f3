package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// recent is how many heads are looked at, the newest first: what was used before that is no habit any more.
const recent = 20

const recentSetups = `SELECT setup.id FROM (SELECT id FROM head ORDER BY newest DESC, n DESC LIMIT ?) AS h
	JOIN setup ON setup.head = h.id`

// Beside max, SQLite takes the other columns from the row that has the greatest.
const lastOfKinds = `SELECT kind, gauge, max(at || n) FROM reading
	WHERE gauge <> '' AND NOT instr(coalesce(rest, ''), '"struck"') AND setup IN (` + recentSetups + `) GROUP BY kind`

// LastGauges returns the identifiers of the gauges that readings of each kind were taken on last, in the
// set-ups of the newest heads. Kinds of which no gauge is named are not in it.
func (b *Book) LastGauges(ctx context.Context) (map[record.Kind]string, error) {
	last := map[record.Kind]string{}
	err := b.read(ctx, func(src source) error {
		return each(ctx, src, lastOfKinds, []any{recent}, func(rows *sql.Rows) error {
			var kind, gauge, at string
			err := rows.Scan(&kind, &gauge, &at)
			last[record.Kind(kind)] = gauge
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return last, nil
}
