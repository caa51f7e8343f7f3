package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// setupItemShelf keeps one kind of what belongs to a set-up and is no reading.
type setupItemShelf struct{ kind record.ItemKind }

func (setupItemShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM setup_item WHERE setup = ? AND kind = ? AND key = ?`,
		item.Setup, string(item.Kind), item.Key)
}

func (setupItemShelf) put(ctx context.Context, c *change, item record.Item, _ record.Noun, body []byte) error {
	return c.exec(ctx, `INSERT INTO setup_item (setup, kind, key, version, body) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT (setup, kind, key) DO UPDATE SET version = excluded.version, body = excluded.body`,
		item.Setup, string(item.Kind), item.Key, bodyVersion, string(body))
}

func (setupItemShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM setup_item WHERE setup = ? AND kind = ? AND key = ?`,
		item.Setup, string(item.Kind), item.Key)
}

func (s setupItemShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT setup, key, version, body FROM setup_item WHERE kind = ?`, []any{string(s.kind)},
		func(rows *sql.Rows) error {
			var setup, key, body string
			var version int
			if err := rows.Scan(&setup, &key, &version, &body); err != nil {
				return err
			}
			now, err := current(s.kind, version, []byte(body))
			if err != nil {
				return err
			}
			n, err := decode(s.kind, bodyVersion, now)
			if err != nil {
				return err
			}
			return found(record.Item{Kind: s.kind, Setup: setup, Key: key}, now, n.Key() == key)
		})
}
