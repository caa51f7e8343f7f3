package curve

import (
	"sort"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Secant returns the rate between two heights, k = (Fo − Fs)/(Hs − Ho), in any order: what the trade
// calls the rate of a spring between seat and full lift. Where either load is missing it returns that
// height's error, and of one height alone it knows no secant (say.Invalid).
func (c *Curve) Secant(seat, open unit.Length) (unit.Rate, error) {
	if seat == open {
		return 0, say.Fail(say.Invalid, "spring.no-secant", seat)
	}
	s, err := c.sum(seat)
	if err != nil {
		return 0, err
	}
	o, err := c.sum(open)
	if err != nil {
		return 0, err
	}
	return rateOf((o.load - s.load) / float64(seat-open)), nil
}

// Bias returns how much a load reads wrong on a scale that stands off: where the scale shows h the
// spring is shorter by off, as through a lid that was not taken off the reading, and its load is
// F(h − off). Positive is too high. With a constant rate it is k·e; an inner coil tested without
// its step reads low by what a negative off gives.
func (c *Curve) Bias(h, off unit.Length) (unit.Load, error) {
	read, err := c.sum(h - off)
	if err != nil {
		return 0, err
	}
	is, err := c.sum(h)
	if err != nil {
		return 0, err
	}
	return loadOf(read.load - is.load), nil
}

// Height returns the height of the outermost coil at which the spring carries a load, rounded to the
// unit. A load that it carries at no height of its reach is an error that says what it carries at the
// nearest one (say.NotFound). [Curve.At] says whether the height is beyond the points.
func (c *Curve) Height(load unit.Load) (unit.Length, error) {
	want := float64(load)
	at := func(h unit.Length) float64 {
		f, _ := c.sum(h) // within reach there is always a load
		return f.load
	}
	if most := loadOf(at(c.least)); load > most {
		return 0, say.Fail(say.NotFound, "spring.load-over", load, most, c.least)
	}
	if least := loadOf(at(c.most)); load < least {
		return 0, say.Fail(say.NotFound, "spring.load-under", load, least, c.most)
	}
	// Heights are whole numbers, so halving the reach finds the lowest one that carries no more.
	h := c.least + unit.Length(sort.Search(int(c.most-c.least), func(i int) bool { return at(c.least+unit.Length(i)) <= want }))
	if h > c.least && at(h-1)-want < want-at(h) {
		h--
	}
	return h, nil
}
