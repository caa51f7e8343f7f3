package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// readingShelf keeps readings in columns, side by side for each valve of a set-up.
type readingShelf struct{}

// rest is what few readings have beside their columns.
type rest struct {
	Correction []record.Taken `json:"correction,omitempty"`
	Over       *record.Over   `json:"over,omitempty"`
	Piece      string         `json:"piece,omitempty"`
	Note       string         `json:"note,omitempty"`
	Struck     *record.Strike `json:"struck,omitempty"`
	Height     *unit.Quantity `json:"height,omitempty"`
	Heights    string         `json:"heights,omitempty"`
}

const readingColumns = `position, coil, kind, n, typed, read, unit, value, gauge, method, by, at, version, rest`

const oneReading = `SELECT ` + readingColumns + ` FROM reading
	WHERE setup = ? AND position = ? AND coil = ? AND kind = ? AND n = ?`

func (readingShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	k, err := splitReadingKey(item.Key)
	if err != nil {
		return nil, err
	}
	var body []byte
	err = each(ctx, src, oneReading, []any{item.Setup, k.position, k.coil, k.kind, k.n}, func(rows *sql.Rows) error {
		r, err := scanReading(rows)
		if err == nil {
			body, err = encode(r)
		}
		return err
	})
	return body, err
}

const putReading = `INSERT INTO reading (setup, ` + readingColumns + `)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
	ON CONFLICT (setup, position, coil, kind, n) DO UPDATE SET typed = excluded.typed, read = excluded.read,
		unit = excluded.unit, value = excluded.value, gauge = excluded.gauge, method = excluded.method,
		by = excluded.by, at = excluded.at, version = excluded.version, rest = excluded.rest`

func (readingShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, _ []byte) error {
	r := n.(record.Reading)
	more, err := encodeRest(r)
	if err != nil {
		return err
	}
	q := r.Quantity
	return c.exec(ctx, putReading, item.Setup, r.At.String(), r.Coil, string(r.Kind), r.N,
		q.Typed, q.Read, string(q.Unit), q.Value, r.Gauge, string(r.Method), r.By, string(r.When), bodyVersion, more)
}

func (readingShelf) remove(ctx context.Context, c *change, item record.Item) error {
	k, err := splitReadingKey(item.Key)
	if err != nil {
		return err
	}
	return c.exec(ctx, `DELETE FROM reading WHERE setup = ? AND position = ? AND coil = ? AND kind = ? AND n = ?`,
		item.Setup, k.position, k.coil, k.kind, k.n)
}

func (readingShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT `+readingColumns+`, setup FROM reading`, nil, func(rows *sql.Rows) error {
		var setup string
		r, err := scanReading(rows, &setup)
		if err != nil {
			return err
		}
		body, err := encode(r)
		if err != nil {
			return err
		}
		return found(record.ItemOf(setup, r), body, true)
	})
}

// encodeRest returns NULL where a reading has nothing beside its columns.
func encodeRest(r record.Reading) (any, error) {
	if len(r.Correction) == 0 && r.Over == nil && r.Piece == "" && r.Note == "" && r.Struck == nil &&
		r.Height == nil && r.Heights == "" {
		return nil, nil
	}
	text, err := compact(rest{r.Correction, r.Over, r.Piece, r.Note, r.Struck, r.Height, r.Heights})
	if err != nil {
		return nil, fmt.Errorf("encode reading %s: %w", r.Key(), err)
	}
	return string(text), nil
}

// scanReading reads a row of readingColumns and what columns follow it.
func scanReading(rows *sql.Rows, more ...any) (record.Reading, error) {
	var r record.Reading
	var position string
	var version int
	var others sql.NullString
	q := &r.Quantity
	into := append([]any{&position, &r.Coil, &r.Kind, &r.N, &q.Typed, &q.Read, &q.Unit, &q.Value,
		&r.Gauge, &r.Method, &r.By, &r.When, &version, &others}, more...)
	if err := rows.Scan(into...); err != nil {
		return r, err
	}
	if !readable(version) {
		return r, fmt.Errorf("decode reading: version %d is not known", version)
	}
	var err error
	if r.At, err = splitPosition(position); err != nil || !others.Valid {
		return r, err
	}
	var o rest
	if err := json.Unmarshal([]byte(others.String), &o); err != nil {
		return r, fmt.Errorf("decode reading %s: %w", r.Key(), err)
	}
	r.Correction, r.Over, r.Piece, r.Note, r.Struck = o.Correction, o.Over, o.Piece, o.Note, o.Struck
	r.Height, r.Heights = o.Height, o.Heights
	return r, nil
}

// splitPosition reads "3/ex/1". A label may hold anything but a slash.
func splitPosition(key string) (record.Position, error) {
	parts := strings.Split(key, "/")
	if len(parts) != 3 {
		return record.Position{}, fmt.Errorf("%q is no position", key)
	}
	n, err := strconv.Atoi(parts[2])
	if err != nil {
		return record.Position{}, fmt.Errorf("%q is no position: %w", key, err)
	}
	return record.Position{Cylinder: parts[0], Role: record.Role(parts[1]), N: n}, nil
}

// readingKey is the key of a reading in its columns.
type readingKey struct {
	position string
	coil     int
	kind     string
	n        int
}

// splitReadingKey reads "3/ex/1/2/bind/1".
func splitReadingKey(key string) (readingKey, error) {
	parts := strings.Split(key, "/")
	if len(parts) != 6 {
		return readingKey{}, fmt.Errorf("%q is no key of a reading", key)
	}
	coil, err := strconv.Atoi(parts[3])
	if err != nil {
		return readingKey{}, fmt.Errorf("%q is no key of a reading: %w", key, err)
	}
	n, err := strconv.Atoi(parts[5])
	if err != nil {
		return readingKey{}, fmt.Errorf("%q is no key of a reading: %w", key, err)
	}
	return readingKey{strings.Join(parts[:3], "/"), coil, parts[4], n}, nil
}
