package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"fmt"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

const allEvents = `SELECT ` + eventColumns + ` FROM event ORDER BY seq`

// lookAtHistory works every event's hash out again and follows the chain.
func lookAtHistory(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	var last chain
	err := each(ctx, src, allEvents, nil, func(rows *sql.Rows) error {
		e, err := scanEvent(rows)
		if err != nil {
			return err
		}
		if e.seq != last.seq+1 || e.prev != last.hash || e.sum() != e.hash {
			found.add(fmt.Sprintf("%d", e.seq))
		}
		last = chain{e.seq, e.action, e.hash}
		return nil
	})
	if err == nil && last.seq == 0 {
		found.add("1") // the first event is written with the book
	}
	return found.trouble("store.history-bad"), say.New("store.history-fine", int(last.seq), fmt.Sprintf("%x", last.hash)), err
}

// lookAtState replays the history and holds what it comes to against the state, every item of it.
func lookAtState(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	var replayed, is sum
	err := each(ctx, src, allEvents, nil, func(rows *sql.Rows) error {
		e, err := scanEvent(rows)
		if err != nil {
			return err
		}
		if e.what != checkpoint {
			return replayed.apply(e)
		}
		if s, err := readCheckpoint(e.after); err != nil || s.State != replayed.String() {
			found.add(fmt.Sprintf("checkpoint %d", e.seq))
		}
		return nil
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	items := 0
	err = everyItem(ctx, src, func(item record.Item, body []byte, agrees bool) error {
		items++
		if !agrees {
			found.add(fmt.Sprintf("%s %s", item.Kind, item.Key))
		}
		is.add(itemSum(item, body))
		return nil
	})
	if err == nil && is != replayed {
		err = nameDifferences(ctx, src, &found)
	}
	return found.trouble("store.state-bad"), say.New("store.state-fine", items), err
}

// apply carries the sum of a state over one event.
func (s *sum) apply(e event) error {
	before, err := current(e.item.Kind, e.version, e.before)
	if err != nil {
		return err
	}
	after, err := current(e.item.Kind, e.version, e.after)
	if err != nil {
		return err
	}
	if before != nil {
		s.sub(itemSum(e.item, before))
	}
	if after != nil {
		s.add(itemSum(e.item, after))
	}
	return nil
}

// nameDifferences says which items the history and the state disagree about. It keeps a hash of every
// item in memory, which only a damaged book costs.
func nameDifferences(ctx context.Context, src source, found *lines) error {
	want := map[record.Item][sha256.Size]byte{}
	err := each(ctx, src, allEvents, nil, func(rows *sql.Rows) error {
		e, err := scanEvent(rows)
		if err != nil {
			return err
		}
		after, err := current(e.item.Kind, e.version, e.after)
		switch {
		case err != nil:
			return err
		case e.what == checkpoint:
		case after == nil:
			delete(want, e.item)
		default:
			want[e.item] = sha256.Sum256(after)
		}
		return nil
	})
	if err != nil {
		return err
	}
	count := found.count
	err = everyItem(ctx, src, func(item record.Item, body []byte, _ bool) error {
		if h, there := want[item]; !there || h != sha256.Sum256(body) {
			found.add(fmt.Sprintf("%s %s", item.Kind, item.Key))
		}
		delete(want, item)
		return nil
	})
	for item := range want {
		found.add(fmt.Sprintf("%s %s", item.Kind, item.Key))
	}
	if found.count == count && err == nil {
		found.add("before") // only a body that was replaced since differs
	}
	return err
}
