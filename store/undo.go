package store

import (
	"bytes"
	"context"
	"database/sql"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Step is one action that can be taken back, or done again.
type Step struct {
	Action  int64
	By      string       // who did it first
	At      record.Stamp // and when
	Changes []Change     // in the order in which the step makes them
}

// Change is what a step does to one item. A noun is nil where the item is absent.
type Change struct {
	Item          record.Item
	Fields        []string // top-level keys that change; empty where the item comes or goes
	Before, After record.Noun
}

// PeekUndo returns what Undo would take back, so that somebody can be asked before a day or a person
// is crossed; nil where there is nothing, and always for a closed set-up.
func (b *Book) PeekUndo(ctx context.Context, setup string) (*Step, error) {
	return b.peek(ctx, setup, undone)
}

// PeekRedo returns what Redo would do again, or nil.
func (b *Book) PeekRedo(ctx context.Context, setup string) (*Step, error) {
	return b.peek(ctx, setup, redone)
}

func (b *Book) peek(ctx context.Context, setup string, w what) (step *Step, err error) {
	err = b.read(ctx, func(src source) error {
		s, _, err := getNoun[record.Setup](ctx, src, record.Item{Kind: record.SetupItem, Setup: setup, Key: setup})
		if err != nil || s.State == record.Closed {
			return err
		}
		action, err := nextStep(ctx, src, setup, w)
		if err != nil || action == 0 {
			return err
		}
		step, err = readStep(ctx, src, setup, action, w)
		return err
	})
	return step, err
}

// Undo takes back the last action on a set-up that is not taken back yet, as a whole, by appending
// the opposite of each of its events. It is refused where something the action changed has changed
// again since (Conflict), where nothing is left (NotFound), and on a closed set-up (ReadOnly). Asked
// again with the same token it takes back nothing more and says what it took back.
func (b *Book) Undo(ctx context.Context, setup, by string, at record.Stamp, token string) (*Step, error) {
	return b.turnStep(ctx, setup, by, at, token, undone)
}

// Redo does again what Undo took back last, until something new is kept for the set-up. It is
// refused as Undo is.
func (b *Book) Redo(ctx context.Context, setup, by string, at record.Stamp, token string) (*Step, error) {
	return b.turnStep(ctx, setup, by, at, token, redone)
}

func (b *Book) turnStep(ctx context.Context, setup, by string, at record.Stamp, token string, w what) (step *Step, err error) {
	if token == "" {
		return nil, fault(errNoToken, b.path)
	}
	err = b.change(ctx, func(ctx context.Context, c *change) error {
		action, err := c.repeatedStep(ctx, token, setup, w)
		if err != nil {
			return err
		}
		if action != 0 {
			step, err = readStep(ctx, c, setup, action, w)
			return err
		}
		if err := c.open(ctx, record.Item{Setup: setup}); err != nil {
			return err
		}
		if action, err = nextStep(ctx, c, setup, w); err != nil {
			return err
		}
		if action == 0 {
			return nothingLeft(w)
		}
		if step, err = readStep(ctx, c, setup, action, w); err != nil {
			return err
		}
		h := c.heading(token, setup, by, at, w)
		h.undoes = action
		return c.take(ctx, h, step)
	})
	if err != nil {
		return nil, err
	}
	return step, nil
}

func nothingLeft(w what) error {
	if w == redone {
		return say.Fail(say.NotFound, "store.no-redo")
	}
	return say.Fail(say.NotFound, "store.no-undo")
}

// take makes the changes of a step, each only where the item is as the step expects it.
func (c *change) take(ctx context.Context, h heading, step *Step) error {
	for _, ch := range step.Changes {
		if err := c.open(ctx, ch.Item); err != nil {
			return err
		}
		if ch.Item.Kind == record.StockItem {
			if err := c.turn(ctx, h, ch); err != nil {
				return err
			}
			continue
		}
		want, err := bodyOf(ch.Before)
		if err != nil {
			return err
		}
		is, err := get(ctx, c, ch.Item)
		if err != nil {
			return err
		}
		if !bytes.Equal(is, want) {
			return say.Fail(say.Conflict, "store.changed-since", string(ch.Item.Kind), ch.Item.Key)
		}
		after, err := bodyOf(ch.After)
		if err != nil {
			return err
		}
		if err := c.write(ctx, h, ch.Item, ch.After, is, after); err != nil {
			return err
		}
	}
	return nil
}

// bodyOf returns nil for no noun. A body is never empty, so that nil and a body never pass for equal.
func bodyOf(n record.Noun) ([]byte, error) {
	if n == nil {
		return nil, nil
	}
	return encode(n)
}

// repeatedStep returns the action that an undo or redo of this token was about, 0 where there is none.
func (c *change) repeatedStep(ctx context.Context, token, setup string, w what) (int64, error) {
	again, err := c.repeated(ctx, token, setup, w)
	if err != nil || !again.Repeated {
		return 0, err
	}
	var action int64
	_, err = one(ctx, c, `SELECT undoes FROM event WHERE token = ? LIMIT 1`, []any{token}, &action)
	return action, err
}

const actionsOfSetup = `SELECT action, min(what), coalesce(min(undoes), 0) FROM event
	WHERE setup = ? AND setup <> '' GROUP BY action ORDER BY action`

// nextStep reads the history of a set-up from its beginning and returns the action that an undo or
// redo would be about, 0 where there is none. What somebody keeps anew ends what could be redone.
func nextStep(ctx context.Context, src source, setup string, w what) (int64, error) {
	var done, taken []int64
	err := each(ctx, src, actionsOfSetup, []any{setup}, func(rows *sql.Rows) error {
		var action, undoes int64
		var was what
		if err := rows.Scan(&action, &was, &undoes); err != nil {
			return err
		}
		switch was {
		case kept:
			done, taken = append(done, action), nil
		case undone:
			done, taken = done[:max(0, len(done)-1)], append(taken, undoes)
		case redone:
			done, taken = append(done, undoes), taken[:max(0, len(taken)-1)]
		}
		return nil
	})
	if w == redone {
		done = taken
	}
	if err != nil || len(done) == 0 {
		return 0, err
	}
	return done[len(done)-1], nil
}

const eventsOfAction = `SELECT ` + eventColumns + ` FROM event
	WHERE setup = ? AND setup <> '' AND action = ? ORDER BY seq`

// readStep returns the changes that take an action back, or do it again.
func readStep(ctx context.Context, src source, setup string, action int64, w what) (*Step, error) {
	step := &Step{Action: action}
	err := each(ctx, src, eventsOfAction, []any{setup, action}, func(rows *sql.Rows) error {
		e, err := scanEvent(rows)
		if err != nil {
			return err
		}
		step.By, step.At = e.by, e.at
		ch, err := changeOf(e)
		if err != nil {
			return err
		}
		if w == undone {
			ch.Before, ch.After = ch.After, ch.Before
		}
		step.Changes = append(step.Changes, ch)
		return nil
	})
	if w == undone {
		slices.Reverse(step.Changes)
	}
	return step, err
}

// changeOf is what an event did, forward.
func changeOf(e event) (ch Change, err error) {
	ch = Change{Item: e.item, Fields: e.fields}
	if ch.Before, err = nounOf(e.item.Kind, e.version, e.before); err != nil {
		return ch, err
	}
	ch.After, err = nounOf(e.item.Kind, e.version, e.after)
	return ch, err
}

func nounOf(kind record.ItemKind, version int, body []byte) (record.Noun, error) {
	if body == nil {
		return nil, nil
	}
	return decode(kind, version, body)
}
