package task

import (
	"context"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

// kept is the sheet of a set-up as it was signed, with what was found in it.
type kept struct {
	store.SignedSheet
	report seal.Report
	read   exchange.Document // that rides in it
	all    []record.Signed   // in the order in which they were made
}

// recordOf is the record of a set-up. Of one that was signed it is the very one that rides in its sheet, whatever the shop's
// parts and gauges have become since, and the sheet comes along.
func recordOf(ctx context.Context, book *store.Book, setup string) (*record.Record, *kept, error) {
	k, err := keptOf(ctx, book, setup)
	if err != nil {
		return nil, nil, err
	}
	if k == nil {
		rec, err := book.Record(ctx, setup)
		return rec, nil, err
	}
	return &k.read.Record, k, nil
}

// keptOf is the sheet of a set-up that was signed; nil where nobody did.
func keptOf(ctx context.Context, book *store.Book, setup string) (*kept, error) {
	s, err := book.Sheet(ctx, setup)
	if err != nil || s == nil {
		return nil, err
	}
	r, err := seal.Check(s.File)
	if err != nil {
		return nil, err
	}
	all, err := book.Signatures(ctx, setup)
	if err != nil {
		return nil, err
	}
	doc, err := exchange.Decode(r.Record)
	return &kept{*s, r, doc, all}, err
}
