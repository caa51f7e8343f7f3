package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
)

// Tagged returns the parts with tags of their own, sorted by kind and tag.
func (b *Book) Tagged(ctx context.Context) (all []record.Tagged, err error) {
	err = b.read(ctx, func(src source) error {
		return partShelf{record.TaggedItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			t, err := noun[record.Tagged](body)
			if err != nil {
				return err
			}
			all = append(all, t.(record.Tagged))
			return nil
		})
	})
	return all, err
}

// UsualDays returns the days that an engine often has, sorted by name.
func (b *Book) UsualDays(ctx context.Context, engine string) (all []record.UsualDay, err error) {
	err = b.read(ctx, func(src source) error {
		return partShelf{record.UsualDayItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			u, err := noun[record.UsualDay](body)
			if err == nil && u.(record.UsualDay).Engine == engine {
				all = append(all, u.(record.UsualDay))
			}
			return err
		})
	})
	return all, err
}

// Fit is a set-up with a valve on which a single spring stands.
type Fit struct {
	Head, Setup string // identifiers
	At          record.Position
}

// Fitted returns where a single spring stands, by the set-ups in the order in which they were begun.
func (b *Book) Fitted(ctx context.Context, tag string) (all []Fit, err error) {
	err = b.read(ctx, func(src source) error {
		return each(ctx, src, `SELECT setup.head, setup.id, item.version, item.body FROM setup_item AS item JOIN setup ON setup.id = item.setup
			WHERE item.kind = 'valve' AND item.body ->> '$.spring' = ? ORDER BY setup.begun, setup.n, item.key`, []any{tag},
			func(rows *sql.Rows) error {
				var f Fit
				var version int
				var body string
				if err := rows.Scan(&f.Head, &f.Setup, &version, &body); err != nil {
					return err
				}
				n, err := decode(record.ValveItem, version, []byte(body))
				if err != nil {
					return err
				}
				f.At = n.(record.Valve).At
				all = append(all, f)
				return nil
			})
	})
	return all, err
}

// staysOn refuses a part that is said to have been on a head that is not in the book.
func (c *change) staysOn(ctx context.Context, t record.Tagged) error {
	for _, s := range t.Stays {
		if s.Head == "" {
			continue
		}
		if err := c.exists(ctx, record.Item{Kind: record.HeadItem, Key: s.Head}, "store.no-head-id"); err != nil {
			return err
		}
	}
	if t.Of == record.PieceItem {
		return c.exists(ctx, record.Item{Kind: t.Of, Key: t.Tag}, "store.no-piece")
	}
	return nil
}
