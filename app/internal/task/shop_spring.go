package task

import (
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// MostCoils is how many coils a spring has at most.
const MostCoils = 4

// coilNames are what the coils of a spring are called where nobody says otherwise, by their number.
var coilNames = [MostCoils + 1][]string{
	1: {"outer"}, 2: {"outer", "inner"}, 3: {"outer", "middle", "inner"}, 4: {"outer", "middle", "inner", "damper"},
}

// NewSpring is a spring type of one coil.
func (c *Counter) NewSpring(name string) (record.Spring, error) {
	name, err := c.name(name)
	return record.Spring{ID: NewID(), Name: name, Coils: []record.Coil{{Name: coilNames[1][0]}}}, err
}

// name reads the name of a thing.
func (c *Counter) name(text string) (string, error) {
	if text = strings.TrimSpace(text); text == "" {
		return "", say.Fail(say.Invalid, "shop.no-name")
	}
	return text, nil
}

// Named reads the name of a spring type, a coil or a gauge, which must say something.
func (c *Counter) Named(text string) (string, error) { return c.name(text) }

// WithCoils returns a spring with this many coils. Names that were given stay; coils are taken away from
// the inside, and only such as have nothing but a name: what was read of them would be lost.
func (c *Counter) WithCoils(s record.Spring, n int) (record.Spring, error) {
	if n < 1 || n > MostCoils {
		return s, say.Fail(say.Invalid, "shop.coils", n, MostCoils)
	}
	for _, p := range c.Parts().Pieces {
		if coil := lastRead(p); p.Spring == s.ID && coil > n && len(s.Coils) > n {
			return s, say.Fail(say.Conflict, "shop.piece-bind", p.Tag, coil)
		}
	}
	usual := slices.EqualFunc(s.Coils, coilNames[min(len(s.Coils), MostCoils)], func(c record.Coil, name string) bool {
		return c == record.Coil{Name: name}
	})
	s.Coils = slices.Clone(s.Coils)
	for len(s.Coils) > n {
		if last := s.Coils[len(s.Coils)-1]; last != (record.Coil{Name: last.Name}) {
			return s, say.Fail(say.Conflict, "shop.coil-bind", last.Name)
		}
		s.Coils = s.Coils[:len(s.Coils)-1]
	}
	for len(s.Coils) < n {
		s.Coils = append(s.Coils, record.Coil{Name: coilNames[n][len(s.Coils)]})
	}
	if usual {
		for i, name := range coilNames[n] {
			s.Coils[i].Name = name
		}
	}
	return s, nil
}

// lastRead is the innermost coil of which something was read on a single spring; 0 where there is none.
func lastRead(p record.SpringPiece) int {
	last := 0
	for _, b := range p.Binds {
		last = max(last, b.Coil)
	}
	for _, l := range p.Loads {
		last = max(last, l.Coil)
	}
	return last
}

// NewPiece is a single spring of a type, known by the tag on its bag.
func (c *Counter) NewPiece(tag, spring string) (record.SpringPiece, error) {
	tag = strings.TrimSpace(tag)
	if tag == "" {
		return record.SpringPiece{}, say.Fail(say.Invalid, "shop.no-tag")
	}
	if slices.ContainsFunc(c.Parts().Pieces, func(p record.SpringPiece) bool { return p.Tag == tag }) {
		return record.SpringPiece{}, say.Fail(say.Conflict, "shop.tag-taken", tag)
	}
	return record.SpringPiece{Tag: tag, Spring: spring}, nil
}

// ReadBind reads a bind height into what was there before. A first reading counts as measured here and
// goes through what the gauge reads through; nothing typed takes the bind height away.
func (c *Counter) ReadBind(before *record.Bind, text string) (*record.Bind, error) {
	q, err := c.bench.ReadBind(text)
	if err != nil || q == nil {
		return nil, err
	}
	b := record.Bind{Source: record.Measured}
	if before != nil {
		b = *before
	}
	b.Reading = *q
	return c.bench.SignBind(b), nil
}

// ReadOn returns a bind height that was read on a gauge, through what that gauge reads through.
func (c *Counter) ReadOn(b record.Bind, gauge string) *record.Bind {
	b.Gauge, b.Correction = "", nil
	for _, g := range c.Gauges() {
		if g.ID == gauge {
			b.Gauge, b.Correction = g.ID, slices.Clone(g.Setting)
		}
	}
	return &b
}

// From returns a bind height that comes from a source.
func (c *Counter) From(b record.Bind, source record.Source) *record.Bind {
	b.Source = source
	return c.bench.SignBind(b)
}

// PieceBind returns the bind height of a coil of a single spring, nil where it was not measured.
func PieceBind(p record.SpringPiece, coil int) *record.Bind {
	for _, b := range p.Binds {
		if b.Coil == coil {
			return &b.Bind
		}
	}
	return nil
}

// WithBind returns a single spring with this bind height of a coil; nil takes it away.
func WithBind(p record.SpringPiece, coil int, bind *record.Bind) record.SpringPiece {
	p.Binds = slices.DeleteFunc(slices.Clone(p.Binds), func(b record.PieceBind) bool { return b.Coil == coil })
	if bind != nil {
		p.Binds = append(p.Binds, record.PieceBind{Coil: coil, Bind: *bind})
		slices.SortFunc(p.Binds, func(a, b record.PieceBind) int { return a.Coil - b.Coil })
	}
	if len(p.Binds) == 0 {
		p.Binds = nil
	}
	return p
}

// PieceType returns a spring type in which the coils have the bind heights of a single spring, for
// [TypeBinds] to work out. Coils that were not measured on it have none.
func (c *Counter) PieceType(p record.SpringPiece) record.Spring {
	s := c.SpringOf(p.Spring)
	s.Coils = slices.Clone(s.Coils)
	for i := range s.Coils {
		s.Coils[i].Bind = PieceBind(p, i+1)
	}
	return s
}

// SpringOf returns the type with an identifier, an empty one where there is none.
func (c *Counter) SpringOf(id string) record.Spring {
	for _, s := range c.Parts().Springs {
		if s.ID == id {
			return s
		}
	}
	return record.Spring{}
}

// Fits refuses a single spring of which a coil was read that its type does not have.
func (c *Counter) Fits(p record.SpringPiece) error {
	s := c.SpringOf(p.Spring)
	if coil := lastRead(p); coil > len(s.Coils) {
		return say.Fail(say.Conflict, "shop.type-coils", s.Name, len(s.Coils), coil)
	}
	return nil
}

// ReadSize reads a length of a part, ReadRate the rate of a spring. Nothing typed is neither.
func (c *Counter) ReadSize(text string) (*unit.Quantity, error) {
	return c.bench.ReadSize(unit.Plain, text)
}

// ReadRate reads the rate of a spring.
func (c *Counter) ReadRate(text string) (*unit.Quantity, error) { return c.bench.ReadRate(text) }
