package task

import (
	"context"
	"errors"
	"slices"
	"strings"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Refused is a table of readings of which nothing was kept, with what is wrong line by line.
type Refused struct {
	Rows []exchange.RowError
}

// Error says all of it, a line a sentence. What is wrong with the table itself, or with what it says of springs, names
// its line; what is wrong with a reading would be said in a cell too, and gets the line here.
func (r *Refused) Error() string {
	lines := make([]string, len(r.Rows))
	for i, row := range r.Rows {
		lines[i] = row.Error()
		if key := row.Err.Line.Key; !strings.HasPrefix(key, "exchange.") && !strings.HasPrefix(key, "springs.") {
			lines[i] = say.Chosen().Line(say.New("task.line", row.Line, row.Err.Line))
		}
	}
	return strings.Join(lines, "\n")
}

// Short says the first of it, and how many lines more do not fit.
func (r *Refused) Short() error {
	first, _, _ := strings.Cut(r.Error(), "\n")
	if n := len(r.Rows) - 1; n > 0 {
		return say.Fail(say.Invalid, "springs.refused-more", first, n)
	}
	return say.Fail(say.Invalid, "springs.refused", first)
}

// ReadIn keeps a table of readings, one action a head, and says how many rows went in. Unless every
// row is right nothing is kept, and nothing where the disk fails or it is given up: a table half in would have to be sorted
// out by hand.
func (d *Desk) ReadIn(ctx context.Context, data []byte) (int, error) {
	sheet, wrong := exchange.ReadCSV(data)
	if len(wrong) > 0 {
		return 0, &Refused{wrong}
	}
	return d.RowsIn(ctx, sheet.Rows)
}

// RowsIn keeps the rows of a table as [Desk.ReadIn] does.
func (d *Desk) RowsIn(ctx context.Context, rows []exchange.Row) (int, error) {
	order, wrong, err := d.fill(ctx, rows)
	switch {
	case err != nil:
		return 0, err
	case len(wrong) > 0:
		return 0, &Refused{wrong}
	}
	kept := 0
	var actions []record.Action
	for _, f := range order {
		a, err := d.action(f.rec.Setup.ID, f.edits)
		if err != nil {
			return 0, err
		}
		actions = append(actions, a)
		kept += len(f.edits)
	}
	if _, err := d.Book.KeepAll(ctx, actions...); err != nil {
		return 0, err
	}
	return kept, nil
}

// TryRows says what is wrong with the rows of a table, each read over the ones before it, and keeps nothing.
func (d *Desk) TryRows(ctx context.Context, rows []exchange.Row) ([]exchange.RowError, error) {
	_, wrong, err := d.fill(ctx, rows)
	return wrong, err
}

// fill puts rows into the records of their heads, in memory.
func (d *Desk) fill(ctx context.Context, rows []exchange.Row) (order []*filling, wrong []exchange.RowError, err error) {
	heads := map[string]*filling{}
	for i, row := range rows {
		if err := at(ctx, i, len(rows)); err != nil {
			return nil, nil, err
		}
		f, err := d.fillingOf(ctx, heads, row.Head)
		if err == nil {
			if !slices.Contains(order, f) {
				order = append(order, f)
			}
			err = f.take(row, d)
		}
		if err != nil {
			var e *say.Error
			if !errors.As(err, &e) || say.CodeOf(err) == say.Internal {
				return nil, nil, err
			}
			wrong = append(wrong, exchange.RowError{Line: row.Line, Err: e})
		}
	}
	return order, wrong, nil
}

// at says which of so many lines is being looked at, and fails where nobody wants it any more.
func at(ctx context.Context, i, of int) error {
	say.Tell(ctx, "work.lines", i+1, of)
	return ctx.Err()
}

// filling is a set-up that a table fills.
type filling struct {
	rec    *record.Record
	gauges []record.Gauge
	edits  []record.Edit
}

// fillingOf returns the newest set-up of a head, loaded once a table.
func (d *Desk) fillingOf(ctx context.Context, heads map[string]*filling, name string) (*filling, error) {
	if f, ok := heads[name]; ok {
		return f, nil
	}
	head, err := d.Book.FindHead(ctx, name)
	if err != nil {
		return nil, err
	}
	setup, err := Newest(ctx, d.Book, head)
	if err != nil {
		return nil, err
	}
	rec, err := d.Book.Record(ctx, setup.ID)
	if err != nil {
		return nil, err
	}
	gauges, err := d.Book.Gauges(ctx)
	if err != nil {
		return nil, err
	}
	f := &filling{rec: rec, gauges: gauges}
	heads[name] = f
	return f, nil
}

// take reads one row and puts it into the record in memory, so that the next row is read over it.
func (f *filling) take(row exchange.Row, d *Desk) error {
	gauge, err := f.gauge(row.Gauge)
	if err != nil {
		return err
	}
	e := Entry{
		At: row.Position, Kind: row.Kind, Coil: row.Coil, Text: row.Text, Method: row.Method, By: row.By,
		When: row.When, Note: row.Note, Height: row.Height,
	}
	if gauge != nil {
		e.Gauge = gauge.ID
	}
	// The correction of a load is that of its height, and so is the setting that it goes through.
	through := gauge
	if row.HeightGauge != "" {
		if through, err = f.gauge(row.HeightGauge); err != nil {
			return err
		}
		e.Heights = through.ID
	}
	if row.Kind == "" {
		v, err := Stack(f.rec, row.Stack, e)
		if err != nil {
			return err
		}
		f.put(v)
		return nil
	}
	if e.Method == "" {
		e.Method = record.FromFile
	}
	if e.By == "" {
		e.By = d.Who
	}
	if e.When == "" {
		e.When = d.now()
	}
	if e.Correction, err = f.correction(row.Correction, through, row.Kind); err != nil {
		return err
	}
	r, err := Reading(f.rec, e)
	if err != nil {
		return err
	}
	f.put(r)
	return nil
}

func (f *filling) put(n record.Noun) {
	f.rec.Put(n)
	f.edits = append(f.edits, record.Put(f.rec.Setup.ID, n))
}

// gauge finds a gauge of the shop by its name or identifier; nil where the row names none.
func (f *filling) gauge(name string) (*record.Gauge, error) {
	if name == "" {
		return nil, nil
	}
	names := make([]string, len(f.gauges))
	for i := range f.gauges {
		if g := &f.gauges[i]; g.Name == name || g.ID == name {
			return g, nil
		}
		names[i] = f.gauges[i].Name
	}
	if len(names) == 0 {
		return nil, say.Fail(say.NotFound, "task.no-gauges", name)
	}
	return nil, say.Fail(say.NotFound, "task.no-gauge", name, strings.Join(names, ", "))
}

// correction turns what the row says was in the stack into the copy that the reading keeps.
func (f *filling) correction(c exchange.Correction, gauge *record.Gauge, kind record.Kind) ([]record.Taken, error) {
	switch c.Said {
	case exchange.AsSet:
		if gauge == nil {
			return nil, say.Fail(say.Invalid, "task.as-set")
		}
		return gauge.SettingFor(kind), nil
	case exchange.Listed:
		var taken []record.Taken
		for _, p := range c.Parts {
			column := record.PlainColumn(f.rec.Setup.Units.Length)
			if p.Part.Signed() {
				column.Kind = unit.Signed
			}
			amount, err := unit.Parse(column, p.Amount)
			if err != nil {
				return nil, err
			}
			taken = append(taken, record.Taken{Part: p.Part, Amount: amount.Quantity, Zero: p.Zero})
		}
		return taken, nil
	}
	return nil, nil
}
