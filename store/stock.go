package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// stockShelf keeps how many of something there are.
type stockShelf struct{}

func (stockShelf) get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	return getBody(ctx, src, item.Kind, `SELECT version, body FROM stock WHERE key = ?`, item.Key)
}

func (stockShelf) put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error {
	return c.exec(ctx, `INSERT INTO stock (key, count, version, body) VALUES (?, ?, ?, ?)
		ON CONFLICT (key) DO UPDATE SET count = excluded.count, version = excluded.version, body = excluded.body`,
		item.Key, n.(record.Stock).Count, bodyVersion, string(body))
}

func (stockShelf) remove(ctx context.Context, c *change, item record.Item) error {
	return c.exec(ctx, `DELETE FROM stock WHERE key = ?`, item.Key)
}

func (stockShelf) all(ctx context.Context, src source, found func(record.Item, []byte, bool) error) error {
	return each(ctx, src, `SELECT key, count, version, body FROM stock ORDER BY key`, nil, func(rows *sql.Rows) error {
		var key, body string
		var count, version int
		if err := rows.Scan(&key, &count, &version, &body); err != nil {
			return err
		}
		now, err := current(record.StockItem, version, []byte(body))
		if err != nil {
			return err
		}
		n, err := decode(record.StockItem, bodyVersion, now)
		if err != nil {
			return err
		}
		s := n.(record.Stock)
		return found(record.Item{Kind: record.StockItem, Key: key}, now, s.Key() == key && s.Count == count)
	})
}

// errCountPut is a fault of the caller: a count that was put would be no sum of moves.
var errCountPut = errors.New("a count of the stock moves, it is not put")

// move makes one move of the stock and appends its event.
func (c *change) move(ctx context.Context, h heading, m record.Move) error {
	of := record.Item{Kind: m.Of, Key: m.ID}
	if err := c.exists(ctx, of, "store.no-stock"); err != nil {
		return err
	}
	s := record.Stock{Of: m.Of, ID: m.ID, Count: record.StockedAt(m.Of)}
	before, err := get(ctx, c, record.ItemOf("", s))
	if err != nil {
		return err
	}
	if before != nil {
		n, err := noun[record.Stock](before)
		if err != nil {
			return err
		}
		s = n.(record.Stock)
	}
	if m.By == 0 && (before != nil || m.Of == record.PieceItem) {
		return nil // a first count of none is a count all the same
	}
	there := s.Count
	s.Count, s.Moved = s.Count+m.By, m.By
	switch {
	case s.Count >= 0 && (m.Of != record.PieceItem || s.Count <= 1):
	case m.Of == record.StockShimItem:
		name, err := c.shimName(ctx, of)
		if err != nil {
			return err
		}
		if before == nil {
			return say.Fail(say.Conflict, "store.stock-uncounted", name)
		}
		return say.Fail(say.Conflict, "store.stock-short", name, there, -m.By)
	case s.Count > 1:
		return say.Fail(say.Conflict, "store.spring-there", m.ID)
	default:
		return say.Fail(say.Conflict, "store.spring-scrapped", m.ID)
	}
	body, err := encode(s)
	if err != nil {
		return err
	}
	return c.write(ctx, h, record.ItemOf("", s), s, before, body)
}

// shimName is the thickness of a kind of shim as it was read.
func (c *change) shimName(ctx context.Context, item record.Item) (string, error) {
	s, _, err := getNoun[record.StockShim](ctx, c, item)
	return s.Thickness.Read + " " + string(s.Thickness.Unit), err
}

// turn makes the change of a step to a count. Where the count moved since, only the step's own move is
// made, so that other heads' moves stay.
func (c *change) turn(ctx context.Context, h heading, ch Change) error {
	was, is := ch.Before, ch.After
	now, there, err := getNoun[record.Stock](ctx, c, ch.Item)
	if err != nil {
		return err
	}
	// What was never counted before is not counted again, unless something moved meanwhile.
	if is == nil && there && now.Count == was.(record.Stock).Count {
		body, err := encode(now)
		if err != nil {
			return err
		}
		return c.write(ctx, h, ch.Item, nil, body, nil)
	}
	of := is
	if of == nil {
		of = was
	}
	s := of.(record.Stock)
	return c.move(ctx, h, record.Move{Of: s.Of, ID: s.ID, By: countOf(is, s.Of) - countOf(was, s.Of)})
}

// countOf is what a count is before or after an event, where the noun may be absent.
func countOf(n record.Noun, of record.ItemKind) int {
	if s, ok := n.(record.Stock); ok {
		return s.Count
	}
	return record.StockedAt(of)
}

