package store

import (
	"bytes"
	"context"
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Taken says what taking in a record did.
type Taken struct {
	Kept
	Already bool        // the set-up was here, just so; nothing was written but a signature that was not here yet
	Shop    record.Shop // of the record, where this book belongs to another shop, which stays

	// Of a signed sheet, whose record rides in its file as it was signed.
	Stays []record.Item // what is otherwise in the sheet and stayed as it is here: owner, engine, head
	Named []Named       // parts and gauges that are otherwise here under the same name, and came in under one of their own
}

// Named is a part or gauge of another shop that came in under a name of its own.
type Named struct {
	Item record.Item // as the sheet names it
	Key  string      // as it is called here
}

// SignedFile is a signed sheet as it comes from elsewhere: its file, and who signed it in their order.
type SignedFile struct {
	Signatures []record.Signed
	File       []byte
}

// TakeIn writes a record into the book as one action. Nothing that is there is written over: what is
// there and the same is left, and what is there and differs refuses the whole record (Conflict), naming
// everything that differs. What cannot be ([record.Doubt]) refuses it too (Invalid). The book's own shop
// stays whatever the record says.
//
// Taking in is not undone; the set-up's undo begins with what is kept afterwards. Of the action only
// Token, By and At are used.
func (b *Book) TakeIn(ctx context.Context, r *record.Record, a record.Action) (Taken, error) {
	return b.takeIn(ctx, r, nil, a)
}

// TakeInSigned takes in the record of a closed set-up with the signed sheet that it came in, which is kept as it is. Nothing of
// this book is written over and nothing of the sheet is lost: owner, engine and head stay as they are here, parts and gauges
// that are otherwise here come in under names of their own, to which the set-up's items then refer. A set-up that is here
// otherwise refuses the sheet (Conflict). One that is here with fewer signatures gets those that it lacks.
func (b *Book) TakeInSigned(ctx context.Context, r *record.Record, s SignedFile, a record.Action) (Taken, error) {
	return b.takeIn(ctx, r, &s, a)
}

func (b *Book) takeIn(ctx context.Context, r *record.Record, s *SignedFile, a record.Action) (Taken, error) {
	if a.Token == "" {
		return Taken{}, fault(errNoToken, b.path)
	}
	edits := editsOf(r)
	for _, e := range edits {
		if err := record.Doubt(e.Noun, a.At); err != nil {
			return Taken{}, fault(err, b.path)
		}
	}
	var t Taken
	err := b.change(ctx, func(ctx context.Context, c *change) error {
		again, err := c.repeated(ctx, a.Token, "", takenIn)
		if err != nil || again.Repeated {
			t = Taken{Kept: again}
			return err
		}
		h := c.heading(a.Token, "", a.By, a.At, takenIn)
		first := c.chain.seq
		if s != nil {
			if t.Already, err = c.signedHere(ctx, h, *s); err != nil || t.Already {
				t.Kept = c.kept(h, first)
				return err
			}
			if edits, err = c.renamed(ctx, edits, &t); err != nil {
				return err
			}
		}
		missing, err := c.missing(ctx, r, edits, &t)
		if err != nil {
			return err
		}
		for i, m := range missing {
			if err := c.write(ctx, h, m.Item, m.Noun, nil, m.body); err != nil {
				return err
			}
			say.Tell(ctx, "work.written", i+1, len(missing))
		}
		if s != nil {
			if err := c.keepSignatures(ctx, h, *s, 0); err != nil {
				return err
			}
		}
		t.Kept = c.kept(h, first)
		return nil
	})
	if err != nil {
		return Taken{}, err
	}
	return t, nil
}

// newItem is an edit with its body.
type newItem struct {
	record.Edit
	body []byte
}

// missing returns what of a record is not in the book yet, and refuses what differs.
func (c *change) missing(ctx context.Context, r *record.Record, edits []record.Edit, t *Taken) ([]newItem, error) {
	setup := record.ItemOf("", r.Setup)
	is, err := get(ctx, c, setup)
	if err != nil {
		return nil, err
	}
	here := is != nil
	var missing []newItem
	var differ []string
	for _, e := range edits {
		body, err := encode(e.Noun)
		if err != nil {
			return nil, err
		}
		is, err := get(ctx, c, e.Item)
		switch {
		case err != nil:
			return nil, err
		case bytes.Equal(is, body):
		case is == nil && !(here && e.Item.Setup != ""):
			missing = append(missing, newItem{e, body})
		case e.Item.Kind == record.ShopItem:
			t.Shop = r.Shop
		case slices.Contains(t.Stays, e.Item):
		default:
			differ = append(differ, string(e.Item.Kind)+" "+e.Item.Key)
		}
	}
	if here {
		more, err := c.beyond(ctx, r)
		if err != nil {
			return nil, err
		}
		differ = append(differ, more...)
	}
	if len(differ) > 0 {
		const few = 8
		if more := len(differ) - few; more > 0 {
			return nil, say.Fail(say.Conflict, "store.differs-more", strings.Join(differ[:few], ", "), more)
		}
		return nil, say.Fail(say.Conflict, "store.differs", strings.Join(differ, ", "))
	}
	t.Already = here && len(missing) == 0
	return missing, nil
}

// beyond names what the set-up here has and the record's has not.
func (c *change) beyond(ctx context.Context, r *record.Record) ([]string, error) {
	here := record.Setup{ID: r.Setup.ID}
	if err := loadLists(ctx, c, &here); err != nil {
		return nil, err
	}
	theirs := map[record.Item]bool{}
	for _, n := range listed(&r.Setup) {
		theirs[record.ItemOf(here.ID, n)] = true
	}
	var more []string
	for _, n := range listed(&here) {
		if item := record.ItemOf(here.ID, n); !theirs[item] {
			more = append(more, string(item.Kind)+" "+item.Key)
		}
	}
	return more, nil
}

// editsOf takes a record apart into the items it is made of, parents first.
func editsOf(r *record.Record) []record.Edit {
	var edits []record.Edit
	put := func(setup string, all ...record.Noun) {
		for _, n := range all {
			edits = append(edits, record.Put(setup, n))
		}
	}
	if r.Shop != (record.Shop{}) {
		put("", r.Shop)
	}
	if r.Owner != nil {
		put("", *r.Owner)
	}
	put("", r.Engine, r.Head)
	put("", nouns(r.Parts.Springs)...)
	put("", nouns(r.Parts.Pieces)...)
	put("", nouns(r.Parts.Retainers)...)
	put("", nouns(r.Parts.Locks)...)
	put("", nouns(r.Parts.Locators)...)
	put("", nouns(r.Parts.Seals)...)
	put("", nouns(r.Parts.Valves)...)
	put("", nouns(r.Gauges)...)
	put("", r.Setup)
	put(r.Setup.ID, listed(&r.Setup)...)
	return edits
}
