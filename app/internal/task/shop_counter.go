package task

import (
	"context"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Counter is where the shop keeps its own things: its name, its springs, its gauges, its rules. It is a
// bench without a head, and reads what is typed as a bench does. What is kept here is in the history, and
// no undo takes it back.
type Counter struct {
	bench   *Bench
	rules   map[unit.Symbol]record.ShopRules // by unit of length
	shims   []ShimStock
	studied map[string]say.Day // days of studies of gauges, by identifier
	tagged  []record.Tagged
}

// OpenCounter loads the shop's things. Numbers without a unit are in that of the newest set-up, in inches
// and pounds where there is none.
func (d *Desk) OpenCounter(ctx context.Context) (*Counter, error) {
	c := &Counter{bench: &Bench{desk: d, rec: &record.Record{}}}
	return c, c.Load(ctx)
}

// Load takes the shop's things from the book again.
func (c *Counter) Load(ctx context.Context) error {
	book, rec := c.bench.desk.Book, &record.Record{}
	var err error
	if rec.Shop, err = book.Shop(ctx); err != nil {
		return err
	}
	if rec.Parts, err = book.Parts(ctx); err != nil {
		return err
	}
	if rec.Gauges, err = book.Gauges(ctx); err != nil {
		return err
	}
	if rec.Setup.Units, err = c.bench.desk.units(ctx); err != nil {
		return err
	}
	rules := map[unit.Symbol]record.ShopRules{}
	for _, length := range []unit.Symbol{unit.In, unit.Mm} {
		if rules[length], err = book.ShopRules(ctx, length); err != nil {
			return err
		}
	}
	studied, err := c.bench.desk.studied(ctx)
	if err != nil {
		return err
	}
	if err := c.loadShims(ctx); err != nil {
		return err
	}
	if c.tagged, err = book.Tagged(ctx); err != nil {
		return err
	}
	c.bench.rec, c.rules, c.studied = rec, rules, studied
	return nil
}

// units are those of the newest set-up.
func (d *Desk) units(ctx context.Context) (record.Units, error) {
	heads, err := d.Heads(ctx, "")
	if err != nil {
		return record.Units{}, err
	}
	for _, h := range heads {
		setups, err := d.Book.Setups(ctx, h.Head)
		if err != nil {
			return record.Units{}, err
		}
		if n := len(setups); n > 0 {
			return setups[n-1].Units, nil
		}
	}
	return record.Units{Length: unit.In, Load: unit.Lbf}, nil
}

// Shop returns who keeps the book.
func (c *Counter) Shop() record.Shop { return c.bench.rec.Shop }

// Parts returns the shop's parts, and Gauges its gauges, each kind in the order of identifiers.
func (c *Counter) Parts() record.Parts { return c.bench.rec.Parts }

// Gauges returns the shop's gauges.
func (c *Counter) Gauges() []record.Gauge { return c.bench.rec.Gauges }

// Units are those of a number that has none behind it.
func (c *Counter) Units() record.Units { return c.bench.rec.Setup.Units }

// RateUnit is the unit of a rate that has none behind it.
func (c *Counter) RateUnit() unit.Symbol { return c.bench.RateUnit() }

// Words returns the printer in these units.
func (c *Counter) Words() say.Printer { return evaluate.Spoken(c.Units()) }

// Keep puts a thing of the shop into the book. On an error nothing changed.
func (c *Counter) Keep(ctx context.Context, n record.Noun) error {
	err := c.bench.act(ctx, []record.Edit{record.Put("", n)})
	if err != nil {
		return err
	}
	if rules, ok := n.(record.ShopRules); ok {
		c.rules[rules.Length] = rules
		return nil
	}
	switch n.(type) {
	case record.StockShim:
		return c.loadShims(ctx)
	case record.Tagged:
		c.tagged, err = c.bench.desk.Book.Tagged(ctx)
		return err
	}
	c.bench.rec.Put(n)
	return nil
}

// Discard takes a thing of the shop out of the book, and the studies of a gauge with it. What a set-up or
// another part names stays (say.Conflict).
func (c *Counter) Discard(ctx context.Context, n record.Noun) error {
	edits := []record.Edit{record.Remove("", n)}
	if g, ok := n.(record.Gauge); ok {
		first, err := c.withoutStudies(ctx, g)
		if err != nil {
			return err
		}
		edits = append(first, edits...)
	}
	if err := c.bench.act(ctx, edits); err != nil {
		return err
	}
	return c.Load(ctx)
}

// UsedIn returns the set-ups of the book in which a thing of the shop stands. It touches nothing of the
// counter: it may run beside other work.
func (c *Counter) UsedIn(ctx context.Context, item record.Item) ([]Use, error) {
	return c.bench.desk.Book.UsedIn(ctx, item)
}
