package plan_test

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/plan"
	"keeperbook/model/unit"
)

// proven solves a problem that must be solved to the end.
func proven(t *testing.T, b *bench) *plan.Plan {
	t.Helper()
	p := solve(t, b)
	if p.Outcome != plan.Proven {
		t.Fatalf("outcome %d: %s", p.Outcome, inches.Line(p.Say()))
	}
	if got := inches.Line(p.Say()); got != "Nothing is better; that is proved." {
		t.Errorf("it says %q", got)
	}
	return p
}

// Exactly the shims of one way to build the head are in stock, and not one more.
func TestStockJustEnough(t *testing.T) {
	for seed := range int64(6) {
		ample := proven(t, newHead(seed, 12, 15, 1, 36, 36, 36))
		used := make([]int, 3)
		for _, r := range ample.Rows {
			for size, n := range r.Stack.Use {
				used[size] += n
			}
		}
		p := proven(t, newHead(seed, 12, 15, 1, used...))
		if p.Worst != ample.Worst || p.Sum != ample.Sum || p.Shims != ample.Shims || p.Moves != ample.Moves {
			t.Errorf("head %d: %v %v %v %v, with shims to spare %v %v %v %v", seed, p.Worst, p.Sum, p.Shims, p.Moves, ample.Worst, ample.Sum, ample.Shims, ample.Moves)
		}
		if !slices.Equal(p.Left, []int{0, 0, 0}) {
			t.Errorf("head %d: %v left", seed, p.Left)
		}
		// One shim less, and it is no better.
		used[slices.Index(used, slices.Max(used))]--
		if less := proven(t, newHead(seed, 12, 15, 1, used...)); less.Worst.Value < p.Worst.Value {
			t.Errorf("head %d: better with a shim less", seed)
		}
	}
}

// Where all springs are equal, none needs to be moved.
func TestEqualSprings(t *testing.T) {
	for seed := range int64(6) {
		b := newHead(seed, 16, 20, 1, 16, 8, 6)
		for j := range b.coils {
			b.coils[j] = b.coils[0]
		}
		if p := proven(t, b); p.Moves.Value != 0 {
			t.Errorf("head %d: %d springs moved for nothing", seed, p.Moves.Value)
		}
	}
}

// A target that nothing comes near is aimed at all the same.
func TestTargetOutOfReach(t *testing.T) {
	b := newHead(3, 16, 20, plan.LoadStep, 16, 8, 6)
	b.most = plan.Given[unit.Length]{}
	for i := range b.Roles {
		b.Roles[i].Load.Value = 2_000_000
	}
	p := proven(t, b)
	for _, r := range p.Rows {
		if want := (2_000_000 - int64(r.Fit.Seat) + 499) / 500; r.Deviation != want {
			t.Errorf("valve %d is %d steps off, want %d", r.Valve, r.Deviation, want)
		}
	}
	if !slices.Equal(p.Left, []int{0, 0, 0}) {
		t.Errorf("%v left where every shim brings a valve nearer", p.Left)
	}
}

// The order of valves, springs and sizes does not matter to how good a plan is.
func TestOrderDoesNotMatter(t *testing.T) {
	for seed := range int64(4) {
		a := newHead(seed, 16, 20, 1, 16, 8, 6)
		p := proven(t, a)
		b := newHead(seed, 16, 20, 1, 16, 8, 6)
		r := rand.New(rand.NewSource(seed))
		valve, coil := r.Perm(16), r.Perm(20)
		place := make([]int, 16)
		for i, from := range valve {
			b.Valves[i], b.lifts[i] = a.Valves[from], a.lifts[from]
			place[from] = i
		}
		for j, from := range coil {
			b.Springs[j], b.coils[j] = a.Springs[from], a.coils[from]
			if on := b.Springs[j].On; on != plan.Nowhere {
				b.Springs[j].On = place[on]
			}
		}
		slices.Reverse(b.Shims)
		q := proven(t, b)
		if p.Worst != q.Worst || p.Sum != q.Sum || p.Shims != q.Shims || p.Moves != q.Moves {
			t.Errorf("head %d: %v %v %v %v, in another order %v %v %v %v", seed, p.Worst, p.Sum, p.Shims, p.Moves, q.Worst, q.Sum, q.Shims, q.Moves)
		}
	}
}

// The same question has the same answer, valve by valve.
func TestSameAgain(t *testing.T) {
	for _, free := range []bool{false, true} {
		b := newHead(2, 16, 20, plan.LoadStep, 18, 12, 8)
		if free {
			b.without()
		}
		p, q := proven(t, b), proven(t, b)
		if a, b := fmt.Sprint(p.Rows, p.Nodes), fmt.Sprint(q.Rows, q.Nodes); a != b {
			t.Errorf("once\n%s\nthen\n%s", a, b)
		}
	}
}

