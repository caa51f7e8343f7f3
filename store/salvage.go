package store

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Salvaged says what was got out of a damaged book.
type Salvaged struct {
	Base   string // the copy that the new book was begun with; "" where it was begun empty
	Found  int    // events that prove themselves in the damaged file
	Had    int    // of them, those that the copy had already
	Taken  int    // those that went into the new book as they are
	Retold int    // those that went in as new entries, since something before them is gone
	Lost   int    // those that are known to be gone: numbers that nothing proved itself for
	Left   int    // those that could not be put in, since what they belong to is gone
	Sheets int    // signed sheets that were found
}

// Salvage makes a new book of a damaged one: of the copy base, "" where there is none, and of every event of the damaged file that
// proves itself by its hash. The damaged file is only read. It fails (say.Conflict) where there is a file of the new name or the log
// of another book beside the damaged one, and (say.NotFound) where there is neither a copy nor an event; then, and where
// it is given up, there is no new file.
func Salvage(ctx context.Context, damaged, base, path string, o Options) (Salvaged, error) {
	s := Salvaged{Base: base}
	// Events of another book would go into the new one beside those of this.
	if _, held := lockedBy(damaged); !held {
		if of, _, _ := whoseLog(ctx, damaged); of == another {
			return s, otherLog(damaged)
		}
	}
	p, err := readPages(ctx, damaged)
	if err != nil {
		return s, fault(err, damaged)
	}
	events, sheets, err := provenIn(ctx, p)
	if err != nil {
		return s, err
	}
	s.Found, s.Sheets = len(events), len(sheets)
	if base == "" && len(events) == 0 {
		return s, say.Fail(say.NotFound, "store.nothing-saved", damaged)
	}
	if path, err = filepath.Abs(path); err != nil {
		return s, fault(err, path)
	}
	folder, err := os.MkdirTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return s, fault(err, path)
	}
	defer os.RemoveAll(folder)
	unnamed := filepath.Join(folder, "saved.keeperbook")
	say.Tell(ctx, "work.beginning")
	if err := begun(ctx, base, unnamed, o); err != nil {
		return s, err
	}
	b, err := Open(ctx, unnamed, o)
	if err != nil {
		return s, err
	}
	err = b.change(ctx, func(ctx context.Context, c *change) error { return c.retell(ctx, &s, events, sheets) })
	if err == nil {
		say.Tell(ctx, "work.finishing")
		err = b.Copy(ctx, path) // looked through, and on the disk
	}
	return s, errors.Join(err, b.Close())
}

// begun makes the book that a salvaged one begins with.
func begun(ctx context.Context, base, path string, o Options) error {
	if base == "" {
		b, err := Create(ctx, path, o)
		if err != nil {
			return err
		}
		return b.Close()
	}
	from, err := OpenCopy(ctx, base)
	if err != nil {
		return err
	}
	return errors.Join(from.Copy(ctx, path), from.Close())
}

// provenIn are the events of a file that prove themselves, by their number, and the signed sheets by their sum. Of two events of
// one number the one counts whose successor names it. It fails only where it is given up.
func provenIn(ctx context.Context, p *pages) (events []event, sheets map[string][]byte, err error) {
	sheets = map[string][]byte{}
	byHash := map[[sha256.Size]byte]event{}
	err = p.rows(ctx, func(rowid int64, columns []any) {
		if e, ok := provenEvent(rowid, columns); ok {
			byHash[e.hash] = e
		} else if len(columns) == 2 {
			sum, ok1 := columns[0].(string)
			file, ok2 := columns[1].([]byte)
			if is := sha256.Sum256(file); ok1 && ok2 && sum == hex.EncodeToString(is[:]) {
				sheets[sum] = file
			}
		}
	})
	if err != nil {
		return nil, nil, err
	}
	named := map[[sha256.Size]byte]bool{}
	for _, e := range byHash {
		named[e.prev] = true
		events = append(events, e)
	}
	slices.SortFunc(events, func(a, b event) int {
		switch {
		case a.seq != b.seq:
			return int(a.seq - b.seq)
		case named[a.hash] != named[b.hash] && named[a.hash]:
			return -1
		}
		return 1
	})
	return slices.CompactFunc(events, func(a, b event) bool { return a.seq == b.seq }), sheets, nil
}

