package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"

	"keeperbook/model/record"
)

// Reckoned is what was worked out of a head with the set-up that was in service, as a text whose form is the caller's.
type Reckoned struct {
	Head, Setup string // identifiers
	By          string // which program and form: what another one worked out may be something else
	Body        string
}

func (r Reckoned) sum() string {
	s := sha256.New()
	for _, part := range []string{r.Head, r.Setup, r.By, r.Body} {
		text(s, part)
	}
	return hex.EncodeToString(s.Sum(nil))
}

// Reckoned returns what is kept and still so, by the head's identifier, and where the history ended then. A row that is not as
// it was written is passed over.
func (b *Book) Reckoned(ctx context.Context, by string) (all map[string]Reckoned, upTo int64, err error) {
	all = map[string]Reckoned{}
	err = b.read(ctx, func(src source) error {
		end, err := endOfChain(ctx, src)
		if err != nil {
			return err
		}
		upTo = end.seq
		return each(ctx, src, `SELECT head, setup, body, sum FROM reckoned WHERE by = ?`, []any{by}, func(rows *sql.Rows) error {
			r := Reckoned{By: by}
			var sum string
			if err := rows.Scan(&r.Head, &r.Setup, &r.Body, &sum); err != nil {
				return err
			}
			if sum == r.sum() {
				all[r.Head] = r
			}
			return nil
		})
	})
	return all, upTo, err
}

// errMoved takes a transaction back in which something was written meanwhile.
var errMoved = errors.New("the book moved on")

// KeepReckoned keeps what was worked out of the book as it was when its history ended with upTo; where it went on since, or the
// book can only be read, nothing is kept, which is no fault.
func (b *Book) KeepReckoned(ctx context.Context, upTo int64, all []Reckoned) error {
	if b.desk == nil {
		return nil
	}
	err := b.change(ctx, func(ctx context.Context, c *change) error {
		if c.chain.seq != upTo {
			return errMoved
		}
		for _, r := range all {
			err := c.exec(ctx, `INSERT INTO reckoned (head, setup, by, body, sum) VALUES (?, ?, ?, ?, ?)
				ON CONFLICT (head) DO UPDATE SET setup = excluded.setup, by = excluded.by, body = excluded.body, sum = excluded.sum`,
				r.Head, r.Setup, r.By, r.Body, r.sum())
			if err != nil {
				return err
			}
		}
		return nil
	})
	if errors.Is(err, errMoved) {
		return nil
	}
	return err
}

// LivedHeads returns the identifiers of the heads that have a life, sorted.
func (b *Book) LivedHeads(ctx context.Context) (all []string, err error) {
	err = b.read(ctx, func(src source) error {
		return each(ctx, src, `SELECT DISTINCT head FROM life ORDER BY head`, nil, func(rows *sql.Rows) error {
			var head string
			err := rows.Scan(&head)
			all = append(all, head)
			return err
		})
	})
	return all, err
}

// stir takes away what was worked out of the heads that a change of an item may alter: of one head where the item belongs to
// one, else of all.
func (c *change) stir(ctx context.Context, item record.Item, before, after []byte) error {
	switch {
	case item.Setup != "":
		return c.exec(ctx, `DELETE FROM reckoned WHERE head IN (SELECT head FROM setup WHERE id = ?)`, item.Setup)
	case item.Kind == record.HeadItem:
		return c.exec(ctx, `DELETE FROM reckoned WHERE head = ?`, item.Key)
	case item.Kind == record.RunItem || item.Kind == record.SpringCheckItem:
		for _, body := range [][]byte{before, after} {
			if body == nil {
				continue
			}
			n, err := decode(item.Kind, bodyVersion, body)
			if err != nil {
				return err
			}
			head, _ := lived(n)
			if err := c.exec(ctx, `DELETE FROM reckoned WHERE head = ?`, head); err != nil {
				return err
			}
		}
		return nil
	}
	switch item.Kind {
	case record.ShopItem, record.OwnerItem, record.StudyItem, record.StockShimItem, record.StockItem, record.TrustItem,
		record.TaggedItem, record.UsualDayItem, record.SignedItem:
		return nil // no head is worked out from them
	}
	return c.exec(ctx, `DELETE FROM reckoned`)
}
