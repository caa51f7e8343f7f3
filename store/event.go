package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"hash"
	"strings"

	"keeperbook/model/record"
)

// what says how an event came about.
type what string

const (
	kept       what = "keep"
	undone     what = "undo"
	redone     what = "redo"
	takenIn    what = "take-in"
	checkpoint what = "checkpoint"
)

// event is one row of the history. A body is nil where the item was or is absent.
type event struct {
	seq, action   int64
	token, setup  string
	by            string
	at            record.Stamp
	what          what
	undoes        int64 // the action that an undo or redo is about, else 0
	item          record.Item
	fields        []string
	before, after []byte
	version       int
	prev, hash    [sha256.Size]byte
}

// sum returns the event's hash: SHA-256 over the hash of the event before it and every stored
// value, each after its length in eight bytes, so that no two rows run together to the same bytes.
func (e *event) sum() (sum [sha256.Size]byte) {
	h := sha256.New()
	part(h, e.prev[:])
	number(h, e.seq)
	number(h, e.action)
	text(h, e.token)
	text(h, e.setup)
	text(h, e.by)
	text(h, string(e.at))
	text(h, string(e.what))
	number(h, e.undoes)
	text(h, string(e.item.Kind))
	text(h, e.item.Setup)
	text(h, e.item.Key)
	text(h, strings.Join(e.fields, ","))
	part(h, e.before)
	part(h, e.after)
	number(h, int64(e.version))
	h.Sum(sum[:0])
	return sum
}

// part adds bytes after their length. Absent bytes have a length that none can have.
func part(h hash.Hash, b []byte) {
	length := uint64(len(b))
	if b == nil {
		length = ^uint64(0)
	}
	var prefix [8]byte
	binary.BigEndian.PutUint64(prefix[:], length)
	h.Write(prefix[:])
	h.Write(b)
}

func text(h hash.Hash, s string) { part(h, append([]byte{}, s...)) }

func number(h hash.Hash, n int64) {
	var b [8]byte
	binary.BigEndian.PutUint64(b[:], uint64(n))
	part(h, b[:])
}

const insertEvent = `INSERT INTO event (seq, action, token, setup, by, at, what, undoes,
	item_kind, item_setup, item_key, fields, before, after, version, prev, hash)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

// append writes the event at the end of the chain. It sets seq, prev and hash.
func (c *chain) append(ctx context.Context, d *desk, e *event) error {
	e.seq, e.prev = c.seq+1, c.hash
	e.hash = e.sum()
	err := d.exec(ctx, insertEvent, e.seq, e.action, e.token, e.setup, e.by, string(e.at), string(e.what),
		sql.NullInt64{Int64: e.undoes, Valid: e.undoes != 0},
		string(e.item.Kind), e.item.Setup, e.item.Key, strings.Join(e.fields, ","),
		nullable(e.before), nullable(e.after), e.version, e.prev[:], e.hash[:])
	if err != nil {
		return err
	}
	c.seq, c.hash = e.seq, e.hash
	return nil
}

// chain is the end of the history.
type chain struct {
	seq, action int64
	hash        [sha256.Size]byte
}

const lastEvent = `SELECT seq, action, hash FROM event ORDER BY seq DESC LIMIT 1`

// endOfChain reads the end of the history. The chain begins with thirty-two zero bytes.
func endOfChain(ctx context.Context, src source) (chain, error) {
	var c chain
	var sum []byte
	found, err := one(ctx, src, lastEvent, nil, &c.seq, &c.action, &sum)
	if err == nil && found {
		copy(c.hash[:], sum)
	}
	return c, err
}

const eventColumns = `seq, action, token, setup, by, at, what, undoes, item_kind, item_setup, item_key,
	fields, before, after, version, prev, hash`

// scanEvent reads one row of eventColumns.
func scanEvent(rows *sql.Rows) (event, error) {
	var e event
	var undoes sql.NullInt64
	var fields string
	var before, after sql.NullString
	var prev, sum []byte
	err := rows.Scan(&e.seq, &e.action, &e.token, &e.setup, &e.by, &e.at, &e.what, &undoes,
		&e.item.Kind, &e.item.Setup, &e.item.Key, &fields, &before, &after, &e.version, &prev, &sum)
	if err != nil {
		return e, err
	}
	e.undoes = undoes.Int64
	if fields != "" {
		e.fields = strings.Split(fields, ",")
	}
	e.before, e.after = present(before), present(after)
	copy(e.prev[:], prev)
	copy(e.hash[:], sum)
	return e, nil
}

// nullable stores a body as TEXT, and an absent one as NULL.
func nullable(body []byte) any {
	if body == nil {
		return nil
	}
	return string(body)
}

func present(s sql.NullString) []byte {
	if !s.Valid {
		return nil
	}
	return []byte(s.String)
}
