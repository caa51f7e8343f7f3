package task

import (
	"context"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Trusted returns whom the shop of the book trusts.
func (d *Desk) Trusted(ctx context.Context) ([]record.Trust, error) { return d.Book.Trusted(ctx) }

// Trust gives the shop's trust to a certificate, by its fingerprint: to whatever it signed and will sign, until it is
// withdrawn. It refuses (say.Invalid) without a name, and without a word on how the fingerprint was compared.
func (d *Desk) Trust(ctx context.Context, root, name, how string) error {
	t := record.Trust{Root: root, Name: strings.TrimSpace(name), How: strings.TrimSpace(how), By: d.Who, When: d.now()}
	return d.keep(ctx, "", []record.Edit{record.Put("", t)})
}

// Withdraw takes the trust back. The history keeps that it was given.
func (d *Desk) Withdraw(ctx context.Context, root string) error {
	all, err := d.Book.Trusted(ctx)
	if err != nil {
		return err
	}
	for _, t := range all {
		if t.Root == root {
			return d.keep(ctx, "", []record.Edit{record.Remove("", t)})
		}
	}
	return say.Fail(say.NotFound, "trust.none", root)
}
