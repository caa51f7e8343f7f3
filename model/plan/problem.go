package plan

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Mode says what may be changed and what is to be even.
type Mode int

// The modes.
const (
	Both    Mode = iota // springs and shims are chosen, the seat loads are to be even
	Shims               // every spring stays on its valve; shims are chosen, the seat loads are to be even
	Heights             // every spring stays; shims are chosen, the installed heights are to be even
)

// Problem is a head, or several heads that share springs and shims.
type Problem struct {
	Mode    Mode
	Valves  []Valve
	Roles   []Role
	Springs []Spring
	Shims   []Shim
	Most    Most
	// Step is what deviations are counted in, rounded up: the [LoadStep] or [HeightStep] where it is
	// nought. Without a step of some size, shims would be spent on a thousandth of a newton.
	Step int64 // mN, or tenths of a nanometre in [Heights]
	// Together takes the spread of a role without a target over all heads, else over each head alone.
	Together bool
	// Locks are the offsets of locks (or of retainers) that the shop can get, to be proposed where
	// nothing fits. One of +.050 in raises the installed height by as much.
	Locks []unit.Length
	// Fit says what a spring does on a valve over shims. It is asked for every valve, spring, number of
	// shims and drop that the problem allows, always with the same answer.
	Fit func(Place) Fit
}

// The steps that deviations are counted in, rules of this program, no published source. A shim's
// thickness is known to about half a thousandth of an inch, and at the rate of a racing spring that is
// more than half a newton.
const (
	LoadStep   unit.Load   = 500           // mN
	HeightStep unit.Length = unit.Thou / 2 // 0.0005 in
)

// Valve is one position.
type Valve struct {
	Name string // "3 ex"
	Head int    // any number that is the same for all valves of a head
	Role int    // in Problem.Roles
	Base unit.Length
	Seat Band
	Open Band
}

// Band is what a load may be.
type Band struct{ Least, Most Given[unit.Load] }

// Given is a value that may be absent.
type Given[T any] struct {
	Known bool
	Value T
}

// Give returns a value that is there.
func Give[T any](v T) Given[T] { return Given[T]{true, v} }

// Role is a set of valves that aim at the same: intakes, exhausts. Without a target its valves are to
// come out as near to each other as can be.
type Role struct {
	Name   string
	Load   Given[unit.Load]   // target of the seat load
	Height Given[unit.Length] // target of the installed height, in [Heights]
}

// Spring is one spring, or one nest of springs that stays together.
type Spring struct {
	Name string
	On   int // the valve that it is on now, in Problem.Valves; Nowhere
}

// Nowhere is the place of a spring that is on no valve.
const Nowhere = -1

// Shim is a size of shim and how many there are: those on the shelf and those that come out of the
// head. Equal shims are one size.
type Shim struct {
	Thick unit.Length
	Count int
}

// Most is the most that may lie under one spring.
type Most struct {
	Shims int
	Total unit.Length
}

// Place is a spring on a valve over a number of shims, which take Drop off its installed height. Where
// locks with an offset are tried, Drop is less by the offset and may be below nought.
type Place struct {
	Valve, Spring, Shims int
	Drop                 unit.Length
}

// Fit is what comes of a place. The coil is the one that governs: with the least of margin − least −
// guard; its guard is that of this valve, spring and number of shims. A guard that rests on too few
// repeats is [Unsure], as nothing is within by it.
type Fit struct {
	// None: the spring does not go there, or it has no load at that height.
	None   bool
	Coil   say.Line // its name; may be zero
	Margin unit.Length
	Least  unit.Length
	Guard  unit.Length
	Most   Given[unit.Length] // most margin, for those who hold it as a limit

	Seat, Open           unit.Load
	Greatest             unit.Load // the open load at the most lift that was measured, where it is above Open
	SeatGuard, OpenGuard unit.Load
}

// Unsure and UnsureLoad are guards that no margin and no load reaches: for what nobody can tell how sure it is, or on
// too few repeats.
const (
	Unsure     unit.Length = unit.Limit
	UnsureLoad unit.Load   = 1 << 40 // mN
)

// limit is one thing that a place must keep.
type limit uint8

const (
	leastMargin limit = 1 << iota
	mostMargin
	leastSeat
	mostSeat
	leastOpen
	mostOpen
	thickness // of all shims under the spring
)

// limits in the order in which they are given up when a reason is looked for: margins last.
var limits = []limit{thickness, mostOpen, leastOpen, mostSeat, leastSeat, mostMargin, leastMargin}

// broken returns the limits that a place does not keep.
func (p *Problem) broken(at Place, f Fit) (broken limit) {
	v := &p.Valves[at.Valve]
	for _, l := range limits {
		if slack, asked := p.slack(l, v, f); asked && slack < 0 {
			broken |= l
		}
	}
	return broken
}

// slack is by how much a fit keeps a limit, below nought where it does not, and false where the limit
// is not asked for. The thickness is no matter of the fit.
func (p *Problem) slack(l limit, v *Valve, f Fit) (int64, bool) {
	switch l {
	case leastMargin:
		return int64(f.Margin - f.Least - f.Guard), true
	case mostMargin:
		return int64(f.Most.Value - f.Guard - f.Margin), f.Most.Known
	case leastSeat:
		return int64(f.Seat - f.SeatGuard - v.Seat.Least.Value), v.Seat.Least.Known
	case mostSeat:
		return int64(v.Seat.Most.Value - f.SeatGuard - f.Seat), v.Seat.Most.Known
	case leastOpen:
		return int64(f.Open - f.OpenGuard - v.Open.Least.Value), v.Open.Least.Known
	case mostOpen:
		return int64(v.Open.Most.Value - f.OpenGuard - max(f.Open, f.Greatest)), v.Open.Most.Known
	}
	return 0, false
}

// step returns what deviations are counted in.
func (p *Problem) step() int64 {
	switch {
	case p.Step > 0:
		return p.Step
	case p.Mode == Heights:
		return int64(HeightStep)
	}
	return int64(LoadStep)
}

// target returns what a valve aims at.
func (p *Problem) target(valve int) (int64, bool) {
	r := p.Roles[p.Valves[valve].Role]
	if p.Mode == Heights {
		return int64(r.Height.Value), r.Height.Known
	}
	return int64(r.Load.Value), r.Load.Known
}

// value returns what is to be even: the seat load, or the installed height.
func (p *Problem) value(at Place, f Fit) int64 {
	if p.Mode == Heights {
		return int64(p.Valves[at.Valve].Base - at.Drop)
	}
	return int64(f.Seat)
}

// groups numbers the sets of valves that are to be even in themselves: of each valve its group, −1
// where it has a target, and how many groups there are.
func (p *Problem) groups() (of []int, n int) {
	type set struct{ head, role int }
	known := map[set]int{}
	of = make([]int, len(p.Valves))
	for i, v := range p.Valves {
		of[i] = -1
		if _, aimed := p.target(i); aimed {
			continue
		}
		s := set{v.Head, v.Role}
		if p.Together {
			s.head = 0
		}
		if _, met := known[s]; !met {
			known[s] = n
			n++
		}
		of[i] = known[s]
	}
	return of, n
}
