package curve

import (
	"errors"
	"math"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Curve is the load of a spring, or of one coil of it, over the height of its outermost coil. It is
// made by [New], [Assembly], [Together] or [Spring.On] and never changes.
type Curve struct {
	parts       []part
	whole       bool          // it holds all coils of a spring that was tested as one
	steps       []unit.Length // which that spring stood on
	least, most unit.Length   // the heights between which there is a load
}

// part is one piece of a curve, less tall than the outermost coil by a length. Its sign is −1 where it
// takes off what a spring had on other steps.
type part struct {
	*piece
	less unit.Length
	sign float64
	coil int // counted from 1, for sentences; 0 where it is no coil of several
}

// Value is the load of a spring at one height.
type Value struct {
	Load     unit.Load
	Rate     unit.Rate // how fast it rises there under compression: the tangent
	Beyond   bool      // outside the points that were taken
	Straight bool      // from two points, between which nobody looked whether the rate changes
}

// New returns the curve of one coil from two points or more, in any order. bind is the height at which
// the coil is solid, nought where it is not known; then no load is given below the points.
//
// It refuses, with a sentence for each (say.Invalid): fewer than two points, a height or a load that no
// spring has, two points at one height, a load that does not rise with compression, a bind height above
// a point.
func New(points []Point, bind unit.Length) (*Curve, error) {
	p, err := newPiece(points, bind)
	if err != nil {
		return nil, err
	}
	return join([]part{{piece: p, sign: 1}})
}

// join puts parts together. There is a load where every part has one.
func join(parts []part) (*Curve, error) {
	c := &Curve{parts: parts, least: math.MinInt64, most: math.MaxInt64}
	for _, p := range parts {
		c.least = max(c.least, p.least+p.less)
		c.most = min(c.most, p.most+p.less)
	}
	if c.least > c.most {
		return nil, say.Fail(say.Invalid, "spring.apart")
	}
	return c, nil
}

// Reach returns the heights of the outermost coil between which the curve gives a load, both included.
func (c *Curve) Reach() (least, most unit.Length) { return c.least, c.most }

// Points returns the heights of the outermost coil between which no load is beyond the points. Of
// coils that were tested apart from one another none may be: then least is greater than most.
func (c *Curve) Points() (least, most unit.Length) {
	least, most = math.MinInt64, math.MaxInt64
	for _, p := range c.parts {
		least = max(least, p.points[0].Height+p.less)
		most = min(most, p.points[len(p.points)-1].Height+p.less)
	}
	return least, most
}

// At returns the load at a height of the outermost coil. Where there is none, the error says why and
// what to test (say.NotFound).
func (c *Curve) At(h unit.Length) (Value, error) {
	f, err := c.sum(h)
	if err != nil {
		return Value{}, err
	}
	v := Value{Load: loadOf(f.load), Rate: rateOf(f.rate), Beyond: f.beyond}
	v.Straight = slices.ContainsFunc(c.parts, func(p part) bool { return len(p.points) == 2 })
	return v, nil
}

// sum adds up the parts, unrounded.
func (c *Curve) sum(h unit.Length) (all local, err error) {
	for i := range c.parts {
		p := &c.parts[i]
		f, err := p.local(h - p.less)
		if err != nil {
			return local{}, p.name(err)
		}
		all.load += p.sign * f.load
		all.rate += p.sign * f.rate
		all.beyond = all.beyond || f.beyond
	}
	return all, nil
}

// name says of which coil an error speaks.
func (p *part) name(err error) error {
	var e *say.Error
	if p.coil == 0 || !errors.As(err, &e) {
		return err
	}
	return say.Fail(e.Code, "spring.of-coil", p.coil, e.Line).From(err)
}

// loadOf and rateOf round once, half to even. A rate of 1 mN per tenth of a nanometre is 10¹⁰ mN/m.
func loadOf(mN float64) unit.Load { return unit.Load(math.RoundToEven(mN)) }
func rateOf(s float64) unit.Rate  { return unit.Rate(math.RoundToEven(s * 1e10)) }