// More shims in stock and more springs on the shelf never make a plan worse.
func TestMoreIsNoWorse(t *testing.T) {
	goalsOf := func(p *plan.Plan) []int64 {
		return []int64{p.Worst.Value, p.Sum.Value, p.Shims.Value, p.Moves.Value}
	}
	for seed := range int64(4) {
		few := goalsOf(proven(t, newHead(seed, 12, 12, 1, 12, 6, 5)))
		b := newHead(seed, 12, 12, 1, 12, 6, 6)
		more := goalsOf(proven(t, b))
		b.Springs, b.coils = append(b.Springs, plan.Spring{Name: "one more", On: plan.Nowhere}), append(b.coils, b.coils[3])
		most := goalsOf(proven(t, b))
		if slices.Compare(more, few) > 0 || slices.Compare(most, more) > 0 {
			t.Errorf("head %d: %v, with a shim more %v, with a spring more %v", seed, few, more, most)
		}
	}
}

// A big head tells how it is getting on, stops when told to, and says what it knows by then.
func TestBigHead(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: it reckons on one goroutine")
	}
	big := func() *bench { return newHead(2, 64, 80, 1, 64, 32, 22) }
	t.Run("a limit leaves a gap", func(t *testing.T) {
		told, last := 0, plan.Progress{}
		p, err := plan.Solve(big().Problem, plan.Options{Nodes: 600, Progress: func(now plan.Progress) {
			told++
			if now.Nodes <= last.Nodes || now.Most != 600 || last.Found && !now.Found || now.Bound < last.Bound || now.Found && now.Worst < now.Bound {
				t.Errorf("after %+v comes %+v", last, now)
			}
			last = now
		}})
		if err != nil {
			t.Fatal(err)
		}
		if p.Outcome != plan.Open || p.Nodes != 600 || p.Cancelled || len(p.Rows) != 64 || told < 5 || !last.Found {
			t.Fatalf("outcome %d after %d nodes, %d rows, told %d times: %+v", p.Outcome, p.Nodes, len(p.Rows), told, last)
		}
		if p.Worst.Bound > p.Worst.Value || p.Sum.Bound > p.Sum.Value || p.Worst.Bound == 0 {
			t.Errorf("worst %+v, sum %+v", p.Worst, p.Sum)
		}
		if said := inches.Line(p.Say()); !strings.HasPrefix(said, "The search ended early: ") || strings.Contains(said, "proved") {
			t.Errorf("it says %q", said)
		}
		again, err := plan.Solve(big().Problem, plan.Options{Nodes: 600})
		if err != nil || fmt.Sprint(again.Rows) != fmt.Sprint(p.Rows) {
			t.Errorf("another plan the second time: %v", err)
		}
	})
	t.Run("it can be stopped", func(t *testing.T) {
		asked := 0
		p, err := plan.Solve(big().Problem, plan.Options{Cancel: func() bool { asked++; return asked == 300 }})
		if err != nil {
			t.Fatal(err)
		}
		if !p.Cancelled || p.Outcome != plan.Open || p.Nodes != 300 || len(p.Rows) != 64 {
			t.Errorf("outcome %d after %d nodes, %d rows", p.Outcome, p.Nodes, len(p.Rows))
		}
	})
	scarcer := newHead(2, 64, 80, 1, 50, 32, 14)
	for i := range scarcer.Valves {
		scarcer.Valves[i].Seat.Least = plan.Give[unit.Load](1_000_000)
	}
	t.Run("it can be stopped before there is anything", func(t *testing.T) {
		p, err := plan.Solve(scarcer.Problem, plan.Options{Cancel: func() bool { return true }})
		if err != nil {
			t.Fatal(err)
		}
		if p.Outcome != plan.Unknown || len(p.Rows) > 0 || inches.Line(p.Say()) != "The search was stopped before anything was found." {
			t.Errorf("outcome %d, it says %q", p.Outcome, inches.Line(p.Say()))
		}
	})
	t.Run("too few steps for anything", func(t *testing.T) {
		p, err := plan.Solve(scarcer.Problem, plan.Options{Nodes: 1})
		if err != nil {
			t.Fatal(err)
		}
		if p.Outcome != plan.Unknown || !strings.HasPrefix(inches.Line(p.Say()), "After 1 steps of the search it is not known") {
			t.Errorf("outcome %d, it says %q", p.Outcome, inches.Line(p.Say()))
		}
	})
}

