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

// SpringsIn keeps a table of single springs as one action, and says how many springs it told of. What the book knows
// of a spring already has to be said the same or not at all. Unless every line is right nothing is kept.
func (d *Desk) SpringsIn(ctx context.Context, data []byte) (int, error) {
	sheet, wrong := exchange.ReadSprings(data)
	if len(wrong) > 0 {
		return 0, &Refused{wrong}
	}
	parts, err := d.Book.Parts(ctx)
	if err != nil {
		return 0, err
	}
	units, err := d.units(ctx)
	if err != nil {
		return 0, err
	}
	gauges, err := d.Book.Gauges(ctx)
	if err != nil {
		return 0, err
	}
	in := springsIn{desk: d, parts: parts, through: &filling{rec: &record.Record{Setup: record.Setup{Units: units}}, gauges: gauges}}
	var edits []record.Edit
	for i, entry := range sheet.Springs {
		say.Tell(ctx, "work.springs", i+1, len(sheet.Springs))
		if err := ctx.Err(); err != nil {
			return 0, err
		}
		piece, err := in.piece(entry)
		if err == nil {
			edits = append(edits, record.Put("", piece))
			err = doubt(edits[len(edits)-1:])
		}
		var e *say.Error
		switch {
		case err == nil:
		case !errors.As(err, &e) || say.CodeOf(err) == say.Internal:
			return 0, err
		default:
			wrong = append(wrong, exchange.RowError{Line: in.line, Err: e})
		}
	}
	if len(wrong) > 0 {
		return 0, &Refused{wrong}
	}
	if len(edits) == 0 {
		return 0, nil
	}
	return len(edits), d.keep(ctx, "", edits)
}

// springsIn takes lines of a table to the springs that they are of.
type springsIn struct {
	desk    *Desk
	parts   record.Parts
	through *filling
	line    int // that is being read
}

// piece returns the single spring that an entry tells of, with what the book knows of it already.
func (in *springsIn) piece(e exchange.SpringEntry) (record.SpringPiece, error) {
	in.line = e.Line
	p := record.SpringPiece{Tag: e.Tag}
	at := slices.IndexFunc(in.parts.Pieces, func(p record.SpringPiece) bool { return p.Tag == e.Tag })
	if at >= 0 {
		p = in.parts.Pieces[at]
	}
	if err := in.ofType(&p, e); err != nil {
		return p, err
	}
	for _, said := range []struct {
		to *string
		is string
	}{{&p.Batch, e.Batch}, {(*string)(&p.Condition), string(e.Condition)}, {&p.Note, e.Note}} {
		if said.is != "" {
			*said.to = said.is
		}
	}
	if e.Free != nil {
		in.line = e.Free.Line
		free, err := in.height(e.Free.Height)
		if err != nil {
			return p, err
		}
		switch {
		case p.Free == nil:
			p.Free = free
		case p.Free.Value != free.Value: // otherwise what was typed stays
			return p, in.known(e.Tag, "free")
		}
	}
	for _, t := range e.Binds {
		if err := in.bind(&p, t); err != nil {
			return p, err
		}
	}
	for _, t := range e.Loads {
		if err := in.loads(&p, t); err != nil {
			return p, err
		}
	}
	in.line = e.Line
	return p, nil
}

// ofType finds the type of a spring, and refuses lines of coils that it does not have.
func (in *springsIn) ofType(p *record.SpringPiece, e exchange.SpringEntry) error {
	types := in.parts.Springs
	if e.Spring != "" {
		at := slices.IndexFunc(types, func(s record.Spring) bool { return s.Name == e.Spring || s.ID == e.Spring })
		switch {
		case at < 0 && len(types) == 0:
			return say.Fail(say.NotFound, "springs.no-types", in.line, e.Spring)
		case at < 0:
			return say.Fail(say.NotFound, "springs.no-type", in.line, e.Spring, names(types, func(s record.Spring) string { return s.Name }))
		case p.Spring != "" && p.Spring != types[at].ID:
			return say.Fail(say.Conflict, "springs.other-type", in.line, e.Tag, e.Spring, in.typeOf(*p).Name)
		}
		p.Spring = types[at].ID
	}
	if p.Spring == "" {
		return say.Fail(say.Invalid, "springs.type", in.line)
	}
	s := in.typeOf(*p)
	for _, t := range append(slices.Clone(e.Binds), e.Loads...) {
		if t.Coil > len(s.Coils) {
			in.line = t.Points[0].Line
			return say.Fail(say.Invalid, "springs.coils", in.line, t.Coil, s.Name, len(s.Coils))
		}
	}
	return nil
}

func (in *springsIn) typeOf(p record.SpringPiece) record.Spring {
	for _, s := range in.parts.Springs {
		if s.ID == p.Spring {
			return s
		}
	}
	return record.Spring{}
}

func (in *springsIn) height(text string) (*unit.Quantity, error) {
	return readOne(record.ColumnOf(record.BindReading, in.through.rec.Setup.Units), text)
}

func (in *springsIn) load(text string) (*unit.Quantity, error) {
	return readOne(record.ColumnOf(record.SeatLoad, in.through.rec.Setup.Units), text)
}

// known refuses what the book has already and otherwise.
func (in *springsIn) known(tag, what string) error {
	return say.Fail(say.Conflict, "springs.differs", in.line, say.New("springs.known."+what), tag)
}

