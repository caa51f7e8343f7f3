package task

import (
	"context"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
)

// TakenIn says what became of a record that was handed in.
type TakenIn struct {
	Head    string // tag
	Setup   string // id
	Already bool   // it was in the book before, just so
}

// TakeIn takes an exported record into the book. Nothing that is there is written over.
func (d *Desk) TakeIn(ctx context.Context, data []byte) (TakenIn, error) {
	doc, err := exchange.Decode(data)
	if err != nil {
		return TakenIn{}, err
	}
	taken, err := d.Book.TakeIn(ctx, &doc.Record, record.Action{Token: NewID(), By: d.Who, At: d.now()})
	if err != nil {
		return TakenIn{}, err
	}
	return TakenIn{Head: doc.Record.Head.Tag, Setup: doc.Record.Setup.ID, Already: taken.Already}, nil
}
