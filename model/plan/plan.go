package plan

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Outcome says what a plan is worth.
type Outcome int

// The outcomes.
const (
	Proven  Outcome = iota // nothing is better, and the proof was gone through
	Open                   // a plan, but the search was ended before it was known whether it is the best
	Nothing                // it is proved that nothing fits; see Plan.Reason
	Unknown                // the search was ended before anything was found
)

// Plan is what to put where.
type Plan struct {
	Outcome Outcome
	Rows    []Row // of each valve, in the order of the problem; none without a plan
	// The objectives, in their order. Worst and Sum count in Step: of the deviation of every valve with a
	// target, and of the spread of every group without one. Moves are springs put on a valve that they are
	// not on now, from the shelf or from another valve.
	Worst, Sum, Shims, Moves Goal
	Step                     int64
	Spreads                  []Spread
	Left                     []int   // of each size of shim, how many remain
	Reason                   *Reason // why nothing fits
	Nodes                    int     // assignments solved
	Cancelled                bool

	heights bool
}

// Goal is what an objective comes to, and the least that it could come to as far as is known while
// everything before it stays as it is.
type Goal struct{ Value, Bound int64 }

// Proven reports whether it cannot be less.
func (g Goal) Proven() bool { return g.Value == g.Bound }

// Row is one valve of a plan.
type Row struct {
	Valve, Spring int
	Stack         Stack
	Height        unit.Length // installed, over the shims
	Fit           Fit
	Deviation     int64 // steps off the target, 0 without one
	Moved         bool  // the spring is not on this valve now
}

// Spread is how far the valves of a role without a target are apart, exactly: millinewtons, or tenths
// of a nanometre in [Heights].
type Spread struct {
	Head, Role  int // the head of its first valve; a role taken over all heads has others
	Least, Most int64
}

// Say returns in words how good the plan is, or that there is none.
func (p *Plan) Say() say.Line {
	switch {
	case p.Outcome == Proven:
		return say.New("plan.proven")
	case p.Outcome == Nothing:
		return say.New("plan.nothing")
	case p.Outcome == Unknown && p.Cancelled:
		return say.New("plan.unknown-cancelled")
	case p.Outcome == Unknown:
		return say.New("plan.unknown", p.Nodes)
	case !p.Worst.Proven():
		return say.New("plan.open-worst", p.amount(p.Worst.Value), p.amount(p.Worst.Bound))
	case !p.Sum.Proven():
		return say.New("plan.open-sum", p.amount(p.Sum.Value), p.amount(p.Sum.Bound))
	case !p.Shims.Proven():
		return say.New("plan.open-shims", int(p.Shims.Value), int(p.Shims.Bound))
	}
	return say.New("plan.open-moves", int(p.Moves.Value), int(p.Moves.Bound))
}

// amount is so many steps as a load, or as a length.
func (p *Plan) amount(steps int64) any {
	if p.heights {
		return unit.Length(steps * p.Step)
	}
	return unit.Load(steps * p.Step)
}
