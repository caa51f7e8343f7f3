package task

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Cell is an entry as it is made in a table of valves: a reading, or the shims in one place of a stack
// where Under says which. Its text may count from the nominal (+2) or repeat the cell above (").
type Cell struct {
	Entry
	Under record.Under     // of shims; "" for a reading
	Above *record.Position // the valve in the row above, nil in the first row
	Stood *Stood           // what the reading was taken over; nil where that is what stands there now
}

// Taking is how a reading stands to those in its place already.
type Taking int

// The three ways.
const (
	First   Taking = iota // the place is empty, or a star behind the text makes it a repeat
	Again                 // one more of the same thing; their mean counts
	Instead               // those that count are struck
)

// Understand says what the text of a cell reads as, in the words of its column: "1.842 in". Errors are
// those of [unit.Parse] and [unit.ParseStack].
func (b *Bench) Understand(c Cell) (string, error) { return c.understand(b.rec) }

func (c Cell) understand(rec *record.Record) (string, error) {
	column := c.column(rec)
	if c.Under == "" {
		read, err := unit.Parse(column, c.Text)
		return read.Understood, err
	}
	shims, none, err := unit.ParseStack(column, c.stackText(rec))
	if err == nil && none {
		return noShims, nil
	}
	return column.Understood(shims...), err
}

// noShims is how a stack without shims is typed.
const noShims = "none"

// column is how the cell is read, with what +2 counts from and what stands above.
func (c Cell) column(rec *record.Record) unit.Column {
	if c.Under != "" {
		column := record.ShimColumn(rec.Setup.Units)
		if c.Above != nil {
			column.Above = thicknesses(rec.ValveAt(*c.Above), c.Under)
		}
		return column
	}
	column := record.ColumnOf(c.Kind, rec.Setup.Units)
	column.Nominal = nominal(rec, c)
	if c.Above != nil {
		if above := counting(rec, *c.Above, c.Kind, c.Coil); len(above) > 0 {
			column.Above = []unit.Quantity{above[len(above)-1].Quantity}
		}
	}
	return column
}

// stackText is the text of shims, with a stack that is repeated from the row above written out: what is
// kept has to read the same without its row.
func (c Cell) stackText(rec *record.Record) string {
	if c.Above == nil || strings.TrimSpace(c.Text) != `"` {
		return c.Text
	}
	v := rec.ValveAt(*c.Above)
	var parts []string
	for _, q := range thicknesses(v, c.Under) {
		parts = append(parts, q.Plain())
	}
	if len(parts) == 0 && v.NoShim != "" {
		return noShims
	}
	if len(parts) == 0 {
		return c.Text // it is refused, for there is nothing above
	}
	return strings.Join(parts, "+")
}

// thicknesses are the shims in one place of a valve's stack.
func thicknesses(v record.Valve, under record.Under) (all []unit.Quantity) {
	for _, s := range v.Stack {
		if s.Under == under {
			all = append(all, s.Thickness)
		}
	}
	return all
}

// nominal is what +2 and −3 count from: the cell's own last reading where it has one, for then it is
// read again; else the median of what the valves of its role read in the column (the lower of two), for
// the valves of a role are set up alike and one that is far out does not move it. Nothing is made up: it
// is always a reading that somebody took.
func nominal(rec *record.Record, c Cell) unit.Quantity {
	if own := counting(rec, c.At, c.Kind, c.Coil); len(own) > 0 {
		return own[len(own)-1].Quantity
	}
	var all []unit.Quantity
	for i := range rec.Setup.Readings {
		r := &rec.Setup.Readings[i]
		if r.Struck == nil && r.Kind == c.Kind && r.Coil == c.Coil && r.At.Role == c.At.Role {
			all = append(all, r.Quantity)
		}
	}
	if len(all) == 0 {
		return unit.Quantity{}
	}
	slices.SortStableFunc(all, func(a, b unit.Quantity) int { return cmp.Compare(a.Value, b.Value) })
	return all[(len(all)-1)/2]
}

// counting are the readings of one thing that are not struck, in the order they were taken.
func counting(rec *record.Record, at record.Position, kind record.Kind, coil int) []record.Reading {
	return slices.DeleteFunc(rec.ReadingsAt(at, kind, coil), func(r record.Reading) bool { return r.Struck != nil })
}

// Counting returns the readings in the place of a cell that count, in the order they were taken.
func (b *Bench) Counting(c Cell) []record.Reading { return counting(b.rec, c.At, c.Kind, c.Coil) }

// Filled reports whether something stands in the place of a cell.
func (b *Bench) Filled(c Cell) bool {
	if c.Under == "" {
		return len(b.Counting(c)) > 0
	}
	v := b.rec.ValveAt(c.At)
	return len(thicknesses(v, c.Under)) > 0 || c.Under == record.UnderLocator && v.NoShim != ""
}

// Take keeps a cell. Errors are those of [Reading] and [Stack], and of the book; on one of them nothing
// changed, and the same cell may be taken again.
func (b *Bench) Take(ctx context.Context, c Cell, how Taking) error {
	nouns, err := b.nouns(b.rec, c, how)
	if err != nil {
		return err
	}
	return b.Keep(ctx, nouns...)
}

// nouns is what a cell changes in a record: the reading or the valve, after what is struck for it.
func (b *Bench) nouns(rec *record.Record, c Cell, how Taking) ([]record.Noun, error) {
	if c.Under != "" {
		e := c.Entry
		e.Text = c.stackText(rec)
		v, err := Stack(rec, c.Under, e)
		return []record.Noun{v}, err
	}
	e := b.signed(c.Entry)
	read, err := unit.Parse(c.column(rec), e.Text)
	if err != nil {
		return nil, err
	}
	// Written out, what counts from a nominal or repeats a cell reads the same without its column; what
	// was typed is kept as it was typed.
	e.Text = read.Quantity.Plain()
	if read.Repeat || how == Again {
		e.Text += "*"
	}
	var nouns []record.Noun
	if how == Instead {
		trial := trialOf(rec)
		nouns = b.struck(e.At, e.Kind, e.Coil, e.By, e.When)
		for _, n := range nouns {
			trial.Put(n)
		}
		rec = &trial
	}
	r, err := Reading(rec, e)
	r.Quantity.Typed = c.Text
	if c.Stood != nil {
		r = c.Stood.on(r)
	}
	return append(nouns, r), err
}
