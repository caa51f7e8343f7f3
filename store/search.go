package store

import (
	"context"
	"strings"
	"unicode"
)

const searchRow = `SELECT head.n, coalesce(owner.name, ''), engine.name, head.tag, head.casting, head.work_order,
	concat_ws(' ', head.body ->> '$.note', engine.body ->> '$.note',
		(SELECT group_concat(setup.body ->> '$.note', ' ') FROM setup WHERE setup.head = head.id))
	FROM head JOIN engine ON engine.id = head.engine LEFT JOIN owner ON owner.id = engine.owner
	WHERE head.id = ?`

// refresh writes the index rows of the heads that a transaction touched: the words to search for,
// and when the newest set-up was begun. Readings touch none.
func (c *change) refresh(ctx context.Context) error {
	for id := range c.stale {
		var n int64
		var owner, engine, tag, casting, order, note string
		found, err := one(ctx, c, searchRow, []any{id}, &n, &owner, &engine, &tag, &casting, &order, &note)
		if err != nil {
			return err
		}
		if !found {
			continue // taken away by this very transaction
		}
		if err := c.exec(ctx, `DELETE FROM search WHERE rowid = ?`, n); err != nil {
			return err
		}
		if err := c.exec(ctx, `INSERT INTO search (rowid, owner, engine, tag, casting, work_order, note)
			VALUES (?, ?, ?, ?, ?, ?, ?)`, n, owner, engine, tag, casting, order, note); err != nil {
			return err
		}
		if err := c.exec(ctx, `UPDATE head SET newest = coalesce((SELECT max(begun) FROM setup WHERE head = ?1), '')
			WHERE id = ?1`, id); err != nil {
			return err
		}
	}
	return nil
}

// matchWords turns what somebody types into a question to the index: every word, each as the start
// of a word. Signs that the question's own grammar knows stand inside quotation marks and mean
// nothing there. It is empty where the text has no letter and no digit.
func matchWords(text string) string {
	var words []string
	for _, w := range strings.Fields(text) {
		if strings.IndexFunc(w, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) < 0 {
			continue
		}
		words = append(words, `"`+strings.ReplaceAll(w, `"`, `""`)+`"*`)
	}
	return strings.Join(words, " ")
}
