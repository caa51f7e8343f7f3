package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// SignedSheet is a sheet as it was signed. The record that was signed rides in its file.
type SignedSheet struct {
	record.Signed
	File []byte
}

// History is the end of the history as it is now; nil of a book in which nothing was ever kept.
func (b *Book) History(ctx context.Context) (*record.History, error) {
	var h *record.History
	err := b.read(ctx, func(src source) error {
		end, err := endOfChain(ctx, src)
		if err == nil && end.seq > 0 {
			h = &record.History{Events: end.seq, Head: hex.EncodeToString(end.hash[:])}
		}
		return err
	})
	return h, err
}

// signedShelf keeps that set-ups were signed. The sheets themselves lie beside it, under their fingerprints.
type signedShelf struct{}

func (signedShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	setup, n := signedKey(item.Key)
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM signed WHERE setup = ? AND n = ?`, setup, n)
}

// signedKey takes a key apart; identifiers may have a stroke in them, and the number behind the last is that of the signature.
func signedKey(key string) (setup string, n int) {
	at := strings.LastIndexByte(key, '/')
	if at < 0 {
		return key, 0
	}
	n, err := strconv.Atoi(key[at+1:])
	if err != nil {
		return key, 0
	}
	return key[:at], n
}

func (signedShelf) put(ctx context.Context, c *change, _ record.Item, n record.Noun, body []byte) error {
	s := n.(record.Signed)
	return c.exec(ctx, `INSERT INTO signed (setup, n, version, body) VALUES (?, ?, ?, ?)`, s.Setup, s.N, bodyVersion, string(body))
}

// errSignedStays is a fault of the caller: what was signed is never taken away.
var errSignedStays = errors.New("what was signed is never taken away")

func (signedShelf) remove(context.Context, *change, record.Item) error { return errSignedStays }

func (signedShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT setup, n, version, body FROM signed ORDER BY setup, n`, nil, func(rows *sql.Rows) error {
		var setup, body string
		var n, version int
		if err := rows.Scan(&setup, &n, &version, &body); err != nil {
			return err
		}
		now, err := current(record.SignedItem, version, []byte(body))
		if err != nil {
			return err
		}
		is, err := decode(record.SignedItem, bodyVersion, now)
		if err != nil {
			return err
		}
		s := is.(record.Signed)
		return found(record.ItemOf("", s), now, s.Setup == setup && s.N == n)
	})
}

// Sign keeps a signed sheet. The first one closes its set-up, in the same step: nothing is kept for it any more, and nothing
// of it undone. As is what the signer saw; where the set-up is not so any more it is refused (say.Conflict), and so is a
// set-up that is signed already, and a second signature where there is no first. After is the end of the history that stands on
// the sheet; where something was kept since, it is refused (say.Conflict). It may be nil.
func (b *Book) Sign(ctx context.Context, s SignedSheet, as *record.Record, after *record.History, a record.Action) (Kept, error) {
	if a.Token == "" {
		return Kept{}, fault(errNoToken, b.path)
	}
	var k Kept
	err := b.change(ctx, func(ctx context.Context, c *change) error {
		again, err := c.repeated(ctx, a.Token, "", kept)
		if err != nil || again.Repeated {
			k = again
			return err
		}
		h := c.heading(a.Token, "", a.By, a.At, kept)
		first := c.chain.seq
		if after != nil && after.Head != hex.EncodeToString(c.chain.hash[:]) {
			return say.Fail(say.Conflict, "store.changed-signing", s.Setup)
		}
		if err := c.sign(ctx, h, s, as); err != nil {
			return err
		}
		k = c.kept(h, first)
		return nil
	})
	if err != nil {
		return Kept{}, err
	}
	return k, nil
}

func (c *change) sign(ctx context.Context, h heading, s SignedSheet, as *record.Record) error {
	setup := record.Item{Kind: record.SetupItem, Setup: s.Setup, Key: s.Setup}
	body, err := get(ctx, c, setup)
	if err != nil {
		return err
	}
	if body == nil {
		return say.Fail(say.NotFound, "store.no-setup", s.Setup)
	}
	n, err := noun[record.Setup](body)
	if err != nil {
		return err
	}
	is := n.(record.Setup)
	before, err := get(ctx, c, record.ItemOf("", record.Signed{Setup: s.Setup, N: s.N - 1}))
	if err != nil {
		return err
	}
	switch {
	case s.N == 1 && is.State == record.Closed:
		return say.Fail(say.Conflict, "store.signed-already", s.Setup)
	case s.N > 1 && before == nil:
		return say.Fail(say.Conflict, "store.not-signed", s.Setup)
	}
	if s.N == 1 {
		if err := c.unchanged(ctx, s.Setup, as); err != nil {
			return err
		}
		is.State = record.Closed
		closed, err := encode(is)
		if err != nil {
			return err
		}
		if err := c.write(ctx, h, setup, is, body, closed); err != nil {
			return err
		}
	}
	return c.keepSheet(ctx, h, s)
}

