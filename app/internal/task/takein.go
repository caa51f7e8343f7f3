package task

import (
	"context"
	"encoding/hex"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
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

// TakeInSheet takes a signed sheet into the book: its record as a set-up that is closed, and the file as it is. It refuses
// (say.Invalid) a sheet that is not as it was signed.
func (d *Desk) TakeInSheet(ctx context.Context, file []byte) (TakenIn, error) {
	v, err := Verify(file)
	if err != nil {
		return TakenIn{}, err
	}
	switch {
	case !v.Whole:
		return TakenIn{}, say.Fail(say.Invalid, "sign.not-whole")
	case v.Record == nil:
		return TakenIn{}, say.Fail(say.Invalid, "verify.no-record")
	}
	first, last := v.Signatures[0], v.Signatures[len(v.Signatures)-1]
	s := store.SignedSheet{
		Signed: record.Signed{
			Setup: v.Record.Setup.ID, N: len(v.Signatures), Record: v.Print, Name: first.Name, Role: first.Reason, When: StampOf(first.When),
			Root: hex.EncodeToString(last.Root[:]),
		},
		File: file,
	}
	taken, err := d.Book.TakeInSigned(ctx, v.Record, s, record.Action{Token: NewID(), By: d.Who, At: d.now()})
	if err != nil {
		return TakenIn{}, err
	}
	return TakenIn{Head: v.Record.Head.Tag, Setup: v.Record.Setup.ID, Already: taken.Already}, nil
}
