package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// setupShelf keeps set-ups without their lists.
type setupShelf struct{}

func (setupShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM setup WHERE id = ?`, item.Key)
}

func (setupShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	s := n.(record.Setup)
	// The head it belonged to until now lists one set-up less.
	if err := c.reindex(ctx, `SELECT head FROM setup WHERE id = ?`, item.Key); err != nil {
		return err
	}
	if err := c.exec(ctx, `INSERT INTO setup (id, head, kind, state, begun, version, body) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET head = excluded.head, kind = excluded.kind, state = excluded.state,
			begun = excluded.begun, version = excluded.version, body = excluded.body`,
		item.Key, s.Head, string(s.Kind), string(s.State), string(s.Begun), bodyVersion, string(body)); err != nil {
		return err
	}
	c.stale[s.Head] = true
	c.states[item.Key] = s.State
	return nil
}

func (setupShelf) remove(ctx context.Context, c *change, item record.Item) error {
	if err := c.reindex(ctx, `SELECT head FROM setup WHERE id = ?`, item.Key); err != nil {
		return err
	}
	delete(c.states, item.Key)
	return c.exec(ctx, `DELETE FROM setup WHERE id = ?`, item.Key)
}

func (setupShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, head, kind, state, begun, version, body FROM setup`, nil, func(rows *sql.Rows) error {
		var id, head, kind, state, begun string
		s, body, err := scanNoun[record.Setup](rows, &id, &head, &kind, &state, &begun)
		if err != nil {
			return err
		}
		agrees := s.ID == id && s.Head == head && string(s.Kind) == kind && string(s.State) == state && string(s.Begun) == begun
		return found(record.Item{Kind: record.SetupItem, Setup: id, Key: id}, body, agrees)
	})
}

// Setups returns the set-ups of a head, oldest first and without their lists.
func (b *Book) Setups(ctx context.Context, head string) ([]record.Setup, error) {
	var setups []record.Setup
	err := b.read(ctx, func(src source) error {
		if _, there, err := getNoun[record.Head](ctx, src, record.Item{Kind: record.HeadItem, Key: head}); err != nil {
			return err
		} else if !there {
			return say.Fail(say.NotFound, "store.no-head-id", head)
		}
		return each(ctx, src, `SELECT version, body FROM setup WHERE head = ? ORDER BY begun, n`, []any{head},
			func(rows *sql.Rows) error {
				s, _, err := scanNoun[record.Setup](rows)
				setups = append(setups, s)
				return err
			})
	})
	if err != nil {
		return nil, err
	}
	return setups, nil
}
