package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// engineShelf keeps engines. An engine may be without an owner, and then refers to none.
type engineShelf struct{}

func (engineShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM engine WHERE id = ?`, item.Key)
}

func (engineShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	e := n.(record.Engine)
	owner := sql.NullString{String: e.Owner, Valid: e.Owner != ""}
	if err := c.exec(ctx, `INSERT INTO engine (id, owner, name, version, body) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET owner = excluded.owner, name = excluded.name,
			version = excluded.version, body = excluded.body`,
		item.Key, owner, e.Name, bodyVersion, string(body)); err != nil {
		return err
	}
	return c.reindex(ctx, `SELECT id FROM head WHERE engine = ?`, item.Key)
}

func (engineShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM engine WHERE id = ?`, item.Key)
}

func (engineShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, coalesce(owner, ''), name, version, body FROM engine`, nil, func(rows *sql.Rows) error {
		var id, owner, name string
		n, body, err := scanNoun[record.Engine](rows, &id, &owner, &name)
		if err != nil {
			return err
		}
		agrees := n.ID == id && n.Owner == owner && n.Name == name
		return found(record.Item{Kind: record.EngineItem, Key: id}, body, agrees)
	})
}
