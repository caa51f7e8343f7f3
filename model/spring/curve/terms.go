package curve

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Terms writes the load at a height on what it was found with, for a budget in millinewtons:
//
//	u²(F) = u²(point) + k² [u²(H) + u²(tester's height)] + (|Δ| |s₁ − s₂|)²
//
// The point is the less sure of the two that the height lies between. k is the local rate: the greater
// of the tangent and the interval's secant, as a cubic's tangent may flatten at its end for no reason
// of the spring's. Δ is how far the height is beyond the points, s₁ and s₂ the last two secants.
//
// heights is what the heights were worked out from, in tenths of a nanometre: one sum for every coil in
// order (of an assembly carried over, the assembly's first and then each moved coil's on the steps it
// came to and on those it came from), or one that holds for all. A gauge that several of them name is
// shared by them, and by the tester if it names it too.
//
// It fails where [Curve.At] does, and where it was not said how sure a point is (say.NotFound).
func (c *Curve) Terms(h unit.Length, heights ...budget.Sum) (budget.Sum, error) {
	if len(heights) != 1 && len(heights) != len(c.parts) {
		return nil, say.Fail(say.Internal, "spring.heights", len(heights), len(c.parts))
	}
	var all budget.Sum
	for i := range c.parts {
		p := &c.parts[i]
		f, err := p.local(h - p.less)
		if err != nil {
			return nil, p.name(err)
		}
		k := p.sharpest(f)
		point, err := p.point(f, k)
		if err != nil {
			return nil, p.name(err)
		}
		all = append(all, budget.Term{C: p.sign, X: point.Loaded}, budget.Term{C: p.sign * k, X: point.Set})
		if f.off > 0 {
			outside := &budget.Input{Name: say.New("spring.outside"), Estimate: budget.Estimate{U: f.off, Nu: math.Inf(1)}}
			all = append(all, budget.Term{C: p.sign, X: outside})
		}
		for _, t := range heights[min(i, len(heights)-1)] {
			all = append(all, budget.Term{C: -p.sign * k * t.C, X: t.X})
		}
	}
	return all, nil
}

// sharpest is the rate that a height's uncertainty counts with.
func (p *piece) sharpest(f local) float64 {
	if f.beyond {
		return f.rate
	}
	return max(f.rate, p.secants[f.at])
}

// point returns the point whose uncertainty a load takes over.
func (p *piece) point(f local, k float64) (Point, error) {
	around := p.points[f.at : f.at+1]
	if !f.beyond {
		around = p.points[f.at : f.at+2]
	}
	var worst Point
	most := -1.0
	for _, q := range around {
		if q.Loaded == nil || q.Set == nil {
			return Point{}, say.Fail(say.NotFound, "spring.unsure", q.Height)
		}
		b, err := budget.Sum{{C: 1, X: q.Loaded}, {C: k, X: q.Set}}.Budget()
		if err != nil {
			return Point{}, err
		}
		if b.Std > most {
			worst, most = q, b.Std
		}
	}
	return worst, nil
}
