package plan_test

import (
	"fmt"
	"math/rand"

	"keeperbook/model/plan"
	"keeperbook/model/unit"
)

// spring is a straight spring on the bench.
type spring struct {
	bind, free unit.Length
	rate       unit.Rate
}

// bench is a made-up head: what a problem is made of before anybody plans.
type bench struct {
	*plan.Problem
	lifts []unit.Length
	coils []spring // one for each spring of the problem
	least unit.Length
	most  plan.Given[unit.Length]
	guard func(valve, spring, shims int) unit.Length
}

const lbfPerIn = 175_126.835 // mN/m; NIST SP 811: 175.126835246476 N/m

// load is what a spring of this rate carries where it is shorter by so much, rounded.
func (s spring) load(by unit.Length) unit.Load {
	const perMetre = 10_000_000_000
	return unit.Load((int64(s.rate)*int64(by) + perMetre/2) / perMetre)
}

// fit is what a straight spring does: margin and loads from heights.
func (b *bench) fit(at plan.Place) plan.Fit {
	s, lift := b.coils[at.Spring], b.lifts[at.Valve]
	h := b.Valves[at.Valve].Base - at.Drop
	f := plan.Fit{
		Margin: h - lift - s.bind, Least: b.least, Most: b.most,
		Seat: s.load(s.free - h), Open: s.load(s.free - h + lift),
	}
	if b.guard != nil {
		f.Guard = b.guard(at.Valve, at.Spring, at.Shims)
	}
	return f
}

// newHead draws a head as a racing head comes out of the machine shop: base heights 1.82 ± .012 in,
// lift .61 ± .003, bind 1.060 ± .004, rates 420 ± 6 lbf/in, free lengths 2.33 ± .008, margins .060 to
// .140, intakes at 238 lbf and exhausts at 236; spring i is on valve i.
func newHead(seed int64, valves, springs int, step unit.Load, stock ...int) *bench {
	r := rand.New(rand.NewSource(seed))
	about := func(thou, width float64) unit.Length {
		return unit.Length((thou + width*(2*r.Float64()-1)) * float64(unit.Thou))
	}
	b := &bench{Problem: &plan.Problem{
		Roles: []plan.Role{
			{Name: "intakes", Load: plan.Give[unit.Load](1_058_677)}, {Name: "exhausts", Load: plan.Give[unit.Load](1_049_780)},
		},
		Most: plan.Most{Shims: 3, Total: 180 * unit.Thou}, Step: int64(step), Locks: []unit.Length{50 * unit.Thou, -50 * unit.Thou},
	}, least: 60 * unit.Thou, most: plan.Give(140 * unit.Thou)}
	for size, n := range stock {
		b.Shims = append(b.Shims, plan.Shim{Thick: []unit.Length{15, 30, 60}[size] * unit.Thou, Count: n})
	}
	for i := range valves {
		name := fmt.Sprintf("%d %s", i/2+1, []string{"in", "ex"}[i%2])
		b.Valves = append(b.Valves, plan.Valve{Name: name, Role: i % 2, Base: about(1820, 12)})
		b.lifts = append(b.lifts, about(610, 3))
	}
	for j := range springs {
		b.coils = append(b.coils, spring{about(1060, 4), about(2330, 8), unit.Rate((420 + 6*(2*r.Float64()-1)) * lbfPerIn)})
		on := j
		if j >= valves {
			on = plan.Nowhere
		}
		b.Springs = append(b.Springs, plan.Spring{Name: fmt.Sprintf("S%d", j+1), On: on})
	}
	b.Fit = b.fit
	return b
}

// without leaves the targets out.
func (b *bench) without() *bench {
	for i := range b.Roles {
		b.Roles[i].Load.Known = false
	}
	return b
}
