package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// headShelf keeps heads, each with its row in the search index.
type headShelf struct{}

func (headShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM head WHERE id = ?`, item.Key)
}

func (headShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	h := n.(record.Head)
	if err := c.exec(ctx, `INSERT INTO head (id, engine, tag, casting, work_order, newest, version, body)
		VALUES (?, ?, ?, ?, ?, '', ?, ?)
		ON CONFLICT (id) DO UPDATE SET engine = excluded.engine, tag = excluded.tag, casting = excluded.casting,
			work_order = excluded.work_order, version = excluded.version, body = excluded.body`,
		item.Key, h.Engine, h.Tag, h.Casting, h.WorkOrder, bodyVersion, string(body)); err != nil {
		return err
	}
	c.stale[item.Key] = true
	return nil
}

func (headShelf) remove(ctx context.Context, c *change, item record.Item) error {
	if err := c.exec(ctx, `DELETE FROM search WHERE rowid = (SELECT n FROM head WHERE id = ?)`, item.Key); err != nil {
		return err
	}
	return c.exec(ctx, `DELETE FROM head WHERE id = ?`, item.Key)
}

func (headShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, engine, tag, casting, work_order,
		newest = coalesce((SELECT max(begun) FROM setup WHERE setup.head = head.id), ''),
		version, body FROM head`, nil, func(rows *sql.Rows) error {
		var id, engine, tag, casting, order string
		var newest bool
		h, body, err := scanNoun[record.Head](rows, &id, &engine, &tag, &casting, &order, &newest)
		if err != nil {
			return err
		}
		agrees := newest && h.ID == id && h.Engine == engine && h.Tag == tag && h.Casting == casting && h.WorkOrder == order
		return found(record.Item{Kind: record.HeadItem, Key: id}, body, agrees)
	})
}
