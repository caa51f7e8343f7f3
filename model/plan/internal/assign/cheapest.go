package assign

import "math"

// None marks a pair that may not be.
const None = math.MaxInt64

// Cheapest finds the cheapest assignment by shortest augmenting paths, after Jonker and Volgenant,
// Computing 38 (1987) 325. It starts from the column prices of the call before, which are near the new
// ones where costs changed a little; any prices would do. The zero value is ready.
type Cheapest struct {
	// Of each row the column it has, after a call of Solve.
	Column []int
	// The duals: U + V ≤ cost for every pair, V ≤ 0, and both sides add up to the same. Where there is no
	// assignment they say why instead: U is 1 for rows that have fewer columns between them than they
	// are, and V is −1 for those columns.
	U, V []int64

	price []int64 // of columns: V with the columns that are left over at any one height
	rows  []int64 // the U that goes with it
	row   []int   // of each column the row it has, −1
	dist  []int64
	from  []int // the column before on the path, −1
	done  []bool
	scan  []int // columns in the order in which they were reached for good
	blank []int64
}

// Solve assigns a column of its own to each of n rows, n ≤ m. The cost of row i and column j stands at
// i·m + j, or is [None]. Costs must stay within ±2⁶²/m. It returns the sum of the costs, and false
// where no assignment is possible.
func (c *Cheapest) Solve(n, m int, cost []int64) (int64, bool) {
	c.Column, c.U, c.V = resized(c.Column, n), resized(c.U, n), resized(c.V, m)
	if n > m {
		// More rows than columns, whatever they cost.
		for i := range c.U {
			c.U[i] = 1
		}
		for j := range c.V {
			c.V[j] = -1
		}
		return 0, false
	}
	c.start(n, m)
	for i := range n {
		if !c.augment(i, cost[i*m:i*m+m], n, m, cost) {
			c.blame(i, n)
			return 0, false
		}
	}
	// Rows for which every column is as good take the columns that are left, so that prices may start
	// anywhere: without them a column left over would have to stay at nought.
	for i := n; i < m; i++ {
		c.augment(i, c.blank, n, m, cost)
	}
	return c.finish(n, m, cost), true
}

func (c *Cheapest) start(n, m int) {
	if len(c.price) != m {
		c.price, c.blank = make([]int64, m), make([]int64, m)
	}
	c.rows, c.row = resized(c.rows, m), resized(c.row, m)
	c.dist, c.from, c.done = resized(c.dist, m), resized(c.from, m), resized(c.done, m)
	for j := range c.row {
		c.row[j] = -1
	}
}

// finish moves the prices so that columns left over have none, and adds up.
func (c *Cheapest) finish(n, m int, cost []int64) (total int64) {
	top := c.price[0]
	for _, p := range c.price {
		top = max(top, p)
	}
	for j := range m {
		c.price[j] -= top
		c.V[j] = c.price[j]
		if i := c.row[j]; i < n {
			c.Column[i], c.U[i] = j, c.rows[i]+top
			total += cost[i*m+j]
		}
	}
	return total
}

// augment gives row i a column, moving other rows along the shortest path to a free one.
func (c *Cheapest) augment(i int, line []int64, n, m int, cost []int64) bool {
	for j := range m {
		c.done[j], c.from[j] = false, -1
		c.dist[j] = None
		if line[j] != None {
			c.dist[j] = line[j] - c.price[j]
		}
	}
	c.scan = c.scan[:0]
	var least int64
	var last int
	for {
		last, least = -1, None
		for j, d := range c.dist {
			// Of equals the free one, which ends the search.
			if d <= least && !c.done[j] && d != None && (d < least || c.row[last] >= 0) {
				last, least = j, d
			}
		}
		if last < 0 {
			return false
		}
		if c.row[last] < 0 {
			break
		}
		c.done[last] = true
		c.scan = append(c.scan, last)
		k := c.row[last]
		next, base := c.blank, least-c.rows[k]
		if k < n {
			next = cost[k*m : k*m+m]
		}
		for j, x := range next {
			if x != None && !c.done[j] {
				if d := base + x - c.price[j]; d < c.dist[j] {
					c.dist[j], c.from[j] = d, last
				}
			}
		}
	}
	c.rows[i] = least
	for _, j := range c.scan {
		gain := least - c.dist[j]
		c.price[j] -= gain
		c.rows[c.row[j]] += gain
	}
	for j := last; ; {
		before := c.from[j]
		if before < 0 {
			c.row[j] = i
			return true
		}
		c.row[j] = c.row[before]
		j = before
	}
}

// blame writes down the rows that row i reached and the columns they share.
func (c *Cheapest) blame(i, n int) {
	clear(c.U)
	clear(c.V)
	c.U[i] = 1
	for _, j := range c.scan {
		c.U[c.row[j]], c.V[j] = 1, -1
	}
}

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
