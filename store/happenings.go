package store

import (
	"context"
	"database/sql"
	"slices"

	"keeperbook/model/record"
)

// How says how something of a set-up came about.
type How string

// The ways.
const (
	HowKept   How = How(kept)
	HowUndone How = How(undone)
	HowRedone How = How(redone)
	HowTaken  How = How(takenIn)
)

// Happening is one action that changed something of a set-up.
type Happening struct {
	Action  int64
	Undoes  int64 // the action that was taken back or done again; 0 for none
	How     How
	By      string
	At      record.Stamp
	Changes []Change // of the set-up, in the order in which they were made
}

const happened = `SELECT ` + eventColumns + ` FROM event
	WHERE item_setup = ?1 OR (item_kind = 'signed' AND substr(item_key, 1, length(?1) + 1) = ?1 || '/') ORDER BY seq`

// Happenings returns what became of a set-up, the newest first: its own entries, parts and signatures. Things that it shares with
// others, such as gauges, are none of its own.
func (b *Book) Happenings(ctx context.Context, setup string) ([]Happening, error) {
	var all []Happening
	err := b.read(ctx, func(src source) error {
		return each(ctx, src, happened, []any{setup}, func(rows *sql.Rows) error {
			e, err := scanEvent(rows)
			if err != nil || e.what == checkpoint {
				return err
			}
			ch, err := changeOf(e)
			if err != nil {
				return err
			}
			if len(all) == 0 || all[len(all)-1].Action != e.action {
				all = append(all, Happening{Action: e.action, Undoes: e.undoes, How: How(e.what), By: e.by, At: e.at})
			}
			last := &all[len(all)-1]
			last.Changes = append(last.Changes, ch)
			return nil
		})
	})
	slices.Reverse(all)
	return all, err
}
