package curve

import (
	"cmp"
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Point is one load of a spring at one height, both corrected: what the tester reads through is off the
// height, and its calibration is off the load.
//
// What they were read with is asked for only where somebody wants to know how sure a load is. Points
// that name the same gauge share its certificate.
type Point struct {
	Height unit.Length
	Load   unit.Load
	Loaded *budget.Input // how sure the load is, in millinewtons
	Set    *budget.Input // how sure the height on the tester is, in tenths of a nanometre
}

// greatest load that a point has: far beyond any valve spring, as for typed loads.
const greatest unit.Load = 100_000_000 // mN

// checked returns the points from the lowest height up, or the sentence that says why no curve goes
// through them. bind is nought where it is not known.
func checked(points []Point, bind unit.Length) ([]Point, error) {
	for _, p := range points {
		if p.Height <= 0 || p.Height >= unit.Limit {
			return nil, say.Fail(say.Invalid, "spring.height", p.Height, unit.Limit)
		}
		if p.Load < 0 || p.Load >= greatest {
			return nil, say.Fail(say.Invalid, "spring.load", p.Height, p.Load, greatest)
		}
	}
	if len(points) < 2 {
		return nil, say.Fail(say.Invalid, "spring.few", len(points))
	}
	up := slices.Clone(points)
	slices.SortStableFunc(up, func(a, b Point) int { return cmp.Compare(a.Height, b.Height) })
	for i := range up[1:] {
		low, tall := up[i], up[i+1]
		switch {
		case low.Height == tall.Height:
			return nil, say.Fail(say.Invalid, "spring.same-height", low.Height, low.Load, tall.Load)
		case low.Load <= tall.Load: // two equal loads at two heights would make the height of a load a guess
			return nil, say.Fail(say.Invalid, "spring.falls", tall.Height, tall.Load, low.Height, low.Load)
		}
	}
	switch {
	case bind < 0:
		return nil, say.Fail(say.Invalid, "spring.bind", bind)
	case bind > up[0].Height:
		return nil, say.Fail(say.Invalid, "spring.bind-above", bind, up[0].Height)
	}
	return up, nil
}
