package plan_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/plan"
	"keeperbook/model/unit"
)

// small draws a problem of up to four valves and five springs whose loads and margins follow no law at
// all, so that nothing but the limits as they stand decides.
func small(t *rapid.T) *plan.Problem {
	num := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
	load := func(name string, least, most int) unit.Load { return unit.Load(num(name, least, most)) }
	n := num("valves", 1, 4)
	m := num("springs", n, 5)
	p := &plan.Problem{
		Mode: plan.Mode(num("mode", 0, 2)), Most: plan.Most{Shims: num("most", 1, 3), Total: unit.Length(num("total", 1, 12))},
		Step: int64(num("step", 1, 4)), Together: rapid.Bool().Draw(t, "together"),
	}
	for size := range num("sizes", 1, 3) {
		p.Shims = append(p.Shims, plan.Shim{Thick: unit.Length(size + 1 + size*size), Count: num("stock", 0, 4)})
	}
	for range 2 {
		r := plan.Role{Name: "role"}
		if rapid.Bool().Draw(t, "aimed") {
			r.Load, r.Height = plan.Give(load("target", 30, 50)), plan.Give(unit.Length(num("height", 90, 105)))
		}
		p.Roles = append(p.Roles, r)
	}
	band := func(name string, least, most int) (b plan.Band) {
		if rapid.Bool().Draw(t, name) {
			b.Least = plan.Give(load(name, least, least+10))
		}
		if rapid.Bool().Draw(t, name) {
			b.Most = plan.Give(load(name, most-10, most))
		}
		return b
	}
	for range n {
		p.Valves = append(p.Valves, plan.Valve{
			Name: "valve", Head: num("head", 1, 2), Role: num("role", 0, 1), Base: unit.Length(num("base", 98, 106)),
			Seat: band("seat", 15, 70), Open: band("open", 60, 150),
		})
	}
	for j := range m {
		s := plan.Spring{Name: "spring", On: plan.Nowhere}
		if p.Mode != plan.Both || rapid.Bool().Draw(t, "on") {
			if s.On = j; j >= n {
				s.On = plan.Nowhere
			}
		}
		p.Springs = append(p.Springs, s)
	}
	type pair struct{ margin, guard, each, seat, rate, open, loads, barred int }
	pairs := make([]pair, n*m)
	for i := range pairs {
		pairs[i] = pair{
			num("margin", 5, 20), num("guard", 0, 3), num("each", 0, 2), num("load", 20, 50), num("rate", 1, 4), num("by lift", 30, 60), num("loads", 0, 2),
			num("barred", 0, 9),
		}
	}
	p.Fit = func(at plan.Place) plan.Fit {
		x, drop := pairs[at.Valve*m+at.Spring], int(at.Drop)
		return plan.Fit{
			None:   x.barred == 0,
			Margin: unit.Length(x.margin - drop), Least: 4, Guard: unit.Length(x.guard + x.each*at.Shims),
			Most: plan.Given[unit.Length]{Known: x.barred > 7, Value: 16},
			Seat: unit.Load(x.seat + x.rate*drop), Open: unit.Load(x.seat + x.rate*drop + x.open),
			SeatGuard: unit.Load(x.loads), OpenGuard: unit.Load(2 * x.loads),
		}
	}
	return p
}

// goals are the four objectives in their order.
type goals [4]int64

// all tries every spring on every valve over every stack. It passes over what is worse than the best
// so far already: a worst never falls.
type all struct {
	p     *plan.Problem
	best  goals
	found bool

	spring []int
	used   []bool
	left   []int
	value  []int64
	dev    []int64
	shims  int64
}

func bruteForce(p *plan.Problem) (goals, bool) {
	a := &all{p: p, used: make([]bool, len(p.Springs))}
	for _, s := range p.Shims {
		a.left = append(a.left, s.Count)
	}
	a.valve()
	return a.best, a.found
}

func up(x, step int64) int64 {
	n := int64(0)
	for n*step < x {
		n++
	}
	return n
}

