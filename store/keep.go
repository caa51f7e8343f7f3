package store

import (
	"context"
	"errors"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Kept says what was kept.
type Kept struct {
	Action   int64    // number of the action; 0 where nothing had to be changed
	Changes  int      // how many items changed
	Repeated bool     // it had been kept before, under the same token
	Head     [32]byte // hash of the last event in the book
}

// Keep writes what somebody did: every edit and every move of stock, or none. It returns nil only once the disk has it. Asked
// again with the same token it keeps nothing new and says what it kept the first time, so that a
// caller who did not hear the answer may simply ask again. An action that changes nothing leaves
// no trace, and its token neither.
//
// It refuses, with the codes of package say: what cannot be (Invalid, by [record.Doubt]), a closed
// set-up (ReadOnly), a fresh item where one is (Conflict), an item whose parent is not there (NotFound), taking away what others refer to
// (Conflict), a move that would leave
// less than nothing (Conflict), a full disk (Full), a book renamed or deleted since it was opened (Moved).
func (b *Book) Keep(ctx context.Context, a record.Action) (Kept, error) {
	all, err := b.KeepAll(ctx, a)
	if err != nil {
		return Kept{}, err
	}
	return all[0], nil
}

// KeepAll keeps several actions, each as [Book.Keep] does, or none of them.
func (b *Book) KeepAll(ctx context.Context, actions ...record.Action) ([]Kept, error) {
	bodies, total := make([][][]byte, len(actions)), 0
	for i, a := range actions {
		var err error
		if bodies[i], err = bodiesOf(a); err != nil {
			return nil, fault(err, b.path)
		}
		total += len(a.Edits)
	}
	var all []Kept
	err := b.change(ctx, func(ctx context.Context, c *change) error {
		done := 0
		for i, a := range actions {
			k, err := c.keep(ctx, a, bodies[i], func() {
				done++
				say.Tell(ctx, "work.written", done, total)
			})
			if err != nil {
				return err
			}
			all = append(all, k)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// bodiesOf are the bodies of an action's edits; it refuses what cannot be.
func bodiesOf(a record.Action) ([][]byte, error) {
	if a.Token == "" {
		return nil, errNoToken
	}
	bodies := make([][]byte, len(a.Edits))
	for i, e := range a.Edits {
		if err := matches(e); err != nil {
			return nil, err
		}
		if e.Item.Kind == record.StockItem {
			return nil, errCountPut
		}
		if e.Item.Kind == record.SignedItem {
			return nil, errSignedPut
		}
		if e.Noun == nil {
			continue
		}
		if err := record.Doubt(e.Noun, a.At); err != nil {
			return nil, err
		}
		var err error
		if bodies[i], err = encode(e.Noun); err != nil {
			return nil, err
		}
	}
	return bodies, nil
}

// keep writes one action, and calls done after each of its edits.
func (c *change) keep(ctx context.Context, a record.Action, bodies [][]byte, done func()) (Kept, error) {
	if again, err := c.repeated(ctx, a.Token, a.Setup, kept); err != nil || again.Repeated {
		return again, err
	}
	h := c.heading(a.Token, a.Setup, a.By, a.At, kept)
	first := c.chain.seq
	for i, e := range a.Edits {
		if err := c.set(ctx, h, e.Item, e.Noun, bodies[i], e.Fresh); err != nil {
			return Kept{}, err
		}
		done()
	}
	for _, m := range a.Moves {
		if err := c.move(ctx, h, m); err != nil {
			return Kept{}, err
		}
	}
	k := c.kept(h, first)
	if k.Changes > 0 {
		c.chain.action = h.action
	}
	return k, nil
}

// errSignedPut is a fault of the caller: a set-up is signed with its sheet, by [Book.Sign].
var errSignedPut = errors.New("that a set-up was signed is kept with its sheet")

// errNoToken is a fault of the caller: without a token a retry would keep twice.
var errNoToken = errors.New("an action without a token cannot be kept")

// heading numbers a new action.
func (c *change) heading(token, setup, by string, at record.Stamp, w what) heading {
	return heading{action: c.chain.action + 1, token: token, setup: setup, by: by, at: at, what: w}
}

// kept counts what an action changed since the event that was last before it.
func (c *change) kept(h heading, first int64) Kept {
	k := Kept{Changes: int(c.chain.seq - first), Head: c.chain.hash}
	if k.Changes > 0 {
		k.Action = h.action
	}
	return k
}

const byToken = `SELECT min(action), count(*), min(what), min(setup) FROM event WHERE token = ? HAVING count(*) > 0`

// repeated looks whether a token has been kept before. It refuses a token that was used for
// something else: two different things would pass for one.
func (c *change) repeated(ctx context.Context, token, setup string, w what) (Kept, error) {
	k := Kept{Head: c.chain.hash, Repeated: true}
	var was what
	var of string
	found, err := one(ctx, c, byToken, []any{token}, &k.Action, &k.Changes, &was, &of)
	if err != nil || !found {
		return Kept{}, err
	}
	if was != w || of != setup {
		return Kept{}, say.Fail(say.Conflict, "store.token", token)
	}
	return k, nil
}
