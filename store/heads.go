package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Filter chooses heads.
type Filter struct {
	// Text is words that all stand, or begin a word, in owner, engine, tag, casting, work order or
	// notes. Empty: every head.
	Text string
	// Engine is the identifier of the engine whose heads are wanted, whatever their words. Empty: of any.
	Engine string
	// Limit is how many heads are wanted at most; 0: all.
	Limit int
}

// HeadLine is one head in the register, with its newest set-up.
type HeadLine struct {
	Head      string // identifier
	Tag       string
	Casting   string
	WorkOrder string
	Engine    string // name
	Owner     string // name; empty where the engine has none

	Setup  string // identifier of the newest set-up; empty where there is none yet
	Kind   record.SetupKind
	State  record.State
	Begun  record.Stamp // when the newest set-up was begun
	Setups int          // how many the head has
}

// The heads are chosen first, and only of those the lines are put together.
const (
	everyHead  = `SELECT n FROM head`
	headsFound = `SELECT n FROM head WHERE n IN (SELECT rowid FROM search WHERE search MATCH ?)`
	headsOf    = `SELECT n FROM head WHERE engine = ?`
	headLines  = `WITH chosen AS MATERIALIZED (%s ORDER BY newest DESC, n DESC LIMIT ?)
	SELECT head.id, head.tag, head.casting, head.work_order, engine.name, coalesce(owner.name, ''),
	coalesce(setup.id, ''), coalesce(setup.kind, ''), coalesce(setup.state, ''), coalesce(setup.begun, ''),
	(SELECT count(*) FROM setup WHERE setup.head = head.id)
	FROM chosen JOIN head ON head.n = chosen.n
	JOIN engine ON engine.id = head.engine LEFT JOIN owner ON owner.id = engine.owner
	LEFT JOIN setup ON setup.n = (SELECT s.n FROM setup AS s WHERE s.head = head.id ORDER BY s.begun DESC, s.n DESC LIMIT 1)
	ORDER BY head.newest DESC, head.n DESC`
)

// Heads returns the heads that a filter chooses, the one with the newest set-up first.
func (b *Book) Heads(ctx context.Context, f Filter) ([]HeadLine, error) {
	limit := f.Limit
	if limit <= 0 {
		limit = -1 // as SQL says no limit
	}
	statement, args := fmt.Sprintf(headLines, everyHead), []any{limit}
	if words := matchWords(f.Text); words != "" {
		statement, args = fmt.Sprintf(headLines, headsFound), []any{words, limit}
	}
	if f.Engine != "" {
		statement, args = fmt.Sprintf(headLines, headsOf), []any{f.Engine, limit}
	}
	var lines []HeadLine
	err := b.read(ctx, func(src source) error {
		return each(ctx, src, statement, args, func(rows *sql.Rows) error {
			var l HeadLine
			err := rows.Scan(&l.Head, &l.Tag, &l.Casting, &l.WorkOrder, &l.Engine, &l.Owner,
				&l.Setup, &l.Kind, &l.State, &l.Begun, &l.Setups)
			lines = append(lines, l)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return lines, nil
}

const headsCalled = `SELECT version, body FROM head WHERE tag = ? ORDER BY n`

// An identifier that is given in full is meant, also where others begin with it.
const headsFrom = `SELECT version, body FROM head WHERE substr(id, 1, length(?1)) = ?1
	ORDER BY id <> ?1, id`

// FindHead returns the head of this name, or the one whose identifier begins so. It refuses a text
// that names none (NotFound) or several (Conflict), and names the several.
func (b *Book) FindHead(ctx context.Context, text string) (record.Head, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return record.Head{}, say.Fail(say.Invalid, "store.no-name")
	}
	var heads []record.Head
	err := b.read(ctx, func(src source) error {
		for _, statement := range []string{headsCalled, headsFrom} {
			err := each(ctx, src, statement, []any{text}, func(rows *sql.Rows) error {
				h, _, err := scanNoun[record.Head](rows)
				heads = append(heads, h)
				return err
			})
			if err != nil || len(heads) > 0 {
				return err
			}
		}
		return nil
	})
	switch {
	case err != nil:
		return record.Head{}, err
	case len(heads) == 0:
		return record.Head{}, say.Fail(say.NotFound, "store.no-head", text)
	case len(heads) == 1, heads[0].ID == text && heads[0].Tag != text:
		return heads[0], nil
	}
	return record.Head{}, say.Fail(say.Conflict, "store.several-heads", text, nameHeads(heads))
}

// nameHeads lists heads as "tag (identifier)", the first ten of them.
func nameHeads(heads []record.Head) string {
	const most = 10
	var names []string
	for i, h := range heads {
		if i == most {
			names = append(names, "…")
			break
		}
		names = append(names, h.Tag+" ("+h.ID+")")
	}
	return strings.Join(names, ", ")
}
