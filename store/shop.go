package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// shopShelf keeps what the shop says of itself: who keeps the book, of which there is one, or its own
// rules, of which there is one for each unit of length.
type shopShelf struct{ kind record.ItemKind }

// table of the kind. Nothing that somebody typed ever comes into the text of a statement.
func (s shopShelf) table() string {
	if s.kind == record.ShopRulesItem {
		return "shop_rules"
	}
	return "shop"
}

func (s shopShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM `+s.table()+` WHERE key = ?`, item.Key)
}

func (s shopShelf) put(ctx context.Context, c *change, item record.Item, _ record.Noun, body []byte) error {
	return c.exec(ctx, `INSERT INTO `+s.table()+` (key, version, body) VALUES (?, ?, ?)
		ON CONFLICT (key) DO UPDATE SET version = excluded.version, body = excluded.body`,
		item.Key, bodyVersion, string(body))
}

func (s shopShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM `+s.table()+` WHERE key = ?`, item.Key)
}

func (s shopShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT key, version, body FROM `+s.table(), nil, func(rows *sql.Rows) error {
		var key, body string
		var version int
		if err := rows.Scan(&key, &version, &body); err != nil {
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
		return found(record.Item{Kind: s.kind, Key: key}, now, n.Key() == key)
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

// ShopRules returns what the shop set for set-ups in a unit of length; nothing but the unit until it set
// something.
func (b *Book) ShopRules(ctx context.Context, length unit.Symbol) (record.ShopRules, error) {
	rules := record.ShopRules{Length: length}
	err := b.read(ctx, func(src source) error {
		own, there, err := getNoun[record.ShopRules](ctx, src, record.ItemOf("", rules))
		if there {
			rules = own
		}
		return err
	})
	return rules, err
}
