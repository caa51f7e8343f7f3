package evaluate

import (
	"slices"

	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Planned is a plan of a head, with what it makes of it.
type Planned struct {
	*plan.Plan
	Rows    []PlannedValve // in the order of the head; none without a plan
	Spreads []PlannedSpread
	Pick    []say.Line // what to take from where, in bench order
	Notes   []say.Line // what it takes for granted
	Edits   []PlanEdit
	Moves   []record.Move // of the shelf, none of them nought
}

// PlanEdit is a valve of a set-up as the plan has it.
type PlanEdit struct {
	Setup string
	Valve record.Valve
}

// PlannedValve is a valve before and after.
type PlannedValve struct {
	At     record.Position
	head   int
	Label  string
	Role   record.Role
	Spring string   // tag of the spring that goes on it; "" for the one that is there and bears none
	From   say.Line // where that comes from; zero where it stays
	Shims  []record.Shim
	Same   bool // nothing changes
	Before PlannedState
	After  PlannedState
}

// PlannedState is what is said of a valve.
type PlannedState struct {
	Height, Margin Figure
	Seat, Open     Load
	Verdict        Verdict
	Word           say.Line // of the verdict, as it stands in the table
}

// PlannedSpread is how far heights and seat loads of a role lie apart, before and after; unknown where not all are.
type PlannedSpread struct {
	Head                        string // tag, where there are several
	Role                        record.Role
	HeightsBefore, HeightsAfter unit.Length
	LoadsBefore, LoadsAfter     unit.Load
	HadHeights, HadLoads        bool // whether those before are known
	HasHeights, HasLoads        bool // whether those after are
}

func state(v *Valve) PlannedState {
	return PlannedState{v.Height, v.Margin, v.SeatLoad, v.OpenLoad, v.Verdict, v.Word()}
}

// Solve makes the plan.
func (p *Planning) Solve(o plan.Options) (*Planned, error) {
	made, err := plan.Solve(&p.Problem, o)
	if err != nil {
		return nil, err
	}
	all := &Planned{Plan: made, Notes: p.Notes}
	if len(made.Rows) == 0 {
		return all, nil
	}
	p.pick(all)
	p.compare(all)
	return all, nil
}

// compare works the heads out as they are and as they would be, by the code that works out every record.
func (p *Planning) compare(all *Planned) {
	for h := range p.heads {
		p.compareHead(all, h)
	}
}

func (p *Planning) compareHead(all *Planned, h int) {
	rec := p.heads[h].rec
	after := *rec
	after.Setup.Valves = slices.Clone(rec.Setup.Valves)
	after.Parts.Pieces = slices.Clone(rec.Parts.Pieces)
	for _, s := range p.springs {
		if s.piece != nil {
			after.Put(*s.piece)
		}
	}
	for _, e := range all.Edits {
		if e.Setup == rec.Setup.ID {
			after.Put(e.Valve)
		}
	}
	was, is := Evaluate(rec), Evaluate(&after)
	tag := ""
	if len(p.heads) > 1 {
		tag = rec.Head.Tag
	}
	seen := map[record.Role]bool{}
	for i := range all.Rows {
		r := &all.Rows[i]
		if r.head != h {
			continue
		}
		r.Before, r.After = state(valveAt(&was, r.At)), state(valveAt(&is, r.At))
		if !seen[r.Role] {
			seen[r.Role] = true
			s := spreadOfRole(r.Role, &was, &is)
			s.Head = tag
			all.Spreads = append(all.Spreads, s)
		}
	}
}

func valveAt(ev *Evaluation, at record.Position) *Valve {
	i := slices.IndexFunc(ev.Valves, func(v Valve) bool { return v.At == at })
	return &ev.Valves[i]
}

func spreadOfRole(role record.Role, was, is *Evaluation) PlannedSpread {
	s := PlannedSpread{Role: role}
	s.HeightsBefore, s.LoadsBefore, s.HadHeights, s.HadLoads = apartIn(was, role)
	s.HeightsAfter, s.LoadsAfter, s.HasHeights, s.HasLoads = apartIn(is, role)
	return s
}

// apartIn is how far heights and seat loads of a role lie apart; false where one of them is not known.
func apartIn(ev *Evaluation, role record.Role) (heights unit.Length, loads unit.Load, height, load bool) {
	var hs []unit.Length
	var ls []unit.Load
	n := 0
	for i := range ev.Valves {
		v := &ev.Valves[i]
		if v.Role != role {
			continue
		}
		n++
		if v.Height.Known {
			hs = append(hs, v.Height.Value)
		}
		if v.SeatLoad.Known {
			ls = append(ls, v.SeatLoad.Value)
		}
	}
	if height = len(hs) == n; height {
		heights = slices.Max(hs) - slices.Min(hs)
	}
	if load = len(ls) == n; load {
		loads = slices.Max(ls) - slices.Min(ls)
	}
	return heights, loads, height, load
}
