package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// ownerShelf keeps the names of owners. How to reach them is in contact.go.
type ownerShelf struct{}

func (ownerShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM owner WHERE id = ?`, item.Key)
}

func (ownerShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	if err := c.exec(ctx, `INSERT INTO owner (id, name, version, body) VALUES (?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET name = excluded.name, version = excluded.version, body = excluded.body`,
		item.Key, n.(record.Owner).Name, bodyVersion, string(body)); err != nil {
		return err
	}
	return c.reindex(ctx, `SELECT head.id FROM head JOIN engine ON engine.id = head.engine WHERE engine.owner = ?`, item.Key)
}

func (ownerShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM owner WHERE id = ?`, item.Key)
}

func (ownerShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, name, version, body FROM owner`, nil, func(rows *sql.Rows) error {
		var id, name string
		n, body, err := scanNoun[record.Owner](rows, &id, &name)
		if err != nil {
			return err
		}
		return found(record.Item{Kind: record.OwnerItem, Key: id}, body, n.ID == id && n.Name == name)
	})
}

// scanNoun reads a row that ends with version and body, the columns before them into the places given.
func scanNoun[T record.Noun](rows *sql.Rows, into ...any) (T, []byte, error) {
	var n T
	var version int
	var body string
	if err := rows.Scan(append(into, &version, &body)...); err != nil {
		return n, nil, err
	}
	now, err := current(n.ItemKind(), version, []byte(body))
	if err != nil {
		return n, nil, err
	}
	decoded, err := noun[T](now)
	if err != nil {
		return n, nil, err
	}
	return decoded.(T), now, nil
}
