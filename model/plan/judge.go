package plan

import "fmt"

// score is what rows come to.
type score struct {
	worst, sum, shims, moves int64
	spreads                  []Spread
	left                     []int
}

// judge works out what rows come to, from the problem alone, and returns what is wrong with them: this
// is what stands between a fault in the search and somebody's engine.
func (p *Problem) judge(rows []Row) (score, error) {
	var s score
	for _, shim := range p.Shims {
		s.left = append(s.left, shim.Count)
	}
	home, used := p.home(), make([]bool, len(p.Springs))
	groups, n := p.groups()
	s.spreads = make([]Spread, n)
	seen := make([]bool, n)
	if len(rows) != len(p.Valves) {
		return s, fmt.Errorf("plan: %d rows for %d valves", len(rows), len(p.Valves))
	}
	for i, r := range rows {
		if r.Valve != i || used[r.Spring] || p.Mode != Both && home[i] != r.Spring {
			return s, fmt.Errorf("plan: row %d has valve %d and spring %d", i, r.Valve, r.Spring)
		}
		used[r.Spring] = true
		if err := p.judgeStack(r.Stack, s.left); err != nil {
			return s, err
		}
		at := Place{i, r.Spring, r.Stack.Shims, r.Stack.Total}
		f := p.Fit(at)
		if broken := p.broken(at, f); f.None || broken != 0 {
			return s, fmt.Errorf("plan: valve %d breaks limits %b", i, broken)
		}
		s.shims += int64(r.Stack.Shims)
		if home[i] != r.Spring {
			s.moves++
		}
		v := p.value(at, f)
		if target, aimed := p.target(i); aimed {
			d := steps(max(v-target, target-v), p.step())
			s.worst, s.sum = max(s.worst, d), s.sum+d
			continue
		}
		g := groups[i]
		spread := &s.spreads[g]
		if !seen[g] {
			*spread, seen[g] = Spread{p.Valves[i].Head, p.Valves[i].Role, v, v}, true
		}
		spread.Least, spread.Most = min(spread.Least, v), max(spread.Most, v)
	}
	for _, spread := range s.spreads {
		d := steps(spread.Most-spread.Least, p.step())
		s.worst, s.sum = max(s.worst, d), s.sum+d
	}
	return s, nil
}

// judgeStack takes a stack off what is left.
func (p *Problem) judgeStack(s Stack, left []int) error {
	shims, total := 0, p.Shims[0].Thick*0
	for size, n := range s.Use {
		left[size] -= n
		shims += n
		for range n {
			total += p.Shims[size].Thick
		}
		if n < 0 || left[size] < 0 {
			return fmt.Errorf("plan: %d shims of size %d, %d left", n, size, left[size])
		}
	}
	if shims != s.Shims || total != s.Total || shims > p.Most.Shims || total > p.Most.Total {
		return fmt.Errorf("plan: a stack of %d shims, %d thick", shims, total)
	}
	return nil
}
