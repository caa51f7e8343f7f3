package curve

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Beyond is how far a load is followed outside the points: .050 in. Common practice, no published source.
const Beyond = 50 * unit.Thou

// piece is the curve through one set of points, over the height that they were taken at. Its loads are
// in mN and its rates in mN per tenth of a nanometre, positive where the load rises under compression.
type piece struct {
	points      []Point // from the lowest height up
	shape       interp.FritschButland
	secants     []float64   // secants[i] lies between points i and i+1
	bind        unit.Length // nought where it is not known
	least, most unit.Length // the heights between which there is a load
}

func newPiece(points []Point, bind unit.Length) (*piece, error) {
	up, err := checked(points, bind)
	if err != nil {
		return nil, err
	}
	n := len(up)
	p := &piece{points: up, bind: bind, secants: make([]float64, n-1)}
	at := make([]float64, 2*n)
	heights, loads := at[:n], at[n:]
	for i, q := range up {
		heights[i], loads[i] = float64(q.Height), float64(q.Load)
		if i > 0 {
			p.secants[i-1] = (loads[i-1] - loads[i]) / (heights[i] - heights[i-1])
		}
	}
	_ = p.shape.Fit(heights, loads) // it panics on points that are not in order, and never fails
	// Without a bind height nobody knows how soon below the lowest point the spring is solid.
	p.least = up[0].Height
	if bind > 0 {
		p.least = max(bind, p.least-Beyond)
	}
	room := math.Floor(loads[n-1] / p.secants[n-2]) // until it is loose
	p.most = up[n-1].Height + unit.Length(min(room, float64(Beyond)))
	return p, nil
}

// local is what a piece says at one height.
type local struct {
	load, rate float64
	at         int     // the point under it, or the nearest one where it is beyond them
	beyond     bool    // outside the points
	off        float64 // how far the load may be off for being outside, mN
}

func (p *piece) local(h unit.Length) (local, error) {
	last := len(p.points) - 1
	switch low, tall := p.points[0], p.points[last]; {
	case h < p.least:
		return local{}, p.below(h)
	case h > p.most:
		return local{}, p.above(h)
	case h < low.Height:
		return p.outside(h, 0, 0, min(1, last-1)), nil
	case h > tall.Height:
		return p.outside(h, last, last-1, max(0, last-2)), nil
	}
	x := float64(h)
	return local{load: p.shape.Predict(x), rate: -p.shape.PredictDerivative(x), at: p.under(h)}, nil
}

// outside follows the last secant from a point. The secant before it says how much a rate changes
// from one to the next; where there is none, nobody looked.
func (p *piece) outside(h unit.Length, from, last, before int) local {
	s, past := p.secants[last], float64(p.points[from].Height-h) // positive under the points
	load := float64(p.points[from].Load) + s*past
	return local{
		load: max(load, 0), rate: s, at: from, beyond: true,
		off: math.Abs(past) * math.Abs(s-p.secants[before]),
	}
}

// under returns the last point at a height or below it, and of the tallest the one before.
func (p *piece) under(h unit.Length) int {
	i := 0
	for i < len(p.points)-2 && p.points[i+1].Height <= h {
		i++
	}
	return i
}

func (p *piece) below(h unit.Length) error {
	low := p.points[0].Height
	switch {
	case p.bind == 0:
		return say.Fail(say.NotFound, "spring.no-bind", h, low)
	case h < p.bind:
		return say.Fail(say.NotFound, "spring.solid", h, p.bind)
	}
	return say.Fail(say.NotFound, "spring.below", h, Beyond, low)
}

func (p *piece) above(h unit.Length) error {
	tall := p.points[len(p.points)-1].Height
	if h-tall <= Beyond {
		return say.Fail(say.NotFound, "spring.loose", h)
	}
	return say.Fail(say.NotFound, "spring.above", h, Beyond, tall)
}
