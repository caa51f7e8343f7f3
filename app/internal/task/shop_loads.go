package task

import (
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// ReadLoads reads what a spring tester said of a coil, as the scales say it: heights and loads in pairs with a
// semicolon between them, "1.907 131; 1.707 214", and behind a stroke the load on the releasing stroke, "1.907
// 131/124". A first test counts as measured here; what it goes through stays as it was. Nothing typed takes the
// test away.
func (c *Counter) ReadLoads(before *record.Loads, text string) (*record.Loads, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	l := record.Loads{Source: record.Measured}
	if before != nil {
		l = *before
	}
	kept := l.Points
	l.Points = nil
	for _, pair := range pairsIn(text) {
		// What only shows again what was read before stays as it was typed then.
		if i := slices.IndexFunc(kept, func(p record.Point) bool { return c.pointTyped(p) == pair }); i >= 0 {
			l.Points = append(l.Points, kept[i])
			continue
		}
		p, err := c.readPoint(pair)
		if err != nil {
			return nil, err
		}
		l.Points = append(l.Points, p)
	}
	if len(l.Points) == 0 {
		return nil, say.Fail(say.Invalid, "shop.loads-pair", strings.TrimSpace(text))
	}
	return c.signLoads(l), nil
}

// readPoint reads "1.907 131/124".
func (c *Counter) readPoint(pair string) (record.Point, error) {
	words := strings.Fields(strings.ReplaceAll(pair, "/", " / "))
	stroke := len(words) == 4 && words[2] == "/"
	if len(words) != 2 && !stroke {
		return record.Point{}, say.Fail(say.Invalid, "shop.loads-pair", strings.TrimSpace(pair))
	}
	height, err := readOne(record.ColumnOf(record.BindReading, c.Units()), words[0])
	if err != nil {
		return record.Point{}, err
	}
	load, err := c.bench.ReadLoad(words[1])
	if err != nil {
		return record.Point{}, err
	}
	p := record.Point{Height: *height, Load: *load}
	if stroke {
		if p.Back, err = c.bench.ReadLoad(words[3]); err != nil {
			return record.Point{}, err
		}
	}
	return p, nil
}

// signLoads returns a test with who made it and when, where it was made here.
func (c *Counter) signLoads(l record.Loads) *record.Loads {
	l.By, l.At = "", ""
	if l.Source == record.Measured {
		l.By, l.At = c.bench.desk.Who, c.bench.desk.now()
	}
	return &l
}

// LoadsTyped writes a test as [Counter.ReadLoads] reads it.
func (c *Counter) LoadsTyped(l *record.Loads) string {
	if l == nil {
		return ""
	}
	pairs := make([]string, len(l.Points))
	for i, p := range l.Points {
		pairs[i] = c.pointTyped(p)
	}
	return strings.Join(pairs, "; ")
}

// pointTyped writes a point as readPoint reads it.
func (c *Counter) pointTyped(p record.Point) string {
	text := inPair(c.Units().Length, p.Height) + " " + inPair(c.Units().Load, p.Load)
	if p.Back != nil {
		text += "/" + inPair(c.Units().Load, *p.Back)
	}
	return text
}

// TestedOn returns a test that was made on a tester, through what that reads through.
func (c *Counter) TestedOn(l record.Loads, gauge string) *record.Loads {
	l.Gauge, l.Correction = "", nil
	for _, g := range c.Gauges() {
		if g.ID == gauge {
			l.Gauge, l.Correction = g.ID, g.SettingFor(record.BindReading)
		}
	}
	return &l
}

// LoadsFrom returns a test that comes from a source.
func (c *Counter) LoadsFrom(l record.Loads, source record.Source) *record.Loads {
	l.Source = source
	return c.signLoads(l)
}

// TestLines say what a test comes to, point by point, and the rates between them.
func (c *Counter) TestLines(l *record.Loads) []say.Line { return evaluate.TestLines(c.bench.rec, l) }

// Graph is the load curve of a type of springs or of a single spring; false where the item is neither, and where
// nothing tells its loads.
func (c *Counter) Graph(item record.Item) (evaluate.LoadGraph, bool) {
	switch item.Kind {
	case record.SpringItem:
		s := c.SpringOf(item.Key)
		return evaluate.SpringGraph(c.bench.rec, &s, nil)
	case record.PieceItem:
		for _, p := range c.bench.rec.Parts.Pieces {
			if p.Tag == item.Key {
				s := c.PieceType(p)
				return evaluate.SpringGraph(c.bench.rec, &s, &p)
			}
		}
	}
	return evaluate.LoadGraph{}, false
}

// PieceLoads returns the test of a coil of a single spring, nil where there is none. Coil 0 is the spring as one.
func PieceLoads(p record.SpringPiece, coil int) *record.Loads {
	for i := range p.Loads {
		if p.Loads[i].Coil == coil {
			return &p.Loads[i].Loads
		}
	}
	return nil
}

// WithLoads returns a single spring with this test of a coil; nil takes it away. What the spring stood on stays.
func WithLoads(p record.SpringPiece, coil int, l *record.Loads) record.SpringPiece {
	p.Loads = slices.Clone(p.Loads)
	at := slices.IndexFunc(p.Loads, func(one record.PieceLoads) bool { return one.Coil == coil })
	switch {
	case l == nil && at >= 0:
		p.Loads = slices.Delete(p.Loads, at, at+1)
	case l == nil:
	case at >= 0:
		p.Loads[at].Loads = *l
	default:
		p.Loads = append(p.Loads, record.PieceLoads{Coil: coil, Loads: *l})
		slices.SortStableFunc(p.Loads, func(a, b record.PieceLoads) int { return a.Coil - b.Coil })
	}
	if len(p.Loads) == 0 {
		p.Loads = nil
	}
	return p
}
