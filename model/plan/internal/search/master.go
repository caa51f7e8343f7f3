package search

// master finds the prices of shims at which the assignments found so far bound the cost best:
//
//	greatest θ with θ ≤ Z and θ ≤ cost + Σ price · (use − stock) for every assignment, prices ≥ 0
//
// Z is what the best plan costs so far; asking for no more keeps the answer finite even where nothing
// fits, when prices would grow without end. The master solves the dual of this by the revised simplex
// method, which has one row for each size and one for the weights:
//
//	least Σ weight · (cost − Z) with Σ weight · (use − stock) ≤ ε, Σ weight ≤ 1
//
// There are three to six sizes, so the inverse of the basis is a few dozen numbers. Prices are rounded
// to whole numbers afterwards and the bound is worked out exactly, so nothing hangs on rounding here
// but how soon the search ends. Every product is rounded on its own (the conversions see to that), so
// that all machines go the same way.
type master struct {
	rows    int       // sizes + 1
	cuts    []cut     // the assignments
	z       float64   // what the best plan costs so far
	unit    float64   // cost that counts as one
	basis   []int     // cut, or ^row for the slack of a row
	inverse []float64 // rows × rows
	level   []float64 // of each basic variable
	dual    []float64 // of each row
	line    []float64
	step    []float64
}

// cut is one assignment: what it costs, and what it uses over the stock of each size.
type cut struct {
	cost float64
	over []float64
}

const (
	tolerance    = 1e-9
	perturbation = 1e-7 // of the stock, different for each size: without it the simplex may go round in circles
	mostPivots   = 500
)

func newMaster(sizes int, unit float64) *master {
	r := sizes + 1
	m := &master{
		rows: r, unit: unit, basis: make([]int, r), inverse: make([]float64, r*r),
		level: make([]float64, r), dual: make([]float64, r), line: make([]float64, r), step: make([]float64, r),
	}
	m.reset()
	return m
}

func (m *master) reset() {
	clear(m.inverse)
	for i := range m.rows {
		m.basis[i], m.inverse[i*m.rows+i] = ^i, 1
	}
}

// right is the right-hand side of a row.
func (m *master) right(row int) float64 {
	if row == m.rows-1 {
		return 1
	}
	return perturbation * float64(row+1)
}

// entry is the coefficient of a cut in a row.
func (m *master) entry(c *cut, row int) float64 {
	if row == m.rows-1 {
		return 1
	}
	return c.over[row]
}

func (m *master) costOf(v int) float64 {
	if v < 0 {
		return 0
	}
	return (m.cuts[v].cost - m.z) / m.unit
}

// solve returns the bound θ − Z and writes prices, in the unit of costs. It goes on from the basis of the last call.
func (m *master) solve(prices []float64) float64 {
	r := m.rows
	for i := range r {
		x := 0.0
		for k := range r {
			x += float64(m.inverse[i*r+k] * m.right(k))
		}
		m.level[i] = x
	}
	for pivot := 0; ; pivot++ {
		for k := range r {
			y := 0.0
			for i := range r {
				y += float64(m.costOf(m.basis[i]) * m.inverse[i*r+k])
			}
			m.dual[k] = y
		}
		enter, least := m.entering(pivot > mostPivots/2)
		if enter == none || least > -tolerance || pivot == mostPivots {
			break
		}
		if !m.pivot(enter) {
			break
		}
	}
	for k := range prices {
		prices[k] = max(0, -m.dual[k]*m.unit)
	}
	return m.dual[r-1] * m.unit
}

const none = -1 << 30

// entering returns the variable with the least reduced cost, or the first below nought where the
// simplex has gone on for long.
func (m *master) entering(first bool) (int, float64) {
	enter, least := none, -tolerance
	for k := range m.rows {
		if d := -m.dual[k]; d < least {
			enter, least = ^k, d
			if first {
				return enter, least
			}
		}
	}
	for v := range m.cuts {
		c := &m.cuts[v]
		d := (c.cost-m.z)/m.unit - m.dual[m.rows-1]
		for k, g := range c.over {
			d -= float64(m.dual[k] * g)
		}
		if d < least {
			enter, least = v, d
			if first {
				return enter, least
			}
		}
	}
	return enter, least
}

func (m *master) pivot(enter int) bool {
	r := m.rows
	leave, ratio := -1, 0.0
	for i := range r {
		x := 0.0
		if enter < 0 {
			x = m.inverse[i*r+^enter]
		} else {
			for k := range r {
				x += float64(m.inverse[i*r+k] * m.entry(&m.cuts[enter], k))
			}
		}
		m.step[i] = x
		if x > tolerance {
			if q := max(0, m.level[i]) / x; leave < 0 || q < ratio {
				leave, ratio = i, q
			}
		}
	}
	if leave < 0 {
		return false
	}
	over := m.step[leave]
	for k := range r {
		m.inverse[leave*r+k] /= over
	}
	m.level[leave] /= over
	for i := range r {
		if f := m.step[i]; i != leave && f != 0 {
			for k := range r {
				m.inverse[i*r+k] -= float64(f * m.inverse[leave*r+k])
			}
			m.level[i] -= float64(f * m.level[leave])
		}
	}
	m.basis[leave] = enter
	return true
}

// weights calls for every assignment that the bound rests on, with its weight.
func (m *master) weights(each func(cut int, weight float64)) {
	for i, v := range m.basis {
		if v >= 0 && m.level[i] > 1e-7 {
			each(v, m.level[i])
		}
	}
}
