package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// shopShelf keeps who keeps the book. There is one.
type shopShelf struct{}

func (shopShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM shop WHERE key = ?`, item.Key)
}

func (shopShelf) put(ctx context.Context, c *change, item record.Item, _ record.Noun, body []byte) error {
	return c.exec(ctx, `INSERT INTO shop (key, version, body) VALUES (?, ?, ?)
		ON CONFLICT (key) DO UPDATE SET version = excluded.version, body = excluded.body`,
		item.Key, bodyVersion, string(body))
}

func (shopShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM shop WHERE key = ?`, item.Key)
}

func (shopShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT key, version, body FROM shop`, nil, func(rows *sql.Rows) error {
		var key, body string
		var version int
		if err := rows.Scan(&key, &version, &body); err != nil {
			return err
		}
		now, err := current(record.ShopItem, version, []byte(body))
		if err != nil {
			return err
		}
		return found(record.Item{Kind: record.ShopItem, Key: key}, now, true)
	})
}

// Shop returns who keeps the book; empty until somebody has said so.
func (b *Book) Shop(ctx context.Context) (shop record.Shop, err error) {
	err = b.read(ctx, func(src source) error {
		shop, _, err = getNoun[record.Shop](ctx, src, record.ItemOf("", shop))
		return err
	})
	return shop, err
}
