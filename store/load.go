package store

import (
	"context"
	"database/sql"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Record returns a set-up with everything it refers to and nothing else. Its lists come in one
// order: valves as on the head from the front, readings by valve, kind in bench order, coil and
// count, parts by identifier. So the same book always gives the same record.
func (b *Book) Record(ctx context.Context, setup string) (*record.Record, error) {
	var r *record.Record
	err := b.read(ctx, func(src source) error {
		var err error
		r, err = loadRecord(ctx, src, setup)
		return err
	})
	if err != nil {
		return nil, err
	}
	return r, nil
}

func loadRecord(ctx context.Context, src source, setup string) (*record.Record, error) {
	s, there, err := getNoun[record.Setup](ctx, src, record.Item{Kind: record.SetupItem, Setup: setup, Key: setup})
	if err != nil {
		return nil, err
	}
	if !there {
		return nil, say.Fail(say.NotFound, "store.no-setup", setup)
	}
	r := &record.Record{}
	if r.Head, there, err = getNoun[record.Head](ctx, src, record.Item{Kind: record.HeadItem, Key: s.Head}); err != nil {
		return nil, err
	} else if !there {
		return nil, say.Fail(say.Damaged, "store.no-head-id", s.Head)
	}
	if r.Engine, there, err = getNoun[record.Engine](ctx, src, record.Item{Kind: record.EngineItem, Key: r.Head.Engine}); err != nil {
		return nil, err
	} else if !there {
		return nil, say.Fail(say.Damaged, "store.no-engine", r.Head.Engine)
	}
	if owner, there, err := getNoun[record.Owner](ctx, src, record.Item{Kind: record.OwnerItem, Key: r.Engine.Owner}); err != nil {
		return nil, err
	} else if there {
		r.Owner = &owner
	}
	if r.Shop, _, err = getNoun[record.Shop](ctx, src, record.ItemOf("", r.Shop)); err != nil {
		return nil, err
	}
	if err := loadLists(ctx, src, &s); err != nil {
		return nil, err
	}
	s.Arrange(&r.Head)
	r.Setup = s
	return r, gather(ctx, src, r)
}

// loadLists reads what belongs to a set-up.
func loadLists(ctx context.Context, src source, s *record.Setup) error {
	err := each(ctx, src, `SELECT kind, version, body FROM setup_item WHERE setup = ?`, []any{s.ID}, func(rows *sql.Rows) error {
		var kind record.ItemKind
		var version int
		var body string
		if err := rows.Scan(&kind, &version, &body); err != nil {
			return err
		}
		n, err := decode(kind, version, []byte(body))
		if err == nil {
			addToSetup(s, n)
		}
		return err
	})
	if err != nil {
		return err
	}
	return each(ctx, src, `SELECT `+readingColumns+` FROM reading WHERE setup = ?`, []any{s.ID}, func(rows *sql.Rows) error {
		r, err := scanReading(rows)
		if err == nil {
			s.Readings = append(s.Readings, r)
		}
		return err
	})
}

func addToSetup(s *record.Setup, n record.Noun) {
	switch n := n.(type) {
	case record.Package:
		s.Packages = append(s.Packages, n)
	case record.Valve:
		s.Valves = append(s.Valves, n)
	case record.Shared:
		s.Shared = append(s.Shared, n)
	case record.SeatWork:
		s.SeatWork = append(s.SeatWork, n)
	case record.Deviation:
		s.Deviations = append(s.Deviations, n)
	case record.Check:
		s.Checks = append(s.Checks, n)
	}
}

// listed returns the nouns of a set-up's lists, in their order.
func listed(s *record.Setup) []record.Noun {
	var all []record.Noun
	all = append(all, nouns(s.Packages)...)
	all = append(all, nouns(s.Valves)...)
	all = append(all, nouns(s.Readings)...)
	all = append(all, nouns(s.Shared)...)
	all = append(all, nouns(s.SeatWork)...)
	all = append(all, nouns(s.Deviations)...)
	return append(all, nouns(s.Checks)...)
}

func nouns[T record.Noun](list []T) []record.Noun {
	all := make([]record.Noun, len(list))
	for i, n := range list {
		all[i] = n
	}
	return all
}
