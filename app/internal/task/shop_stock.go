package task

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// ShimStock is a kind of shim and how many of it are on the shelf.
type ShimStock = store.ShimStock

// Shims returns the kinds of shims on the shelf, the thinnest first.
func (c *Counter) Shims() []ShimStock { return c.shims }

func (c *Counter) loadShims(ctx context.Context) error {
	shims, err := c.bench.desk.Book.Shims(ctx)
	slices.SortStableFunc(shims, func(a, b ShimStock) int { return int(a.Thickness.Value - b.Thickness.Value) })
	c.shims = shims
	return err
}

// NewShim is a kind of shim by its thickness, which is typed as at a valve. It lies under the locator until
// somebody says otherwise.
func (c *Counter) NewShim(text string) (record.StockShim, error) {
	q, err := c.ShimThickness(text)
	return record.StockShim{ID: NewID(), Thickness: q, Under: record.UnderLocator}, err
}

// ShimThickness reads the thickness of one shim as it was sold.
func (c *Counter) ShimThickness(text string) (unit.Quantity, error) {
	length := c.Units().Length
	if strings.TrimSpace(text) == "" {
		return unit.Quantity{}, say.Fail(say.Invalid, "stock.no-thickness", SizeExample(length))
	}
	q, err := readOne(sizeColumn(length), text)
	if err != nil {
		return unit.Quantity{}, err
	}
	return *q, nil
}

// ShimMeasured reads what the thickness of a shim, or a diameter, came to; nothing typed is nil.
func (c *Counter) ShimMeasured(text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(sizeColumn(c.Units().Length), text)
}

// UsualShims are the sizes of common practice of which the shelf has no shim yet.
func (c *Counter) UsualShims() []unit.Quantity {
	return slices.DeleteFunc(slices.Clone(record.DefaultRules(c.Units().Length).Sizes), func(q unit.Quantity) bool {
		return slices.ContainsFunc(c.shims, func(s ShimStock) bool { return s.Thickness.Value == q.Value })
	})
}

// AddUsual puts those sizes on the shelf. None of them is counted yet.
func (c *Counter) AddUsual(ctx context.Context) error {
	var edits []record.Edit
	for _, q := range c.UsualShims() {
		edits = append(edits, record.Put("", record.StockShim{ID: NewID(), Thickness: q, Under: record.UnderLocator}))
	}
	if err := c.bench.act(ctx, edits); err != nil {
		return err
	}
	return c.loadShims(ctx)
}

// Counted reads how many of a kind of shim there are, and returns the move that leads there.
func (c *Counter) Counted(s ShimStock, text string) (record.Move, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 0 {
		return record.Move{}, say.Fail(say.Invalid, "stock.count", strings.TrimSpace(text))
	}
	return record.MoveShims(s.ID, n-s.Count), nil
}

// Moved reads how many come to the shelf, or leave it with a minus.
func (c *Counter) Moved(s ShimStock, text string) (record.Move, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n == 0 {
		return record.Move{}, say.Fail(say.Invalid, "stock.move", strings.TrimSpace(text))
	}
	return record.MoveShims(s.ID, n), nil
}

// Move keeps a move of the stock. On an error nothing changed.
func (c *Counter) Move(ctx context.Context, m record.Move) error {
	_, err := c.bench.desk.Book.Keep(ctx, record.Action{
		Token: NewID(), By: c.bench.desk.Who, At: c.bench.desk.now(), Moves: []record.Move{m},
	})
	if err != nil {
		return err
	}
	return c.loadShims(ctx)
}