// Heads without targets that fit on one bench are proven; nothing is promised about larger ones but
// an honest bound.
func TestSpread(t *testing.T) {
	for seed := range int64(3) {
		b := newHead(seed, 12, 14, plan.LoadStep, 12, 8, 6).without()
		p := proven(t, b)
		apart := int64(0)
		for _, s := range p.Spreads {
			apart = max(apart, s.Most-s.Least)
		}
		if len(p.Spreads) != 2 || (apart+499)/500 != p.Worst.Value {
			t.Errorf("head %d: spreads %v, worst %v", seed, p.Spreads, p.Worst)
		}
		// Aiming at the middle of what came out cannot make it come out nearer together.
		for i, s := range p.Spreads {
			b.Roles[i].Load = plan.Give(unit.Load((s.Least + s.Most) / 2))
		}
		q := proven(t, b)
		least, most := map[int]unit.Load{0: 1 << 40, 1: 1 << 40}, map[int]unit.Load{}
		for _, r := range q.Rows {
			role := b.Valves[r.Valve].Role
			least[role], most[role] = min(least[role], r.Fit.Seat), max(most[role], r.Fit.Seat)
		}
		if across := int64(max(most[0]-least[0], most[1]-least[1])); (across+499)/500 < p.Worst.Value {
			t.Errorf("head %d: %d apart with targets, proven that nothing is under %d", seed, across, apart)
		}
	}
}

// One common height: the springs stay, the shims alone bring all valves to one height.
func TestCommonHeight(t *testing.T) {
	b := newHead(5, 16, 16, 0, 16, 16, 16)
	b.Mode, b.Step = plan.Heights, int64(unit.Thou)
	for i := range b.Valves {
		b.Valves[i].Role = 0
	}
	b.Roles = b.Roles[:1]
	p := proven(t, b)
	least, most := p.Rows[0].Height, p.Rows[0].Height
	for i, r := range p.Rows {
		if r.Spring != i || r.Moved {
			t.Errorf("valve %d has spring %d", i, r.Spring)
		}
		if r.Height != b.Valves[i].Base-r.Stack.Total {
			t.Errorf("valve %d: height %d", i, r.Height)
		}
		least, most = min(least, r.Height), max(most, r.Height)
	}
	if spread := p.Spreads[0]; unit.Length(spread.Least) != least || unit.Length(spread.Most) != most || p.Worst.Value > 15 {
		t.Errorf("from %d to %d, the plan says %+v and a worst of %v thou", least, most, spread, p.Worst)
	}
	b.Roles[0].Height = plan.Give(1810 * unit.Thou)
	for _, r := range proven(t, b).Rows {
		if off := max(r.Height-1810*unit.Thou, 1810*unit.Thou-r.Height); (int64(off)+int64(unit.Thou)-1)/int64(unit.Thou) != r.Deviation {
			t.Errorf("valve %d is at %d, which is not %d thou off", r.Valve, r.Height, r.Deviation)
		}
	}
}

// Rows with a fault in them are never handed out, however they came about.
func TestFaultsAreSeen(t *testing.T) {
	for name, damage := range map[string]func(*bench, []plan.Row) []plan.Row{
		"a valve is missing":       func(_ *bench, rows []plan.Row) []plan.Row { return rows[1:] },
		"valves in another order":  func(_ *bench, rows []plan.Row) []plan.Row { rows[0].Valve = 1; return rows },
		"a spring on two valves":   func(_ *bench, rows []plan.Row) []plan.Row { rows[0].Spring = rows[1].Spring; return rows },
		"a spring that is to stay": func(b *bench, rows []plan.Row) []plan.Row { b.Mode = plan.Shims; return rows },
		"more shims than there are": func(b *bench, rows []plan.Row) []plan.Row {
			b.Shims[0].Count, b.Shims[1].Count, b.Shims[2].Count = 0, 0, 0
			return rows
		},
		"a stack said to be thinner":    func(_ *bench, rows []plan.Row) []plan.Row { rows[0].Stack.Total--; return rows },
		"a stack said to be of fewer":   func(_ *bench, rows []plan.Row) []plan.Row { rows[0].Stack.Shims--; return rows },
		"stacks of more than are asked": func(b *bench, rows []plan.Row) []plan.Row { b.Most.Shims = 0; return rows },
		"stacks thicker than asked":     func(b *bench, rows []plan.Row) []plan.Row { b.Most.Total = unit.Thou; return rows },
		"a margin too small":            func(b *bench, rows []plan.Row) []plan.Row { b.least = unit.Inch; return rows },
		"a load too small": func(b *bench, rows []plan.Row) []plan.Row {
			b.Valves[2].Seat.Least = plan.Give[unit.Load](1 << 30)
			return rows
		},
		"a spring that does not go there": func(b *bench, rows []plan.Row) []plan.Row {
			b.Fit = func(plan.Place) plan.Fit { return plan.Fit{None: true, Margin: unit.Inch} }
			return rows
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := newHead(1, 8, 10, 1, 6, 4, 4)
			rows := proven(t, b).Rows
			if err := plan.Judge(b.Problem, rows); err != nil {
				t.Fatal(err)
			}
			if rows = damage(b, slices.Clone(rows)); plan.Judge(b.Problem, rows) == nil {
				t.Error("nobody sees it")
			}
		})
	}
}
