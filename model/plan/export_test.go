package plan

import "fmt"

// Idle holds what the deletion filter kept against trying everything. It returns whether a plan can keep
// all of it after all, and what does not matter: given up alone, still nothing fits.
func Idle(p *Problem) (fits bool, idle []string) {
	nodes := 0
	c := p.conflict(Options{Nodes: DefaultNodes}, &nodes)
	c.reduce()
	try := func(name string, do, undo func()) {
		if do(); !c.everything(0, make([]bool, len(p.Springs)), append([]int(nil), c.stock...)) {
			idle = append(idle, name)
		}
		undo()
	}
	for i := range c.fitted {
		if !c.fitted[i] {
			continue
		}
		try(fmt.Sprintf("valve %d", i), func() { c.fitted[i] = false }, func() { c.fitted[i] = true })
		for _, l := range limits {
			if c.kept(i, l) {
				try(fmt.Sprintf("limit %b of valve %d", l, i), func() { c.gone[i] |= l }, func() { c.gone[i] &^= l })
			}
		}
	}
	for k := range c.scarce {
		if c.scarce[k] {
			try(fmt.Sprintf("stock of size %d", k), func() { c.scarce[k] = false }, func() { c.scarce[k] = true })
		}
	}
	return c.everything(0, make([]bool, len(p.Springs)), append([]int(nil), c.stock...)), idle
}

// everything tries all springs over all stacks on the valves from i on.
func (c *conflict) everything(i int, used []bool, left []int) bool {
	if i == len(c.fitted) {
		return true
	}
	if !c.fitted[i] {
		return c.everything(i+1, used, left)
	}
	for _, w := range c.ways {
		if int(w.Valve) != i || used[w.Spring] || w.broken&^c.gone[i] != 0 {
			continue
		}
		enough := true
		for k, n := range c.stacks[w.Stack].Use {
			left[k] -= n
			enough = enough && (!c.scarce[k] || left[k] >= 0)
		}
		used[w.Spring] = true
		found := enough && c.everything(i+1, used, left)
		used[w.Spring] = false
		for k, n := range c.stacks[w.Stack].Use {
			left[k] += n
		}
		if found {
			return true
		}
	}
	return false
}

// Judge holds rows against a problem.
func Judge(p *Problem, rows []Row) error {
	_, err := p.judge(rows)
	return err
}
