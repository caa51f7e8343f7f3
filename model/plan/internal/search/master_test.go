package search

import (
	"math"
	"math/rand"
	"testing"
)

// bound is what prices make of the assignments: no more than Z, and no more than any of them.
func bound(m *master, prices []float64) float64 {
	theta := m.z
	for _, c := range m.cuts {
		x := c.cost
		for k, o := range c.over {
			x += prices[k] * o
		}
		theta = min(theta, x)
	}
	return theta
}

// The prices of a master bound as well as it says they do, and no others bound better: not those near
// by, and none of a thousand at random.
func TestMaster(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	priced := 0
	for range 400 {
		sizes := 1 + r.Intn(6)
		m := newMaster(sizes, 1e6)
		m.z = 5e8
		prices := make([]float64, sizes)
		for range 1 + r.Intn(40) {
			c := cut{cost: 4e8 * r.Float64(), over: make([]float64, sizes)}
			for k := range c.over {
				c.over[k] = float64(r.Intn(31) - 12)
			}
			m.cuts = append(m.cuts, c)
			// One after the other, as the search does: each call goes on from the last.
			m.solve(prices)
		}
		theta := m.z + m.solve(prices)
		const near = 1e3 // of costs around 1e8; the perturbation alone moves prices by less
		if got := bound(m, prices); math.Abs(got-theta) > near {
			t.Fatalf("prices %v bound %g, said %g", prices, got, theta)
		}
		if prices[0] > 0 {
			priced++
		}
		other := make([]float64, sizes)
		for try := range 1000 {
			for k := range other {
				switch {
				case try%2 == 0:
					other[k] = max(0, prices[k]+1e5*(2*r.Float64()-1))
				default:
					other[k] = 1e8 * r.Float64() * r.Float64()
				}
			}
			if got := bound(m, other); got > theta+near {
				t.Fatalf("prices %v bound %g, %v only %g", other, got, prices, theta)
			}
		}
	}
	if priced < 50 {
		t.Errorf("only %d masters asked for a price", priced)
	}
}
