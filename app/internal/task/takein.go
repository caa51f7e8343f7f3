package task

import (
	"context"
	"encoding/hex"

	"keeperbook/app/internal/files"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

// TakenIn says what became of a record that was handed in.
type TakenIn struct {
	Head  string // tag
	Setup string // id
	store.Taken
}

// Lines say it, first of the set-up, then of whatever stayed as it is here or came in under another name.
func (t TakenIn) Lines() []say.Line {
	key := "command.taken"
	if t.Already {
		key = "command.already"
	}
	lines := []say.Line{say.New(key, t.Setup, t.Head)}
	for _, item := range t.Stays {
		lines = append(lines, say.New("takein.stays", say.New("takein.kind."+string(item.Kind)), item.Key))
	}
	for _, n := range t.Named {
		lines = append(lines, say.New("takein.named", say.New("takein.kind."+string(n.Item.Kind)), n.Item.Key, n.Key))
	}
	return lines
}

// TakeIn takes an exported record into the book. Nothing that is there is written over.
func (d *Desk) TakeIn(ctx context.Context, data []byte) (TakenIn, error) {
	doc, err := exchange.Decode(data)
	if err != nil {
		return TakenIn{}, err
	}
	taken, err := d.Book.TakeIn(ctx, &doc.Record, record.Action{Token: NewID(), By: d.Who, At: d.now()})
	return TakenIn{doc.Record.Head.Tag, doc.Record.Setup.ID, taken}, err
}

// TakeInSheet takes a signed sheet into the book: its record as a set-up that is closed, and the file as it is. It refuses
// (say.Invalid) a sheet that is not as it was signed, and one on whose pages a figure is not the record's.
func (d *Desk) TakeInSheet(ctx context.Context, file []byte) (TakenIn, error) {
	v, err := Verify(ctx, file)
	if err != nil {
		return TakenIn{}, err
	}
	switch {
	case !v.Whole:
		return TakenIn{}, say.Fail(say.Invalid, "sign.not-whole")
	case v.Record == nil:
		return TakenIn{}, say.Fail(say.Invalid, "verify.no-record")
	case !v.Good():
		return TakenIn{}, say.Fail(say.Invalid, "verify.pages-differ")
	}
	s := store.SignedFile{File: file}
	for i, one := range v.Signatures {
		s.Signatures = append(s.Signatures, record.Signed{
			Setup: v.Record.Setup.ID, N: i + 1, Record: v.Print, Name: one.Name, Role: one.Reason, When: StampOf(one.When),
			Root: hex.EncodeToString(one.Root[:]),
		})
	}
	taken, err := d.Book.TakeInSigned(ctx, v.Record, s, record.Action{Token: NewID(), By: d.Who, At: d.now()})
	return TakenIn{v.Record.Head.Tag, v.Record.Setup.ID, taken}, err
}

// TakeInFile takes in the signed sheet in a file.
func (d *Desk) TakeInFile(ctx context.Context, path string) (TakenIn, error) {
	file, err := files.Read(path, seal.MostBytes)
	if err != nil {
		return TakenIn{}, err
	}
	return d.TakeInSheet(ctx, file)
}
