package store

import (
	"context"
	"database/sql"
	"maps"
	"slices"

	"keeperbook/model/record"
)

// Use is a set-up in whose record a part or gauge stands.
type Use struct {
	Head  string // tag
	Setup string // identifier
	Kind  record.SetupKind
	Begun record.Stamp
}

// UsedIn returns the set-ups in whose records a part or gauge of the shop stands: those that name it,
// and those that name a part that was measured with it. Heads come as in the register, and the set-ups
// of each from the oldest on.
func (b *Book) UsedIn(ctx context.Context, of record.Item) ([]Use, error) {
	var uses []Use
	err := b.read(ctx, func(src source) error {
		wanted := references{of: true}
		if err := wanted.namers(ctx, src); err != nil {
			return err
		}
		setups, err := wanted.setups(ctx, src)
		if err != nil || len(setups) == 0 {
			return err
		}
		uses, err = usesOf(ctx, src, setups)
		return err
	})
	return uses, err
}

// namesOne reports whether a noun names any of the references.
func (r references) namesOne(n record.Noun) bool {
	named := references{}
	named.of(n)
	for item := range named {
		if r[item] {
			return true
		}
	}
	return false
}

// namers adds the parts and gauges that name one of the references, and those that name these in turn: a
// single spring names its type, a type the gauge it was measured on, a gauge the one that set it up.
func (r references) namers(ctx context.Context, src source) error {
	for more := true; more; {
		more = false
		for _, kind := range append(partKinds(), record.GaugeItem) {
			err := partShelf{kind}.all(ctx, src, func(item record.Item, body []byte, _ bool) error {
				if r[item] {
					return nil
				}
				n, err := decode(kind, bodyVersion, body)
				if err == nil && r.namesOne(n) {
					r[item], more = true, true
				}
				return err
			})
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// A row is looked at more closely where one of the identifiers stands in it as a whole text, whatever
// for: an identifier may be another kind's too, and a note may say just the same.
const (
	itemsNaming = `SELECT setup, kind, version, body FROM setup_item WHERE EXISTS
		(SELECT 1 FROM json_tree(body) WHERE atom IN (SELECT value FROM json_each(?1)))`
	readingsNaming = `SELECT ` + readingColumns + `, setup FROM reading WHERE gauge IN (SELECT value FROM json_each(?1))
		OR rest IS NOT NULL AND EXISTS (SELECT 1 FROM json_tree(rest) WHERE atom IN (SELECT value FROM json_each(?1)))`
)

// setups returns the identifiers of the set-ups that name one of the references, sorted.
func (r references) setups(ctx context.Context, src source) ([]string, error) {
	keys := map[string]bool{}
	for item := range r {
		keys[item.Key] = true
	}
	list, err := compact(slices.Collect(maps.Keys(keys)))
	if err != nil {
		return nil, err
	}
	found := map[string]bool{}
	err = each(ctx, src, itemsNaming, []any{string(list)}, func(rows *sql.Rows) error {
		var setup, body string
		var kind record.ItemKind
		var version int
		if err := rows.Scan(&setup, &kind, &version, &body); err != nil {
			return err
		}
		n, err := decode(kind, version, []byte(body))
		if err == nil && r.namesOne(n) {
			found[setup] = true
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	err = each(ctx, src, readingsNaming, []any{string(list)}, func(rows *sql.Rows) error {
		var setup string
		n, err := scanReading(rows, &setup)
		if err == nil && r.namesOne(n) {
			found[setup] = true
		}
		return err
	})
	return slices.Sorted(maps.Keys(found)), err
}

const usesOfSetups = `SELECT head.tag, setup.id, setup.kind, setup.begun FROM setup JOIN head ON head.id = setup.head
	WHERE setup.id IN (SELECT value FROM json_each(?1))
	ORDER BY head.newest DESC, head.n DESC, setup.begun, setup.n`

func usesOf(ctx context.Context, src source, setups []string) ([]Use, error) {
	list, err := compact(setups)
	if err != nil {
		return nil, err
	}
	var uses []Use
	err = each(ctx, src, usesOfSetups, []any{string(list)}, func(rows *sql.Rows) error {
		var u Use
		err := rows.Scan(&u.Head, &u.Setup, &u.Kind, &u.Begun)
		uses = append(uses, u)
		return err
	})
	return uses, err
}
