package store

import (
	"context"
	"fmt"

	"keeperbook/model/record"
)

// shelf keeps the items of one kind in their table. Bodies go in and come out in the current form.
type shelf interface {
	// get returns the body of an item, nil where there is none.
	get(ctx context.Context, src source, item record.Item) ([]byte, error)
	// put writes an item over whatever is there.
	put(ctx context.Context, c *change, item record.Item, n record.Noun, body []byte) error
	// remove takes an item away; one that is absent already stays so.
	remove(ctx context.Context, c *change, item record.Item) error
	// all calls found for every item of the kind. agrees is false where columns and body differ.
	all(ctx context.Context, src source, found func(item record.Item, body []byte, agrees bool) error) error
}

// itemKinds lists every kind of item, parents before what belongs to them.
func itemKinds() []record.ItemKind {
	return []record.ItemKind{
		record.ShopItem, record.ShopRulesItem, record.OwnerItem, record.EngineItem, record.HeadItem,
		record.SpringItem, record.PieceItem, record.RetainerItem, record.LocksItem, record.LocatorItem,
		record.SealItem, record.ValvePartItem, record.GaugeItem, record.StudyItem,
		record.StockShimItem, record.StockItem, record.TrustItem,
		record.SetupItem, record.PackageItem, record.ValveItem, record.ReadingItem, record.SharedItem,
		record.SeatWorkItem, record.DeviationItem, record.CheckItem, record.SignedItem,
		record.RunItem, record.SpringCheckItem, record.TaggedItem, record.UsualDayItem,
	}
}

func shelfOf(kind record.ItemKind) (shelf, error) {
	switch kind {
	case record.ShopItem, record.ShopRulesItem:
		return shopShelf{kind}, nil
	case record.OwnerItem:
		return ownerShelf{}, nil
	case record.EngineItem:
		return engineShelf{}, nil
	case record.HeadItem:
		return headShelf{}, nil
	case record.SpringItem, record.PieceItem, record.RetainerItem, record.LocksItem, record.LocatorItem,
		record.SealItem, record.ValvePartItem, record.GaugeItem, record.StudyItem, record.StockShimItem, record.TrustItem,
		record.TaggedItem, record.UsualDayItem:
		return partShelf{kind}, nil
	case record.StockItem:
		return stockShelf{}, nil
	case record.RunItem, record.SpringCheckItem:
		return lifeShelf{kind}, nil
	case record.SignedItem:
		return signedShelf{}, nil
	case record.SetupItem:
		return setupShelf{}, nil
	case record.ReadingItem:
		return readingShelf{}, nil
	case record.PackageItem, record.ValveItem, record.SharedItem, record.SeatWorkItem,
		record.DeviationItem, record.CheckItem:
		return setupItemShelf{kind}, nil
	}
	return nil, fmt.Errorf("%q is no kind of item", kind)
}

// getBody reads the version and body of one row.
func getBody(ctx context.Context, src source, kind record.ItemKind, statement string, args ...any) ([]byte, error) {
	var version int
	var body string
	found, err := one(ctx, src, statement, args, &version, &body)
	if err != nil || !found {
		return nil, err
	}
	return current(kind, version, []byte(body))
}

// get returns the body of any item, nil where there is none.
func get(ctx context.Context, src source, item record.Item) ([]byte, error) {
	s, err := shelfOf(item.Kind)
	if err != nil {
		return nil, err
	}
	return s.get(ctx, src, item)
}

// getNoun reads one noun and reports whether it is there.
func getNoun[T record.Noun](ctx context.Context, src source, item record.Item) (T, bool, error) {
	var none T
	body, err := get(ctx, src, item)
	if err != nil || body == nil {
		return none, false, err
	}
	n, err := noun[T](body)
	if err != nil {
		return none, false, err
	}
	return n.(T), true, nil
}