// goals adds up the valves so far.
func (a *all) goals() (g goals) {
	p := a.p
	for i, d := range a.dev {
		g[0], g[1] = max(g[0], d), g[1]+d
		if p.Springs[a.spring[i]].On != i {
			g[3]++
		}
	}
	g[2] = a.shims
	aimed := func(i int) bool {
		if r := p.Roles[p.Valves[i].Role]; p.Mode == plan.Heights {
			return r.Height.Known
		} else {
			return r.Load.Known
		}
	}
	same := func(i, k int) bool {
		return p.Valves[i].Role == p.Valves[k].Role && (p.Together || p.Valves[i].Head == p.Valves[k].Head)
	}
	for i := range a.value {
		first, spread := true, int64(0)
		for k := range a.value {
			if !same(i, k) {
				continue
			}
			first = first && k >= i
			for l := range a.value {
				if same(i, l) {
					spread = max(spread, a.value[k]-a.value[l])
				}
			}
		}
		if first && !aimed(i) {
			d := up(spread, p.Step)
			g[0], g[1] = max(g[0], d), g[1]+d
		}
	}
	return g
}

func (a *all) valve() {
	p, i := a.p, len(a.spring)
	g := a.goals()
	if a.found && g[0] > a.best[0] {
		return
	}
	if i == len(p.Valves) {
		if !a.found || slices.Compare(g[:], a.best[:]) < 0 {
			a.best, a.found = g, true
		}
		return
	}
	for j := range p.Springs {
		if a.used[j] || p.Mode != plan.Both && p.Springs[j].On != i {
			continue
		}
		a.used[j], a.spring = true, append(a.spring, j)
		a.stack(0, 0, 0)
		a.used[j], a.spring = false, a.spring[:i]
	}
}

// stack tries every stack under the last spring.
func (a *all) stack(size, shims int, total unit.Length) {
	p := a.p
	if size < len(p.Shims) {
		for n := 0; n <= a.left[size] && shims+n <= p.Most.Shims; n++ {
			a.left[size] -= n
			a.stack(size+1, shims+n, total+unit.Length(n)*p.Shims[size].Thick)
			a.left[size] += n
		}
		return
	}
	i := len(a.spring) - 1
	v, f := p.Valves[i], p.Fit(plan.Place{Valve: i, Spring: a.spring[i], Shims: shims, Drop: total})
	in := func(x, guard unit.Load, b plan.Band) bool {
		return (!b.Least.Known || x-guard >= b.Least.Value) && (!b.Most.Known || x+guard <= b.Most.Value)
	}
	if f.None || total > p.Most.Total || f.Margin < f.Least+f.Guard || f.Most.Known && f.Margin+f.Guard > f.Most.Value ||
		!in(f.Seat, f.SeatGuard, v.Seat) || !in(f.Open, f.OpenGuard, v.Open) {
		return
	}
	r := p.Roles[v.Role]
	value, target, aimed := int64(f.Seat), int64(r.Load.Value), r.Load.Known
	if p.Mode == plan.Heights {
		value, target, aimed = int64(v.Base-total), int64(r.Height.Value), r.Height.Known
	}
	d := int64(0)
	if aimed {
		d = up(max(value-target, target-value), p.Step)
	}
	a.value, a.dev, a.shims = append(a.value, value), append(a.dev, d), a.shims+int64(shims)
	a.valve()
	a.value, a.dev, a.shims = a.value[:i], a.dev[:i], a.shims-int64(shims)
}

// Every objective of every small problem, against trying everything.
func TestAgainstTryingEverything(t *testing.T) {
	each := 20 // problems in one draw
	if testing.Short() {
		each = 4
	}
	fit, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		for range each {
			p := small(t)
			got, err := plan.Solve(p, plan.Options{})
			if err != nil {
				t.Fatal(err)
			}
			want, found := bruteForce(p)
			if !found {
				if none++; got.Outcome != plan.Nothing {
					t.Fatalf("outcome %d where nothing fits", got.Outcome)
				}
				if len(got.Reason.Lines) < 2 || !got.Reason.Irreducible {
					t.Fatalf("no reason: %v", got.Reason)
				}
				if fits, idle := plan.Idle(p); fits || len(idle) > 0 {
					t.Fatalf("the reason can be kept: %t; what is idle in it: %v", fits, idle)
				}
				continue
			}
			fit++
			if got.Outcome != plan.Proven {
				t.Fatalf("outcome %d, want proven: worst %v, sum %v, shims %v, moves %v after %d nodes", got.Outcome, got.Worst, got.Sum, got.Shims, got.Moves, got.Nodes)
			}
			if have := (goals{got.Worst.Value, got.Sum.Value, got.Shims.Value, got.Moves.Value}); have != want {
				t.Fatalf("worst, sum, shims, moves %v, want %v", have, want)
			}
		}
	})
	t.Logf("%d problems have a plan, %d have none", fit, none)
	if fit < 4*each || none < 4*each {
		t.Errorf("%d problems with a plan and %d without are too few to prove anything", fit, none)
	}
}
