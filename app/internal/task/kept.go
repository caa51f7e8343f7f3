package task

import (
	"context"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/store"
)

// recordOf is the record of a set-up: of one that was signed the very one that rides in its sheet, whatever the shop's parts
// and gauges have become since.
func recordOf(ctx context.Context, book *store.Book, setup string) (*record.Record, error) {
	doc, err := signedDocument(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	if doc != nil {
		return &doc.Record, nil
	}
	return book.Record(ctx, setup)
}

// signedDocument is what rides in the sheet of a set-up that was signed; nil where nobody did.
func signedDocument(ctx context.Context, book *store.Book, setup string) (*exchange.Document, error) {
	s, err := book.Sheet(ctx, setup)
	if err != nil || s == nil {
		return nil, err
	}
	doc, err := exchange.Decode(s.Document)
	if err != nil {
		return nil, err
	}
	return &doc, nil
}
