package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// partShelf keeps one kind of the shop's parts, its gauges, the studies of them, or whom the shop trusts.
type partShelf struct{ kind record.ItemKind }

const getPart = `SELECT version, body FROM part WHERE kind = ? AND id = ?`

func (partShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, getPart, string(item.Kind), item.Key)
}

func (partShelf) put(ctx context.Context, c *change, item record.Item, _ record.Noun, body []byte) error {
	return c.exec(ctx, `INSERT INTO part (kind, id, version, body) VALUES (?, ?, ?, ?)
		ON CONFLICT (kind, id) DO UPDATE SET version = excluded.version, body = excluded.body`,
		string(item.Kind), item.Key, bodyVersion, string(body))
}

// usesPart finds the identifier as a whole JSON text. It may find a note that says just the same,
// which costs a refusal; it never misses a use.
const usesPart = `SELECT
	EXISTS (SELECT 1 FROM setup_item WHERE instr(body, ?1) AND NOT (kind = 'check' OR kind = 'seat-work'))
	OR EXISTS (SELECT 1 FROM part WHERE instr(body, ?1) AND NOT (kind = ?2 AND id = ?3))
	OR EXISTS (SELECT 1 FROM life WHERE kind = 'spring-check' AND instr(body, ?1))
	OR EXISTS (SELECT 1 FROM reading WHERE gauge = ?3 OR instr(rest, ?1))`

// remove refuses to take away what a set-up or another part refers to: its record would lose it.
func (s partShelf) remove(ctx context.Context, c *change, item record.Item) error {
	quoted, err := compact(item.Key)
	if err != nil {
		return err
	}
	var used bool
	if _, err := one(ctx, c, usesPart, []any{string(quoted), string(item.Kind), item.Key}, &used); err != nil {
		return err
	}
	if used {
		return say.Fail(say.Conflict, "store.part-in-use", item.Key)
	}
	return c.exec(ctx, `DELETE FROM part WHERE kind = ? AND id = ?`, string(item.Kind), item.Key)
}

func (s partShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT id, version, body FROM part WHERE kind = ? ORDER BY id`, []any{string(s.kind)},
		func(rows *sql.Rows) error {
			var id, body string
			var version int
			if err := rows.Scan(&id, &version, &body); err != nil {
				return err
			}
			now, err := current(s.kind, version, []byte(body))
			if err != nil {
				return err
			}
			n, err := decode(s.kind, bodyVersion, now)
			if err != nil {
				return err
			}
			return found(record.Item{Kind: s.kind, Key: id}, now, n.Key() == id)
		})
}

// Parts returns all of the shop's parts, each kind sorted by identifier.
func (b *Book) Parts(ctx context.Context) (record.Parts, error) {
	var parts record.Parts
	err := b.read(ctx, func(src source) error {
		for _, kind := range partKinds() {
			err := partShelf{kind}.all(ctx, src, func(item record.Item, body []byte, _ bool) error {
				n, err := decode(item.Kind, bodyVersion, body)
				if err != nil {
					return err
				}
				addPart(&parts, n)
				return nil
			})
			if err != nil {
				return err
			}
		}
		return nil
	})
	return parts, err
}

// Gauges returns all of the shop's gauges, sorted by identifier.
func (b *Book) Gauges(ctx context.Context) ([]record.Gauge, error) {
	var gauges []record.Gauge
	err := b.read(ctx, func(src source) error {
		return partShelf{record.GaugeItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			g, err := noun[record.Gauge](body)
			if err != nil {
				return err
			}
			gauges = append(gauges, g.(record.Gauge))
			return nil
		})
	})
	return gauges, err
}

// Trusted returns whom the shop trusts, sorted by fingerprint.
func (b *Book) Trusted(ctx context.Context) ([]record.Trust, error) {
	var all []record.Trust
	err := b.read(ctx, func(src source) error {
		return partShelf{record.TrustItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			t, err := noun[record.Trust](body)
			if err != nil {
				return err
			}
			all = append(all, t.(record.Trust))
			return nil
		})
	})
	return all, err
}

// Studies returns all studies of the shop's gauges, sorted by identifier.
func (b *Book) Studies(ctx context.Context) ([]record.Study, error) {
	var studies []record.Study
	err := b.read(ctx, func(src source) error {
		return partShelf{record.StudyItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			s, err := noun[record.Study](body)
			if err != nil {
				return err
			}
			studies = append(studies, s.(record.Study))
			return nil
		})
	})
	return studies, err
}

func partKinds() []record.ItemKind {
	return []record.ItemKind{
		record.SpringItem, record.PieceItem, record.RetainerItem, record.LocksItem,
		record.LocatorItem, record.SealItem, record.ValvePartItem,
	}
}

func addPart(parts *record.Parts, n record.Noun) {
	switch n := n.(type) {
	case record.Spring:
		parts.Springs = append(parts.Springs, n)
	case record.SpringPiece:
		parts.Pieces = append(parts.Pieces, n)
	case record.Retainer:
		parts.Retainers = append(parts.Retainers, n)
	case record.Locks:
		parts.Locks = append(parts.Locks, n)
	case record.Locator:
		parts.Locators = append(parts.Locators, n)
	case record.Seal:
		parts.Seals = append(parts.Seals, n)
	case record.ValvePart:
		parts.Valves = append(parts.Valves, n)
	}
}
