package task

import (
	"context"
	"errors"
	"slices"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// RunsIn keeps a table of runs as one action, and says how many it kept. Unless every line is right nothing is kept: a line that
// is in the book already, or twice in the table, would count twice.
func (d *Desk) RunsIn(ctx context.Context, data []byte) (int, error) {
	rows, wrong := exchange.ReadRuns(data)
	if len(wrong) > 0 {
		return 0, &Refused{wrong}
	}
	in := lifeIn{desk: d, heads: map[string]*headIn{}}
	var edits []record.Edit
	for i, row := range rows {
		if err := at(ctx, i, len(rows)); err != nil {
			return 0, err
		}
		err := in.line(row.Line, func() error {
			run, err := in.run(ctx, row.Head, row.Run)
			edits = append(edits, record.Put("", run))
			return err
		})
		if err != nil {
			return 0, err
		}
	}
	return in.keep(ctx, edits)
}

// ChecksIn keeps a table of checks of springs as one action, and says how many checks it told of. A check is of the set-up in
// service on its day. Unless every line is right nothing is kept.
func (d *Desk) ChecksIn(ctx context.Context, data []byte) (int, error) {
	rows, wrong := exchange.ReadChecks(data)
	if len(wrong) > 0 {
		return 0, &Refused{wrong}
	}
	return d.checksIn(ctx, rows, nil)
}

// checksIn keeps checks, or one that corrects another.
func (d *Desk) checksIn(ctx context.Context, rows []exchange.CheckRow, instead *record.SpringCheck) (int, error) {
	gauges, err := d.Book.Gauges(ctx)
	if err != nil {
		return 0, err
	}
	in := lifeIn{desk: d, heads: map[string]*headIn{}, gauges: gauges, instead: instead}
	var checks []*record.SpringCheck
	for i, row := range rows {
		if err := at(ctx, i, len(rows)); err != nil {
			return 0, err
		}
		err := in.line(row.Line, func() error {
			c, h, err := in.check(ctx, row)
			if err != nil {
				return err
			}
			if !slices.Contains(checks, c) {
				checks = append(checks, c)
			}
			v, err := in.valve(h, row, c)
			if err != nil {
				return err
			}
			kept := c.Valves
			c.Valves = append(c.Valves, v)
			if err := record.Doubt(*c, d.now()); err != nil {
				c.Valves = kept // what is wrong with this line is no fault of the ones after it
				return h.labelled(err, row.At)
			}
			return nil
		})
		if err != nil {
			return 0, err
		}
	}
	var edits []record.Edit
	for _, c := range checks {
		edits = append(edits, record.Put("", *c))
	}
	return in.keep(ctx, edits)
}

// lifeIn takes lines of a table to the heads that they are of.
type lifeIn struct {
	desk    *Desk
	heads   map[string]*headIn
	gauges  []record.Gauge
	instead *record.SpringCheck // the check that what comes in is a correction of; nil of a new one
	wrong   []exchange.RowError
}

// headIn is a head with what the book knows of its life, and what the table added.
type headIn struct {
	head   record.Head
	setups []record.Setup
	runs   []record.Run
	known  []record.SpringCheck
	added  []*record.SpringCheck
}

// labelled names a valve in a fault as the bench says it, which a check without its head cannot.
func (h *headIn) labelled(err error, at record.Position) error {
	var e *say.Error
	if !errors.As(err, &e) {
		return err
	}
	named := *e
	named.Line.Args = slices.Clone(e.Line.Args)
	for i, arg := range named.Line.Args {
		if arg == at.String() {
			named.Line.Args[i] = h.head.Label(at)
		}
	}
	return &named
}

// line has a line read, and keeps what is wrong with it.
func (in *lifeIn) line(n int, read func() error) error {
	err := read()
	var e *say.Error
	switch {
	case err == nil:
		return nil
	case !errors.As(err, &e) || say.CodeOf(err) == say.Internal:
		return err
	}
	in.wrong = append(in.wrong, exchange.RowError{Line: n, Err: e})
	return nil
}

func (in *lifeIn) keep(ctx context.Context, edits []record.Edit) (int, error) {
	if len(in.wrong) > 0 {
		return 0, &Refused{in.wrong}
	}
	if len(edits) == 0 {
		return 0, nil
	}
	return len(edits), in.desk.keep(ctx, "", edits)
}

func (in *lifeIn) head(ctx context.Context, name string) (*headIn, error) {
	if h := in.heads[name]; h != nil {
		return h, nil
	}
	head, err := in.desk.Book.FindHead(ctx, name)
	if err != nil {
		return nil, err
	}
	// By its tag and by its identifier it is one.
	for _, h := range in.heads {
		if h.head.ID == head.ID {
			in.heads[name] = h
			return h, nil
		}
	}
	h := &headIn{head: head}
	if h.setups, err = in.desk.Book.Setups(ctx, head.ID); err != nil {
		return nil, err
	}
	l, err := in.desk.Book.Life(ctx, head.ID)
	h.runs, h.known = l.Runs, l.Checks
	in.heads[name] = h
	return h, err
}

// run returns a run of a head as it is kept, or says why it is not: it counts once, and the head has to have been built.
func (in *lifeIn) run(ctx context.Context, head string, run record.Run) (record.Run, error) {
	h, err := in.head(ctx, head)
	if err != nil {
		return run, err
	}
	run.Head = h.head.ID
	if run.By == "" {
		run.By = in.desk.Who
	}
	if err := record.Doubt(run, in.desk.now()); err != nil {
		return run, err
	}
	if inService(h.setups, run.Day) == nil {
		return run, say.Fail(say.Invalid, "life.before-build", run.Day, h.head.Tag)
	}
	if slices.ContainsFunc(h.runs, func(r record.Run) bool { r.ID = ""; return r == run }) {
		return run, say.Fail(say.Conflict, "life.run-known", run.Day, h.head.Tag)
	}
	h.runs = append(h.runs, run)
	run.ID = NewID()
	return run, nil
}

// check returns the check that a line is of, a new one where it is the first.
func (in *lifeIn) check(ctx context.Context, row exchange.CheckRow) (*record.SpringCheck, *headIn, error) {
	h, err := in.head(ctx, row.Head)
	if err != nil {
		return nil, nil, err
	}
	same := func(c record.SpringCheck) bool { return c.Day == row.Day && c.Service == row.Service }
	other := func(c record.SpringCheck) bool { return same(c) && (in.instead == nil || c.ID != in.instead.ID) }
	if slices.ContainsFunc(h.known, other) {
		return nil, nil, say.Fail(say.Conflict, "life.check-known", row.Day, h.head.Tag)
	}
	if i := slices.IndexFunc(h.added, func(c *record.SpringCheck) bool { return same(*c) }); i >= 0 {
		return h.added[i], h, nil
	}
	c := &record.SpringCheck{
		ID: NewID(), Head: h.head.ID, Day: row.Day, Service: row.Service, NextDay: row.NextDay, NextIn: row.NextIn, NextOf: row.NextOf,
		By: row.By,
	}
	if c.By == "" {
		c.By = in.desk.Who
	}
	if in.instead != nil {
		c.ID, c.Note = in.instead.ID, in.instead.Note
	}
	if err := record.Doubt(*c, in.desk.now()); err != nil {
		return nil, nil, err
	}
	s := inService(h.setups, row.Day)
	if s == nil {
		return nil, nil, say.Fail(say.Invalid, "life.before-build", row.Day, h.head.Tag)
	}
	c.Setup = s.ID
	if row.Tester != "" {
		g := slices.IndexFunc(in.gauges, func(g record.Gauge) bool { return g.ID == row.Tester || g.Name == row.Tester })
		if g < 0 {
			return nil, nil, say.Fail(say.NotFound, "life.no-tester", row.Tester)
		}
		if in.gauges[g].Kind != record.SpringTester {
			return nil, nil, say.Fail(say.Invalid, "life.no-loads", row.Tester)
		}
		c.Gauge = in.gauges[g].ID
	}
	h.added = append(h.added, c)
	return c, h, nil
}

// valve reads what a line says of its valve, in the units of the set-up.
func (in *lifeIn) valve(h *headIn, row exchange.CheckRow, c *record.SpringCheck) (record.CheckedValve, error) {
	v := record.CheckedValve{At: row.At, Seen: row.Seen, Note: row.Note}
	if !slices.Contains(h.head.Positions(), row.At) {
		return v, say.Fail(say.NotFound, "life.no-valve", h.head.Tag, h.head.Label(row.At))
	}
	var units record.Units
	for _, s := range h.setups {
		if s.ID == c.Setup {
			units = s.Units
		}
	}
	for _, n := range []struct {
		kind record.Kind
		text string
		to   **unit.Quantity
	}{
		{record.SeatLoad, row.Load, &v.Load}, {record.CheckHeight, row.Height, &v.Height}, {record.BindReading, row.Free, &v.Free},
		{record.LashFound, row.Found, &v.Found}, {record.LashLeft, row.Left, &v.Left},
	} {
		if n.text == "" {
			continue
		}
		q, err := readOne(record.ColumnOf(n.kind, units), n.text)
		if err != nil {
			return v, err
		}
		*n.to = q
	}
	return v, nil
}
