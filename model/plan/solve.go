package plan

import (
	"math"

	"keeperbook/model/plan/internal/proof"
	"keeperbook/model/plan/internal/search"
	"keeperbook/model/plan/internal/table"
	"keeperbook/model/say"
)

// Options limit a search. The zero value is fine.
type Options struct {
	// Nodes is how many assignments are solved at most, [DefaultNodes] where it is nought. It is the only
	// thing that ends a search by itself, so that the same problem has the same plan everywhere.
	Nodes int
	// Cancel is asked at every node whether to stop. What was found by then is returned. May be nil.
	Cancel func() bool
	// Progress is told every now and then how far the search is. May be nil.
	Progress func(Progress)
}

// DefaultNodes is about twenty seconds for 64 valves and 80 springs, and is seldom reached.
const DefaultNodes = 50_000

// Progress is how far a search has come.
type Progress struct {
	Nodes, Most  int
	Found        bool  // there is a plan
	Worst, Bound int64 // its worst deviation or spread in steps, and what no plan is under
}

// Solve makes a plan: every limit kept, then the least worst deviation of the seat load from its
// target (or least spread, where there is none), then the least sum of them, then the fewest shims,
// then the fewest springs moved, in strict order.
//
// An error is one sentence about what was asked (say.Invalid). That nothing fits is no error but an
// outcome.
func Solve(p *Problem, o Options) (*Plan, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if o.Nodes <= 0 {
		o.Nodes = DefaultNodes
	}
	q := p.ask(Stacks(p.Shims, p.Most))
	t := q.table(nothing)
	if err := p.checkRange(t); err != nil {
		return nil, err
	}
	r := search.New(t, o.search()).Run()
	plan := &Plan{Step: p.step(), Nodes: r.Nodes, Cancelled: r.Cancelled, heights: p.Mode == Heights}
	switch {
	case r.Plan != nil:
		if err := plan.fill(q, t, r); err != nil {
			return nil, err
		}
	case r.None && holds(t, r.First, r.FirstWhy):
		plan.Outcome, plan.Reason = Nothing, p.reason(o, &plan.Nodes)
	default:
		plan.Outcome = Unknown
	}
	return plan, nil
}

// holds goes through a proof.
func holds(t *table.Table, claim proof.Claim, why *proof.Node) bool {
	return why != nil && proof.Check(t, claim, why) == nil
}

func (o Options) search() search.Options {
	s := search.Options{Nodes: o.Nodes, Cancel: o.Cancel}
	if o.Progress != nil {
		s.Progress = func(p search.Progress) {
			o.Progress(Progress{Nodes: p.Nodes, Most: o.Nodes, Found: p.Found, Worst: p.Worst, Bound: p.Bound})
		}
	}
	return s
}

// checkRange refuses deviations of so many steps that costs would not stay exact.
func (p *Problem) checkRange(t *table.Table) error {
	least, most, dev := int64(math.MaxInt64), int64(math.MinInt64), int64(0)
	for _, c := range t.Columns {
		least, most, dev = min(least, c.Value), max(most, c.Value), max(dev, c.Dev)
	}
	w := t.Composite(int64(p.Most.Shims))
	const exact = 1 << 46
	switch {
	case least > most: // nothing fits
	case least < -mostValue || most > mostValue || max(dev, steps(most-least, t.Step)) > exact/w.Dev:
		return refuse("plan.fine-step")
	}
	return nil
}

// fill writes what was found into the plan, works everything out again from the problem alone, and
// calls it proven only after the proof was gone through.
func (p *Plan) fill(q *question, t *table.Table, r search.Result) error {
	for _, id := range r.Plan {
		c := t.Columns[id]
		s := q.stacks[c.Stack]
		at := Place{int(c.Valve), int(c.Spring), s.Shims, s.Total}
		p.Rows = append(p.Rows, Row{
			Valve: at.Valve, Spring: at.Spring, Stack: s, Height: q.p.Valves[at.Valve].Base - s.Total,
			Fit: q.p.Fit(at), Deviation: c.Dev, Moved: q.p.Springs[at.Spring].On != at.Valve,
		})
	}
	score, err := q.p.judge(p.Rows)
	if err != nil {
		return say.Fail(say.Internal, "plan.fault").From(err)
	}
	p.Spreads, p.Left = score.spreads, score.left
	p.Worst, p.Sum = Goal{Value: score.worst}, Goal{Value: score.sum}
	p.Shims, p.Moves = Goal{Value: score.shims}, Goal{Value: score.moves}
	if holds(t, r.First, r.FirstWhy) {
		p.Worst.Bound = r.Worst
	}
	// What is not finished has no proof to go through, only the bounds of the cases left open. A bound
	// that leans on the worst is worth what is known of that.
	if r.Second.Least <= p.Worst.Bound && (r.SecondWhy == nil || holds(t, r.Second, r.SecondWhy)) {
		p.bounds(r.Cost, r.Weights)
	}
	p.Outcome = Open
	if p.Worst.Proven() && p.Sum.Proven() && p.Shims.Proven() && p.Moves.Proven() {
		p.Outcome = Proven
	}
	return nil
}

// bounds takes the least cost apart: what it says of the sum, and of shims and moves only where
// everything before them is settled.
func (p *Plan) bounds(cost int64, w table.Weights) {
	if p.Sum.Bound = cost / w.Dev; !p.Sum.Proven() {
		return
	}
	if p.Shims.Bound = cost % w.Dev / w.Shim; p.Shims.Proven() {
		p.Moves.Bound = cost % w.Shim
	}
}