// bind reads the bind height of a coil.
func (in *springsIn) bind(p *record.SpringPiece, t exchange.SpringTest) error {
	in.line = t.Points[0].Line
	height, err := in.height(t.Points[0].Height)
	if err != nil {
		return err
	}
	b := record.Bind{Reading: *height}
	if b.Gauge, b.Correction, err = in.scale(t); err != nil {
		return err
	}
	b.Source, b.By, b.At = in.signed(t)
	if was := PieceBind(*p, t.Coil); was != nil {
		if was.Reading.Value == b.Reading.Value && sameTaken(was.Correction, b.Correction) {
			return nil
		}
		return in.known(p.Tag, "bind")
	}
	*p = WithBind(*p, t.Coil, &b)
	return nil
}

// loads reads the test of a coil, or of the spring as one.
func (in *springsIn) loads(p *record.SpringPiece, t exchange.SpringTest) error {
	l := record.Loads{}
	for _, point := range t.Points {
		in.line = point.Line
		height, err := in.height(point.Height)
		if err != nil {
			return err
		}
		load, err := in.load(point.Load)
		if err != nil {
			return err
		}
		one := record.Point{Height: *height, Load: *load}
		if point.Back != "" {
			if one.Back, err = in.load(point.Back); err != nil {
				return err
			}
		}
		l.Points = append(l.Points, one)
	}
	in.line = t.Points[0].Line
	gauge, correction, err := in.scale(t)
	if err != nil {
		return err
	}
	l.Gauge, l.Correction = gauge, correction
	if t.HeightGauge != "" {
		heights, err := in.through.gauge(t.HeightGauge)
		if err != nil {
			return err
		}
		l.Heights = heights.ID
	}
	l.Source, l.By, l.At = in.signed(t)
	retainer, err := in.part(t.Retainer, names(in.parts.Retainers, func(r record.Retainer) string { return r.Name }), func(name string) string {
		return idOf(in.parts.Retainers, name, func(r record.Retainer) (string, string) { return r.ID, r.Name })
	})
	if err != nil {
		return err
	}
	locator, err := in.part(t.Locator, names(in.parts.Locators, func(l record.Locator) string { return l.Name }), func(name string) string {
		return idOf(in.parts.Locators, name, func(l record.Locator) (string, string) { return l.ID, l.Name })
	})
	if err != nil {
		return err
	}
	if was := PieceLoads(*p, t.Coil); was != nil {
		if slices.EqualFunc(was.Points, l.Points, samePoint) && sameTaken(was.Correction, l.Correction) {
			return nil
		}
		return in.known(p.Tag, "load")
	}
	*p = WithLoads(*p, t.Coil, &l)
	if t.Coil == 0 {
		*p = StoodOn(*p, retainer, locator)
	}
	return nil
}

// scale finds what a test was read on and what is taken off its heights.
func (in *springsIn) scale(t exchange.SpringTest) (gauge string, taken []record.Taken, err error) {
	g, err := in.through.gauge(t.Gauge)
	if err != nil {
		return "", nil, err
	}
	through := g
	if t.HeightGauge != "" {
		if through, err = in.through.gauge(t.HeightGauge); err != nil {
			return "", nil, err
		}
	}
	if g != nil {
		gauge = g.ID
	}
	taken, err = in.through.correction(t.Correction, through, record.BindReading)
	return gauge, taken, err
}

// signed fills in who took a test and when where it was measured here and the table does not say.
func (in *springsIn) signed(t exchange.SpringTest) (source record.Source, by string, at record.Stamp) {
	source, by, at = t.Source, t.By, t.When
	if source == "" {
		source = record.Measured
	}
	if source == record.Measured && by == "" {
		by = in.desk.Who
	}
	if source == record.Measured && at == "" {
		at = in.desk.now()
	}
	return source, by, at
}

// part finds the part at an end of a spring; "" where the line names none.
func (in *springsIn) part(name, known string, find func(string) string) (string, error) {
	if name == "" {
		return "", nil
	}
	if id := find(name); id != "" {
		return id, nil
	}
	return "", say.Fail(say.NotFound, "springs.no-part", in.line, name, known)
}

// samePoint and sameTaken compare what was read, however it was typed.
func samePoint(a, b record.Point) bool {
	return a.Height.Value == b.Height.Value && a.Load.Value == b.Load.Value && (a.Back == nil) == (b.Back == nil) &&
		(a.Back == nil || a.Back.Value == b.Back.Value)
}

func sameTaken(a, b []record.Taken) bool {
	return slices.EqualFunc(a, b, func(a, b record.Taken) bool {
		return a.Part == b.Part && a.Zero == b.Zero && a.Amount.Value == b.Amount.Value
	})
}

func idOf[T any](all []T, name string, of func(T) (id, name string)) string {
	for _, one := range all {
		if id, called := of(one); id == name || called == name {
			return id
		}
	}
	return ""
}

func names[T any](all []T, of func(T) string) string {
	texts := make([]string, len(all))
	for i, one := range all {
		texts[i] = of(one)
	}
	return strings.Join(texts, ", ")
}

// SpringsIn keeps a table of single springs; see [Desk.SpringsIn].
func (c *Counter) SpringsIn(ctx context.Context, data []byte) (int, error) {
	return c.bench.desk.SpringsIn(ctx, data)
}
