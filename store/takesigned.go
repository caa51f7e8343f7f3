package store

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// signedHere reports whether the set-up of a sheet is here, signed with the same record, and keeps the signatures that it lacks:
// a second one is signed into the file of the first, which the new file then begins with.
func (c *change) signedHere(ctx context.Context, h heading, s SignedFile) (bool, error) {
	setup := s.Signatures[0].Setup
	here, err := signatures(ctx, c, setup)
	if err != nil {
		return false, err
	}
	if len(here) == 0 {
		state, err := c.state(ctx, setup)
		if err == nil && state == record.Open {
			err = say.Fail(say.Conflict, "store.here-open", setup)
		}
		return false, err
	}
	if here[0].Record != s.Signatures[0].Record {
		return false, say.Fail(say.Conflict, "store.signed-otherwise", setup)
	}
	if len(s.Signatures) <= len(here) {
		return true, nil
	}
	kept, err := newest(ctx, c, setup)
	if err != nil {
		return false, err
	}
	if !bytes.HasPrefix(s.File, kept.File) {
		return false, say.Fail(say.Conflict, "store.signed-otherwise", setup)
	}
	return true, c.keepSignatures(ctx, h, s, len(here))
}

// keepSignatures keeps a sheet with those of its signatures that come after so many.
func (c *change) keepSignatures(ctx context.Context, h heading, s SignedFile, after int) error {
	for _, one := range s.Signatures[after:] {
		if err := c.keepSheet(ctx, h, SignedSheet{one, s.File}); err != nil {
			return err
		}
	}
	return nil
}

// renamed returns edits in which nothing is otherwise than it is here that may be under another name, and says what stays and
// what is called otherwise. A part that names one of those is itself another one than ours, so that it goes on until none is.
func (c *change) renamed(ctx context.Context, edits []record.Edit, t *Taken) ([]record.Edit, error) {
	// Whose the sheet is says the sheet; this book belongs to whoever takes it in.
	edits = slices.DeleteFunc(edits, func(e record.Edit) bool { return e.Item.Kind == record.ShopItem })
	names := map[record.Item]string{}
	now := edits
	for more := true; more; {
		more = false
		now = make([]record.Edit, len(edits))
		for i, e := range edits {
			n := record.Referring(e.Noun, func(kind record.ItemKind, key *string) {
				if name, ok := names[record.Item{Kind: kind, Key: *key}]; ok {
					*key = name
				}
			})
			if name, ok := names[e.Item]; ok {
				n = record.Named(n, name)
			}
			now[i] = record.Put(e.Item.Setup, n)
			if _, met := names[e.Item]; met || !shared(e.Item.Kind) {
				continue
			}
			differs, err := c.differs(ctx, now[i])
			if err != nil {
				return nil, err
			}
			if differs {
				name, err := nameOfOwn(e)
				if err != nil {
					return nil, err
				}
				names[e.Item], more = name, true
				t.Named = append(t.Named, Named{e.Item, name})
			}
		}
	}
	for _, e := range now {
		switch e.Item.Kind {
		case record.OwnerItem, record.EngineItem, record.HeadItem:
			differs, err := c.differs(ctx, e)
			if err != nil {
				return nil, err
			}
			if differs {
				t.Stays = append(t.Stays, e.Item)
			}
		}
	}
	return now, nil
}

// shared reports whether things of a kind are shared by set-ups, and can be kept beside one another.
func shared(kind record.ItemKind) bool {
	switch kind {
	case record.SpringItem, record.PieceItem, record.RetainerItem, record.LocksItem, record.LocatorItem, record.SealItem,
		record.ValvePartItem, record.GaugeItem:
		return true
	}
	return false
}

// differs reports whether something is here under the name of an edit and is otherwise.
func (c *change) differs(ctx context.Context, e record.Edit) (bool, error) {
	body, err := encode(e.Noun)
	if err != nil {
		return false, err
	}
	is, err := get(ctx, c, e.Item)
	return is != nil && !bytes.Equal(is, body), err
}

// nameOfOwn is a name that only this very thing has, so that it is found again when it comes in again.
func nameOfOwn(e record.Edit) (string, error) {
	body, err := encode(e.Noun)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(body)
	return e.Item.Key + "-" + hex.EncodeToString(sum[:4]), nil
}
