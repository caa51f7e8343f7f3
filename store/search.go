package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"unicode"

	"keeperbook/model/say"
)

const searchRows = `SELECT head.n, coalesce(owner.name, ''), engine.name, head.tag, head.casting, head.work_order,
	concat_ws(' ', head.body ->> '$.note', engine.body ->> '$.note',
		(SELECT group_concat(setup.body ->> '$.note', ' ') FROM setup WHERE setup.head = head.id))
	FROM head JOIN engine ON engine.id = head.engine LEFT JOIN owner ON owner.id = engine.owner`

const searchRow = searchRows + ` WHERE head.id = ?`

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
		if sayable(w) {
			words = append(words, phrase(w)+"*")
		}
	}
	return strings.Join(words, " ")
}

// sayable reports whether a text holds anything that the index knows.
func sayable(text string) bool {
	return strings.ContainsFunc(text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
}

func phrase(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

// lookAtSearch asks the index for every head by all of its words, column by column, and counts its rows.
func lookAtSearch(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	heads, rows := 0, 0
	err := each(ctx, src, searchRows, nil, func(row *sql.Rows) error {
		heads++
		var n int64
		var words [6]string
		if err := row.Scan(&n, &words[0], &words[1], &words[2], &words[3], &words[4], &words[5]); err != nil {
			return err
		}
		var asked []string
		for i, column := range []string{"owner", "engine", "tag", "casting", "work_order", "note"} {
			if sayable(words[i]) {
				asked = append(asked, column+" : "+phrase(words[i]))
			}
		}
		if len(asked) == 0 {
			return nil
		}
		var there int
		ok, err := one(ctx, src, `SELECT 1 FROM search WHERE search MATCH ? AND rowid = ?`, []any{strings.Join(asked, " AND "), n}, &there)
		if err == nil && !ok {
			found.add(words[2])
		}
		return err
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	if _, err := one(ctx, src, `SELECT count(*) FROM search`, nil, &rows); err != nil {
		return nil, say.Line{}, err
	}
	if rows != heads {
		found.add(fmt.Sprintf("%d ≠ %d", rows, heads))
	}
	return found.trouble("store.search-bad"), say.New("store.search-fine", heads), nil
}
