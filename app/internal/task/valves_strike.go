package task

import (
	"context"
	"slices"
	"time"

	"keeperbook/model/record"
	"keeperbook/store"
)

// Step is one action that undo takes back or redo does again.
type Step = store.Step

// Change is what a step does to one item.
type Change = store.Change

// StrikeLast strikes the last reading in the place of a cell, or unsays the shims in it. The reason goes
// into the record with it. Where nothing stands nothing is kept.
func (b *Bench) StrikeLast(ctx context.Context, c Cell, reason string) error {
	if c.Under != "" {
		return b.clear(ctx, c)
	}
	all := b.Counting(c)
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1]
	last.Struck = &record.Strike{Reason: reason, By: b.desk.Who, When: b.desk.now()}
	return b.Keep(ctx, last)
}

// clear takes the shims in one place of a stack away without saying that there are none.
func (b *Bench) clear(ctx context.Context, c Cell) error {
	if !b.Filled(c) {
		return nil
	}
	v := b.rec.ValveAt(c.At)
	v.Stack = slices.DeleteFunc(slices.Clone(v.Stack), func(s record.Shim) bool { return s.Under == c.Under })
	if c.Under == record.UnderLocator {
		v.NoShim = ""
	}
	return b.Keep(ctx, v)
}

// Gauges returns the gauges of the book.
func (b *Bench) Gauges(ctx context.Context) ([]record.Gauge, error) { return b.desk.Book.Gauges(ctx) }

// Who is at the bench, and Now is the time as entries carry it.
func (b *Bench) Who() string { return b.desk.Who }

// Now is the time of the desk's clock.
func (b *Bench) Now() time.Time { return b.desk.Clock() }
