package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// lifeShelf keeps the runs of heads and the checks of their springs.
type lifeShelf struct{ kind record.ItemKind }

func (lifeShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM life WHERE kind = ? AND id = ?`, string(item.Kind), item.Key)
}

func (lifeShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	head, day := lived(n)
	return c.exec(ctx, `INSERT INTO life (kind, id, head, day, version, body) VALUES (?, ?, ?, ?, ?, ?)
		ON CONFLICT (kind, id) DO UPDATE SET head = excluded.head, day = excluded.day, version = excluded.version, body = excluded.body`,
		string(item.Kind), item.Key, head, string(day), bodyVersion, string(body))
}

func (lifeShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM life WHERE kind = ? AND id = ?`, string(item.Kind), item.Key)
}

func (s lifeShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, head, day, version, body FROM life WHERE kind = ? ORDER BY id`, []any{string(s.kind)},
		func(rows *sql.Rows) error {
			var id, head, day, body string
			var version int
			if err := rows.Scan(&id, &head, &day, &version, &body); err != nil {
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
			ofHead, onDay := lived(n)
			return found(record.Item{Kind: s.kind, Key: id}, now, n.Key() == id && ofHead == head && string(onDay) == day)
		})
}

// lived is what the columns repeat of a body.
func lived(n record.Noun) (head string, day record.Date) {
	switch n := n.(type) {
	case record.Run:
		return n.Head, n.Day
	case record.SpringCheck:
		return n.Head, n.Day
	}
	return "", ""
}

// Life is what a head did and what was found on its springs, each in the order of days.
type Life struct {
	Runs   []record.Run
	Checks []record.SpringCheck
}

// Life returns the life of a head; an empty one where nothing was written down.
func (b *Book) Life(ctx context.Context, head string) (l Life, err error) {
	err = b.read(ctx, func(src source) error {
		return each(ctx, src, `SELECT kind, version, body FROM life WHERE head = ? ORDER BY kind, day, id`, []any{head},
			func(rows *sql.Rows) error {
				var kind, body string
				var version int
				if err := rows.Scan(&kind, &version, &body); err != nil {
					return err
				}
				n, err := decode(record.ItemKind(kind), version, []byte(body))
				if err != nil {
					return err
				}
				switch n := n.(type) {
				case record.Run:
					l.Runs = append(l.Runs, n)
				case record.SpringCheck:
					l.Checks = append(l.Checks, n)
				}
				return nil
			})
	})
	return l, err
}

// livesOn refuses what belongs to a head, or to a set-up of it, that is not in the book.
func (c *change) livesOn(ctx context.Context, head, setup string) error {
	if err := c.exists(ctx, record.Item{Kind: record.HeadItem, Key: head}, "store.no-head-id"); err != nil || setup == "" {
		return err
	}
	s, there, err := getNoun[record.Setup](ctx, c, record.Item{Kind: record.SetupItem, Setup: setup, Key: setup})
	switch {
	case err != nil:
		return err
	case !there || s.Head != head:
		return say.Fail(say.NotFound, "store.no-setup", setup)
	}
	return nil
}