// unchanged refuses a set-up that is not as somebody saw it.
func (c *change) unchanged(ctx context.Context, setup string, as *record.Record) error {
	now, err := loadRecord(ctx, c, setup)
	if err != nil {
		return err
	}
	is, err := compact(now)
	if err != nil {
		return err
	}
	was, err := compact(as)
	if err != nil {
		return err
	}
	if string(is) != string(was) {
		return say.Fail(say.Conflict, "store.changed-signing", setup)
	}
	return nil
}

// keepSheet keeps the sheet of a set-up that is closed by now.
func (c *change) keepSheet(ctx context.Context, h heading, s SignedSheet) error {
	sum := sha256.Sum256(s.File)
	s.Sheet = hex.EncodeToString(sum[:])
	if err := c.exec(ctx, `INSERT INTO signed_sheet (sum, file) VALUES (?, ?) ON CONFLICT DO NOTHING`, s.Sheet, s.File); err != nil {
		return err
	}
	body, err := encode(s.Signed)
	if err != nil {
		return err
	}
	return c.write(ctx, h, record.ItemOf("", s.Signed), s.Signed, nil, body)
}

const newestSheet = `SELECT signed.version, signed.body, signed_sheet.file
	FROM signed JOIN signed_sheet ON signed_sheet.sum = json_extract(signed.body, '$.sheet')
	WHERE signed.setup = ? ORDER BY signed.n DESC LIMIT 1`

// Sheet returns the sheet of a set-up as it was signed last; nil where nobody signed it. A sheet that is not what its
// fingerprint says is refused (say.Damaged).
func (b *Book) Sheet(ctx context.Context, setup string) (*SignedSheet, error) {
	var s *SignedSheet
	err := b.read(ctx, func(src source) (err error) {
		s, err = newest(ctx, src, setup)
		return err
	})
	if err != nil {
		return nil, err
	}
	return s, nil
}

func newest(ctx context.Context, src source, setup string) (*SignedSheet, error) {
	var version int
	var body string
	var file []byte
	there, err := one(ctx, src, newestSheet, []any{setup}, &version, &body, &file)
	if err != nil || !there {
		return nil, err
	}
	now, err := current(record.SignedItem, version, []byte(body))
	if err != nil {
		return nil, err
	}
	n, err := noun[record.Signed](now)
	if err != nil {
		return nil, err
	}
	s := &SignedSheet{n.(record.Signed), file}
	if sum := sha256.Sum256(file); hex.EncodeToString(sum[:]) != s.Sheet {
		return nil, say.Fail(say.Damaged, "store.sheet-damaged", setup)
	}
	return s, nil
}

// Signatures returns who signed a set-up, in the order in which they did.
func (b *Book) Signatures(ctx context.Context, setup string) ([]record.Signed, error) {
	var all []record.Signed
	err := b.read(ctx, func(src source) error {
		var err error
		all, err = signatures(ctx, src, setup)
		return err
	})
	return all, err
}

func signatures(ctx context.Context, src source, setup string) ([]record.Signed, error) {
	var all []record.Signed
	err := each(ctx, src, `SELECT version, body FROM signed WHERE setup = ? ORDER BY n`, []any{setup}, func(rows *sql.Rows) error {
		var version int
		var body string
		if err := rows.Scan(&version, &body); err != nil {
			return err
		}
		now, err := current(record.SignedItem, version, []byte(body))
		if err != nil {
			return err
		}
		n, err := noun[record.Signed](now)
		if err != nil {
			return err
		}
		all = append(all, n.(record.Signed))
		return nil
	})
	return all, err
}

// lookAtSigned holds every sheet against its fingerprint, and every signature against the sheet that it is of.
func lookAtSigned(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	sums := map[string]bool{}
	err := each(ctx, src, `SELECT sum, file FROM signed_sheet ORDER BY sum`, nil, func(rows *sql.Rows) error {
		var sum string
		var file []byte
		if err := rows.Scan(&sum, &file); err != nil {
			return err
		}
		is := sha256.Sum256(file)
		sums[sum] = true
		if hex.EncodeToString(is[:]) != sum {
			found.add("sheet " + sum[:min(12, len(sum))]) // of a damaged book it may be shorter than it was
		}
		return nil
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	n := 0
	err = signedShelf{}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
		is, err := noun[record.Signed](body)
		if err != nil {
			return err
		}
		n++
		if s := is.(record.Signed); !sums[s.Sheet] {
			found.add("set-up " + s.Setup)
		}
		return nil
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	return found.trouble("store.signed-bad"), say.New("store.signed-fine", n), nil
}
