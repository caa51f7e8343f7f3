package store

import (
	"context"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// SetContact keeps how to reach an owner, over what was kept before. It leaves no event.
func (b *Book) SetContact(ctx context.Context, n record.Contact) error {
	return b.change(ctx, func(ctx context.Context, c *change) error {
		if err := c.exists(ctx, record.Item{Kind: record.OwnerItem, Key: n.Owner}, "store.no-owner"); err != nil {
			return err
		}
		return c.exec(ctx, `INSERT INTO contact (owner, phone, mail, place) VALUES (?, ?, ?, ?)
			ON CONFLICT (owner) DO UPDATE SET phone = excluded.phone, mail = excluded.mail, place = excluded.place`,
			n.Owner, n.Phone, n.Mail, n.Place)
	})
}

// Contact returns how to reach an owner; empty but for Owner where nothing is kept.
func (b *Book) Contact(ctx context.Context, owner string) (record.Contact, error) {
	n := record.Contact{Owner: owner}
	err := b.read(ctx, func(src source) error {
		_, err := one(ctx, src, `SELECT phone, mail, place FROM contact WHERE owner = ?`, []any{owner},
			&n.Phone, &n.Mail, &n.Place)
		return err
	})
	return n, err
}

// EraseContact takes away how to reach an owner, so that no byte of it is left in the book: what is
// deleted is overwritten, and the log that still holds it is emptied. Copies made before keep it.
// It returns Busy where a reader still needs the log; the contact is gone from view then, and asking
// again empties the log.
func (b *Book) EraseContact(ctx context.Context, owner string) error {
	err := b.change(ctx, func(ctx context.Context, c *change) error {
		return c.exec(ctx, `DELETE FROM contact WHERE owner = ?`, owner)
	})
	if err != nil {
		return err
	}
	if err := b.takeTurn(ctx); err != nil {
		return err
	}
	defer b.giveTurn()
	emptied, err := b.desk.checkpoint(context.WithoutCancel(ctx))
	if err == nil && !emptied {
		return say.Fail(say.Busy, "store.log-in-use", b.path)
	}
	return fault(err, b.path)
}
