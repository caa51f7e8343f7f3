package store

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// change is one transaction of the writer while it runs.
type change struct {
	*desk
	chain  chain
	states map[string]record.State // of the set-ups met so far; "" where there is none
	stale  map[string]bool         // heads whose row in the search index is to be written anew
	gone   func() error            // why nobody wants it any more; nil while somebody does
}

// heading is what the events of one action have in common.
type heading struct {
	action       int64
	token, setup string
	by           string
	at           record.Stamp
	what         what
	undoes       int64
}

// change runs one transaction. It is kept when this returns nil and not at all when it returns an
// error. A request that is given up meanwhile is looked for between two entries, and then nothing is kept; no statement
// is broken off, least of all the last one, after which the caller could not know whether it was kept.
func (b *Book) change(ctx context.Context, do func(ctx context.Context, c *change) error) error {
	if err := b.takeTurn(ctx); err != nil {
		return err
	}
	defer b.giveTurn()
	if err := b.usable(); err != nil {
		return err
	}
	gone := ctx.Err
	ctx = context.WithoutCancel(ctx)
	if err := b.desk.begin(ctx); err != nil {
		return fault(err, b.path)
	}
	if err := b.inside(ctx, gone, do); err != nil {
		b.desk.rollback(ctx)
		return fault(err, b.path)
	}
	return nil
}

func (b *Book) inside(ctx context.Context, gone func() error, do func(ctx context.Context, c *change) error) error {
	end, err := endOfChain(ctx, b.desk)
	if err != nil {
		return err
	}
	c := &change{b.desk, end, map[string]record.State{}, map[string]bool{}, gone}
	if err := do(ctx, c); err != nil {
		return err
	}
	if err := c.refresh(ctx); err != nil {
		return err
	}
	if err := gone(); err != nil {
		return err
	}
	return b.desk.commit(ctx)
}

// set puts a body in the place of an item, or takes the item away where body is nil, and appends
// the event. Nothing is written where nothing changes. What is fresh goes only where nothing is.
func (c *change) set(ctx context.Context, h heading, item record.Item, n record.Noun, body []byte, fresh bool) error {
	if err := c.open(ctx, item); err != nil {
		return err
	}
	before, err := get(ctx, c, item)
	if err != nil {
		return err
	}
	if bytes.Equal(before, body) && (before == nil) == (body == nil) {
		return nil
	}
	if fresh && before != nil {
		return say.Fail(say.Conflict, "store.not-fresh")
	}
	if body == nil {
		if err := c.uncount(ctx, h, item); err != nil {
			return err
		}
	}
	return c.write(ctx, h, item, n, before, body)
}

// write changes the state and appends the event, without asking whether it may.
func (c *change) write(ctx context.Context, h heading, item record.Item, n record.Noun, before, after []byte) error {
	if err := c.gone(); err != nil {
		return err
	}
	s, err := shelfOf(item.Kind)
	if err != nil {
		return err
	}
	if after == nil {
		err = s.remove(ctx, c, item)
	} else if err = c.parent(ctx, item, n); err == nil {
		err = s.put(ctx, c, item, n, after)
	}
	if err == nil {
		err = c.stir(ctx, item, before, after)
	}
	if err != nil {
		return err
	}
	fields, err := changedFields(before, after)
	if err != nil {
		return err
	}
	return c.chain.append(ctx, c.desk, &event{
		action: h.action, token: h.token, setup: h.setup, by: h.by, at: h.at, what: h.what, undoes: h.undoes,
		item: item, fields: fields, before: before, after: after, version: bodyVersion,
	})
}

// open refuses a change to a closed set-up.
func (c *change) open(ctx context.Context, item record.Item) error {
	if item.Setup == "" {
		return nil
	}
	state, err := c.state(ctx, item.Setup)
	if err == nil && state == record.Closed {
		return say.Fail(say.ReadOnly, "store.closed", item.Setup)
	}
	return err
}

// state returns the state of a set-up, "" where there is none.
func (c *change) state(ctx context.Context, setup string) (record.State, error) {
	if s, known := c.states[setup]; known {
		return s, nil
	}
	var s record.State
	found, err := one(ctx, c, `SELECT state FROM setup WHERE id = ?`, []any{setup}, &s)
	if err == nil && found {
		c.states[setup] = s
	}
	return s, err
}

// parent refuses an item whose head, engine, owner or set-up is not in the book.
func (c *change) parent(ctx context.Context, item record.Item, n record.Noun) error {
	switch n := n.(type) {
	case record.Setup:
		return c.exists(ctx, record.Item{Kind: record.HeadItem, Key: n.Head}, "store.no-head-id")
	case record.Run:
		return c.livesOn(ctx, n.Head, "")
	case record.SpringCheck:
		return c.livesOn(ctx, n.Head, n.Setup)
	case record.UsualDay:
		return c.exists(ctx, record.Item{Kind: record.EngineItem, Key: n.Engine}, "store.no-engine")
	case record.Tagged:
		return c.staysOn(ctx, n)
	case record.Head:
		return c.exists(ctx, record.Item{Kind: record.EngineItem, Key: n.Engine}, "store.no-engine")
	case record.Engine:
		if n.Owner == "" {
			return nil
		}
		return c.exists(ctx, record.Item{Kind: record.OwnerItem, Key: n.Owner}, "store.no-owner")
	}
	if item.Setup == "" {
		return nil
	}
	state, err := c.state(ctx, item.Setup)
	if err == nil && state == "" {
		return say.Fail(say.NotFound, "store.no-setup", item.Setup)
	}
	return err
}

func (c *change) exists(ctx context.Context, item record.Item, key string) error {
	body, err := get(ctx, c, item)
	if err == nil && body == nil {
		return say.Fail(say.NotFound, key, item.Key)
	}
	return err
}

// reindex marks the heads that a query names.
func (c *change) reindex(ctx context.Context, statement string, args ...any) error {
	return each(ctx, c, statement, args, func(rows *sql.Rows) error {
		var head string
		err := rows.Scan(&head)
		c.stale[head] = true
		return err
	})
}

// matches refuses an edit whose noun is not the item that it names. It is a fault of the caller.
func matches(e record.Edit) error {
	if e.Noun == nil {
		return nil
	}
	if item := record.ItemOf(e.Item.Setup, e.Noun); item != e.Item {
		return fmt.Errorf("edit of %v holds %v", e.Item, item)
	}
	return nil
}