// provenEvent reads an event out of the columns of a row; false where its hash is not that of what stands in it.
func provenEvent(rowid int64, c []any) (e event, ok bool) {
	const columns = 17
	if len(c) != columns || c[0] != nil {
		return e, false
	}
	defer func() {
		if recover() != nil { // a column of another type: it is no event
			ok = false
		}
	}()
	e = event{
		seq: rowid, action: c[1].(int64), token: c[2].(string), setup: c[3].(string), by: c[4].(string), at: record.Stamp(c[5].(string)),
		what: what(c[6].(string)),
		item: record.Item{Kind: record.ItemKind(c[8].(string)), Setup: c[9].(string), Key: c[10].(string)},
	}
	if c[7] != nil {
		e.undoes = c[7].(int64)
	}
	if fields := c[11].(string); fields != "" {
		e.fields = strings.Split(fields, ",")
	}
	if c[12] != nil {
		e.before = []byte(c[12].(string))
	}
	if c[13] != nil {
		e.after = []byte(c[13].(string))
	}
	e.version = int(c[14].(int64))
	prev, sum := c[15].([]byte), c[16].([]byte)
	if len(prev) != sha256.Size || len(sum) != sha256.Size {
		return e, false
	}
	copy(e.prev[:], prev)
	copy(e.hash[:], sum)
	return e, e.sum() == e.hash
}

// retell puts events into a book after those that it has: as they are while each follows the one before, else as new entries by
// whoever made them and when.
func (c *change) retell(ctx context.Context, s *Salvaged, events []event, sheets map[string][]byte) error {
	for sum, file := range sheets {
		if err := c.exec(ctx, `INSERT INTO signed_sheet (sum, file) VALUES (?, ?) ON CONFLICT DO NOTHING`, sum, file); err != nil {
			return err
		}
	}
	had, whole := c.chain.seq, true
	last := int64(0)
	if s.Base != "" {
		last = had
	}
	action, as := int64(-1), c.chain.action // the action that is told, and its number here
	for i, e := range events {
		if err := c.gone(); err != nil {
			return err
		}
		say.Tell(ctx, "work.written", i, len(events))
		if s.Base != "" && e.seq <= had {
			s.Had++
			continue
		}
		s.Lost += int(max(0, e.seq-last-1))
		last = e.seq
		if whole && e.seq == c.chain.seq+1 && e.prev == c.chain.hash {
			if err := c.tell(ctx, &e); err != nil {
				return err
			}
			s.Taken++
			continue
		}
		whole = false
		if e.what == checkpoint {
			continue // it is of the state as it was
		}
		if e.action != action {
			action, as = e.action, as+1
		}
		h := heading{action: as, token: fmt.Sprintf("saved %s", hex.EncodeToString(e.hash[:8])), setup: e.setup, by: e.by, at: e.at, what: kept}
		done, err := c.tellAnew(ctx, h, &e)
		if err != nil {
			return err
		}
		if done {
			s.Retold++
		} else {
			s.Left++
		}
	}
	return nil
}

// tell puts an event in as it is.
func (c *change) tell(ctx context.Context, e *event) error {
	if e.what != checkpoint {
		if err := c.place(ctx, e); err != nil {
			return err
		}
	}
	was := *e
	if err := c.chain.append(ctx, c.desk, &was); err != nil {
		return err
	}
	if was.hash != e.hash {
		return fmt.Errorf("event %d comes to another hash", e.seq)
	}
	return nil
}

// place makes the state what an event makes it.
func (c *change) place(ctx context.Context, e *event) error {
	s, err := shelfOf(e.item.Kind)
	if err != nil {
		return err
	}
	if e.after == nil {
		return s.remove(ctx, c, e.item)
	}
	n, err := decode(e.item.Kind, e.version, e.after)
	if err != nil {
		return err
	}
	return s.put(ctx, c, e.item, n, e.after)
}

// tellAnew puts what an event says in as a new entry; false where what it belongs to is not there any more.
func (c *change) tellAnew(ctx context.Context, h heading, e *event) (done bool, err error) {
	before, err := get(ctx, c, e.item)
	if err != nil {
		return false, err
	}
	if e.after == nil {
		if before == nil {
			return true, nil
		}
		return soft(c.write(ctx, h, e.item, nil, before, nil))
	}
	n, err := decode(e.item.Kind, e.version, e.after)
	if err != nil {
		return false, nil
	}
	after := e.after
	if stock, ok := n.(record.Stock); ok {
		// What moved in between is not known; the count is.
		was := record.StockedAt(stock.Of)
		if before != nil {
			is, err := noun[record.Stock](before)
			if err != nil {
				return false, err
			}
			was = is.(record.Stock).Count
		}
		stock.Moved = stock.Count - was
		n = stock
		if after, err = encode(n); err != nil {
			return false, err
		}
	}
	if signed, ok := n.(record.Signed); ok {
		var there int
		found, err := one(ctx, c, `SELECT 1 FROM signed_sheet WHERE sum = ?`, []any{signed.Sheet}, &there)
		if err != nil || !found || before != nil {
			return false, err
		}
	}
	return soft(c.write(ctx, h, e.item, n, before, after))
}

// soft takes an error that says that something is missing for the answer that it could not be done.
func soft(err error) (bool, error) {
	switch say.CodeOf(fault(err, "")) {
	case say.NotFound, say.Conflict, say.ReadOnly:
		return false, nil
	}
	return err == nil, err
}