// uncount takes the count of a kind of shim, or of a single spring, away with it.
func (c *change) uncount(ctx context.Context, h heading, of record.Item) error {
	if of.Kind != record.StockShimItem && of.Kind != record.PieceItem {
		return nil
	}
	item := record.ItemOf("", record.Stock{Of: of.Kind, ID: of.Key})
	before, err := get(ctx, c, item)
	if err != nil || before == nil {
		return err
	}
	return c.write(ctx, h, item, nil, before, nil)
}

// ShimStock is a kind of shim and how many of it are on the shelf.
type ShimStock struct {
	record.StockShim
	Counted bool // false: never counted
	Count   int
}

// Shims returns the kinds of shims of the shop, sorted by identifier.
func (b *Book) Shims(ctx context.Context) ([]ShimStock, error) {
	var shims []ShimStock
	err := b.read(ctx, func(src source) error {
		return partShelf{record.StockShimItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			n, err := noun[record.StockShim](body)
			if err != nil {
				return err
			}
			s := ShimStock{StockShim: n.(record.StockShim)}
			count, there, err := getNoun[record.Stock](ctx, src, record.ItemOf("", record.Stock{Of: record.StockShimItem, ID: s.ID}))
			s.Counted, s.Count = there, count.Count
			shims = append(shims, s)
			return err
		})
	})
	return shims, err
}

// A set-up is in force until the head has a newer one.
const fittedElsewhere = `SELECT DISTINCT json_extract(i.body, '$.spring') FROM setup_item AS i JOIN setup AS s ON s.id = i.setup
	WHERE i.kind = 'valve' AND json_extract(i.body, '$.spring') IS NOT NULL AND s.head <> ?
	AND NOT EXISTS (SELECT 1 FROM setup AS later WHERE later.head = s.head AND (later.begun, later.n) > (s.begun, s.n))
	AND NOT EXISTS (SELECT 1 FROM part WHERE kind = 'tagged' AND id = 'piece ' || json_extract(i.body, '$.spring')
		AND body ->> '$.stays[#-1].day' > substr(s.begun, 1, 10))`

// SpringsFor returns the single springs that are on hand for a head, sorted by tag: those that were not
// scrapped and are fitted in no other head's set-up in force, or were put into a box since. Those on the head itself are among them.
func (b *Book) SpringsFor(ctx context.Context, head string) ([]record.SpringPiece, error) {
	var pieces []record.SpringPiece
	err := b.read(ctx, func(src source) error {
		away := map[string]bool{}
		err := each(ctx, src, fittedElsewhere, []any{head}, func(rows *sql.Rows) error {
			var tag string
			err := rows.Scan(&tag)
			away[tag] = true
			return err
		})
		if err != nil {
			return err
		}
		return partShelf{record.PieceItem}.all(ctx, src, func(_ record.Item, body []byte, _ bool) error {
			n, err := noun[record.SpringPiece](body)
			if err != nil {
				return err
			}
			p := n.(record.SpringPiece)
			stock, counted, err := getNoun[record.Stock](ctx, src, record.ItemOf("", record.Stock{Of: record.PieceItem, ID: p.Tag}))
			if err == nil && !away[p.Tag] && (!counted || stock.Count > 0) {
				pieces = append(pieces, p)
			}
			return err
		})
	})
	return pieces, err
}

// lookAtStock adds the moves up and holds what they come to against the counts.
func lookAtStock(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	sums := map[string]int{}
	err := each(ctx, src, `SELECT `+eventColumns+` FROM event WHERE item_kind = 'stock' ORDER BY seq`, nil, func(rows *sql.Rows) error {
		e, err := scanEvent(rows)
		if err != nil {
			return err
		}
		if e.after == nil {
			delete(sums, e.item.Key)
			return nil
		}
		n, err := decode(e.item.Kind, e.version, e.after)
		if err != nil {
			return err
		}
		s := n.(record.Stock)
		if _, counted := sums[e.item.Key]; !counted {
			sums[e.item.Key] = record.StockedAt(s.Of)
		}
		if sums[e.item.Key] += s.Moved; sums[e.item.Key] != s.Count || s.Count < 0 {
			found.add(fmt.Sprintf("%s %d", e.item.Key, e.seq))
		}
		return nil
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	counts := len(sums)
	err = stockShelf{}.all(ctx, src, func(item record.Item, body []byte, _ bool) error {
		n, err := noun[record.Stock](body)
		if err != nil {
			return err
		}
		if sum, counted := sums[item.Key]; !counted || sum != n.(record.Stock).Count {
			found.add(item.Key)
		}
		delete(sums, item.Key)
		return nil
	})
	for key := range sums {
		found.add(key)
	}
	return found.trouble("store.stock-bad"), say.New("store.stock-fine", counts), err
}
